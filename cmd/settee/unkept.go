package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"unicode"

	"coach.settee/model"
	"coach.settee/store"
)

// setAside writes calls that the store could not keep beside it, or where there is no room in another place, as lines of
// the exchange format, and adds to why it could not where they are and what brings them in.
func setAside(path string, steps []model.Step, why error) error {
	failed := why
	for _, dir := range append([]string{filepath.Dir(path)}, elsewhere()...) {
		name := store.UnkeptName(filepath.Join(dir, filepath.Base(path)))
		_, err := store.SaveUnkept(name, steps)
		if err == nil {
			next := "once the disk takes them again, type "
			if dir == filepath.Dir(path) {
				next = "the next start takes them in, once the disk takes them again, or type "
			}
			return fmt.Errorf("%w; they are in %s: %s%s", why, name, next, bringing(name, path))
		}
		failed = fmt.Errorf("%w; they could not be written in %s either: %w", failed, dir, err)
	}
	return failed
}

// bringing gives the command that brings a file of what was not kept into the store at path.
func bringing(name, path string) string {
	words := "settee import --newer " + shellWord(name)
	if usual, err := store.DefaultPath(); err != nil || usual != path {
		words += " --store " + shellWord(path)
	}
	return words
}

// shellWord gives a path as a shell takes it for one word.
func shellWord(path string) string {
	plain := "/:.,_-+@%~"
	if runtime.GOOS == "windows" {
		plain += `\`
	}
	odd := func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune(plain, r)
	}
	switch {
	case path != "" && !strings.ContainsFunc(path, odd):
		return path
	case runtime.GOOS == "windows":
		// No name of a file has a quotation mark there.
		return `"` + path + `"`
	}
	return "'" + strings.ReplaceAll(path, "'", `'\''`) + "'"
}

// aside writes what a recorder could not keep to where the coach says.
type aside struct {
	store    *store.Store
	recorder *store.Recorder
	// mu guards written, the files that it wrote.
	mu      sync.Mutex
	written []string
}

// write writes it into a new file, under a name of its own where path is a directory.
func (a *aside) write(path string) (file string, steps int, err error) {
	if rest, ok := strings.CutPrefix(path, "~"+string(filepath.Separator)); ok {
		home, err := os.UserHomeDir()
		if err != nil {
			return "", 0, err
		}
		path = filepath.Join(home, rest)
	}
	path, err = filepath.Abs(path)
	if err != nil {
		return "", 0, err
	}
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		path = store.UnkeptName(filepath.Join(path, filepath.Base(a.store.Path())))
	}
	unkept := a.recorder.Unkept()
	if len(unkept) == 0 {
		return "", 0, nil
	}
	steps, err = store.SaveUnkept(path, unkept)
	if err == nil {
		a.mu.Lock()
		a.written = append(a.written, path)
		a.mu.Unlock()
	}
	return path, steps, err
}

// settled gives the files that were written other names once all that is in them is kept: what is corrected from then on is
// newer than they are.
func (a *aside) settled(out io.Writer) {
	a.mu.Lock()
	defer a.mu.Unlock()
	for _, file := range a.written {
		name, err := store.SetTakenIn(a.store.Path(), file)
		words := fmt.Sprintf("all that %s holds was kept after all: it is %s now", file, name)
		switch {
		case err != nil:
			words = oneLine(err) + ": do not import it later"
		case name == file:
			continue
		}
		_, _ = fmt.Fprintln(out, "settee: "+words)
	}
}

// proposed names a file in the first other place that has room, in the last where none has.
func (a *aside) proposed() string {
	in := filepath.Dir(a.store.Path())
	for _, in = range elsewhere() {
		if free, err := store.FreeIn(in); err == nil && free > leastRoom {
			break
		}
	}
	return store.UnkeptName(filepath.Join(in, filepath.Base(a.store.Path())))
}

// leastRoom is the number of bytes that more than an evening of lines fits into.
const leastRoom = 4 << 20

// elsewhere gives directories that may be on another disk than the store is.
func elsewhere() []string {
	dirs := []string{os.TempDir()}
	if home, err := os.UserHomeDir(); err == nil {
		dirs = append([]string{home}, dirs...)
	}
	return dirs
}
