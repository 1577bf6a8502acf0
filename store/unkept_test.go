package store

import (
	"errors"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"coach.settee/model"
)

// What could not be kept reads back as it was called, in a store that has none of it.
func TestUnkeptStepsAreLinesThatImportReads(t *testing.T) {
	at := time.Date(2026, time.March, 4, 18, 0, 0, 0, time.UTC)
	session := model.Session{ID: "s", At: at, Pairs: []model.Pair{{7, 8}}, Rotate: true}
	evening, first, err := model.NewEvening(session)
	if err != nil {
		t.Fatal(err)
	}
	steps := []model.Step{first}
	do := func(step model.Step, err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		steps = append(steps, step)
	}
	do(evening.Seat(model.Student{ID: "a", Name: "Ada", Hand: model.RightHand}, 7))
	do(evening.RecordAllDown(at))
	do(evening.RecordCount(at, 7))
	do(evening.Undo())

	var lines strings.Builder
	if err := WriteUnkept(&lines, steps); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(lines.String(), `"type":"delivery"`); n != 1 {
		t.Errorf("%d deliveries, not the one that was not taken back:\n%s", n, &lines)
	}
	path := filepath.Join(t.TempDir(), "other.db")
	if _, err := Import(path, strings.NewReader(lines.String())); err != nil {
		t.Fatal(err)
	}
	s, err := Open(path, Options{MustExist: true})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	var kept strings.Builder
	if err := s.Export(&kept); err != nil {
		t.Fatal(err)
	}
	const gone = `{"type":"gone","record":"delivery","id":"s-3"}` + "\n"
	written, past := "", 0
	for line := range strings.Lines(lines.String()) {
		if strings.Contains(line, `"type":"was"`) {
			past++
			continue
		}
		written += line
	}
	if past != 5 || kept.String()+gone != written {
		t.Errorf("kept\n%swritten\n%s", &kept, &lines)
	}
}

// Of a student who is erased the lines that tell of earlier forms go too.
func TestAnUnkeptFileIsCleansedOfAStudent(t *testing.T) {
	dir := t.TempDir()
	path, file := filepath.Join(dir, "settee.db"), filepath.Join(dir, "settee.db.unkept.jsonl")
	s := mustOpen(t, path)
	steps := evening(t, 30)
	keepEach(t, s, steps)
	if _, err := SaveUnkept(file, steps); err != nil {
		t.Fatal(err)
	}
	students, err := s.Students()
	if err := errors.Join(err, s.Close()); err != nil {
		t.Fatal(err)
	}
	who := students[0]
	if !strings.Contains(string(read(t, file)), string(who.ID)) {
		t.Fatal("the file does not tell of the student")
	}
	told, err := Erase(path, who.ID, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := (Copy{Path: file, Kind: CopyLines}).Cleanse(&told, nil); err != nil {
		t.Fatal(err)
	}
	left := string(read(t, file))
	if strings.Contains(left, `"`+string(who.ID)+`"`) || !strings.Contains(left, `"type":"was"`) {
		t.Errorf("left is\n%s", left)
	}
}
