package tui

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"coach.settee/model"
)

// aGame is a game of nine pins a frame, keyed.
var aGame = strings.Repeat("=9=0", 10)

func TestClosingChecklist(t *testing.T) {
	d := onBoard(t, "Ada 120", "Bo 172").press("er<esc>" + aGame + "=9=0ex")
	t.Run("a line a student with what is missing", func(t *testing.T) {
		d.says("Closing", "▶ Ada", "11/11", "90", "game 2 unfinished", "no homework", "Bo", "no date")
	})
	t.Run("homework, the sentence and the day of one", func(t *testing.T) {
		d.press("hone step, 3 times 10, Monday<enter>wYou waited for it.<enter>dwed<enter>")
		seat, _ := d.evening.SeatOf("id2")
		if seat.Homework != "one step, 3 times 10, Monday" || seat.Sentence != "You waited for it." || seat.Next != "2026-03-11" {
			t.Errorf("%+v", seat)
		}
		d.says("Wednesday 11 March 2026", "You waited for it.", "one step, 3 times 10, Monday")
	})
	t.Run("a day that is none is refused in the prompt", func(t *testing.T) {
		d.press("d30 2<enter>")
		if d.prompt == nil || !d.status.refused || !strings.Contains(d.status.words, "30 2") {
			t.Errorf("%+v\n%s", d.status, d.show())
		}
		d.press("<ctrl+u>18.3.<enter>").says("Wednesday 18 March 2026")
	})
	t.Run("one day for everyone, taken back in one", func(t *testing.T) {
		d.press("D+14<enter><down>").says("▶ Bo", "Wednesday 18 March 2026")
		if next := nexts(d); !slices.Equal(next, []string{"2026-03-18", "2026-03-18"}) {
			t.Error(next)
		}
		d.press("<bs>").says("taken back", "Closing")
		if next := nexts(d); !slices.Equal(next, []string{"2026-03-18", ""}) {
			t.Error(next)
		}
		d.press("U<up>")
	})
	t.Run("what the overhead shows", func(t *testing.T) {
		d.press("t91<enter>").says("game 1: 90 here, 91 on the overhead")
		d.press("<down><up>").says("91: game 1: 90 here, 91 on the overhead")
		d.press("tninety<enter>")
		if d.prompt == nil || !d.status.refused {
			t.Error(d.show())
		}
		d.press("<ctrl+u><enter>").says("not compared")
	})
	t.Run("esc goes back, and up again with the one marked there", func(t *testing.T) {
		d.press("<esc>").says("Evening", "drills: in turn")
		d.press("<down>x").says("▶ Bo")
		d.press("<esc><esc>")
	})
	t.Run("it asks while a game is unfinished", func(t *testing.T) {
		d.press("exx").says("close anyway? y closes, any other key does not. 1 game unfinished: Ada game 2")
		d.press("<down>")
		if d.question != nil || d.evening == nil {
			t.Fatal("another key answers")
		}
		d.press("yy").says("the evening is closed, 22 deliveries")
		if d.evening != nil {
			t.Error("not closed")
		}
	})
}

func nexts(d *appTest) []string {
	var next []string
	for _, seat := range d.evening.Seats() {
		next = append(next, seat.Next)
	}
	return next
}

func TestClosingOfNobody(t *testing.T) {
	d := startApp(t, &fakeReader{}).press("7<enter><enter>ex").shows("Nobody is here")
	for _, key := range []string{"<up>", "<down>", "h", "d", "D", "w", "t"} {
		if d.press(key); d.prompt != nil || !strings.Contains(d.status.words, "nobody is here") {
			t.Errorf("%s: %+v", key, d.status)
		}
	}
	if d.press("x"); d.evening != nil {
		t.Error("not closed")
	}
}

func TestClosingAsksWhileSomethingIsNotKept(t *testing.T) {
	d := onBoard(t, "Ada 120").press(aGame)
	d.slow = true
	d.press("exhwalk<enter>x").shows("close anyway?", "1 step not kept yet")
	if d.press("y"); d.evening != nil {
		t.Error("not closed")
	}
}

// shows is says, for a chain of keys.
func (d *appTest) shows(words ...string) *appTest {
	d.t.Helper()
	d.says(words...)
	return d
}

// work is what is asked of the store's copies and the pages, in order.
type work struct {
	asked          []string
	backup, folder string
	errs           map[string]error
	pages          int
}

