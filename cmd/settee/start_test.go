package main

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"coach.settee/model"
	"coach.settee/store"
)

var startAt = time.Date(2026, time.March, 5, 9, 0, 0, 0, time.UTC)

// halfKept makes a store of an evening's first steps, sets the rest aside beside it, and gives both.
func halfKept(t *testing.T) (path, aside string, rest []model.Step) {
	t.Helper()
	evenings, err := inventEvenings(1)
	if err != nil {
		t.Fatal(err)
	}
	steps := evenings[0]
	half := len(steps) / 2
	path = filepath.Join(t.TempDir(), "lessons.db")
	keepSteps(t, path, steps[:half])
	_ = setAside(path, steps[half:], errors.New("the disk is full"))
	return path, path + ".unkept.jsonl", steps[half:]
}

func keepSteps(t *testing.T, path string, steps []model.Step) {
	t.Helper()
	s, err := store.Open(path, store.Options{NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(s.Keep(steps...), s.Close()); err != nil {
		t.Fatal(err)
	}
}

func contentOf(t *testing.T, path string) string {
	t.Helper()
	s, err := store.Open(path, store.Options{MustExist: true})
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	if err := errors.Join(s.Export(&out), s.Close()); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// What was set aside is taken in at the start, after a copy, and never again.
func TestWhatWasSetAsideIsTakenInAtTheStart(t *testing.T) {
	path, aside, rest := halfKept(t)
	before := contentOf(t, path)
	all := filepath.Join(t.TempDir(), "all.db")
	evenings, err := inventEvenings(1)
	if err != nil {
		t.Fatal(err)
	}
	keepSteps(t, all, evenings[0])

	var b board
	begun := prepare(path, startAt)
	begun.tell(&b)
	if !strings.Contains(b.brought, " calls that the disk had refused are in: lessons.db.taken-in.jsonl") || b.warning != "" {
		t.Errorf("it says %q and %q", b.brought, b.warning)
	}
	if got := contentOf(t, path); got != contentOf(t, all) {
		t.Error("the store is not what it would have been")
	}
	made, err := store.Backups(path)
	if err != nil || len(made) != 1 || contentOf(t, made[0].Path) != before {
		t.Errorf("copies: %v, %v", made, err)
	}
	if _, err := os.Stat(aside); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the file has its name still: %v", err)
	}
	if again := prepare(path, startAt); len(again.did)+len(again.undone) != 0 {
		t.Errorf("at the next start: %+v", again)
	}

	// The next files have names of their own.
	_ = setAside(path, rest, errors.New("the disk is full"))
	if again := prepare(path, startAt); strings.Join(again.did, "") != "what the disk had refused was kept after all: lessons.db.taken-in-2.jsonl" {
		t.Errorf("of the same once more: %+v", again)
	}
}

// Where it cannot be taken in, the store and the file stay as they are, and what to do is said.
func TestWhatCannotBeTakenInStays(t *testing.T) {
	path, aside, _ := halfKept(t)
	second := path + ".unkept-2.jsonl"
	for file, with := range map[string]string{aside: `"type":"delivery"`, second: ""} {
		lines, err := os.ReadFile(aside)
		if err != nil {
			t.Fatal(err)
		}
		if file == second {
			// Not one of ours, and never taken.
			file = path + ".unkept-02.jsonl"
		}
		if err := os.WriteFile(file, []byte(strings.Replace(string(lines), with, `"type":"ball"`, 1)), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	before := contentOf(t, path)
	b := board{warning: "the settings file says tight = maybe"}
	begun := prepare(path, startAt)
	begun.tell(&b)
	if !strings.HasPrefix(b.warning, "what the disk had refused is still in lessons.db.unkept.jsonl, and not in the store: line ") ||
		!strings.HasSuffix(b.warning, "; the settings file says tight = maybe") || b.brought != "" {
		t.Errorf("it says %q and %q", b.warning, b.brought)
	}
	var said strings.Builder
	begun.explain(&said)
	if !strings.Contains(said.String(), `the type "ball" is none of`) || !strings.Contains(said.String(), bringing(aside, path)) ||
		strings.Count(said.String(), "\n") != 1 {
		t.Errorf("after leaving it says %q", said.String())
	}
	if _, err := os.Stat(aside); err != nil || contentOf(t, path) != before {
		t.Errorf("something has changed, %v", err)
	}
	if made, err := store.Backups(path); err != nil || len(made) != 0 {
		t.Errorf("copies: %v, %v", made, err)
	}
}

// What waits beside the store is taken in before somebody is erased: the calls of the others would be lost else.
func TestErasingTakesInFirst(t *testing.T) {
	path, aside, _ := halfKept(t)
	all := filepath.Join(t.TempDir(), "all.db")
	evenings, err := inventEvenings(1)
	if err != nil {
		t.Fatal(err)
	}
	keepSteps(t, all, evenings[0])
	for _, in := range []string{path, all} {
		var out, errOut strings.Builder
		code := run(t.Context(), []string{"erase", "--store", in, "--yes", "--backups", "Odo Marchwick"}, nil, &out, &errOut)
		if code != exitDone || strings.Contains(errOut.String(), "that the disk had refused are in") != (in == path) {
			t.Fatalf("%s: %d\n%s%s", in, code, out.String(), errOut.String())
		}
	}
	if contentOf(t, path) != contentOf(t, all) {
		t.Error("the store is not what it would have been")
	}
	if _, err := os.Stat(aside); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the file has its name still: %v", err)
	}
}

func TestNothingIsTakenInWhereThereIsNoStore(t *testing.T) {
	path, aside, _ := halfKept(t)
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if begun := prepare(path, startAt); len(begun.did)+len(begun.undone) != 0 {
		t.Errorf("%+v", begun)
	}
	if _, err := os.Stat(aside); err != nil {
		t.Error(err)
	}
	if _, err := os.Stat(path); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a store was made: %v", err)
	}
}

// A store that others can read is its owner's alone from then on, and that is said once.
func TestAStoreThatOthersCanReadIsMadePrivate(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("there are no permissions to look at")
	}
	path := filepath.Join(t.TempDir(), "lessons.db")
	keepSteps(t, path, nil)
	for mode, want := range map[os.FileMode]os.FileMode{0o644: 0o600, 0o660: 0o600, 0o440: 0o400} {
		if err := os.Chmod(path, mode); err != nil {
			t.Fatal(err)
		}
		if begun := prepare(path, startAt); strings.Join(begun.did, "; ") != privateWords || len(begun.undone) != 0 {
			t.Errorf("at %o: %+v", mode, begun)
		}
		if info, err := os.Stat(path); err != nil || info.Mode().Perm() != want {
			t.Errorf("it is %v, %v", info.Mode(), err)
		}
		if again := prepare(path, startAt); len(again.did) != 0 {
			t.Errorf("once more: %+v", again)
		}
	}
}

// What was written elsewhere while the disk refused has another name once all of it is kept.
func TestWhatWasKeptElsewhereIsSettled(t *testing.T) {
	path, file, _ := halfKept(t)
	s, err := store.Open(path, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	a := aside{store: s, written: []string{file}}
	var said strings.Builder
	a.settled(&said)
	if want := "settee: all that " + file + " holds was kept after all: it is " + path + ".taken-in.jsonl now\n"; said.String() != want {
		t.Errorf("it says %q", said.String())
	}
	if _, err := os.Stat(path + ".taken-in.jsonl"); err != nil {
		t.Error(err)
	}
}

// Leaving makes a copy where none is, and none where one was made within the hour.
func TestLeavingMakesACopyThatIsDue(t *testing.T) {
	path, _, _ := halfKept(t)
	s, err := store.Open(path, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	for after, want := range map[time.Duration]int{0: 1} {
		copyOnLeaving(s, startAt.Add(after), t.Output())
		copyOnLeaving(s, startAt.Add(after+59*time.Minute), t.Output())
		if made, err := store.Backups(path); err != nil || len(made) != want {
			t.Errorf("%d copies, %v, not %d", len(made), err, want)
		}
	}
	inTheWay := filepath.Join(filepath.Dir(path), "lessons-backups")
	if err := errors.Join(os.RemoveAll(inTheWay), os.WriteFile(inTheWay, nil, 0o600)); err != nil {
		t.Fatal(err)
	}
	var said strings.Builder
	copyOnLeaving(s, startAt, &said)
	if !strings.HasPrefix(said.String(), "settee: the copy of the store that is due was not made (") {
		t.Errorf("it says %q", said.String())
	}
}
