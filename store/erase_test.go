package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"coach.settee/model"
	"pgregory.net/rapid"
)

// rowed is what these tests read of a line of an export.
type rowed struct {
	Type, ID, Student, Game, Session string
	Roster                           []json.RawMessage
}

func readRow(t testing.TB, line []byte) (r rowed) {
	t.Helper()
	if err := json.Unmarshal(line, &r); err != nil {
		t.Fatalf("%v: %s", err, line)
	}
	return r
}

// exportWithout gives an export without a student, cut out of the lines: the student's own, the seats, and evenings with
// nobody left.
func exportWithout(t testing.TB, export []byte, student string) []byte {
	t.Helper()
	lines := bytes.SplitAfter(bytes.TrimSuffix(export, []byte("\n")), []byte("\n"))
	games, touched, others := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for _, line := range lines {
		switch r := readRow(t, line); r.Type {
		case "game":
			games[r.ID] = r.Student == student
			touched[r.Session] = touched[r.Session] || r.Student == student
			others[r.Session] = others[r.Session] || r.Student != student
		case "session":
			for _, seat := range r.Roster {
				mine := readRow(t, seat).Student == student
				touched[r.ID], others[r.ID] = touched[r.ID] || mine, others[r.ID] || !mine
			}
		}
	}
	var out []byte
	for _, line := range lines {
		r := readRow(t, line)
		switch {
		case r.Type == "student" && r.ID == student, r.Type == "game" && r.Student == student, r.Type == "delivery" && games[r.Game],
			r.Type == "session" && touched[r.ID] && !others[r.ID]:
			continue
		case r.Type == "session":
			for _, seat := range r.Roster {
				if readRow(t, seat).Student == student {
					line = bytes.Replace(line, append(slices.Clone(seat), ','), nil, 1)
					line = bytes.Replace(line, append([]byte{','}, seat...), nil, 1)
					line = bytes.Replace(line, seat, nil, 1)
				}
			}
		}
		out = append(out, line...)
	}
	return append(bytes.TrimSuffix(out, []byte("\n")), '\n')
}

// What is kept of the others is the same bytes, their open evening goes on, and the file is sound.
func TestErasingLeavesTheOthersAsTheyWere(t *testing.T) {
	seats := 0
	rapid.Check(t, func(rt *rapid.T) {
		dir, err := os.MkdirTemp(t.TempDir(), "")
		if err != nil {
			rt.Fatal(err)
		}
		path := randomStore(rt, dir)
		s := mustOpen(t, path)
		students, err := s.Students()
		if err != nil {
			rt.Fatal(err)
		}
		before, err := exportOf(s)
		if err = errors.Join(err, s.Close()); err != nil {
			rt.Fatal(err)
		}
		if len(students) == 0 {
			return
		}
		who := rapid.SampledFrom(students).Draw(rt, "who").ID
		told, err := Erase(path, who, nil)
		if err != nil {
			rt.Fatal(err)
		}
		seats += told.Evenings
		want := exportWithout(t, before, string(who))
		if after := exportAt(t, path); !bytes.Equal(after, want) {
			rt.Fatalf("without %s it exports\n%s\nnot\n%s", who, after, want)
		}
		if n := bytes.Count(before, []byte(`{"type":"delivery"`)) - bytes.Count(want, []byte(`{"type":"delivery"`)); n != told.Deliveries {
			rt.Fatalf("%d deliveries are told, %d are gone", told.Deliveries, n)
		}
		if err := Check(path); err != nil {
			rt.Fatal(err)
		}
		if found, err := Examine(path, func(int) error { return nil }); err != nil || !found.Sound() {
			rt.Fatalf("%v, %q", err, found.Faults)
		}
		if _, err := Erase(path, who, nil); !errors.Is(err, ErrNoStudent) {
			rt.Fatalf("a second time: %v", err)
		}
		goOn(rt, path)
	})
	if seats == 0 {
		t.Error("nobody was in any evening: the property said nothing")
	}
}

