package store

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"coach.settee/model"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// crashed opens a copy of an open store's file: what a process that was killed now would have left.
func crashed(t interface {
	Helper()
	Fatal(...any)
}, s *Store, path string) *Store {
	t.Helper()
	b, err := os.ReadFile(s.Path())
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, b, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := Check(path); err != nil {
		t.Fatal(err)
	}
	after, err := Open(path, Options{NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	return after
}

func TestAnEveningResumesAsItWasLeft(t *testing.T) {
	dir := t.TempDir()
	rapid.Check(t, func(t *rapid.T) {
		path := filepath.Join(dir, "evening.db")
		defer os.Remove(path)
		s, err := Open(path, Options{NoSync: true})
		if err != nil {
			t.Fatal(err)
		}
		defer s.Close()
		c := &wanderer{t: t, s: s, clock: time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC)}
		c.evening(0)

		after := crashed(t, s, filepath.Join(dir, "crashed.db"))
		defer after.Close()
		for _, s := range []*Store{after, s} {
			resumed := resume(t, s, c.e.Session().ID)
			sameEvening(t, s, resumed, c)
			if n, err := s.Count(); n != c.e.Deliveries() || err != nil {
				t.Fatalf("%d deliveries are counted, there are %d, %v", n, c.e.Deliveries(), err)
			}
		}
		takeAllBack(t, after, resume(t, after, c.e.Session().ID), c.e)
	})
}

func resume(t *rapid.T, s *Store, id model.ID) *model.Evening {
	k, err := s.Evening(id)
	if err != nil {
		t.Fatal(err)
	}
	e, err := model.Resume(k)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func sameEvening(t *rapid.T, s *Store, got *model.Evening, c *wanderer) {
	if diff := cmp.Diff(c.e.Session(), got.Session()); diff != "" {
		t.Fatalf("the session: %s", diff)
	}
	if diff := cmp.Diff(c.e.Up(), got.Up()); diff != "" {
		t.Fatalf("who is up: %s", diff)
	}
	for _, student := range c.students {
		was, is := c.e.Sheets(student.ID), got.Sheets(student.ID)
		if len(was) != len(is) {
			t.Fatalf("%s has %d games, and had %d", student.Name, len(is), len(was))
		}
		for i := range was {
			if was[i].Game != is[i].Game || was[i].Tally != is[i].Tally {
				t.Fatalf("%s has %+v, and had %+v", student.Name, is[i].Game, was[i].Game)
			}
			if diff := cmp.Diff(was[i].Deliveries, is[i].Deliveries); diff != "" {
				t.Fatalf("the deliveries of %s: %s", student.Name, diff)
			}
		}
		played, err := s.Played(student.ID, 0, nil)
		if err != nil || len(played) != len(was) {
			t.Fatalf("%d of %d games are in the history, %v", len(played), len(was), err)
		}
		for i, p := range played {
			sheet := was[len(was)-1-i]
			if p.Game != sheet.Game || p.Tally != sheet.Tally || !p.At.Equal(c.e.Session().At) {
				t.Fatalf("the history has %+v for %+v", p, sheet)
			}
		}
	}
}

// takeAllBack takes every action back, after the restart and as if there had been none, and does all again.
func takeAllBack(t *rapid.T, s *Store, resumed, live *model.Evening) {
	id := resumed.Session().ID
	actions := 0
	for {
		was, wantErr := live.Undo()
		is, err := resumed.Undo()
		if (err == nil) != (wantErr == nil) {
			t.Fatalf("taking back: %v after the restart, %v without", err, wantErr)
		}
		if err != nil {
			break
		}
		actions++
		if diff := cmp.Diff(was.Changes, is.Changes); diff != "" {
			t.Fatalf("taking back %q changes otherwise after the restart: %s", was.Action.What, diff)
		}
		if was.Action.Student != is.Action.Student || was.Action.How != is.Action.How || was.Action.What != is.Action.What {
			t.Fatalf("taking back %+v, after the restart %+v", was.Action, is.Action)
		}
		// A call begun is not kept; one that was recorded is again what it was before its key.
		student := was.Action.Student
		if diff := cmp.Diff(live.CallOf(student), resumed.CallOf(student)); diff != "" && was.Action.How != model.NotRecorded {
			t.Fatalf("the call after taking back is otherwise after the restart: %s", diff)
		}
		keepAll(t, s, is)
	}
	if k, err := s.Evening(id); err != nil || len(k.Games)+len(k.Deliveries)+len(k.Log) != 0 {
		t.Fatalf("after everything was taken back there are %+v, %v", k, err)
	}
	for range actions {
		step, err := resumed.Redo()
		if err != nil {
			t.Fatal(err)
		}
		keepAll(t, s, step)
	}
	if k, err := s.Evening(id); err != nil || len(k.Log) != actions {
		t.Fatalf("%d of %d actions are there again, %v", len(k.Log), actions, err)
	}
}

func keepAll(t *rapid.T, s *Store, steps ...model.Step) {
	if err := s.Keep(steps...); err != nil {
		t.Fatal(err)
	}
}

func TestAClosedEveningsListIsKeptUntilTheNextBegins(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	c := newCoach(t, 1, func(step model.Step) {
		if err := s.Keep(step); err != nil {
			t.Fatal(err)
		}
	})
	c.begin(2)
	c.bowl(30)
	c.close()
	first := c.evening
	k, err := s.Evening(first.Session().ID)
	if err != nil || len(k.Log) == 0 || k.Up.Lane == 0 {
		t.Fatalf("a closed evening has %d actions, %v", len(k.Log), err)
	}
	c.begin(2)
	c.bowl(3)
	k, err = s.Evening(first.Session().ID)
	if err != nil || len(k.Log) != 0 || len(k.Deliveries) != 30 {
		t.Fatalf("after the next evening began there are %d actions and %d deliveries, %v", len(k.Log), len(k.Deliveries), err)
	}
	// Opened again, it has a list of its own from then on.
	e, err := model.Resume(k)
	if err != nil {
		t.Fatal(err)
	}
	c.evening = e
	c.do(e.Arrange("opened again", func(s *model.Session) { s.Closed = time.Time{} }))
	c.bowl(3)
	k, err = s.Evening(first.Session().ID)
	if err != nil || len(k.Log) < 4 || k.Log[0].What != "opened again" {
		t.Fatalf("the evening that was opened again has the actions %+v, %v", k.Log, err)
	}
}

func TestTakingBackTheClosing(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	c := newCoach(t, 1, func(step model.Step) {
		if err := s.Keep(step); err != nil {
			t.Fatal(err)
		}
	})
	c.begin(2)
	c.close()
	c.do(c.evening.Undo())
	k, err := s.Evening(c.session())
	if err != nil || !k.Session.Open() {
		t.Fatalf("the session is closed at %v, %v", k.Session.Closed, err)
	}
	if last := k.Log[len(k.Log)-1]; last.What == "evening closed" {
		t.Fatal("the closing is still in the list")
	}
}

func TestASessionMovesInTimeWithItsGames(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	c := newCoach(t, 1, func(step model.Step) {
		if err := s.Keep(step); err != nil {
			t.Fatal(err)
		}
	})
	c.begin(2)
	c.bowl(20)
	at := c.evening.Session().At.Add(-time.Hour)
	c.do(c.evening.Arrange("the time was wrong", func(s *model.Session) { s.At = at }))
	played, err := s.Played(invented(0).ID, 1, nil)
	if err != nil || len(played) != 1 || !played[0].At.Equal(at) {
		t.Fatalf("the history has %+v, %v", played, err)
	}
}

func TestPlayed(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	fill(t, s, 2000, 100)
	var all []Played
	for n := range 8 {
		id := invented(n).ID
		played, err := s.Played(id, 0, nil)
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range played {
			if p.Game.Student != id {
				t.Fatalf("the history of %s has a game of %s", id, p.Game.Student)
			}
			if i > 0 && (p.At.After(played[i-1].At) || p.At.Equal(played[i-1].At) && p.Game.Number > played[i-1].Game.Number) {
				t.Fatalf("game %d of %v comes after game %d of %v", p.Game.Number, p.At, played[i-1].Game.Number, played[i-1].At)
			}
		}
		all = append(all, played...)
		asked := 0
		three, err := s.Played(id, 3, func(p Played) bool { asked++; return p.Tally.Complete })
		if err != nil || len(three) != 3 || asked >= len(played) {
			t.Fatalf("%d games after asking of %d of %d, %v", len(three), asked, len(played), err)
		}
	}
	load := 0
	for _, p := range all {
		load += p.Tally.Load
	}
	if load != 2000 {
		t.Errorf("the tallies tell of %d deliveries, 2000 were bowled", load)
	}
	if n, err := s.Count(); n != 2000 || err != nil {
		t.Errorf("%d deliveries are counted, %v", n, err)
	}
	none, err := s.Played("nobody", 0, nil)
	if err != nil || len(none) != 0 {
		t.Errorf("nobody has played %+v, %v", none, err)
	}
}

func TestStepsThatCouldNotBeSettledAreRefused(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	game := model.Game{ID: "S-1", Session: "S", Student: "ada", Number: 1, Kind: model.KindGame}
	ball := model.Delivery{ID: "S-2", Game: "S-1", Seq: 1, Bar: model.GradeAMinus}
	put := func(r model.Record) model.Change { return model.Change{Ref: r.Ref(), After: r} }
	for name, step := range map[string]model.Step{
		"a game without its session":  {Session: "S", Changes: []model.Change{put(game)}},
		"a delivery without its game": {Session: "S", Changes: []model.Change{put(ball)}},
		"a tally without its game":    {Session: "S", Tallies: map[model.ID]model.Tally{"S-1": {Load: 1}}},
		"a record under another id":   {Session: "S", Changes: []model.Change{{Ref: game.Ref(), After: ball}}},
		"a game after it was taken away": {Session: "S", Changes: []model.Change{
			put(model.Session{ID: "S"}), put(game), {Ref: game.Ref(), Before: game}, put(ball),
		}},
	} {
		if err := s.Keep(step); err == nil {
			t.Errorf("%s is kept", name)
		}
	}
	if n, err := s.Count(); n != 0 || err != nil {
		t.Errorf("%d deliveries, %v", n, err)
	}
	if err := s.Keep(model.Step{Session: "S", Changes: []model.Change{put(model.Session{ID: "S"}), put(game), put(ball)}}); err != nil {
		t.Error(err)
	}
}

func TestAStudentOfAnotherEveningStaysWhenTheFirstSeatIsTakenBack(t *testing.T) {
	for name, test := range map[string]struct {
		// there does what the student did in the other evening, where the student has a seat.
		there func(*coach)
		stays bool
	}{
		"seated there":                {func(*coach) {}, true},
		"bowled there":                {func(c *coach) { c.do(c.evening.RecordAllDown(c.at)) }, true},
		"seated there and taken back": {func(c *coach) { c.do(c.evening.Undo()) }, false},
	} {
		t.Run(name, func(t *testing.T) {
			s := openTemp(t, Options{NoSync: true})
			c := newCoach(t, 1, func(step model.Step) {
				if err := s.Keep(step); err != nil {
					t.Fatal(err)
				}
			})
			begin := func(id model.ID) *model.Evening {
				e, step, err := model.NewEvening(model.Session{ID: id, At: c.at, Pairs: []model.Pair{{7, 8}}, Rotate: true})
				c.evening = e
				c.do(step, err)
				return e
			}
			ada := invented(0)
			first := begin("01J7EVENING000000000000001")
			c.do(first.Seat(ada, 7))
			second := begin("01J7EVENING000000000000002")
			c.do(second.SeatKnown(ada, ada, 8))
			test.there(c)
			c.do(first.Undo())

			students, err := s.Students()
			if err != nil || (len(students) == 1) != test.stays {
				t.Fatalf("the students are %+v, %v", students, err)
			}
			k, err := s.Evening(first.Session().ID)
			if err != nil || len(k.Session.Roster)+len(k.Log) != 0 {
				t.Errorf("the evening of which it was taken back is %+v, %v", k, err)
			}
			resumed, err := s.Evening(second.Session().ID)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := model.Resume(resumed); err != nil || len(resumed.Students) != len(second.Seats()) {
				t.Errorf("the other evening has %+v, %v", resumed.Students, err)
			}
		})
	}
}
