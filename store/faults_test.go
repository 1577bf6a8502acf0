//go:build linux

package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"coach.settee/model"
	"golang.org/x/sys/unix"
)

// halfWritten is a file that takes half of what is written and then refuses, as often as it is told to.
type halfWritten struct {
	*os.File
	times int
}

func (h *halfWritten) WriteAt(b []byte, at int64) (int, error) {
	if h.times == 0 {
		return h.File.WriteAt(b, at)
	}
	h.times--
	n, _ := h.File.WriteAt(b[:len(b)/2], at)
	return n, syscall.EIO
}

func TestAFrameHalfWrittenIsWrittenAgain(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	steps := evening(t, 6)
	last := len(steps) - 1
	keepEach(t, s, steps[:last])
	disk := &halfWritten{s.journal.file.(*os.File), 3}
	s.journal.file = disk
	r := NewRecorder(s, RecorderOptions{Wait: func(time.Duration) <-chan time.Time {
		// What the crash would leave while the disk refuses.
		after := crashed(t, s, filepath.Join(t.TempDir(), "crashed.db"))
		defer after.Close()
		if n := actionsOf(t, after, steps[0].Session); n != lastAction(steps[:last]) {
			t.Errorf("%d of %d actions are there after half a frame", n, lastAction(steps[:last]))
		}
		return closedChannel()
	}})
	r.Keep(steps[last])
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	if disk.times != 0 {
		t.Fatalf("%d writes were not tried", disk.times)
	}
	if n := actionsOf(t, s, steps[0].Session); n != lastAction(steps) {
		t.Errorf("%d of %d actions are there", n, lastAction(steps))
	}
}

func closedChannel() <-chan time.Time {
	c := make(chan time.Time)
	close(c)
	return c
}