// goOn works on in the open evenings, and takes back what was done, also after opening the store again.
func goOn(t *rapid.T, path string) {
	open := func() *Store {
		s, err := Open(path, Options{NoSync: true})
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	s := open()
	defer func() { _ = s.Close() }()
	sessions, err := s.OpenSessions()
	if err != nil {
		t.Fatal(err)
	}
	for _, session := range sessions {
		before, err := exportOf(s)
		if err != nil {
			t.Fatal(err)
		}
		step, err := resumed(t, s, session.ID).RecordCount(time.Date(2026, 3, 4, 23, 0, 0, 0, time.UTC), 0)
		if err != nil {
			// Nobody is up, or the rack cannot have that.
			continue
		}
		keepAll(t, s, step)
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
		s = open()
		e := resumed(t, s, session.ID)
		step, err = e.Undo()
		if err != nil {
			t.Fatalf("%s: %v", session.ID, err)
		}
		keepAll(t, s, step)
		if after, err := exportOf(s); err != nil || !bytes.Equal(after, before) {
			t.Fatalf("%v, taken back it is\n%s\nnot\n%s", err, after, before)
		}
	}
}

func resumed(t *rapid.T, s *Store, session model.ID) *model.Evening {
	kept, err := s.Evening(session)
	if err != nil {
		t.Fatal(err)
	}
	e, err := model.Resume(kept)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// marked are texts that only one student's records hold.
var marked = []string{
	"Zelda Quint", "01J7STUDENT00000000000QUINT", "left wrist taped", "walks the dog", "keep the swing loose",
	"late on the zeroth step", "a fine evening, Zelda", "fuchsia 15",
}

// lesson keeps two evenings with a student whose every text is marked, one of them still open, in a store that is closed
// then. Things were taken back and written over, so that the free pages and the journal hold them too.
func lesson(t testing.TB, path string) (student model.ID) {
	t.Helper()
	s, err := Open(path, Options{NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	c := newCoach(t, 3, func(step model.Step) {
		if err := s.Keep(step); err != nil {
			t.Fatal(err)
		}
	})
	student = model.ID(marked[1])
	for range 2 {
		c.begin(3)
		c.bowl(60)
		zelda := model.Student{
			ID: student, Name: marked[0], Hand: model.LeftHand, Limits: marked[2], Notes: marked[3], Minor: true, Balls: []string{marked[7]},
		}
		if c.number == 1 {
			c.do(c.evening.Seat(zelda, 7))
		} else {
			c.do(c.evening.SeatKnown(zelda, zelda, 7))
		}
		for range 30 {
			c.do(c.evening.PutUp(student))
			c.do(c.evening.SetCue(marked[4]))
			c.ok(c.evening.SetNote(marked[5]))
			c.do(c.evening.RecordCount(c.at, 0))
			c.do(c.evening.SetSentence(student, marked[6]))
			c.do(c.evening.Undo())
		}
		c.do(c.evening.SetSentence(student, marked[6]))
		for range 20 {
			c.call()
		}
		if c.number == 1 {
			c.close()
		}
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	return student
}

// holding gives the files of a directory, and of those below, in which any of some texts is, or of whose names it is a part.
func holding(t testing.TB, dir string, texts ...string) (found []string) {
	t.Helper()
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := os.ReadFile(path)
		for _, text := range texts {
			if bytes.Contains(b, []byte(text)) || strings.Contains(path, text) {
				found = append(found, fmt.Sprintf("%s has %q", filepath.Base(path), text))
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return found
}

func TestErasedBytesAreGone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	student := lesson(t, path)
	if before := holding(t, filepath.Dir(path), marked...); len(before) != len(marked) {
		t.Fatalf("before, only %v", before)
	}
	before := exportAt(t, path)
	want := exportWithout(t, before, string(student))
	told, err := Erase(path, student, nil)
	if err != nil {
		t.Fatal(err)
	}
	gone := func(kind string) int { return bytes.Count(before, []byte(kind)) - bytes.Count(want, []byte(kind)) }
	if told.Evenings != 2 || told.Emptied != 0 || told.Games != gone(`{"type":"game"`) || told.Lists != 1 ||
		told.Deliveries != gone(`{"type":"delivery"`) || told.Deliveries < 60 {
		t.Errorf("told is %+v", told)
	}
	if left := holding(t, filepath.Dir(path), append(slices.Clip(marked), "Zelda", "QUINT")...); len(left) > 0 {
		t.Error(left)
	}
	if !bytes.Equal(exportAt(t, path), want) {
		t.Error("the others' export is another")
	}
	if left := files(t, filepath.Dir(path)); len(left) != 1 {
		t.Errorf("there are %v", left)
	}
}

func TestErasingIsRefusedWhileTheStoreIsOpen(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	student := lesson(t, path)
	s := mustOpen(t, path)
	if _, err := Erase(path, student, nil); !errors.Is(err, ErrInUse) {
		t.Errorf("it gives %v", err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	before := read(t, path)
	if _, err := Erase(path, "nobody", nil); !errors.Is(err, ErrNoStudent) {
		t.Errorf("it gives %v", err)
	}
	if !bytes.Equal(read(t, path), before) || len(files(t, filepath.Dir(path))) != 1 {
		t.Errorf("what was refused changed the file, or left %v", files(t, filepath.Dir(path)))
	}
}

// A process that ended before the new file had its name leaves the old one whole, and the new one goes at the next time.
func TestErasingThatWasCutShort(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	student := lesson(t, path)
	before := exportAt(t, path)
	s := mustOpen(t, path)
	if _, _, err := copyWithout(s, path, student, nil); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	half := filepath.Join(filepath.Dir(path), ".settee.db.17.new")
	if err := os.WriteFile(half, []byte(marked[0]), 0o600); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(exportAt(t, path), before) || len(files(t, filepath.Dir(path))) != 3 {
		t.Fatalf("the store is another, or beside it are %v", files(t, filepath.Dir(path)))
	}
	if _, err := Erase(path, student, nil); err != nil {
		t.Fatal(err)
	}
	if left := files(t, filepath.Dir(path)); len(left) != 1 {
		t.Errorf("left are %v", left)
	}
}

// An evening that others have nothing of goes with its only student; what speaks of the student in other records is told.
func TestWhatErasingTells(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	c := newCoach(t, 3, func(step model.Step) {
		if err := s.Keep(step); err != nil {
			t.Fatal(err)
		}
	})
	c.begin(1)
	c.bowl(12)
	c.close()
	c.begin(2)
	c.do(c.evening.SetSentence(invented(1).ID, "Swings like ada's brother; adagio"))
	c.do(c.evening.PutUp(invented(1).ID))
	c.ok(c.evening.SetNote("asked ADA, twice"))
	c.do(c.evening.RecordAllDown(c.at))
	c.ok(c.evening.SetNote("adamant"))
	c.do(c.evening.RecordCount(c.at, 3))
	told, err := s.Erasable(invented(0).ID)
	if err != nil {
		t.Fatal(err)
	}
	if told.Student.Name != "Ada Marsh" || told.Evenings != 2 || told.Emptied != 1 || told.Deliveries != 12 || told.Others != 2 {
		t.Errorf("told is %+v", told)
	}
	if _, err := s.Erasable("nobody"); !errors.Is(err, ErrNoStudent) {
		t.Errorf("it gives %v", err)
	}
}
