package tui

import (
	"strings"
	"testing"

	"coach.settee/model"
)

// rowOf gives the line on which a name stands last.
func rowOf(d *appTest, name string) string {
	d.t.Helper()
	row := ""
	for _, line := range strings.Split(d.show(), "\n") {
		if strings.Contains(line, name) {
			row = line
		}
	}
	return row
}

// TestEveningCountsGames: warm-ups, drills and games without a ball are none.
func TestEveningCountsGames(t *testing.T) {
	d := onBoard(t, "Ada 120").press("er<esc>Gw<enter><enter>G3 corner 10<enter>xxxGg<enter>e")
	games := func(want string) {
		t.Helper()
		if f := strings.Fields(rowOf(d, "▶")); len(f) < 7 || f[len(f)-3] != want {
			t.Errorf("%q, want %s games", f, want)
		}
	}
	games("0")
	d.press("<esc>xe")
	games("1")
}

func TestBeginningWithoutThoseWhoAreOut(t *testing.T) {
	d := onBoard(t, "Ada 120", "Bo 172", "Cy 90").press("e<down>vG10 corner 10<enter><bs>")
	d.says("taken back: 2 of 3 begin drill corner")
	d.press("<down>").press("vG10 corner 10<enter><bs>")
	d.says("begin drill corner")
	onBoard(t, "Ada 120", "Bo 172").press("eGw<enter><bs>").says("taken back: everyone begins warm-up")
}

// TestEveningNoted: I says the same as on the board.
func TestEveningNoted(t *testing.T) {
	d := limited(t, func(s *model.Student) {
		s.Limits, s.Intake = "left knee", model.Intake{On: "2026-03-04", Hurts: "wrist"}
	})
	d.send(sizeMsg(120, 30))
	d.press("I")
	onBoard := d.status.words
	d.press("e").silent("left knee")
	if d.press("I").says("Ada Marsh: limits: left knee; hurts (2026-03-04): wrist"); d.status.words != onBoard {
		t.Errorf("%q, on the board %q", d.status.words, onBoard)
	}
	d.press("<down>I").says("nothing noted for Bo")
	t.Run("what hurts alone has the sign", func(t *testing.T) {
		d := limited(t, func(s *model.Student) { s.Intake = model.Intake{On: "2026-03-04", Hurts: "wrist"} }).press("e")
		if !strings.Contains(rowOf(d, "Ada Marsh"), "Ada Marsh !") {
			t.Error(d.show())
		}
	})
}

// TestEveningTellsTheLeftHand in words that cannot be read as gone home.
func TestEveningTellsTheLeftHand(t *testing.T) {
	d := onBoard(t, "Ada 120 l", "Odo Marc 150 l", "Bo 172").press("e")
	for w, odo := range map[int]string{60: "Odo Marc  L-hand", 80: "Odo Marc  left-handed", 160: "Odo Marc  left-handed"} {
		d.send(sizeMsg(w, 24))
		ada, bo := rowOf(d, "Ada"), rowOf(d, " Bo")
		if !strings.Contains(ada, "Ada  left-handed") || strings.Contains(bo, "hand") || !strings.Contains(rowOf(d, "Odo"), odo) {
			t.Errorf("%d:\n%s", w, d.show())
		}
	}
}

func TestEveningMarksByName(t *testing.T) {
	d := onBoard(t, "Ada 120", "Bo 172", "Cy 90").press("e@c").says("(tab: Cy)").press("<enter>")
	if d.evening.Label(d.session.marked) != "Cy" || d.screen != screen(d.session) {
		t.Error(d.show())
	}
	if d.evening.UpStudent() != "id2" {
		t.Error("the mark puts somebody up")
	}
	d.press("@zed<enter>").says(`nobody here is called "zed"`)
	startApp(t, &fakeReader{}).press("7<enter><enter>e@").says("nobody is here yet: a adds a student")
}
