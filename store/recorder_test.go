package store

import (
	"errors"
	"os"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"coach.settee/model"
	bolterrors "go.etcd.io/bbolt/errors"
)

// steps gives steps that are told apart by the number of their actions.
func numbered(n int) []model.Step {
	out := make([]model.Step, n)
	for i := range out {
		out[i].Action.N = i + 1
	}
	return out
}

// until waits for what the recorder tells to be so.
func until(t *testing.T, r *Recorder, is func(Progress) bool) Progress {
	t.Helper()
	for {
		if p := r.Progress(); is(p) {
			return p
		}
		received(t, r.Changed(), "what the recorder tells is not so")
	}
}

// patience is how long anything is waited for. It decides nothing: a recorder that is right is never waited for so long, and
// for one that is not there are words instead of a test that hangs.
const patience = 20 * time.Second

// received gives what comes.
func received[T any](t *testing.T, from <-chan T, otherwise string) (v T) {
	t.Helper()
	select {
	case v = <-from:
	case <-time.After(patience):
		t.Fatalf("nothing came in %v: %s", patience, otherwise)
	}
	return v
}

// refused has the next try fail.
func (k *keeper) refused(t *testing.T, why error) {
	t.Helper()
	select {
	case k.refuses <- why:
	case <-time.After(patience):
		t.Fatalf("nothing was tried in %v: the steps are lost, or the recorder stands still", patience)
	}
}

// closed closes a recorder.
func closed(t *testing.T, r *Recorder) error {
	t.Helper()
	done := make(chan error, 1)
	go func() { done <- r.Close() }()
	return received(t, done, "the recorder does not close")
}

// keeper is a store that says what was kept, and refuses while it is told to.
type keeper struct {
	kept    chan []model.Step
	refuses chan error
}

func newKeeper() *keeper {
	return &keeper{kept: make(chan []model.Step), refuses: make(chan error)}
}

// keep waits for the test to take what is to be kept, or to refuse it.
func (k *keeper) keep(steps ...model.Step) error {
	select {
	case k.kept <- append([]model.Step(nil), steps...):
		return nil
	case err := <-k.refuses:
		return err
	}
}

// pauses is a timer that the test lets go on.
type pauses struct{ asked chan time.Duration }

func (p *pauses) wait(d time.Duration) <-chan time.Time {
	over := make(chan time.Time)
	go func() {
		p.asked <- d
		over <- time.Time{}
	}()
	return over
}

func TestFiftyQuickCallsAreKeptInOrder(t *testing.T) {
	s := openTemp(t, Options{})
	r := NewRecorder(s, RecorderOptions{})
	steps := evening(t, 50)
	for i, step := range steps {
		if ticket := r.Keep(step); ticket != uint64(i+1) {
			t.Fatalf("ticket %d for step %d", ticket, i+1)
		}
	}
	if err := closed(t, r); err != nil {
		t.Fatal(err)
	}
	if p := r.Progress(); p.Durable != uint64(len(steps)) || p.Issued != p.Durable || p.Err != nil {
		t.Fatalf("%+v", p)
	}
	k, err := s.Evening(steps[0].Session)
	if err != nil || len(k.Deliveries) != 50 || len(k.Log) != lastAction(steps) {
		t.Fatalf("%d deliveries, %d actions, %v", len(k.Deliveries), len(k.Log), err)
	}
	var want []model.ID
	for _, step := range steps {
		for _, c := range step.Changes {
			if c.Ref.Kind == model.DeliveryRecord {
				want = append(want, c.Ref.ID)
			}
		}
	}
	for i, d := range k.Deliveries {
		if d.ID != want[i] {
			t.Fatalf("delivery %d is %s, recorded was %s", i+1, d.ID, want[i])
		}
	}
}

func TestWhatIsQueuedSharesATransaction(t *testing.T) {
	k := newKeeper()
	r := newRecorder(k.keep, RecorderOptions{})
	steps := numbered(9)
	r.Keep(steps[0])
	first := received(t, k.kept, "a step is lost")
	for _, step := range steps[1:] {
		r.Keep(step)
	}
	all := first
	for len(all) < len(steps) {
		all = append(all, received(t, k.kept, "a step is lost")...)
	}
	until(t, r, func(p Progress) bool { return p.Durable == 9 })
	for i, step := range all {
		if step.Action.N != i+1 {
			t.Fatalf("step %d was kept at place %d", step.Action.N, i+1)
		}
	}
	if err := closed(t, r); err != nil {
		t.Error(err)
	}
}

func TestARefusalIsToldAndTriedAgainWithGrowingPauses(t *testing.T) {
	k, p := newKeeper(), &pauses{make(chan time.Duration)}
	r := newRecorder(k.keep, RecorderOptions{Wait: p.wait})
	full := errors.New("no space left")
	r.Keep(numbered(1)[0])
	last := time.Duration(0)
	for range 20 {
		k.refused(t, full)
		pause := received(t, p.asked, "no pause is made")
		if pause < last || pause > lastPause || last < lastPause && pause == last {
			t.Fatalf("a pause of %v after one of %v", pause, last)
		}
		last = pause
	}
	if p := until(t, r, func(p Progress) bool { return p.Err != nil }); !errors.Is(p.Err, full) || p.Durable != 0 {
		t.Fatalf("%+v", p)
	}
	r.Keep(model.Step{Action: model.Action{N: 2}})
	k.refused(t, full)
	received(t, p.asked, "no pause is made")
	kept := received(t, k.kept, "the steps that were refused are lost")
	if len(kept) != 2 || kept[0].Action.N != 1 || kept[1].Action.N != 2 {
		t.Fatalf("kept after the refusals: %+v", kept)
	}
	until(t, r, func(p Progress) bool { return p.Durable == 2 && p.Err == nil })
	if err := closed(t, r); err != nil {
		t.Error(err)
	}
}

