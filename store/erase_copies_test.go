package store

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"coach.settee/model"
)

// copies puts everything beside a store that the program writes there, and an anonymous export, which holds nobody.
func copies(t testing.TB, path string) {
	t.Helper()
	dir := filepath.Dir(path)
	s := mustOpen(t, path)
	write := func(name string, export func(io.Writer) error) {
		t.Helper()
		f, err := os.OpenFile(filepath.Join(dir, name), os.O_CREATE|os.O_WRONLY, 0o600)
		if err != nil {
			t.Fatal(err)
		}
		if err := errors.Join(export(f), f.Close()); err != nil {
			t.Fatal(err)
		}
	}
	autoBackup(t, s, nine)
	write("lessons.jsonl", s.Export)
	write("lessons.csv", s.ExportCSV)
	kept, err := s.OpenSessions()
	if err != nil {
		t.Fatal(err)
	}
	evening, err := s.Evening(kept[0].ID)
	if err != nil {
		t.Fatal(err)
	}
	e, err := model.Resume(evening)
	if err != nil {
		t.Fatal(err)
	}
	var steps []model.Step
	for _, seat := range kept[0].Roster {
		step, err := e.PutUp(seat.Student)
		if err == nil {
			steps = append(steps, step)
		}
		if err := e.SetNote(marked[5]); err != nil {
			t.Fatal(err)
		}
		if seat.Student != model.ID(marked[1]) {
			e.Clear()
		}
		if step, err = e.RecordDead(nine); err != nil {
			t.Fatal(err)
		}
		steps = append(steps, step)
	}
	write("settee.db.unkept.jsonl", func(w io.Writer) error { return WriteUnkept(w, steps) })
	// A copy of which the pages in use hold nothing of the student any more.
	if err := errors.Join(s.BackupTo(filepath.Join(dir, "may.db"), nil), s.Close()); err != nil {
		t.Fatal(err)
	}
	if _, err := Restore(path, filepath.Join(dir, "may.db"), nine, nil); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{".settee-4711", ".lessons.db.12.new"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte("of "+marked[0]), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(filepath.Join(dir, "diary.txt"), []byte("nobody's business"), 0o600); err != nil {
		t.Fatal(err)
	}
}

func TestCopiesAreCleansed(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	dir := filepath.Dir(path)
	student := lesson(t, path)
	copies(t, path)
	export, table, unkept := read(t, filepath.Join(dir, "lessons.jsonl")), read(t, filepath.Join(dir, "lessons.csv")),
		read(t, filepath.Join(dir, "settee.db.unkept.jsonl"))
	if !bytes.Contains(unkept, []byte(marked[5])) {
		t.Fatalf("the unkept calls are not the student's:\n%s", unkept)
	}
	told, err := Erase(path, student, nil)
	if err != nil {
		t.Fatal(err)
	}
	told.Student = model.Student{ID: student, Name: marked[0]}
	found, err := CopiesOf(path, &told, nil)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, c := range found {
		names = append(names, filepath.Base(c.Path))
		if err := c.Cleanse(&told, nil); err != nil {
			t.Error(err)
		}
	}
	slices.Sort(names)
	want := []string{".lessons.db.12.new", ".settee-4711", "lessons.csv", "lessons.jsonl", "may.db",
		"settee-20261125-210000Z.db", "settee.db.before-restore-20261125-210000Z", "settee.db.unkept.jsonl"}
	if !slices.Equal(names, want) {
		t.Errorf("held by %v, not %v", names, want)
	}
	if left := holding(t, dir, append(slices.Clip(marked), "Zelda", "QUINT")...); len(left) > 0 {
		t.Error(left)
	}
	if again, err := CopiesOf(path, &told, nil); err != nil || len(again) > 0 {
		t.Errorf("%v, and after it still %v", err, again)
	}
	others := exportWithout(t, export, string(student))
	for _, name := range []string{"may.db", "settee.db.before-restore-20261125-210000Z", "settee-backups/settee-20261125-210000Z.db"} {
		if copied := filepath.Join(dir, name); Check(copied) != nil || !bytes.Equal(exportAt(t, copied), others) {
			t.Errorf("%s is another store", name)
		}
	}
	if got := read(t, filepath.Join(dir, "lessons.jsonl")); !bytes.Equal(got, others) {
		t.Errorf("the export is\n%s\nnot\n%s", got, others)
	}
	rows := slices.DeleteFunc(strings.SplitAfter(string(table), "\r\n"), func(row string) bool { return strings.Contains(row, marked[1]) })
	if got := string(read(t, filepath.Join(dir, "lessons.csv"))); got != strings.Join(rows, "") {
		t.Errorf("the table is\n%s\nnot\n%s", got, strings.Join(rows, ""))
	}
	if got := read(t, filepath.Join(dir, "settee.db.unkept.jsonl")); bytes.Count(got, []byte(`"type":"delivery"`)) != 3 {
		t.Errorf("of the unkept calls are left\n%s", got)
	}
}

// Who was erased before is found in the copies. One that is damaged is told, and left as it is.
func TestADamagedCopyIsToldAndLeft(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	student := lesson(t, path)
	s := mustOpen(t, path)
	whole := autoBackup(t, s, nine)
	torn := autoBackupCopy(t, whole, nine.Add(time.Hour))
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	file := read(t, torn)
	if err := os.WriteFile(torn, file[:len(file)/2], 0o600); err != nil {
		t.Fatal(err)
	}
	file = read(t, torn)
	if _, err := Erase(path, student, nil); err != nil {
		t.Fatal(err)
	}
	copied, err := CopiedStudents(path)
	if err != nil || !slices.ContainsFunc(copied, func(x model.Student) bool { return x.ID == student }) {
		t.Fatalf("%v, copied are %+v", err, copied)
	}
	of := Erasure{Student: model.Student{ID: student, Name: marked[0]}}
	found, err := CopiesOf(path, &of, nil)
	if err != nil || len(found) != 2 {
		t.Fatalf("%v, found are %v", err, found)
	}
	for _, c := range found {
		err := c.Cleanse(&of, nil)
		if damaged := c.Path == torn; damaged != errors.Is(err, ErrDamaged) || !damaged && err != nil {
			t.Errorf("%s: %v", c.Path, err)
		}
	}
	if !bytes.Equal(read(t, torn), file) || len(holding(t, filepath.Dir(whole), marked[0])) != 1 {
		t.Error("the damaged copy was changed, or the other was not")
	}
}

// autoBackupCopy copies a file to where a store's automatic copy of another time would be.
func autoBackupCopy(t testing.TB, from string, at time.Time) string {
	t.Helper()
	name := strings.Replace(from, nine.Format(backupTime), at.Format(backupTime), 1)
	if err := os.WriteFile(name, read(t, from), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

// A text that lies across two readings of a file is found.
func TestTracesAreFoundWhereverTheyLie(t *testing.T) {
	path := filepath.Join(t.TempDir(), "file")
	trace := []byte("Zelda Quint")
	for _, at := range []int{0, exchangeBuffer - len(trace), exchangeBuffer - 5, exchangeBuffer, 2*exchangeBuffer - 1, 3 * exchangeBuffer} {
		file := append(bytes.Repeat([]byte("x"), at), trace...)
		if err := os.WriteFile(path, file, 0o600); err != nil {
			t.Fatal(err)
		}
		if holds, err := fileHolds(path, [][]byte{trace}); err != nil || !holds {
			t.Errorf("at %d: %v, %v", at, holds, err)
		}
		if holds, err := fileHolds(path, [][]byte{[]byte("Zelda Quinta")}); err != nil || holds {
			t.Errorf("at %d something else is found, %v", at, err)
		}
	}
}
