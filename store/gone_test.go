//go:build unix

package store

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"coach.settee/model"
)

// A step that would go into a file that is no longer at its path is refused, so that the board says so.
func TestAFileTakenAwayWhileItIsOpen(t *testing.T) {
	for what, take := range map[string]func(path string) error{
		"removed":  os.Remove,
		"replaced": func(path string) error { return os.WriteFile(path+".other", []byte("other"), 0o600) },
	} {
		path := filepath.Join(t.TempDir(), "settee.db")
		s, err := Open(path, Options{})
		if err != nil {
			t.Fatal(err)
		}
		step := model.Step{Changes: []model.Change{{
			Ref: model.Ref{Kind: model.StudentRecord, ID: "a"}, After: model.Student{ID: "a", Name: "Ada", Hand: model.RightHand},
		}}}
		if err := s.Keep(step); err != nil {
			t.Fatalf("%s: before it was, %v", what, err)
		}
		if err := take(path); err != nil {
			t.Fatal(err)
		}
		if what == "replaced" {
			if err := os.Rename(path+".other", path); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.Keep(step); err == nil || !strings.Contains(err.Error(), "removed or replaced") {
			t.Errorf("%s: %v", what, err)
		}
		s.Close()
	}
}

func TestRepairRefusesANewerStore(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	write(t, path, newerStore(t))
	target := filepath.Join(t.TempDir(), "repaired.db")
	if _, err := Repair(path, target, nil); err == nil || !strings.Contains(err.Error(), "newer Settee") {
		t.Errorf("a newer store was taken for a damaged one: %v", err)
	}
	if _, err := os.Stat(target); err == nil {
		t.Error("a file was made of it")
	}
}
