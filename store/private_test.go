//go:build unix

package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"

	"coach.settee/model"
)

// Whatever the account's umask is, what this package writes is its owner's alone; a directory that was there is as it was.
func TestFilesAreTheirOwnersAlone(t *testing.T) {
	home := t.TempDir()
	defer syscall.Umask(syscall.Umask(0))
	if err := os.Chmod(home, 0o755); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(home, "data", "settee", "settee.db")
	s, err := Open(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	fill(t, s, 50, 10)
	autoBackup(t, s, nine)
	if err := errors.Join(s.BackupTo(filepath.Join(home, "may.db"), nil), s.Close()); err != nil {
		t.Fatal(err)
	}
	export := exported(t, path)
	if _, err := Restore(path, filepath.Join(home, "may.db"), nine, nil); err != nil {
		t.Fatal(err)
	}
	if _, err := Restore(filepath.Join(home, "new", "laptop", "settee.db"), path, nine, nil); err != nil {
		t.Fatal(err)
	}
	if _, err := Import(filepath.Join(home, "taken", "settee.db"), strings.NewReader(string(export))); err != nil {
		t.Fatal(err)
	}
	if _, err := SaveUnkept(path+".unkept.jsonl", []model.Step{{Changes: []model.Change{{
		Ref: invented(0).Ref(), After: invented(0)}}}}); err != nil {
		t.Fatal(err)
	}
	told, err := Erase(path, invented(0).ID, nil)
	if err != nil {
		t.Fatal(err)
	}
	found, err := CopiesOf(path, &told, nil)
	if err != nil || len(found) != 3 {
		t.Fatalf("%v, found are %v", err, found)
	}
	for _, c := range found {
		if err := c.Cleanse(&told, nil); err != nil {
			t.Fatal(err)
		}
	}
	var files []string
	for path, mode := range modes(t, home) {
		files = append(files, path)
		want := fs.FileMode(0o600)
		switch {
		case path == ".":
			want = fs.ModeDir | 0o755
		case mode.IsDir():
			want = fs.ModeDir | 0o700
		}
		if mode != want {
			t.Errorf("%s has %v, not %v", path, mode, want)
		}
	}
	if slices.Sort(files); len(files) != 14 {
		t.Errorf("there are %q", files)
	}
}

// modes gives the modes of a directory and of all in it, by path from there.
func modes(t testing.TB, dir string) map[string]fs.FileMode {
	t.Helper()
	all := map[string]fs.FileMode{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		name, err := filepath.Rel(dir, path)
		all[name] = info.Mode()
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}
