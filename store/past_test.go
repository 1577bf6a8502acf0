package store

import (
	"path/filepath"
	"slices"
	"testing"

	"coach.settee/model"
)

// TestAPastEveningIsCorrected changes a delivery of an evening that is closed while another is open, and takes the change
// back, each after a restart.
func TestAPastEveningIsCorrected(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	s := mustOpen(t, path)
	c := newCoach(t, 1, func(step model.Step) { keepEach(t, s, []model.Step{step}) })
	c.begin(2)
	c.bowl(60)
	c.close()
	past := c.session()
	c.begin(2)
	c.bowl(7)
	tonight := c.session()
	student := invented(0).ID
	before := history(t, s, student, Scope{Session: past})
	log := actionsOf(t, s, tonight)

	game := before.Over[0]
	e := reopened(t, s, past)
	ball := game.Deliveries[0]
	c.ok(e.ReopenDelivery(game.Game.ID, ball.ID))
	c.ok(e.Lower(model.Release))
	c.ok(e.SetNote("seen on the film"))
	change, err := e.RecordNamed(c.at)
	c.ok(err)
	call, err := c.evening.RecordAllDown(c.at)
	c.ok(err)
	r := NewRecorder(s, RecorderOptions{})
	r.Keep(change)
	r.Keep(call)
	c.ok(r.Close())

	s = restarted(t, s)
	after := history(t, s, student, Scope{Session: past})
	got := after.Over[0].Deliveries[0]
	if got.Note != "seen on the film" || got.Letters == ball.Letters || got.Pins != ball.Pins {
		t.Fatalf("the delivery %+v was corrected to %+v", ball, got)
	}
	sameTallies(t, s, student, after.Over)
	if after.Over[0].Tally == game.Tally {
		t.Error("the tally is as it was")
	}
	k, err := s.Evening(past)
	if err != nil || k.Session.Open() || len(k.Log) != 1 {
		t.Fatalf("the past evening is closed at %v, with the actions %+v, %v", k.Session.Closed, k.Log, err)
	}
	if n := actionsOf(t, s, tonight); n != log+1 {
		t.Errorf("tonight has %d actions, it had %d and one was done", n, log)
	}

	e = reopened(t, s, past)
	back, err := e.Undo()
	c.ok(err)
	c.ok(s.Keep(back))
	s = restarted(t, s)
	sameSheets(t, "taken back", history(t, s, student, Scope{Session: past}).Over, before.Over)
	sameTallies(t, s, student, before.Over)
	if k, err = s.Evening(past); err != nil || k.Session.Open() || len(k.Log) != 0 {
		t.Errorf("the past evening is closed at %v, with the actions %+v, %v", k.Session.Closed, k.Log, err)
	}
	if open, err := s.OpenSessions(); err != nil || len(open) != 1 || open[0].ID != tonight {
		t.Errorf("open are %+v, %v", open, err)
	}
	if n := actionsOf(t, s, tonight); n != log+1 {
		t.Errorf("tonight has %d actions after the past was taken back", n)
	}
}

// TestCorrectionsOfThePastAreForgottenWithTheNextEvening keeps a correction of a past evening in its list of actions until
// another evening begins, and leaves tonight's list alone.
func TestCorrectionsOfThePastAreForgottenWithTheNextEvening(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	c := newCoach(t, 1, func(step model.Step) { keepEach(t, s, []model.Step{step}) })
	c.begin(2)
	c.bowl(30)
	c.close()
	past := c.session()
	c.begin(2)
	c.bowl(5)
	tonight, e := c.session(), reopened(t, s, past)
	log := actionsOf(t, s, tonight) + 2
	for _, note := range []string{"one", "two"} {
		c.ok(e.Reopen())
		c.ok(e.SetNote(note))
		change, err := e.RecordNamed(c.at)
		c.ok(err)
		call, err := c.evening.RecordAllDown(c.at)
		c.ok(err)
		// One frame of the journal holds steps of both.
		c.ok(s.Keep(change, call))
	}
	after := crashed(t, s, filepath.Join(t.TempDir(), "crashed.db"))
	defer after.Close()
	for _, s := range []*Store{s, after} {
		if was, is := actionsOf(t, s, past), actionsOf(t, s, tonight); was != 2 || is != log {
			t.Fatalf("the past evening has %d actions, tonight has %d, they should have 2 and %d", was, is, log)
		}
		if k, err := s.Evening(past); err != nil || k.Up.Lane == 0 {
			t.Fatalf("up in the past evening is %+v, %v", k.Up, err)
		}
	}
	c.begin(2)
	if n := actionsOf(t, s, past); n != 0 {
		t.Errorf("the past evening has %d actions after the next one began", n)
	}
	if n := actionsOf(t, s, tonight); n != log {
		t.Errorf("the evening that is still open has %d actions, it had %d", n, log)
	}
	if k, err := s.Evening(past); err != nil || k.Up.Lane != 0 || !slices.ContainsFunc(k.Deliveries, func(d model.Delivery) bool {
		return d.Note == "two"
	}) {
		t.Errorf("who is up is %+v, %v", k.Up, err)
	}
	// What the evening in hand still knows can be taken back all the same, and leaves no list behind.
	c.do(e.Undo())
	if k, err := s.Evening(past); err != nil || len(k.Log) != 0 || k.Session.Open() {
		t.Errorf("the actions are %+v, %v", k.Log, err)
	}
}

func reopened(t testing.TB, s *Store, session model.ID) *model.Evening {
	t.Helper()
	k, err := s.Evening(session)
	if err != nil {
		t.Fatal(err)
	}
	e, err := model.Resume(k)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// restarted closes a store and opens it again.
func restarted(t testing.TB, s *Store) *Store {
	t.Helper()
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if err := Check(s.Path()); err != nil {
		t.Fatal(err)
	}
	return mustOpen(t, s.Path())
}

// sameTallies compares the tallies that are kept beside a student's games with those of sheets.
func sameTallies(t testing.TB, s *Store, student model.ID, sheets []model.DatedSheet) {
	t.Helper()
	played, err := s.Played(student, 0, func(p Played) bool { return p.Game.Session == sheets[0].Game.Session })
	if err != nil || len(played) != len(sheets) {
		t.Fatalf("%d of %d games are in the history, %v", len(played), len(sheets), err)
	}
	for i, p := range played {
		if sheet := sheets[len(sheets)-1-i]; p.Tally != sheet.Tally {
			t.Errorf("%s is counted as %+v, it is %+v", p.Game.ID, p.Tally, sheet.Tally)
		}
	}
}
