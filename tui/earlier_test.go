package tui

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"coach.settee/model"
	"coach.settee/store"
)

// manyEvenings has evenings a day apart up to yesterday, all closed.
func manyEvenings(n int) *fakeReader {
	r := &fakeReader{counts: map[model.ID]store.EveningCount{}}
	for i := range n {
		id := model.ID(fmt.Sprintf("e%04d", i))
		at := testTime.AddDate(0, 0, i-n)
		r.evenings = append(r.evenings, model.Kept{Session: model.Session{
			ID: id, At: at, Closed: at.Add(time.Hour), Pairs: []model.Pair{{7, 8}}, Place: fmt.Sprintf("Place %04d", i),
		}})
		r.counts[id] = store.EveningCount{Session: id, Games: i, Deliveries: 10 * i, Good: i, Seen: 2 * i}
	}
	return r
}

func TestEarlierEvenings(t *testing.T) {
	t.Run("the newest first, with what came about", func(t *testing.T) {
		reader := weeklyReader()
		reader.counts = map[model.ID]store.EveningCount{"week": {Games: 6, Deliveries: 118, Good: 21, Seen: 60}}
		d := startApp(t, reader).press("<esc>E")
		var rows []string
		for _, line := range strings.Split(d.show(), "\n") {
			if strings.Contains(line, " 2026 ") {
				rows = append(rows, strings.Join(strings.Fields(line), " "))
			}
		}
		want := []string{"▶ Tue 3 Mar 2026 1 0 0 0/0 Millrace", "Wed 25 Feb 2026 3 6 118 21/60 Parkside"}
		if strings.Join(rows, "\n") != strings.Join(want, "\n") {
			t.Errorf("%q", rows)
		}
	})
	t.Run("3000 of them, read as they come into view", func(t *testing.T) {
		reader := manyEvenings(3000)
		d := startApp(t, reader).press("<esc>E")
		d.says("1 to 19 of 3000", "Place 2999", "29990")
		rows := d.session.earlier.room(d.bodyHeight())
		if len(reader.counted) != rows {
			t.Errorf("%d were counted, %d are in view", len(reader.counted), rows)
		}
		d.press("<end>").says("2982 to 3000 of 3000", "▶ Sat 16 Dec 2017", "Place 0000")
		d.press("<up>").says("▶ Sun 17 Dec 2017")
		d.press("<home><pgdown>").says("Place 2980")
		d.press("<pgup><down><up>").says("1 to 19 of 3000")
		if max := 4 * rows; len(reader.counted) > max {
			t.Errorf("%d were counted", len(reader.counted))
		}
		seen := map[model.ID]bool{}
		for _, id := range reader.counted {
			if seen[id] {
				t.Fatalf("%s was counted twice", id)
			}
			seen[id] = true
		}
	})
	t.Run("a closed one is opened again, and asks first", func(t *testing.T) {
		d := startApp(t, weeklyReader()).press("<esc>E<down><enter>")
		d.says("it was closed on 25 February 2026 at 20:00: y opens it again")
		if d.press("<nul>y"); d.evening != nil {
			t.Fatal("opened without being asked")
		}
		d.press("<enter>y").says("opened again: 25 February 2026, Parkside, 0 deliveries")
		if s := d.evening.Session(); s.ID != "week" || !s.Open() || d.screen != screen(d.board) {
			t.Error(d.show())
		}
		if s, _ := d.recorder.records[d.evening.Session().Ref()].(model.Session); !s.Open() || s.ID != "week" {
			t.Errorf("kept is %+v", s)
		}
		d.press("<bs>").says("taken back: evening opened again")
		if d.evening != nil {
			t.Fatal("a closed evening is on the screen")
		}
		if s, _ := d.recorder.records[model.Ref{Kind: model.SessionRecord, ID: "week"}].(model.Session); s.Open() {
			t.Errorf("kept is %+v", s)
		}
	})
	t.Run("taken back from any screen, it is closed and off the screen", func(t *testing.T) {
		kept := keptEvening(onBoard(t, "Ada 120", "Bo 172").press("xx7<enter>"))
		kept.Session.Closed = testTime
		for _, keys := range []string{"<bs>", "e<bs>", "g<bs>", "y<bs>"} {
			d := startApp(t, &fakeReader{evenings: []model.Kept{kept}}).press("<esc>E<enter>y")
			if d.evening == nil || d.evening.Deliveries() != 3 {
				t.Fatalf("not opened again:\n%s", d.show())
			}
			if d.press(keys); d.evening != nil || d.screen != screen(d.session) {
				t.Errorf("%s: %s", keys, d.show())
			}
		}
	})
	t.Run("the one that was on the screen stays open", func(t *testing.T) {
		d := startApp(t, weeklyReader()).press("<esc>=y")
		tonight := d.evening.Session().ID
		d.press("E").says("here Parkside")
		d.press("<end><enter>y").says("opened again: 25 February 2026")
		if len(d.open) != 1 || d.open[0].ID != tonight {
			t.Errorf("%v are open", d.open)
		}
		d.press("e").says("also open: 4 March 2026")
		// The reader has tonight's evening only as far as this test has put it there.
		kept := model.Kept{Session: d.open[0], Students: d.reader.students, Up: model.Up{Lane: 7}}
		d.reader.evenings = append(d.reader.evenings, kept)
		d.press("E<home>").says("open Parkside")
		d.press("<enter>").says("resumed: 4 March 2026")
		if d.evening.Session().ID != tonight {
			t.Error(d.show())
		}
	})
	t.Run("not while something would be lost", func(t *testing.T) {
		d := startApp(t, weeklyReader()).press("<esc>=y<esc>beE<end><enter>")
		d.says("a call is begun for Ada Marsh")
		d.press("<esc><esc><esc>e")
		d.slow = true
		d.press("rE<end><enter>").says("not everything is kept yet")
		if d.evening.Session().ID == "week" {
			t.Error("turned to")
		}
	})
	t.Run("a new one like the one marked", func(t *testing.T) {
		d := startApp(t, weeklyReader()).press("<esc>E=").showing("begun as on Tuesday 3 March", "Millrace")
		if d.evening.Session().ID == "yesterday" || len(d.evening.Seats()) != 1 || d.screen != screen(d.session) {
			t.Error(d.show())
		}
		d.press("E=").says("an evening is open: x closes it first")
	})
	t.Run("enter on the one on the screen, and esc, go back to it", func(t *testing.T) {
		for _, keys := range []string{"<enter>", "<esc>", "E", "e"} {
			d := onBoard(t, "Ada 120").press("eE").showing("Evenings, the newest first")
			if d.press(keys); d.session.earlier != nil || d.screen != screen(d.session) {
				t.Errorf("%s: %s", keys, d.show())
			}
		}
	})
	t.Run("another screen closes the list", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("eEy")
		if d.screen != screen(d.line) {
			t.Fatal(d.show())
		}
		d.press("e").says("next up: after a frame")
	})
	t.Run("none, and such as cannot be read", func(t *testing.T) {
		startApp(t, &fakeReader{}).press("<esc>E").says("no evening is kept yet: n begins one")
		reader := weeklyReader()
		reader.uncounted = errors.New("damaged")
		startApp(t, reader).press("<esc>E").says("what was bowled cannot be read: damaged", "Parkside", "…")
		reader.uncounted = store.ErrNoSession
		if d := startApp(t, reader).press("<esc>E"); d.status.refused {
			t.Errorf("one that is not on disk yet is an error:\n%s", d.show())
		}
	})
}

// showing is says for a chain of calls.
func (d *appTest) showing(words ...string) *appTest {
	d.t.Helper()
	d.says(words...)
	return d
}
