package tui

import (
	"strings"
	"testing"
)

// TestAnswersStay: at the smallest size a question of two lines takes a line of the picture, not that of its answers.
func TestAnswersStay(t *testing.T) {
	board := onBoard(t, "Ada 120", "Bo 172")
	board.send(sizeMsg(minWidth, minHeight))
	board.press("b7q")
	closing := onBoard(t, "Ada 120", "Bo 172", "Cy 100")
	closing.send(sizeMsg(minWidth, minHeight))
	closing.press("x<tab>xexq")
	for name, d := range map[string]*appTest{"board": board, "closing": closing} {
		f := d.feet(3)
		if !strings.Contains(d.show(), "leave?") || f[2] != "y yes  n no" {
			t.Errorf("%s: %q", name, f)
		}
		if n := len(strings.Split(d.show(), "\n")); n != minHeight {
			t.Errorf("%s: %d lines", name, n)
		}
	}
}

func TestLeavingWithCallsBegun(t *testing.T) {
	t.Run("of whoever is up", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172").press("b7q")
		d.says("a call is begun for Ada and is not recorded")
		d.press("n<tab>q").says("a call is begun for Ada and is not recorded")
		d.press("n7q").says("calls are begun for Ada and 1 other and are not recorded")
		if d.press("y"); !d.quit {
			t.Error("it goes on")
		}
	})
	t.Run("none where nothing is begun, or where it was cleared or recorded", func(t *testing.T) {
		onBoard(t, "Ada 120").press("xq").says("leave?").silent("begun")
		onBoard(t, "Ada 120").press("b<esc>q").says("leave?").silent("begun")
	})
	t.Run("a change of a delivery that is open", func(t *testing.T) {
		onBoard(t, "Ada 120").press("x,q").silent("a change").press("n,bq").says("a change is not recorded")
	})
	t.Run("a screen turned to a student names nobody", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172").press("x7<tab>gvq")
		d.says("a call is begun and is not recorded").silent("begun for")
	})
	t.Run("with steps that are not kept it says both, with what leaves, in two lines", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172")
		d.send(sizeMsg(minWidth, minHeight))
		d.slow = true
		d.press("xb7q")
		f := strings.Join(d.feet(3), " ")
		for _, w := range []string{"a call is begun for Bo", "not kept yet: q waits for the disk", "ctrl+c leaves now"} {
			if !strings.Contains(strings.Join(strings.Fields(f), " "), w) {
				t.Errorf("%q is not in %q", w, f)
			}
		}
	})
}

// TestLeavingTheDemo: nothing of it is kept, so nothing is said to be resumed.
func TestLeavingTheDemo(t *testing.T) {
	d := onBoard(t, "Ada 120")
	d.press("<esc>").says("the evening stays open for next time").press("<esc>")
	d.conf.Title = "demo"
	d.press("<esc>").says("nothing of the demo is kept").silent("stays open").press("<esc>")
	d.press("q").says("leave?", "nothing of the demo is kept").silent("stays open")
}

// TestHintsOfWhatActs: a key is hinted only where it has something to act on.
func TestHintsOfWhatActs(t *testing.T) {
	hints := func(d *appTest) string { return d.feet(1)[0] }
	d := onBoard(t, "Ada 120", "Bo 172")
	d.send(sizeMsg(160, 50))
	for _, c := range []struct {
		name, keys    string
		with, without []string
	}{
		{"nothing recorded", "", []string{"x strike"}, []string{"reopen", "enter records"}},
		{"a foul", "!", []string{"enter records"}, []string{"reopen"}},
		{"a delivery recorded", "!x", []string{", reopen", "x strike"}, []string{"enter records"}},
		{"pins named", "7", []string{"enter records"}, nil},
		{"out", "<esc>V@ada<enter>V<tab>", []string{"V brings back in", "tab student"}, []string{"strike", "lower", "records"}},
	} {
		line := hints(d.press(c.keys))
		for _, w := range c.with {
			if !strings.Contains(line, w) {
				t.Errorf("%s: %q is not in %q", c.name, w, line)
			}
		}
		for _, w := range c.without {
			if strings.Contains(line, w) {
				t.Errorf("%s: %q is in %q", c.name, w, line)
			}
		}
	}
}

// TestHandInARow: two of one name told apart by the hand are not told to be gone, and keep their name at every width.
func TestHandInARow(t *testing.T) {
	d := onBoard(t, "Ada l", "Ada r", "Bo 172").press("<esc><esc>")
	for w, want := range map[int][2]string{60: {"Ada L ", "Ada R "}, 80: {"Ada L-hand", "Ada R-hand"}, 160: {"Ada L-hand", "Ada R-hand"}} {
		d.send(sizeMsg(w, 24))
		d.says("7 "+want[0], "8 "+want[1]).silent("Ada left ")
	}
}