// smallDisk gives a directory on a disk of so many KB, and what fills it up.
func smallDisk(t *testing.T, size string) (dir string, fill func() (empty func())) {
	t.Helper()
	dir = t.TempDir()
	if err := unix.Mount("tmpfs", dir, "tmpfs", 0, "size="+size); err != nil {
		t.Skipf("no small disk can be mounted here (%v): a full disk is tried by its limit of a file's size only", err)
	}
	t.Cleanup(func() {
		if err := unix.Unmount(dir, 0); err != nil {
			t.Error(err)
		}
	})
	return dir, func() func() {
		filler := filepath.Join(dir, "other people's pictures")
		f, err := os.Create(filler)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		for block := make([]byte, 4096); err == nil; {
			_, err = f.Write(block)
		}
		if !errors.Is(err, syscall.ENOSPC) {
			t.Fatalf("filling the disk: %v", err)
		}
		return func() {
			if err := os.Remove(filler); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// On a full disk what the journal has room for is kept, and the rest is refused and kept when there is room; at no time is
// a kept step lost, a start on the full disk included.
func TestAFullDisk(t *testing.T) {
	dir, fill := smallDisk(t, "700k")
	path := filepath.Join(dir, "settee.db")
	s, err := Open(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	steps := evening(t, 900)
	if free, err := s.Free(); err != nil || free < 100<<10 || free > 700<<10 {
		t.Errorf("%d bytes are free of 700 KB, %v", free, err)
	}
	empty := fill()
	if free, err := s.Free(); err != nil || free != 0 {
		t.Errorf("%d bytes are free of none, %v", free, err)
	}
	kept, refused := 0, error(nil)
	for kept < len(steps) && refused == nil {
		if refused = s.Keep(steps[kept]); refused == nil {
			kept++
		}
	}
	if !errors.Is(refused, syscall.ENOSPC) {
		t.Fatalf("after %d of %d steps: %v", kept, len(steps), refused)
	}
	t.Logf("%d steps were kept on the full disk, then: %v", kept, refused)
	after := crashed(t, s, filepath.Join(t.TempDir(), "crashed.db"))
	defer after.Close()
	if n := actionsOf(t, after, steps[0].Session); n != lastAction(steps[:kept]) {
		t.Errorf("%d of %d actions are there", n, lastAction(steps[:kept]))
	}
	if _, err := SaveUnkept(filepath.Join(dir, "aside.jsonl"), steps[kept:]); !errors.Is(err, syscall.ENOSPC) {
		t.Errorf("writing what is not kept on the full disk: %v", err)
	}
	if left, _ := filepath.Glob(filepath.Join(dir, "*aside*")); len(left) != 0 {
		t.Errorf("%v is left", left)
	}
	if n, err := SaveUnkept(filepath.Join(t.TempDir(), "aside.jsonl"), steps[kept:]); n != len(steps)-kept || err != nil {
		t.Errorf("%d steps written elsewhere, %v", n, err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(path, Options{}); !errors.Is(err, syscall.ENOSPC) || !strings.Contains(err.Error(), "make room") {
		t.Errorf("opened on the full disk: %v", err)
	}
	empty()
	if s, err = Open(path, Options{}); err != nil {
		t.Fatal(err)
	}
	for part := range slicesOf(steps[kept:], 7) {
		if err := s.Keep(part...); err != nil {
			t.Fatal(err)
		}
	}
	if n := actionsOf(t, s, steps[0].Session); n != lastAction(steps) {
		t.Errorf("%d of %d actions are there", n, lastAction(steps))
	}
	if err := errors.Join(s.Close(), Check(path)); err != nil {
		t.Error(err)
	}
}

func slicesOf(steps []model.Step, n int) func(yield func([]model.Step) bool) {
	return func(yield func([]model.Step) bool) {
		for len(steps) > 0 && yield(steps[:min(n, len(steps))]) {
			steps = steps[min(n, len(steps)):]
		}
	}
}

// TestAStoreIsNotMadeOnAFullDisk leaves nothing where there is no room for a new store.
func TestAStoreIsNotMadeOnAFullDisk(t *testing.T) {
	dir, fill := smallDisk(t, "300k")
	empty := fill()
	path := filepath.Join(dir, "settee.db")
	if _, err := Open(path, Options{}); !errors.Is(err, syscall.ENOSPC) || !strings.Contains(err.Error(), path) {
		t.Errorf("made on a full disk: %v", err)
	}
	if left, _ := filepath.Glob(filepath.Join(dir, "*settee*")); len(left) != 0 {
		t.Errorf("%v is left", left)
	}
	if left, _ := filepath.Glob(filepath.Join(dir, ".*")); len(left) != 0 {
		t.Errorf("%v is left", left)
	}
	empty()
	s, err := Open(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Error(err)
	}
}

// In a directory that cannot be written to a store that is there works, and none is made; what is refused is said.
func TestADirectoryThatCannotBeWrittenTo(t *testing.T) {
	path := openTemp(t, Options{}).Path()
	dir := filepath.Dir(path)
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	own := filepath.Join(dir, "own.db")
	if err := os.WriteFile(own, file, 0o600); err != nil {
		t.Fatal(err)
	}
	locked := filepath.Join(dir, "locked.db")
	if err := os.WriteFile(locked, file, 0o400); err != nil {
		t.Fatal(err)
	}
	asNobody(t, dir, own, locked)
	s, err := Open(own, Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if err := s.Keep(firstStep(t)); err != nil {
		t.Error(err)
	}
	for what, err := range map[string]error{
		"a new store":         openOnly(filepath.Join(dir, "new.db")),
		"a locked store":      openOnly(locked),
		"a copy":              s.BackupTo(filepath.Join(dir, "copy.db"), nil),
		"what is not kept":    second(SaveUnkept(filepath.Join(dir, "aside.jsonl"), []model.Step{firstStep(t)})),
		"an automatic backup": second(s.AutoBackup(time.Unix(0, 0))),
	} {
		if !errors.Is(err, fs.ErrPermission) {
			t.Errorf("%s: %v", what, err)
		}
	}
}

func openOnly(path string) error {
	s, err := Open(path, Options{})
	if err == nil {
		err = s.Close()
	}
	return err
}

func second[T any](_ T, err error) error { return err }

// asNobody makes a directory one that nobody may write to and gives files in it to this goroutine, which from now on has
// no more rights than any user.
func asNobody(t *testing.T, dir string, files ...string) {
	t.Helper()
	if err := errors.Join(os.Chmod(dir, 0o555), os.Chmod(filepath.Dir(dir), 0o755)); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := os.Chmod(dir, 0o755); err != nil {
			t.Error(err)
		}
	})
	if os.Geteuid() != 0 {
		return
	}
	const nobody = 65534
	for _, file := range files {
		if err := os.Chown(file, nobody, nobody); err != nil {
			t.Fatal(err)
		}
	}
	// These are rights of a thread.
	runtime.LockOSThread()
	if _, err := unix.SetfsuidRetUid(nobody); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		defer runtime.UnlockOSThread()
		if _, err := unix.SetfsuidRetUid(0); err != nil {
			t.Error(err)
		}
	})
}
