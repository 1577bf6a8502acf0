package store

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"coach.settee/model"
)

// TestALeftoverOfACopyIsSweptAway leaves what killed copies to a target leave, and beside it what is somebody else's.
func TestALeftoverOfACopyIsSweptAway(t *testing.T) {
	copies := map[string]func(s *Store, target string) error{
		"a copy": func(s *Store, target string) error { return s.BackupTo(target, nil) },
		"a copy of the automatic one": func(s *Store, target string) error {
			_, err := CopyBackup(s.Path(), target, nil)
			return err
		},
		"a restored store": func(s *Store, target string) error {
			copied := s.Path() + ".copy"
			if err := s.BackupTo(copied, nil); err != nil {
				return err
			}
			_, err := Restore(target, copied, nine, nil)
			return err
		},
	}
	for name, copyTo := range copies {
		t.Run(name, func(t *testing.T) {
			s, _ := backedUp(t)
			dir := t.TempDir()
			theirs := []string{".may.db.12.new.txt", ".may.db.x12.new", ".may.db.new", ".june.db.12.new", "may.db.12.new", ".maydb.12.new"}
			for _, left := range append([]string{".may.db.12.new", ".may.db.3404.new"}, theirs...) {
				write(t, filepath.Join(dir, left), []byte("half"))
			}
			if err := os.Mkdir(filepath.Join(dir, ".may.db.7.new"), 0o700); err != nil {
				t.Fatal(err)
			}
			if err := copyTo(s, filepath.Join(dir, "may.db")); err != nil {
				t.Fatal(err)
			}
			want := append([]string{".may.db.7.new", "may.db"}, theirs...)
			slices.Sort(want)
			if got := files(t, dir); !slices.Equal(got, want) {
				t.Errorf("there are %q, want %q", got, want)
			}
		})
	}
}

// TestWhatIsBeingWrittenIsNotSweptAway lets a second copy to a target begin while the first is written.
func TestWhatIsBeingWrittenIsNotSweptAway(t *testing.T) {
	s, _ := backedUp(t)
	target := filepath.Join(t.TempDir(), "may.db")
	looked := false
	err := s.BackupTo(target, func(Part) {
		if looked {
			return
		}
		looked = true
		before := files(t, filepath.Dir(target))
		if err := sweep(target); err != nil && runtime.GOOS != "windows" {
			t.Error(err)
		}
		if got := files(t, filepath.Dir(target)); len(before) != 1 || !slices.Equal(got, before) {
			t.Errorf("of %q there are %q", before, got)
		}
	})
	if err != nil || !looked {
		t.Errorf("looked %v, %v", looked, err)
	}
}

// TestALinkToNowhereIsNamedSo puts a link whose end is missing where a store or a copy is to be.
func TestALinkToNowhereIsNamedSo(t *testing.T) {
	s, _ := backedUp(t)
	dir := t.TempDir()
	link := filepath.Join(dir, "may.db")
	if err := os.Symlink(filepath.Join(dir, "gone", "x.db"), link); err != nil {
		t.Skip(err)
	}
	copied := s.Path() + ".copy"
	if err := s.BackupTo(copied, nil); err != nil {
		t.Fatal(err)
	}
	_, opened := Open(link, Options{})
	_, found := Open(link, Options{MustExist: true})
	_, imported := Import(link, strings.NewReader(firstLine+"\n"))
	_, restored := Restore(link, copied, nine, nil)
	_, newest := CopyBackup(s.Path(), link, nil)
	_, examined := Examine(link, nil)
	for what, err := range map[string]error{
		"the board": opened, "what reads": found, "import": imported, "restore": restored, "the newest copy": newest,
		"backup": s.BackupTo(link, nil), "check": examined,
	} {
		if err == nil || !strings.Contains(err.Error(), "may.db is a link to "+filepath.Join(dir, "gone", "x.db")+", where nothing is") {
			t.Errorf("%s: %v", what, err)
		}
	}
	if got := files(t, dir); !slices.Equal(got, []string{"may.db"}) {
		t.Errorf("there are %q", got)
	}
}

// TestALongTaskTellsHowFarItIs holds what is told of each part to begin at nothing, to grow and to end at the whole.
func TestALongTaskTellsHowFarItIs(t *testing.T) {
	s, who := backedUp(t)
	copied, path := s.Path()+".copy", s.Path()
	parts := map[string][]Part{}
	told := func(p Part) { parts[p.Verb] = append(parts[p.Verb], p) }
	err := s.BackupTo(copied, told)
	of := sizeOf(copied)
	checkParts(t, "backup", parts, map[string]int64{"copied": of, "read back": of})
	if err := errors.Join(err, s.Close()); err != nil {
		t.Fatal(err)
	}
	parts = map[string][]Part{}
	done, err := Restore(path, copied, nine, told)
	if err != nil {
		t.Fatal(err)
	}
	checkParts(t, "restore", parts, map[string]int64{"looked over": of, "copied": of})
	if last := parts["read back"][0]; !last.Deliveries || last.Of != int64(done.Deliveries) {
		t.Errorf("of %d deliveries it tells %+v", done.Deliveries, last)
	}
	parts = map[string][]Part{}
	if _, err := Erase(path, who, told); err != nil {
		t.Fatal(err)
	}
	if n := len(parts["read back"]); n < 2 {
		t.Errorf("erase tells %d times of what it reads back", n)
	}
}

// checkParts holds each part to its whole.
func checkParts(t *testing.T, what string, parts map[string][]Part, wholes map[string]int64) {
	t.Helper()
	for verb, whole := range wholes {
		told := parts[verb]
		if len(told) < 2 {
			t.Errorf("%s tells %d times of what is %s", what, len(told), verb)
			continue
		}
		for i, p := range told {
			if p.Of != whole || p.Deliveries || i > 0 && p.Done < told[i-1].Done {
				t.Errorf("%s: after %+v comes %+v of %d", what, told[max(0, i-1)], p, whole)
			}
		}
		// Free pages are passed over in reading, and heads read twice.
		if last := told[len(told)-1]; last.Done > whole+whole/2 || last.Done < whole/4 {
			t.Errorf("%s ends at %+v of %d", what, last, whole)
		}
	}
}

// backedUp gives a store with a lesson and an automatic copy of it, and one of its students.
func backedUp(t *testing.T) (*Store, model.ID) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "settee.db")
	who := lesson(t, path)
	s := mustOpen(t, path)
	t.Cleanup(func() { s.Close() })
	autoBackup(t, s, nine)
	return s, who
}
