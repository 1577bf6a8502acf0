package tui

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"coach.settee/model"
	"coach.settee/store"
)

var errFull = errors.New("no space left on device")

// header and status give those lines of the window.
func (d *appTest) headerLine() string { return strings.Split(d.show(), "\n")[0] }

func (d *appTest) statusLine() string {
	lines := strings.Split(d.show(), "\n")
	return lines[len(lines)-2]
}

func TestKept(t *testing.T) {
	t.Run("a call has … until the disk has it", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172")
		d.slow = true
		d.press("xx")
		if !strings.Contains(d.headerLine(), "kept 0 +2") || !strings.Contains(d.statusLine(), "last: Bo frame 1: strike A …") {
			t.Error(d.show())
		}
		if n := len(d.board.picture(d.App).Pending); n != 2 {
			t.Errorf("%d deliveries are drawn as not kept", n)
		}
		d.disk(store.Progress{Durable: d.recorder.progress.Issued - 1})
		if !strings.Contains(d.headerLine(), "kept 1 +1") || !strings.Contains(d.statusLine(), "strike A …") {
			t.Error(d.show())
		}
		d.ack()
		if !strings.HasSuffix(d.headerLine(), "kept 2") || strings.Contains(d.show(), "…") {
			t.Error(d.show())
		}
	})
	t.Run("taking back and changing wait too", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172").press("xx")
		d.slow = true
		d.press("<bs>")
		if !strings.HasSuffix(d.headerLine(), "kept 1 +1") || strings.Contains(d.statusLine(), "…") {
			t.Error(d.show())
		}
		d.press("U,b<enter>")
		if !strings.HasSuffix(d.headerLine(), "kept 1 +3") {
			t.Error(d.show())
		}
		d.ack()
		if !strings.HasSuffix(d.headerLine(), "kept 2") {
			t.Error(d.show())
		}
	})
	t.Run("order is the order of the keys", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172")
		d.slow = true
		before := len(d.recorder.steps)
		d.burst("xbx<x")
		d.burst("xxxx")
		for i, step := range d.recorder.steps[before:] {
			last, ok := step.Changes[len(step.Changes)-1].After.(model.Delivery)
			if ok && i > 0 && step.Action.N != d.recorder.steps[before+i-1].Action.N+1 {
				t.Errorf("step %d is of %s", i, last.ID)
			}
		}
	})
	t.Run("closing and opening again keeps nothing by itself", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172").press("x")
		d.slow = true
		d.press("xexyy<bs>")
		if d.evening == nil || !strings.HasSuffix(d.headerLine(), "kept 1 +3") || !strings.Contains(d.statusLine(), "strike A …") {
			t.Error(d.show())
		}
		if n := len(d.board.picture(d.App).Pending); n != 1 {
			t.Errorf("%d deliveries are drawn as not kept", n)
		}
		d.ack()
		if !strings.HasSuffix(d.headerLine(), "kept 2") || strings.Contains(d.show(), "…") {
			t.Error(d.show())
		}
	})
	t.Run("the header tells that a closing waits for the disk", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("x")
		d.slow = true
		if d.press("exyy"); !strings.HasSuffix(d.headerLine(), "+1") {
			t.Error(d.show())
		}
		if d.ack(); strings.Contains(d.headerLine(), "+") {
			t.Error(d.show())
		}
	})
	t.Run("a closed evening that waits is none of the next one's", func(t *testing.T) {
		d := onBoard(t, "Ada 120")
		d.slow = true
		d.press("xexyyn7<enter>Bo<enter><enter>x")
		if !strings.Contains(d.headerLine(), "kept 0 +") || len(d.ledger.deliveries) != 2 {
			t.Error(d.show())
		}
		d.ack()
		if !strings.HasSuffix(d.headerLine(), "kept 1") {
			t.Error(d.show())
		}
	})
	t.Run("a disk that refuses is said, goes on, and recovers", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172")
		d.slow = true
		kept := d.recorder.progress.Durable
		d.press("x")
		d.disk(store.Progress{Durable: kept, Err: errFull})
		d.says("NOT KEPT", "settee tries again", "no space left on device", "last: Ada frame 1: strike A ?", "kept 0 +1")
		if !d.board.picture(d.App).Refused {
			t.Error("the board is not told")
		}
		d.press("bx")
		d.says("NOT KEPT", "kept 0 +2")
		if got := len(d.spoken()); got != 2 {
			t.Errorf("%d deliveries", got)
		}
		d.ack()
		d.silent("NOT KEPT")
		d.says("kept 2")
		same(t, d)
	})
}

