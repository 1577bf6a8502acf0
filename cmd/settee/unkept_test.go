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
		if !errors.Is(err, why) || !strings.Contains(err.Error(), path+".unkept.jsonl") {
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
	t.Run("says where it could not be written either", func(t *testing.T) {
		err := setAside(filepath.Join(dir, "gone", "lessons.db"), evenings[0], why)
		if !errors.Is(err, why) || !errors.Is(err, os.ErrNotExist) {
			t.Errorf("says %q", err)
		}
	})
}
