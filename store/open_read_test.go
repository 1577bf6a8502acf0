package store

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"coach.settee/model"
)

// A store that nobody may write to is read as it is, what waits in its journal too, and nothing is left of the reading.
func TestAStoreThatCannotBeWrittenToIsRead(t *testing.T) {
	temp := t.TempDir()
	t.Setenv("TMPDIR", temp)
	t.Setenv("TMP", temp)
	path := filepath.Join(t.TempDir(), "settee.db")
	s := mustOpen(t, path)
	fill(t, s, 40, 10)
	if err := s.Keep(model.Step{Changes: []model.Change{{Ref: invented(9).Ref(), After: invented(9)}}}); err != nil {
		t.Fatal(err)
	}
	// As it lies on the disk after a crash.
	stick := filepath.Join(t.TempDir(), "settee.db")
	write(t, stick, read(t, path))
	if err := errors.Join(s.Close(), os.Chmod(stick, 0o400)); err != nil {
		t.Fatal(err)
	}
	before := read(t, stick)
	for name, open := range map[string]func(string) (*Store, error){"told": openCopied, "found out": OpenToRead} {
		t.Run(name, func(t *testing.T) {
			if name == "found out" && os.Getuid() <= 0 {
				t.Skip("this account may write to everything")
			}
			got, err := open(stick)
			if err != nil {
				t.Fatal(err)
			}
			var out bytes.Buffer
			if err := errors.Join(got.Export(&out), got.Close()); err != nil || got.Path() != stick {
				t.Errorf("%v, of %s", err, got.Path())
			}
			same(t, out.Bytes(), exported(t, path))
			if left, err := os.ReadDir(temp); err != nil || len(left) != 0 || !bytes.Equal(read(t, stick), before) {
				t.Errorf("the file has changed, or there are %v, %v", left, err)
			}
		})
	}
	for _, none := range []string{filepath.Join(temp, "none.db"), temp} {
		if _, err := OpenToRead(none); err == nil {
			t.Errorf("%s was read", none)
		}
		if _, err := openCopied(none); err == nil {
			t.Errorf("%s was copied", none)
		}
	}
	if left, err := os.ReadDir(temp); err != nil || len(left) != 0 {
		t.Errorf("there are %v, %v", left, err)
	}
}

func TestWhatAStoreThatCannotBeWrittenToSays(t *testing.T) {
	err := notOpened("a.db", &fs.PathError{Op: "open", Path: "a.db", Err: fs.ErrPermission})
	want := "the store a.db cannot be written to (permission denied): settee stats, export and handout read it as it is"
	if !isBarred(err) || !strings.HasPrefix(err.Error(), want) {
		t.Error(err)
	}
}

func TestAStoreIsToldFromAText(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	mustOpen(t, path)
	if !BeginsAsStore(read(t, path)[:80]) {
		t.Error("a store is not known")
	}
	for _, text := range []string{"", firstLine, "name,hand,average\nAda,right,120\n"} {
		if BeginsAsStore([]byte(text)) {
			t.Errorf("%q is taken for a store", text)
		}
	}
}
