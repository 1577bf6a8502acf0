//go:build linux && amd64

package store

import (
	"bytes"
	"errors"
	"fmt"
	"hash/crc32"
	"math/rand/v2"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"coach.settee/model"
	"golang.org/x/sys/unix"
)

// powerPath and powerPart are the environment variables by which the test binary, started again, is told to be the process
// that is traced: the store's path, and which batches of powerBatches it keeps.
const (
	powerPath = "SETTEE_TEST_POWER"
	powerPart = "SETTEE_TEST_POWER_PART"
)

// powerBatches gives an evening as the recorder hands it to the store: some steps at a time, with what was taken back, and
// closed at the end.
func powerBatches(t testing.TB) [][]model.Step {
	var steps []model.Step
	c := newCoach(t, 21, func(step model.Step) { steps = append(steps, step) })
	c.begin(4)
	for i := range 330 {
		c.bowl(1)
		if i%9 == 8 {
			c.do(c.evening.Undo())
			c.evening.Clear()
		}
	}
	c.close()
	var batches [][]model.Step
	for i := 0; len(steps) > 0; i++ {
		n := min([]int{1, 1, 3, 1, 2}[i%5], len(steps))
		batches, steps = append(batches, steps[:n]), steps[n:]
	}
	return batches
}

// TestRecordsForTheTracer is the process that is traced. It keeps batches, what is refused together with the next, as the
// recorder does, and says what it is about to keep and what is kept. It reads now and then, and in the middle it closes
// the store and opens it again.
func TestRecordsForTheTracer(t *testing.T) {
	path := os.Getenv(powerPath)
	if path == "" {
		t.Skip("only as the process that is traced")
	}
	var done, to int
	if _, err := fmt.Sscan(os.Getenv(powerPart), &done, &to); err != nil {
		t.Fatal(err)
	}
	batches := powerBatches(t)
	open := func() *Store {
		for try := 0; ; try++ {
			s, err := Open(path, Options{})
			if err == nil {
				return s
			}
			if try == 50 {
				t.Fatal(err)
			}
		}
	}
	s, middle := open(), (done+to)/2
	for queued, tries := done, 0; done < to; {
		if queued < min(to, done+1+tries%3) {
			queued++
			fmt.Println("keep", queued)
		}
		var steps []model.Step
		for _, b := range batches[done:queued] {
			steps = append(steps, b...)
		}
		if err := s.Keep(steps...); err != nil {
			if tries++; tries == 200 {
				t.Fatal(err)
			}
			continue
		}
		done, tries = queued, 0
		fmt.Println("kept", done)
		if done%30 == 0 {
			_, _ = s.Students()
		}
		if done > middle {
			middle = to
			_ = s.Close()
			s = open()
		}
	}
	_ = s.Close()
}

// tracedEvening is an evening as it was traced.
type tracedEvening struct {
	path  string
	calls []*sysCall
}

// record traces the process that keeps the batches from one on up to another, in the store at path.
func record(t *testing.T, path string, from, to int, judge func(*sysCall) verdict) tracedEvening {
	t.Helper()
	r := tracedEvening{path: path}
	env := []string{powerPath + "=" + path, fmt.Sprintf("%s=%d %d", powerPart, from, to)}
	code := traceSelf(t, "TestRecordsForTheTracer", env, judge, func(c *sysCall) { r.calls = append(r.calls, c) })
	if code != 0 {
		t.Fatalf("the process ended with %d", code)
	}
	return r
}

func passAll(*sysCall) verdict { return verdict{} }

// poweredStates are what states has found: they are the same for every test.
var poweredStates []uint32

// states gives what a store tells of the evening after each number of batches.
func states(t *testing.T, batches [][]model.Step) []uint32 {
	t.Helper()
	if poweredStates != nil {
		return poweredStates
	}
	s := openTemp(t, Options{NoSync: true})
	session := batches[0][0].Session
	out := []uint32{stateOf(t, s, session)}
	for _, b := range batches {
		if err := s.Keep(b...); err != nil {
			t.Fatal(err)
		}
		out = append(out, stateOf(t, s, session))
	}
	poweredStates = out
	return out
}

// stateOf gives a number for all that a store holds, and resumes its evening.
func stateOf(t *testing.T, s *Store, session model.ID) uint32 {
	t.Helper()
	b, err := exportOf(s)
	if err != nil {
		t.Fatal(err)
	}
	k, err := s.Evening(session)
	if errors.Is(err, ErrNoSession) {
		return crc32.ChecksumIEEE(b)
	}
	if err != nil {
		t.Fatal(err)
	}
	b = fmt.Appendf(b, "%+v %d", k.Up, k.Serial)
	for _, entry := range k.Log {
		b = append(b, encodeEntry(session, actionKey(0, entry.N), entry)...)
	}
	if _, err := model.Resume(k); err != nil {
		t.Fatalf("the evening is not resumed: %v", err)
	}
	return crc32.ChecksumIEEE(b)
}

