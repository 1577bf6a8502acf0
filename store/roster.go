package store

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"

	"coach.settee/model"
)

// Rostered says what became of the rows of a table of students.
type Rostered struct {
	// Taken are the new students, Known those who were kept already, each in the order of the rows.
	Taken, Known []model.Student
	// Namesakes are those of Taken whose name another student has, who is kept with another average.
	Namesakes []model.Student
	// All are the students kept now.
	All []model.Student
}

// ImportRoster takes a table of new students into the store at path, and makes the store, with the cues that a book begins
// with, where there is none. The table is CSV in UTF-8 with a header, as spreadsheets write it: columns name, hand and average and any others of RosterColumns, in
// any order, parted by commas, semicolons or tabs. newID gives each new student an id.
//
// Who is kept already, by name and, where both are known, by average, is left as he or she is kept. All other rows are
// taken or none: where some are refused, the error is a RosterRefused. The store must not be open elsewhere, ErrInUse
// otherwise.
func ImportRoster(path string, r io.Reader, newID func() model.ID) (Rostered, error) {
	rows, err := readRoster(r, newID)
	if err != nil {
		return Rostered{}, err
	}
	_, err = os.Stat(path)
	isNew := errors.Is(err, fs.ErrNotExist)
	s, err := Open(path, Options{Book: model.StartingCues(newID)})
	if err != nil {
		return Rostered{}, err
	}
	taken, err := s.enrol(rows)
	err = errors.Join(err, s.Close())
	if err != nil && isNew {
		err = errors.Join(err, os.Remove(s.path))
	}
	return taken, err
}

// enrol keeps the students who are not kept yet, all in one transaction.
func (s *Store) enrol(rows []model.Student) (Rostered, error) {
	kept, err := s.Students()
	if err != nil {
		return Rostered{}, err
	}
	named := map[string][]model.Student{}
	for _, k := range kept {
		named[nameKey(k)] = append(named[nameKey(k)], k)
	}
	var out Rostered
	var step model.Step
	for _, student := range rows {
		namesakes := named[nameKey(student)]
		if i := knownAs(student, namesakes); i >= 0 {
			out.Known = append(out.Known, namesakes[i])
			// One who is kept is one row's.
			named[nameKey(student)] = slices.Delete(namesakes, i, i+1)
			continue
		}
		out.Taken = append(out.Taken, student)
		if len(namesakes) > 0 {
			out.Namesakes = append(out.Namesakes, student)
		}
		step.Changes = append(step.Changes, model.Change{Ref: student.Ref(), After: student})
	}
	out.All = append(kept, out.Taken...)
	if len(step.Changes) == 0 {
		return out, nil
	}
	if err := s.Keep(step); err != nil {
		return Rostered{}, err
	}
	return out, nil
}

// knownAs gives the place of a student among those of the same name: the one with the same average before one of whom, or
// for whom, none is known; -1 for none.
func knownAs(s model.Student, namesakes []model.Student) int {
	if i := slices.IndexFunc(namesakes, func(k model.Student) bool { return k.Average == s.Average }); i >= 0 {
		return i
	}
	return slices.IndexFunc(namesakes, func(k model.Student) bool { return !toldApart(k, s) })
}

// nameKey is the same for names that differ in case and in blanks only.
func nameKey(s model.Student) string {
	return strings.ToLower(strings.ToUpper(strings.Join(strings.Fields(s.Name), " ")))
}

// toldApart tells whether two students of one name are told apart by their averages.
func toldApart(a, b model.Student) bool {
	return a.Average.Known && b.Average.Known && a.Average.Value != b.Average.Value
}

// RosterRefused says why rows of a table of students are refused.
type RosterRefused struct {
	// Rows has a line for each, with its number and all that is wrong with it, at most maxRefusals; More counts the others.
	Rows []string
	More int
}

// maxRefusals is how many rows that are refused are named.
const maxRefusals = 20

// Error says everything in one sentence.
func (r *RosterRefused) Error() string {
	all := strings.Join(r.Rows, "; ")
	if r.More > 0 {
		all = fmt.Sprintf("%s; and %d more", all, r.More)
	}
	return all
}

func (r *RosterRefused) add(line int, err error) {
	if len(r.Rows) == maxRefusals {
		r.More++
		return
	}
	r.Rows = append(r.Rows, refusedAt(line, err).Error())
}

// err gives what was gathered, nil where nothing was.
func (r *RosterRefused) err() error {
	if len(r.Rows) == 0 {
		return nil
	}
	return r
}
