package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"coach.settee/store"
)

func TestSetAside(t *testing.T) {
	evenings, err := inventEvenings(1)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "lessons.db")
	why := errors.New("the last 300 calls could not be kept: the disk is full")

	t.Run("writes beside the store what import reads", func(t *testing.T) {
		err := setAside(path, evenings[0], why)
		command := "type settee import --newer " + path + ".unkept.jsonl --store " + path
		if !errors.Is(err, why) || !strings.HasSuffix(err.Error(), command) {
			t.Errorf("says %q", err)
		}
		lines, err := os.Open(path + ".unkept.jsonl")
		if err != nil {
			t.Fatal(err)
		}
		defer lines.Close()
		if _, err := store.Import(path, lines); err != nil {
			t.Error(err)
		}
	})
	t.Run("does not write over what is there", func(t *testing.T) {
		before, err := os.ReadFile(path + ".unkept.jsonl")
		if err != nil {
			t.Fatal(err)
		}
		if err := setAside(path, evenings[1], why); !strings.Contains(err.Error(), path+".unkept-2.jsonl") {
			t.Errorf("says %q", err)
		}
		after, err := os.ReadFile(path + ".unkept.jsonl")
		if err != nil || string(before) != string(after) {
			t.Errorf("the first file has changed (%v)", err)
		}
	})
	t.Run("goes elsewhere where there is no place beside the store", func(t *testing.T) {
		home := t.TempDir()
		t.Setenv("HOME", home)
		err := setAside(filepath.Join(dir, "gone", "lessons.db"), evenings[0], why)
		file := filepath.Join(home, "lessons.db.unkept.jsonl")
		if !errors.Is(err, why) || errors.Is(err, os.ErrNotExist) || !strings.Contains(err.Error(), file) {
			t.Errorf("says %q", err)
		}
		if info, err := os.Stat(file); err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("the file is %v, %v", info, err)
		}
	})
	t.Run("says where it could not be written either", func(t *testing.T) {
		t.Setenv("HOME", filepath.Join(dir, "no home"))
		t.Setenv("TMPDIR", filepath.Join(dir, "no room"))
		err := setAside(filepath.Join(dir, "gone", "lessons.db"), evenings[0], why)
		if !errors.Is(err, why) || !errors.Is(err, os.ErrNotExist) {
			t.Errorf("says %q", err)
		}
		for _, place := range []string{"gone", "no home", "no room"} {
			if !strings.Contains(err.Error(), filepath.Join(dir, place)) {
				t.Errorf("does not name %s: %q", place, err)
			}
		}
	})
}