func (w *work) on(d *appTest) *appTest {
	d.conf.Backup = func() (string, error) {
		w.asked = append(w.asked, "copy")
		return w.backup, w.errs["copy"]
	}
	d.conf.Handouts = func(session model.ID, written func(n, of int)) (string, error) {
		w.asked = append(w.asked, "pages of "+string(session))
		for n := range w.pages {
			written(n+1, w.pages)
		}
		return w.folder, w.errs["pages"]
	}
	return d
}

func newWork() *work {
	return &work{backup: "/home/backups/one.db", folder: "/home/handouts", errs: map[string]error{}, pages: 6}
}

func TestAfterClosing(t *testing.T) {
	t.Run("a copy and the pages once all is on disk", func(t *testing.T) {
		w := newWork()
		d := w.on(onBoard(t, "Ada 120").press("x"))
		d.slow = true
		d.press("exxy").says("the evening is closed, 1 delivery: backspace opens it again", "waiting for the")
		if len(w.asked) > 0 {
			t.Fatal(w.asked)
		}
		d.ack()
		d.says("the evening is closed", "the pages to take home: /home/handouts", "/home/backups/one.db")
		if want := []string{"copy", "pages of id1"}; !slices.Equal(w.asked, want) {
			t.Errorf("%v, want %v", w.asked, want)
		}
		d.press("<f5>").says("/home/handouts")
		if d.packing.failed {
			t.Error("told as failed")
		}
		d.press("<bs>")
		d.slow = false
		d.ack()
		d.silent("/home/handouts")
	})
	t.Run("what fails is said, the rest is done, the evening stays closed", func(t *testing.T) {
		w := newWork()
		w.backup, w.errs["copy"] = "", errors.New("the disk is full")
		d := w.on(onBoard(t, "Ada 120").press("x")).press("exxy")
		d.send(sizeMsg(160, 50))
		d.says("not all that follows was done", "no copy of the store was made: the disk is full; settee backup makes one", "/home/handouts")
		if d.evening != nil || !d.said().refused {
			t.Error(d.show())
		}
		w.errs["pages"] = errors.New("no such folder")
		d.press("<bs>exxy").says("not all pages are written: no such folder; settee handout --all writes them")
		if d.evening != nil {
			t.Error("open")
		}
	})
	t.Run("an evening opened again before it began needs nothing", func(t *testing.T) {
		w := newWork()
		d := w.on(onBoard(t, "Ada 120").press("x"))
		d.slow = true
		d.press("exxy<bs>").says("taken back: evening closed")
		if d.ack(); len(w.asked) > 0 || d.packing.pending() {
			t.Error(w.asked)
		}
	})
	t.Run("nobody bowled", func(t *testing.T) {
		w := newWork()
		w.folder, w.pages = "", 0
		w.on(onBoard(t, "Ada 120")).press("exx").says("nobody bowled, so there is no page")
	})
}

// TestWorkBesideTheBoard runs the work as the runtime does, in goroutines of their own: keys act meanwhile, the pages are
// counted, and leaving waits.
func TestWorkBesideTheBoard(t *testing.T) {
	w := newWork()
	d := w.on(onBoard(t, "Ada 120").press("x"))
	wrote, goOn := make(chan bool), make(chan bool)
	d.conf.Backup = nil
	d.conf.Handouts = func(_ model.ID, written func(n, of int)) (string, error) {
		written(2, 6)
		written(3, 6)
		wrote <- true
		<-goOn
		return w.folder, nil
	}
	d.press("exx")
	_, cmd := d.Update(keysOf("y")[0])
	// The step of the closing is not on disk: the work begins with the word of it.
	d.run(cmd)
	d.recorder.progress.Durable = d.recorder.progress.Issued
	_, cmd = d.Update(keptMsg{})
	// In the order in which they are given: the wait for the disk, the writing, the wait for its counts.
	beside := cmd().(tea.BatchMsg)
	if len(beside) != 3 {
		t.Fatalf("%d commands", len(beside))
	}
	d.waiting = beside[0]
	done := make(chan tea.Msg, 1)
	go func() { done <- beside[1]() }()
	<-wrote
	_, more := d.Update(beside[2]())
	d.says("the evening is closed, 1 delivery", "page 3 of 6…")
	if d.press("n"); d.prompt == nil {
		t.Error("a key waits for the pages")
	}
	d.press("<esc>q").says("the copy and the pages are not written yet: q waits for them")
	if d.press("q"); d.quit {
		t.Error("left before the pages are written")
	}
	close(goOn)
	d.send(<-done)
	if !d.quit {
		t.Error("not left after the pages are written")
	}
	if msg := more(); msg != nil {
		t.Errorf("%v after the last page", msg)
	}
}

