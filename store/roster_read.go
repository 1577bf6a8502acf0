package store

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"coach.settee/model"
)

// rosterColumns are the columns that a table of students may have, with the fields of the profile that read their cells.
// The first mustColumns of them every table has.
var rosterColumns = []struct{ column, field string }{
	{"name", "name"}, {"hand", "hand"}, {"average", "entering average"},
	{"style", "style"}, {"level", "level"}, {"goal", "goal"}, {"bar", "bar"}, {"tone", "tone"}, {"minor", "minor"},
	{"balls", "balls carried"}, {"speed_mph", "ball speed"}, {"rev_rpm", "rev rate"}, {"axis_rotation_deg", "axis rotation"},
	{"slide_offset", "slide offset"}, {"limits", "limits"}, {"load_limit", "load limit"}, {"notes", "notes"},
	{"average_on", "average on"}, {"weights", "weights"}, {"watched", "watched axes"}, {"focus", "focus"},
}

const mustColumns = 3

// RosterColumns are the columns that a table of students may have; it has to have the first three.
func RosterColumns() []string {
	out := make([]string, len(rosterColumns))
	for i, c := range rosterColumns {
		out[i] = c.column
	}
	return out
}

// maxRoster is the longest table that is read, in bytes.
const maxRoster = 8 << 20

// utf8Mark is what spreadsheets put before a text in UTF-8.
const utf8Mark = "\ufeff"

// readRoster gives the students of a table, each with an id, or says which rows are in the way.
func readRoster(r io.Reader, newID func() model.ID) ([]model.Student, error) {
	table, err := io.ReadAll(io.LimitReader(r, maxRoster+1))
	switch {
	case err != nil:
		return nil, fmt.Errorf("it cannot be read: %w", err)
	case len(table) > maxRoster:
		return nil, fmt.Errorf("it is longer than %d MB: a table of students is shorter", maxRoster>>20)
	}
	table = bytes.TrimPrefix(table, []byte(utf8Mark))
	if line, ok := notUTF8(table); !ok {
		return nil, refusedAt(line, errors.New("it is not in UTF-8: save the table as CSV in UTF-8"))
	}
	in := &roster{rows: csv.NewReader(bytes.NewReader(table)), newID: newID, fields: map[string]model.ProfileField{}}
	in.rows.Comma, in.rows.FieldsPerRecord = separatorOf(table), -1
	for _, f := range model.ProfileFields() {
		in.fields[f.Name] = f
	}
	if err := in.header(); err != nil {
		return nil, err
	}
	return in.students()
}

// notUTF8 gives the number of the first line that is not valid UTF-8, and true where there is none.
func notUTF8(table []byte) (line int, ok bool) {
	for text := range bytes.Lines(table) {
		if line++; !utf8.Valid(text) || bytes.IndexByte(text, 0) >= 0 {
			return line, false
		}
	}
	return 0, true
}

// separatorOf gives what parts the cells of a table: what its first line has the most of.
func separatorOf(table []byte) rune {
	header, _, _ := bytes.Cut(bytes.TrimLeft(table, "\r\n"), []byte("\n"))
	best, most := ',', 0
	for _, c := range ",;\t" {
		if n := bytes.Count(header, []byte(string(c))); n > most {
			best, most = c, n
		}
	}
	return best
}

// roster reads the rows of a table.
type roster struct {
	rows   *csv.Reader
	newID  func() model.ID
	fields map[string]model.ProfileField
	// columns are the table's, from left to right; "" for one without a name, in which nothing may be.
	columns []string
}

