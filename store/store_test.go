package store

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/adrg/xdg"
)

func openTemp(t testing.TB, o Options) *Store {
	t.Helper()
	s, err := Open(filepath.Join(t.TempDir(), "settee.db"), o)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	})
	return s
}

func TestTheFirstRunMakesTheStore(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "data", "settee")
	path := filepath.Join(dir, "settee.db")
	if _, err := Open(path, Options{MustExist: true}); !errors.Is(err, ErrAbsent) || !strings.Contains(err.Error(), path) {
		t.Fatalf("a store that has to be there and is not: %v", err)
	}
	if _, err := os.Stat(dir); err == nil {
		t.Fatal("a store that has to be there was made")
	}
	s, err := Open(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if s.Path() != path {
		t.Errorf("the path is %s", s.Path())
	}
	files, err := os.ReadDir(dir)
	if err != nil || len(files) != 1 {
		t.Errorf("there are %v beside the store, %v", files, err)
	}
	if runtime.GOOS == "windows" {
		return
	}
	for _, name := range []string{dir, path} {
		info, err := os.Stat(name)
		if err != nil {
			t.Fatal(err)
		}
		if others := info.Mode().Perm() & 0o077; others != 0 {
			t.Errorf("%s is open to others: %v", name, info.Mode())
		}
	}
}

func TestASecondOpenerIsToldWithinASecond(t *testing.T) {
	s := openTemp(t, Options{})
	_, err := Open(s.Path(), Options{})
	want := "another Settee has this store open (" + s.Path() + "): close it there, or give another file with --store"
	if !errors.Is(err, ErrInUse) || err.Error() != want {
		t.Errorf("the second opener is told: %v", err)
	}
	if err := Check(s.Path()); !errors.Is(err, ErrInUse) {
		t.Errorf("checking a store that is open: %v", err)
	}
	if 2*lockWait >= time.Second {
		t.Errorf("both waits for the lock take %v", 2*lockWait)
	}
}

func TestManyWhoOpenANewStoreAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	var all sync.WaitGroup
	stores, errs := make([]*Store, 6), make([]error, 6)
	for i := range stores {
		all.Go(func() { stores[i], errs[i] = Open(path, Options{}) })
	}
	all.Wait()
	opened := 0
	for i, s := range stores {
		switch {
		case errs[i] == nil:
			opened++
			defer s.Close()
		case !errors.Is(errs[i], ErrInUse):
			t.Error(errs[i])
		}
	}
	// Those who look at the file share its lock, and may keep each other from opening it.
	if opened > 1 {
		t.Errorf("%d have the store open", opened)
	}
}

func TestAFileThatWasReplacedMeanwhileIsNotOpened(t *testing.T) {
	dir := t.TempDir()
	path, other := filepath.Join(dir, "settee.db"), filepath.Join(dir, "other.db")
	for _, name := range []string{path, other} {
		if err := os.WriteFile(name, nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	held, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer held.Close()
	if err := stillThere(held, path); err != nil {
		t.Error(err)
	}
	if err := stillThere(held, other); !errors.Is(err, ErrInUse) {
		t.Errorf("another file at the path: %v", err)
	}
	if err := stillThere(held, filepath.Join(dir, "gone")); !errors.Is(err, ErrInUse) {
		t.Errorf("no file at the path: %v", err)
	}
}

func TestTheDefaultPath(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("XDG_DATA_HOME", dir)
	xdg.Reload()
	t.Cleanup(xdg.Reload)
	t.Setenv(EnvStore, "")
	if path, err := DefaultPath(); path != filepath.Join(dir, "settee", "settee.db") || err != nil {
		t.Errorf("%s, %v", path, err)
	}
	t.Setenv(EnvStore, "elsewhere.db")
	if path, err := DefaultPath(); path != "elsewhere.db" || err != nil {
		t.Errorf("%s, %v", path, err)
	}
}

func TestAStoreThatIsClosedSaysSo(t *testing.T) {
	s := openTemp(t, Options{})
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Students(); err == nil {
		t.Error("a closed store is read")
	}
	step := firstStep(t)
	if err := s.Keep(step); err == nil {
		t.Error("a closed store keeps")
	}
}
