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
		if n, said := actionsAfter(t, path, torn, steps[0].Session); n != short || !said {
			t.Fatalf("torn at byte %d of %d, %d of %d actions are there, and it is %v that one may be missing", at-before, after-before, n, short, said)
		}
	}
	if n, said := actionsAfter(t, path, file, steps[0].Session); n != whole || said {
		t.Fatalf("%d of %d actions are there, and it is %v that one may be missing", n, whole, said)
	}
}

// actionsAfter gives how many actions are in a file, and whether it is said that the last may be missing.
func actionsAfter(t *testing.T, path string, file []byte, session model.ID) (n int, said bool) {
	t.Helper()
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
	e, err := Examine(path, nil)
	if err != nil || !e.Sound() {
		t.Fatalf("%v, %v", err, e.Faults)
	}
	s, err := Open(path, Options{NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if e.MayMissLast != s.MayMissLast() {
		t.Fatalf("looking it over says %v, opening it %v", e.MayMissLast, s.MayMissLast())
	}
	return actionsOf(t, s, session), s.MayMissLast()
}

// That the last call may be missing is said by every opening until one is kept, and where nothing is torn by none, whatever
// earlier rounds have left in the journal.
func TestThatACallMayBeMissingIsSaidUntilOneIsKept(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	path := s.Path()
	steps := evening(t, 700)
	keepEach(t, s, steps[:300])
	for range 3 {
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
		if s = mustOpen(t, path); s.MayMissLast() {
			t.Fatal("it is said of a store that was closed")
		}
	}
	keepEach(t, s, steps[300:310])
	before := s.journal.end
	keepEach(t, s, steps[310:311])
	file := read(t, path)
	file[s.journal.from+before+frameHead+3] ^= 4
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	write(t, path, file)
	for range 3 {
		if s = mustOpen(t, path); !s.MayMissLast() {
			t.Fatal("it is not said")
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
	s = mustOpen(t, path)
	keepEach(t, s, steps[310:])
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if s = mustOpen(t, path); s.MayMissLast() || actionsOf(t, s, steps[0].Session) != lastAction(steps) {
		t.Error("it is said when a call was kept, or not all is there")
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
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
		if got := actionsOf(t, after, c.session()); got != n-2 || after.MayMissLast() {
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