// header reads the first row, which names the columns.
func (in *roster) header() error {
	names, err := in.rows.Read()
	if errors.Is(err, io.EOF) {
		return errors.New("line 1: the table is empty: its first line names the columns name, hand, average")
	}
	if err != nil {
		return refusedAt(misread(err))
	}
	line, _ := in.rows.FieldPos(0)
	for _, name := range names {
		name = columnLike(name)
		switch {
		case name != "" && !slices.Contains(RosterColumns(), name):
			return refusedAt(line, fmt.Errorf("the column %q is unknown: use %s", short(name), strings.Join(RosterColumns(), ", ")))
		case name != "" && slices.Contains(in.columns, name):
			return refusedAt(line, fmt.Errorf("the column %s is there twice", name))
		}
		in.columns = append(in.columns, name)
	}
	for _, name := range RosterColumns()[:mustColumns] {
		if !slices.Contains(in.columns, name) {
			return refusedAt(line, fmt.Errorf("the column %s is missing: a table of students has name, hand and average", name))
		}
	}
	return nil
}

// columnLike gives a column's name as it is written here: "Average on" is average_on.
func columnLike(name string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return strings.ContainsRune(" -_", r) }), "_")
}

// students reads all rows after the header.
func (in *roster) students() ([]model.Student, error) {
	var out []model.Student
	named := map[string][]rosterRow{}
	var refused RosterRefused
	for {
		cells, err := in.rows.Read()
		if errors.Is(err, io.EOF) {
			return out, refused.err()
		}
		if err != nil {
			refused.add(misread(err))
			continue
		}
		if !slices.ContainsFunc(cells, filled) {
			continue
		}
		line, _ := in.rows.FieldPos(0)
		student, err := in.student(cells)
		key := nameKey(student)
		if err == nil {
			err = twice(student, named[key])
		}
		if err != nil {
			refused.add(line, err)
			continue
		}
		out, named[key] = append(out, student), append(named[key], rosterRow{student, line})
	}
}

func filled(cell string) bool { return strings.TrimSpace(cell) != "" }

// student reads one row.
func (in *roster) student(cells []string) (model.Student, error) {
	for i, cell := range cells {
		if filled(cell) && (i >= len(in.columns) || in.columns[i] == "") {
			return model.Student{}, fmt.Errorf("%q is in a column without a name", short(cell))
		}
	}
	s := model.Student{ID: in.newID()}
	var wrong []string
	for _, c := range rosterColumns {
		i := slices.Index(in.columns, c.column)
		if i < 0 || i >= len(cells) {
			continue
		}
		set, err := in.fields[c.field].Set(s, cellText(c.column, cells[i]))
		if err != nil {
			wrong = append(wrong, fmt.Sprintf("%s: %v", c.column, err))
			continue
		}
		s = set
	}
	if len(wrong) > 0 {
		return s, errors.New(strings.Join(wrong, ", and "))
	}
	return s, s.Validate()
}

// cellText gives what a cell says: without what this program, or a spreadsheet, put around it.
func cellText(column, cell string) string {
	text := undefused(strings.TrimSpace(cell))
	if column != "minor" {
		return text
	}
	switch strings.ToLower(text) {
	case "true", "1", "x":
		return "yes"
	case "false", "0":
		return "no"
	}
	return text
}

// undefused takes the apostrophe off that defused puts before a formula.
func undefused(cell string) string {
	if text, ok := strings.CutPrefix(cell, "'"); ok && defused(text) == cell {
		return text
	}
	return cell
}

// rosterRow is a student with the line that names him or her.
type rosterRow struct {
	model.Student
	line int
}

// twice refuses a student who cannot be told from one of the rows before with that name.
func twice(s model.Student, before []rosterRow) error {
	for _, b := range before {
		if !toldApart(s, b.Student) {
			return fmt.Errorf("%s is in line %d already: give each an average of their own, or leave one out", short(s.Name), b.line)
		}
	}
	return nil
}

// misread gives the line in which a table cannot be read any further, and why.
func misread(err error) (line int, why error) {
	var at *csv.ParseError
	if !errors.As(err, &at) {
		return 1, err
	}
	return at.StartLine, errors.New("its quotation marks do not match: a cell with one has one at each end, and two for each within")
}