func newOutage(t *testing.T, batches [][]model.Step) *outage {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	many := 1
	if os.Getenv("SETTEE_LONG") != "" {
		many = 20
	}
	return &outage{
		t: t, random: rand.New(rand.NewPCG(seed, 0)), states: states(t, batches), path: filepath.Join(quickDir(t), "left.db"),
		session: batches[0][0].Session, many: many, seen: map[uint32]bool{},
	}
}

// TestPowerLoss records an evening from the first start of the program on, with its closing and growth, takes the power
// away after each call to the system, and opens what may be on the disk then: all that had been shown as kept is there, in
// order, and of what was on its way all of a batch or nothing. From one of these files on it records again, and so once
// more: the power may also go while a file is settled after an outage.
func TestPowerLoss(t *testing.T) {
	if testing.Short() {
		t.Skip("left out with -short: what is traced is a process of its own")
	}
	batches := powerBatches(t)
	o := newOutage(t, batches)
	path := filepath.Join(t.TempDir(), "data", "settee.db")
	var base []byte
	from, made := 0, map[string]int{}
	for part := range 3 {
		to := len(batches) * (part + 1) / 3
		if base != nil {
			if err := os.WriteFile(path, base, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		r := record(t, path, from, to, passAll)
		for _, c := range r.calls {
			made[callNames[c.nr]]++
		}
		left, holds := o.power(r, base, from)
		t.Logf("part %d: batches %d to %d, %d calls, %d images by now", part, from, to, len(r.calls), o.images)
		if left == nil {
			t.Fatal("no file is left to go on from")
		}
		base, from = bytes.Clone(left), holds
	}
	t.Logf("%v; %d files opened; in %d of them more was there than had been shown, %d say that a call may be missing",
		made, o.images, o.late, o.broken)
	if o.late == 0 || o.broken == 0 {
		t.Error("no outage came between a write and its being shown, or in the midst of one: the test has lost its sight")
	}
	// One ftruncate makes the file as large as it is made, another makes it grow.
	if made["ftruncate"] < 2 || made["linkat"] != 1 {
		t.Errorf("the evening does not make the store and have it grow: %v", made)
	}
}

// TestPowerLossAfterFailedCalls is TestPowerLoss on a disk that now and then refuses a write or a sync, or reports that a
// sync failed that was done. What was written before a failed sync may never reach the disk.
func TestPowerLossAfterFailedCalls(t *testing.T) {
	batches := powerBatches(t)
	o := newOutage(t, batches)
	path := filepath.Join(t.TempDir(), "data", "settee.db")
	failed := map[string]int{}
	r := record(t, path, 0, len(batches)/2, func(c *sysCall) verdict {
		if c.file != path || o.random.IntN(6) > 0 {
			return verdict{}
		}
		switch c.nr {
		case unix.SYS_PWRITE64, unix.SYS_FTRUNCATE:
			failed["refused "+callNames[c.nr]]++
			return verdict{refuse: []syscall.Errno{syscall.EIO, syscall.ENOSPC}[o.random.IntN(2)]}
		case unix.SYS_FSYNC, unix.SYS_FDATASYNC:
			if o.random.IntN(2) == 0 {
				failed["refused "+callNames[c.nr]]++
				return verdict{refuse: syscall.EIO}
			}
			failed["failed, though done, "+callNames[c.nr]]++
			return verdict{report: syscall.EIO}
		}
		return verdict{}
	})
	o.power(r, nil, 0)
	t.Logf("%v; %d files opened; in %d of them more was there than had been shown", failed, o.images, o.late)
}

// TestAFailedLastSyncIsNotDoubled lets the sync of the head fail whenever what the journal holds is settled, after the head
// is written: the record may be there all the same, and the retry keeps it once.
func TestAFailedLastSyncIsNotDoubled(t *testing.T) {
	batches := powerBatches(t)
	o := newOutage(t, batches)
	path := filepath.Join(t.TempDir(), "data", "settee.db")
	head, failed := false, 0
	to := len(batches) / 3
	r := record(t, path, 0, to, func(c *sysCall) verdict {
		isHead := c.file == path && c.nr == unix.SYS_PWRITE64 && c.at < 2*4096 && len(c.data) == 4096
		wasHead := head
		head = isHead
		if !wasHead || c.nr != unix.SYS_FDATASYNC {
			return verdict{}
		}
		// Every second one succeeds, or nothing ever would.
		switch failed++; failed % 4 {
		case 1:
			return verdict{report: syscall.EIO}
		case 3:
			return verdict{refuse: syscall.EIO}
		}
		return verdict{}
	})
	if failed < 4 {
		t.Fatalf("the head was synced %d times", failed)
	}
	o.power(r, nil, 0)
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	// The file may be one of those that were opened: here it counts all the same.
	clear(o.seen)
	if n := o.look(file, "at the end", to, to, true); n != to {
		t.Errorf("%d batches are there, not %d", n, to)
	}
	t.Logf("%d syncs of a head, every second failed; %d files opened", failed, o.images)
}