func TestLeaving(t *testing.T) {
	t.Run("with an evening open it asks, and any other key goes on", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("q")
		d.says("leave?", "the evening stays open")
		d.press("x").silent("leave?")
		if d.quit || len(d.spoken()) != 1 {
			t.Error(d.show())
		}
		d.press("qq")
		if !d.quit {
			t.Error(d.show())
		}
	})
	t.Run("n says no, whatever it is on the screen", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("sqn").says("settee goes on").silent("new student")
		if d.press("q"); d.quit || d.prompt != nil {
			t.Error(d.show())
		}
		if d.press("<esc><esc>AEn<ctrl+c>n").silent("settee goes on"); d.prompt.input.Value() != "Enn" {
			t.Error(d.show())
		}
	})
	t.Run("with nothing open it does not ask", func(t *testing.T) {
		for _, keys := range []string{"<esc>q", "<ctrl+c>"} {
			if d := startApp(t, &fakeReader{}).press(keys); !d.quit {
				t.Error(d.show())
			}
		}
	})
	t.Run("y leaves too", func(t *testing.T) {
		if d := onBoard(t, "Ada 120").press("qy"); !d.quit {
			t.Error(d.show())
		}
	})
	t.Run("it waits for the disk", func(t *testing.T) {
		d := onBoard(t, "Ada 120")
		d.slow = true
		d.press("xq").says("1 step not kept yet")
		d.press("q")
		if d.quit {
			t.Fatal("left with a call not kept")
		}
		d.says("as soon as everything is kept")
		d.ack()
		if !d.quit {
			t.Error(d.show())
		}
	})
	t.Run("another key stays", func(t *testing.T) {
		d := onBoard(t, "Ada 120")
		d.slow = true
		d.press("xqqb")
		d.ack()
		if d.quit {
			t.Error("left although a key went on")
		}
	})
	t.Run("a second ctrl+c leaves in any case", func(t *testing.T) {
		for _, keys := range []string{"x<ctrl+c><ctrl+c>", "xqq<ctrl+c>", "xq<ctrl+c>", "xCslow<ctrl+c><ctrl+c>"} {
			d := onBoard(t, "Ada 120")
			d.slow = true
			if d.press(keys); !d.quit {
				t.Errorf("%s: %s", keys, d.show())
			}
		}
	})
	t.Run("from a prompt it asks and keeps the line", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("Cslow<ctrl+c>")
		d.says("ctrl+c again leaves", "slow")
		d.press("q feet<enter>x")
		if got := d.spoken(); d.quit || len(got) != 1 || !strings.HasSuffix(got[0], "slowq feet") {
			t.Error(got)
		}
	})
	t.Run("drawing anew", func(t *testing.T) {
		d := onBoard(t, "Ada 120")
		before := len(d.seen)
		if d.press("<ctrl+l>"); len(d.seen) == before {
			t.Error("nothing is drawn anew")
		}
	})
}

// What is not kept is written elsewhere while the disk refuses, and kept as usual when it takes again.
func TestKeptElsewhere(t *testing.T) {
	refusing := func(t *testing.T) *appTest {
		d := onBoard(t, "Ada 120")
		d.conf.Elsewhere = func() string { return "/stick/settee.jsonl" }
		d.conf.KeepElsewhere = func(path string) (string, int, error) {
			return path, int(d.recorder.progress.Issued - d.recorder.progress.Durable), nil
		}
		d.slow = true
		kept := d.recorder.progress.Durable
		d.press("x")
		d.disk(store.Progress{Durable: kept, Err: fmt.Errorf("writing the store /home/ada/settee.db: %w", errFull)})
		return d
	}
	t.Run("K proposes a place and says what is there", func(t *testing.T) {
		d := refusing(t)
		d.says("NOT KEPT, settee tries again, K keeps it elsewhere: no space left on device")
		d.press("K").says("write what is not kept to the file: /stick/settee.jsonl")
		d.press("<enter>").says("1 step in /stick/settee.jsonl, for settee import", "a copy is elsewhere", "kept 0 +1")
		d.press("q").says("1 step not kept yet", "a copy is elsewhere")
		d.press("x").says("NOT KEPT", "K keeps it elsewhere", "kept 0 +2")
		d.ack()
		d.silent("NOT KEPT")
		d.says("kept 2")
		same(t, d)
	})
	t.Run("where it cannot be written either it says so, and the calls stay", func(t *testing.T) {
		d := refusing(t)
		d.conf.KeepElsewhere = func(string) (string, int, error) { return "", 0, errors.New("no such directory") }
		d.press("K<enter>").says("not written: no such directory", "K tries another place", "K keeps it elsewhere", "kept 0 +1")
	})
	t.Run("where the disk has taken it meanwhile there is nothing to write", func(t *testing.T) {
		d := refusing(t)
		d.conf.KeepElsewhere = func(string) (string, int, error) { return "", 0, nil }
		d.press("K<enter>").says("nothing had to be written")
	})
	t.Run("an empty line asks again, esc drops it", func(t *testing.T) {
		d := refusing(t).press("K<ctrl+u><enter>")
		d.says("name a file")
		d.press("<esc>").says("dropped")
	})
	t.Run("leaving names it", func(t *testing.T) {
		d := refusing(t).press("q")
		d.says("1 step not kept yet", "K keeps it elsewhere first")
		d.press("K").says("write what is not kept to the file")
		if d.press("<enter>"); d.quit || d.leaving {
			t.Error(d.show())
		}
	})
	t.Run("while nothing refuses K says why it does nothing", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("K")
		d.says("there is no other place")
		d.conf.KeepElsewhere = func(string) (string, int, error) { return "", 0, nil }
		d.press("K").says("the disk does not refuse")
	})
}

// A disk that is nearly full is said at the start and again while calls are kept, and not once there is room.
func TestADiskNearlyFull(t *testing.T) {
	free, asked := int64(roomLow), 0
	d := onBoard(t, "Ada 120")
	d.conf.Free = func() (int64, error) {
		asked++
		if free < 0 {
			return 0, errors.New("nobody knows")
		}
		return free, nil
	}
	d.run(d.Init())
	if d.silent("nearly full"); asked != 1 {
		t.Fatalf("the disk was looked at %d times at the start", asked)
	}
	for _, step := range []struct {
		free int64
		word string
	}{{roomLow - 1, "disk nearly full: 67 MB left. Make room"}, {3_400_000, "disk nearly full: 3 MB left"}, {roomLow, ""}, {0, "0 MB left"}, {-1, ""}} {
		free, asked = step.free, 0
		for range 4 * roomEvery {
			d.press("D")
		}
		if asked < 2 || asked > 5 {
			t.Errorf("the disk was looked at %d times in %d calls", asked, 4*roomEvery)
		}
		if step.word == "" {
			d.silent("nearly full")
		} else {
			d.says(step.word)
		}
	}
}
