package store

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// A copy is due where the newest is an hour old, or there is none and something is kept.
func TestACopyIsMadeWhenOneIsDue(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	s := mustOpen(t, path)
	look := func(at time.Time, next time.Duration, copies int) {
		t.Helper()
		got, err := s.BackupIfDue(at)
		if err != nil || got != next {
			t.Errorf("at %s: again in %v, %v, not in %v", at.Format(time.TimeOnly), got, err, next)
		}
		if made, err := Backups(path); err != nil || len(made) != copies {
			t.Errorf("at %s: %d copies, %v, not %d", at.Format(time.TimeOnly), len(made), err, copies)
		}
	}
	look(nine, 5*time.Minute, 0)
	fill(t, s, 20, 10)
	look(nine, time.Hour, 1)
	fill(t, s, 20, 10)
	look(nine.Add(20*time.Minute), 40*time.Minute, 1)
	look(nine.Add(59*time.Minute+59*time.Second), time.Second, 1)
	look(nine.Add(time.Hour), time.Hour, 2)
	// Nothing is kept since: the newest copy is the store.
	look(nine.Add(5*time.Hour), time.Hour, 2)
	fill(t, s, 20, 10)
	look(nine.Add(6*time.Hour), time.Hour, 3)

	// One that is cut off is none: what is in the store is copied anew.
	made, err := Backups(path)
	if err != nil {
		t.Fatal(err)
	}
	for i, size := range []int64{0, 4096, made[0].Size - 1} {
		if err := os.Truncate(made[0].Path, size); err != nil {
			t.Fatal(err)
		}
		fill(t, s, 20, 10)
		look(nine.Add(6*time.Hour+time.Duration(i+1)*time.Minute), time.Hour, 4+i)
		if made, err = Backups(path); err != nil {
			t.Fatal(err)
		}
	}

	// One that is dated later than now was made by a clock that was wrong.
	fill(t, s, 20, 10)
	look(nine.Add(-24*time.Hour), time.Hour, 7)
}

func TestACopyThatFailsIsTriedAgain(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "settee.db")
	s := mustOpen(t, path)
	fill(t, s, 20, 10)
	inTheWay := filepath.Join(dir, "settee-backups")
	if err := os.WriteFile(inTheWay, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if next, err := s.BackupIfDue(nine); err == nil || next != 5*time.Minute {
		t.Errorf("again in %v, %v", next, err)
	}
	if err := os.Remove(inTheWay); err != nil {
		t.Fatal(err)
	}
	if next, err := s.BackupIfDue(nine); err != nil || next != time.Hour {
		t.Errorf("again in %v, %v", next, err)
	}
}

// A copy that is dated later than now was made by a clock that was wrong: it is taken only where there is no other.
func TestACopyDatedLaterIsTakenLast(t *testing.T) {
	dir := t.TempDir()
	path, later := filepath.Join(dir, "settee.db"), time.Date(2999, 1, 1, 12, 0, 0, 0, time.UTC)
	s := mustOpen(t, path)
	wrong := autoBackup(t, s, later)
	fill(t, s, 20, 10)
	good := autoBackup(t, s, nine)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	write(t, path, nil)
	for _, want := range []string{good, wrong} {
		if _, err := Open(path, Options{}); err == nil || !strings.Contains(err.Error(), want+" puts it in its place") {
			t.Errorf("not %s: %v", want, err)
		}
		out := filepath.Join(dir, "out.db")
		b, err := CopyBackup(path, out, nil)
		if err != nil || b.Path != want {
			t.Errorf("copied is %s, %v, not %s", b.Path, err, want)
		}
		if err := errors.Join(os.Remove(out), os.Remove(want)); err != nil {
			t.Fatal(err)
		}
	}
}