func TestClosingDrainsWhatIsQueued(t *testing.T) {
	k, p := newKeeper(), &pauses{make(chan time.Duration)}
	r := newRecorder(k.keep, RecorderOptions{Wait: p.wait})
	for _, step := range numbered(3) {
		r.Keep(step)
	}
	k.refused(t, errors.New("not now"))
	received(t, p.asked, "no pause is made") // The pause is not waited for: closing cuts it short.
	done := make(chan error, 1)
	go func() { done <- r.Close() }()
	kept := 0
	for kept < 3 {
		select {
		case steps := <-k.kept:
			kept += len(steps)
		case <-p.asked:
		case <-time.After(patience):
			t.Fatalf("%d of 3 steps were kept, and no other came in %v", kept, patience)
		}
	}
	if err := received(t, done, "the recorder does not close"); err != nil || len(r.Unkept()) != 0 {
		t.Errorf("%v, %d not kept", err, len(r.Unkept()))
	}
}

func TestClosingWhileTheDiskRefusesSaysWhatIsNotKept(t *testing.T) {
	full := errors.New("no space left")
	var tries atomic.Int64
	now := func(time.Duration) <-chan time.Time {
		over := make(chan time.Time, 1)
		over <- time.Time{}
		return over
	}
	r := newRecorder(func(...model.Step) error { tries.Add(1); return full }, RecorderOptions{Wait: now})
	for _, step := range numbered(3) {
		r.Keep(step)
	}
	until(t, r, func(Progress) bool { return tries.Load() > 20 })
	before := tries.Load()
	err := closed(t, r)
	if !errors.Is(err, full) || !strings.Contains(err.Error(), "the last 3 calls could not be kept") {
		t.Errorf("closing: %v", err)
	}
	if n := tries.Load() - before; n < lastTries {
		t.Errorf("it gave up after %d more tries", n)
	}
	for i, step := range r.Unkept() {
		if step.Action.N != i+1 {
			t.Errorf("step %d is at place %d of what is not kept", step.Action.N, i+1)
		}
	}
	if r.Keep(model.Step{}) != 4 || len(r.Unkept()) != 4 {
		t.Error("a step after the end is lost")
	}
	if err := r.Close(); !errors.Is(err, full) {
		t.Errorf("closing again: %v", err)
	}
}

func TestAPanicIsAnErrorAndNoEnd(t *testing.T) {
	p := &pauses{make(chan time.Duration)}
	first := true
	r := newRecorder(func(...model.Step) error {
		if first {
			first = false
			panic("a page that is not there")
		}
		return nil
	}, RecorderOptions{Wait: p.wait})
	r.Keep(model.Step{})
	if p := until(t, r, func(p Progress) bool { return p.Err != nil }); !strings.Contains(p.Err.Error(), "a page that is not there") {
		t.Error(p.Err)
	}
	received(t, p.asked, "no pause is made")
	until(t, r, func(p Progress) bool { return p.Durable == 1 && p.Err == nil })
	if err := closed(t, r); err != nil {
		t.Error(err)
	}
}

// TestADiskThatRefusesAndThenTakes lets the library refuse to grow the file, as a full disk does.
func TestADiskThatRefusesAndThenTakes(t *testing.T) {
	s := openTemp(t, Options{})
	now := make(chan time.Time)
	r := NewRecorder(s, RecorderOptions{Wait: func(time.Duration) <-chan time.Time { return now }})
	info, err := os.Stat(s.Path())
	if err != nil {
		t.Fatal(err)
	}
	limit(s, int(info.Size()))
	steps := evening(t, 3000)
	for _, step := range steps {
		r.Keep(step)
	}
	p := until(t, r, func(p Progress) bool { return p.Err != nil })
	if p.Durable == uint64(len(steps)) || !errors.Is(p.Err, bolterrors.ErrMaxSizeReached) {
		t.Fatalf("%+v", p)
	}
	limit(s, 0)
	select {
	case now <- time.Time{}:
	case <-time.After(patience):
		t.Fatalf("nothing was waiting to try again in %v", patience)
	}
	until(t, r, func(p Progress) bool { return p.Durable == uint64(len(steps)) && p.Err == nil })
	if err := closed(t, r); err != nil {
		t.Fatal(err)
	}
	k, err := s.Evening(steps[0].Session)
	if err != nil || len(k.Deliveries) != 3000 || len(k.Log) != lastAction(steps) {
		t.Errorf("%d deliveries, %d of %d actions, %v", len(k.Deliveries), len(k.Log), lastAction(steps), err)
	}
	if n, err := s.Count(); n != 3000 || err != nil {
		t.Errorf("%d deliveries are counted, %v", n, err)
	}
}

func limit(s *Store, size int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.db.MaxSize = size
}