func TestHourlyCopy(t *testing.T) {
	d := onBoard(t, "Ada 120")
	if d.awaitCopy(firstCopy); len(d.cmds) != 0 {
		t.Fatal("a copy is due without a clock")
	}
	clock := make(chan time.Time, 1)
	var waited []time.Duration
	d.conf.After = func(t time.Duration) <-chan time.Time {
		waited = append(waited, t)
		return clock
	}
	next, fails, made := 40*time.Minute, error(nil), 0
	d.conf.BackupDue = func() (time.Duration, error) {
		made++
		return next, fails
	}
	d.awaitCopy(firstCopy)
	cmd := d.settle()
	pass := func() {
		t.Helper()
		clock <- testTime
		_, copying := d.Update(cmd())
		if len(clock) != 0 || len(waited) != made+1 {
			t.Fatalf("waits %v while a copy is made", waited)
		}
		_, cmd = d.Update(copying())
	}
	pass()
	next, fails = 5*time.Minute, errors.New("the disk is full")
	d.silent("copy of the store")
	pass()
	d.says("the copy of the store that is due was not made (the disk is full)")
	d.press("<f5>")
	pass()
	d.silent("copy of the store")
	next, fails = time.Hour, nil
	pass()
	fails = errors.New("the disk is full")
	d.press("q")
	pass()
	d.says("leave?")
	d.press("<f5>")
	pass()
	d.says("copy of the store")
	// Without an evening on the board as with one.
	fails = nil
	d.press("exx")
	pass()
	want := []time.Duration{firstCopy, 40 * time.Minute, 5 * time.Minute, 5 * time.Minute, time.Hour, time.Hour, time.Hour, time.Hour}
	if !slices.Equal(waited, want) || made != len(want)-1 {
		t.Errorf("waited %v for %d copies, not %v", waited, made, want)
	}
}

func TestClosingScreens(t *testing.T) {
	for _, s := range [][2]int{{60, 16}, {80, 24}, {160, 50}} {
		t.Run(fmt.Sprintf("%dx%d", s[0], s[1]), func(t *testing.T) {
			d := closingEvening(t)
			d.send(sizeMsg(s[0], s[1]))
			golden(t, fmt.Sprintf("closing_%dx%d", s[0], s[1]), d.View())
		})
	}
}

// closingEvening is a checklist that is half filled in.
func closingEvening(t tester) *appTest {
	d := onBoard(t, "Ada Marsh 120", "Bo Winter 172", "Cyd Okafor 195", "Dov Lind 88", "Finnegan Ashdown-Featherstone 151", "Eve Tanaka 214")
	for _, name := range []string{"Ada", "Bo", "Cyd", "Finn", "Eve"} {
		d.press("@" + name + "<enter>")
		for range 10 {
			d.press("x@" + name + "<enter>z=8@" + name + "<enter>/@" + name + "<enter>")
		}
	}
	d.press("exD+7<enter>hone-step swings, 3 times 10, Monday Wednesday Friday<enter>wYou waited for it, and it showed.<enter>t201<enter>")
	return d.press("<down>hquiet hand, 20 balls, Tuesday<enter><up>")
}

func TestClosingAtEverySize(t *testing.T) {
	long := onBoard(t, "An Exceptionally Long Name 東京 é́ "+strings.Repeat("w", 40), "Bo 172").press("exw" + strings.Repeat("slow 東京 ", 20) + "<enter>t1 2 3<enter>")
	for name, d := range map[string]*appTest{"half filled in": closingEvening(t), "long words": long} {
		t.Run(name, func(t *testing.T) {
			for w := 20; w <= 200; w += 1 + w/40 {
				for h := 5; h <= 60; h += 1 + h/20 {
					d.send(sizeMsg(w, h))
					filled(t, d, w, h)
					if !d.tooSmall() && !strings.Contains(d.show(), "▶") {
						t.Fatalf("the student marked is not in view at %dx%d:\n%s", w, h, d.show())
					}
				}
			}
		})
	}
}
