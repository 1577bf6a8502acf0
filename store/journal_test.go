package store

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"coach.settee/model"
)

// firstStep gives the step that begins an evening.
func firstStep(t testing.TB) (first model.Step) {
	c := newCoach(t, 1, func(step model.Step) { first = step })
	c.begin(0)
	return first
}

// evening gives the steps of an evening with a number of deliveries.
func evening(t testing.TB, deliveries int) []model.Step {
	var steps []model.Step
	c := newCoach(t, 5, func(step model.Step) { steps = append(steps, step) })
	c.begin(8)
	c.bowl(deliveries)
	return steps
}

func keepEach(t testing.TB, s *Store, steps []model.Step) {
	t.Helper()
	for _, step := range steps {
		if err := s.Keep(step); err != nil {
			t.Fatal(err)
		}
	}
}

func actionsOf(t testing.TB, s *Store, session model.ID) int {
	t.Helper()
	k, err := s.Evening(session)
	if err != nil {
		t.Fatal(err)
	}
	return len(k.Log)
}

// lastAction gives the number of the last action of steps.
func lastAction(steps []model.Step) int {
	n := 0
	for _, step := range steps {
		n = max(n, step.Action.N)
	}
	return n
}

func TestAFrameThatWasTornIsTheEndOfTheJournal(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	steps := evening(t, 3)
	keepEach(t, s, steps[:len(steps)-1])
	before := s.journal.end
	keepEach(t, s, steps[len(steps)-1:])
	after := s.journal.end
	file, err := os.ReadFile(s.Path())
	if err != nil {
		t.Fatal(err)
	}
	whole, short := lastAction(steps), lastAction(steps[:len(steps)-1])
	path := filepath.Join(t.TempDir(), "torn.db")
	for at := before; at < after; at++ {
		torn := bytes.Clone(file)
		for i := s.journal.from + at; i < s.journal.from+after; i++ {
			torn[i] = ^torn[i]
		}
		if n := actionsAfter(t, path, torn, steps[0].Session); n != short {
			t.Fatalf("torn at byte %d of %d, %d of %d actions are there", at-before, after-before, n, short)
		}
	}
	if n := actionsAfter(t, path, file, steps[0].Session); n != whole {
		t.Fatalf("%d of %d actions are there", n, whole)
	}
}

func actionsAfter(t *testing.T, path string, file []byte, session model.ID) int {
	t.Helper()
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
	s, err := Open(path, Options{NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	return actionsOf(t, s, session)
}

func TestTheJournalComesRound(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	at, rounds := s.journal.from, s.journal.round
	steps := evening(t, 1200)
	keepEach(t, s, steps)
	if s.journal.round < rounds+3 {
		t.Fatalf("1200 deliveries went through %d rounds", s.journal.round-rounds)
	}
	found, _, err := findJournal(s.journal.file.(*os.File))
	if err != nil || found+int64(len(journalMark)) != at {
		t.Fatalf("the journal moved from %d to %d, %v", at, found, err)
	}
	if len(s.journal.steps) == 0 {
		t.Fatal("nothing is left in the journal, and the rest of the test shows nothing")
	}
	after := crashed(t, s, filepath.Join(t.TempDir(), "crashed.db"))
	defer after.Close()
	for _, s := range []*Store{after, s} {
		if n := actionsOf(t, s, steps[0].Session); n != lastAction(steps) {
			t.Errorf("%d of %d actions are there", n, lastAction(steps))
		}
		if n, err := s.Count(); n != 1200 || err != nil {
			t.Errorf("%d deliveries, %v", n, err)
		}
	}
}

func TestFramesOfAnEarlierRoundAreNotMadeAgain(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	c := newCoach(t, 5, func(step model.Step) { keepEach(t, s, []model.Step{step}) })
	c.begin(8)
	c.bowl(20)
	n := actionsOf(t, s, c.session())
	if s.journal.end != 0 {
		t.Fatal("reading left frames in the journal")
	}
	c.do(c.evening.Undo())
	c.do(c.evening.Undo())
	for range 2 {
		after := crashed(t, s, filepath.Join(t.TempDir(), "crashed.db"))
		defer after.Close()
		if got := actionsOf(t, after, c.session()); got != n-2 {
			t.Errorf("%d of %d actions are there", got, n-2)
		}
		// Settled, the undone frames are still in the file.
		actionsOf(t, s, c.session())
	}
}

func TestMoreThanTheJournalHoldsIsSettledAtOnce(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	steps := evening(t, 1500)
	keepEach(t, s, steps[:5])
	if err := s.Keep(steps[5:]...); err != nil {
		t.Fatal(err)
	}
	if len(s.journal.steps) != 0 {
		t.Errorf("%d steps are in the journal", len(s.journal.steps))
	}
	if n := actionsOf(t, s, steps[0].Session); n != lastAction(steps) {
		t.Errorf("%d of %d actions are there", n, lastAction(steps))
	}
	if err := s.Keep(); err != nil {
		t.Errorf("no steps: %v", err)
	}
}

func TestASyncThatFailedIsTriedAgain(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	steps := evening(t, 4)
	keepEach(t, s, steps[:len(steps)-2])
	refused := errors.New("no such luck")
	s.journal.sync = func() error { return refused }
	for range 3 {
		if err := s.Keep(steps[len(steps)-2]); !errors.Is(err, refused) {
			t.Fatalf("a sync that failed: %v", err)
		}
	}
	s.journal.sync = func() error { return nil }
	// With the step goes the next, as the recorder does it: the frame is another than the one that failed.
	if err := s.Keep(steps[len(steps)-2:]...); err != nil {
		t.Fatal(err)
	}
	after := crashed(t, s, filepath.Join(t.TempDir(), "crashed.db"))
	defer after.Close()
	for _, s := range []*Store{after, s} {
		if n := actionsOf(t, s, steps[0].Session); n != lastAction(steps) {
			t.Errorf("%d of %d actions are there", n, lastAction(steps))
		}
		if n, err := s.Count(); n != 4 || err != nil {
			t.Errorf("%d deliveries, %v", n, err)
		}
	}
}
