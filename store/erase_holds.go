package store

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"
	"unicode/utf16"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// scanUpTo is the size in bytes up to which files of other kinds are looked through.
const scanUpTo = 64 << 20

// holds tells whether a file holds something of a student, or is another store with a namesake.
func (c *Copy) holds(of *Erasure) (bool, error) {
	switch c.Kind {
	case CopyStore, OtherStore:
		return c.storeHolds(of)
	case OtherLink:
		return Copy{Path: c.Target, Kind: OtherFile}.otherHolds(of.Student)
	case OtherFile:
		return c.otherHolds(of.Student)
	case CopyLines:
		f, err := os.Open(c.Path)
		if err != nil {
			return false, err
		}
		defer f.Close()
		if l, err := lookThrough(f, of); err == nil {
			return l.holds, nil
		}
	case CopyTable:
		f, err := os.Open(c.Path)
		if err != nil {
			return false, err
		}
		defer f.Close()
		if holds, err := tableHolds(f, of.Student.ID); err == nil {
			return holds, nil
		}
	}
	return fileHolds(c.Path, traces(of.Student))
}

// storeHolds looks for a student in a store, and finds a namesake. One that cannot be read may hold the bytes all the same, and
// so may the free pages of one that can.
func (c *Copy) storeHolds(of *Erasure) (bool, error) {
	kept, namesake := false, model.ID("")
	_ = peek(c.Path, func(tx *bolt.Tx) error {
		p, err := planErasing(tx, of.Student.ID)
		if err != nil {
			return err
		}
		for game := range p.games {
			of.games[game] = true
		}
		kept = p.Student.ID != "" || len(p.sessions) > 0
		students, err := studentsIn(tx)
		for _, s := range students {
			if s.ID != of.Student.ID && strings.EqualFold(s.Name, of.Student.Name) {
				namesake = s.ID
			}
		}
		return err
	})
	if kept {
		return true, nil
	}
	by := traces(of.Student)
	if namesake != "" {
		// The name is somebody else's too.
		by = [][]byte{[]byte(of.Student.ID)}
	}
	holds, err := fileHolds(c.Path, by)
	if !holds && c.Kind == OtherStore {
		c.Namesake = namesake
	}
	return holds || c.Namesake != "", err
}

// otherHolds looks for a student in a file of any other kind. One that cannot be read is not this program's business.
func (c Copy) otherHolds(s model.Student) (bool, error) {
	info, err := os.Stat(c.Path)
	if err != nil || info.Size() > scanUpTo {
		return false, nil
	}
	var any [][]byte
	if len(s.Name) >= shortName {
		any = append(any, []byte(s.Name), []byte(asJSON(s.Name, "%04x")), []byte(asJSON(s.Name, "%04X")))
	}
	switch id := []byte(s.ID); {
	case len(id) >= longID:
		any = append(any, id)
	default:
		// A short one is in any text by chance.
		any = append(any, []byte(strconv.Quote(string(id))))
	}
	holds, err := fileHolds(c.Path, any)
	return holds && err == nil, nil
}

// asJSON gives a text as writers of JSON do that escape all but ASCII, in either case of the digits.
func asJSON(text, digits string) string {
	var b strings.Builder
	for _, unit := range utf16.Encode([]rune(text)) {
		switch {
		case unit == '"' || unit == '\\':
			b.WriteString(`\` + string(rune(unit)))
		case unit < ' ' || unit > '~':
			fmt.Fprintf(&b, `\u`+digits, unit)
		default:
			b.WriteByte(byte(unit))
		}
	}
	return b.String()
}

const (
	// shortName is the length in bytes under which a name is in any file by chance, longID the one from which an id is not.
	shortName = 4
	longID    = 10
)

// traces are the bytes by which a student is found where nothing else tells.
func traces(s model.Student) [][]byte {
	out := [][]byte{[]byte(s.ID)}
	if len(s.Name) >= shortName {
		out = append(out, []byte(s.Name))
	}
	return out
}

// fileHolds tells whether any of some bytes are in a file.
func fileHolds(path string, any [][]byte) (bool, error) {
	f, err := os.Open(path)
	if err != nil {
		return false, err
	}
	defer f.Close()
	longest := 0
	for _, b := range any {
		longest = max(longest, len(b))
	}
	// What lies across two readings is found since the end of one is put before the next.
	buf := make([]byte, 0, exchangeBuffer+longest)
	for {
		n, err := io.ReadFull(f, buf[len(buf):len(buf)+exchangeBuffer])
		buf = buf[:len(buf)+n]
		for _, b := range any {
			if bytes.Contains(buf, b) {
				return true, nil
			}
		}
		switch {
		case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
			return false, nil
		case err != nil:
			return false, err
		}
		buf = append(buf[:0], buf[len(buf)-longest:]...)
	}
}

// lines is what is found in a file of the exchange format before a student is taken out of it.
type lines struct {
	student model.ID
	games   map[model.ID]bool
	// held are the sessions with the student's seat or a game of the student, others those with anybody else.
	held, others map[model.ID]bool
	holds        bool
}

// lookThrough reads a file of the exchange format for a student, and adds the games that it finds to of.
func lookThrough(r io.Reader, of *Erasure) (*lines, error) {
	l := &lines{student: of.Student.ID, games: of.games, held: map[model.ID]bool{}, others: map[model.ID]bool{}}
	return l, eachLine(r, func(_ []byte, r model.Record) error {
		switch r := r.(type) {
		case model.Student:
			l.holds = l.holds || r.ID == l.student
		case model.Session:
			rest := unseated(r, l.student)
			l.others[r.ID] = l.others[r.ID] || len(rest.Roster) > 0
			l.held[r.ID] = l.held[r.ID] || len(rest.Roster) < len(r.Roster)
			l.holds = l.holds || l.held[r.ID]
		case model.Game:
			mine := r.Student == l.student
			if mine {
				l.games[r.ID] = true
			}
			l.held[r.Session], l.others[r.Session] = l.held[r.Session] || mine, l.others[r.Session] || !mine
			l.holds = l.holds || mine
		case model.Delivery:
			l.holds = l.holds || l.games[r.Game]
		case takenBack, pastForms:
			l.holds = l.holds || l.names(r)
		}
		return nil
	})
}

// filterLines writes a file of the exchange format, which is that at path, without a student. Lines that do not speak of
// the student are the same bytes.
func filterLines(w io.Writer, r io.Reader, path string, of *Erasure) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	l, err := lookThrough(f, of)
	if err != nil {
		return err
	}
	out := bufio.NewWriterSize(w, exchangeBuffer)
	err = eachLine(r, func(line []byte, r model.Record) error {
		if line = l.without(line, r); line == nil {
			return nil
		}
		_, err := out.Write(line)
		return err
	})
	return errors.Join(err, out.Flush())
}

// without gives a line without the student, nil where it goes.
func (l *lines) without(line []byte, r model.Record) []byte {
	gone := false
	switch r := r.(type) {
	case model.Student:
		gone = r.ID == l.student
	case model.Session:
		if gone = l.held[r.ID] && !l.others[r.ID]; !gone && r.Seat(l.student) >= 0 {
			return encodeLine(nil, unseated(r, l.student))
		}
	case model.Game:
		gone = r.Student == l.student
	case model.Delivery:
		gone = l.games[r.Game]
	case takenBack, pastForms:
		gone = l.names(r)
	}
	return unless(gone, line)
}

// names tells whether a line is about the student or one of the student's games, of which it has no more than the id.
func (l *lines) names(r model.Record) bool {
	ref := r.Ref()
	return ref.Kind == model.StudentRecord && ref.ID == l.student || ref.Kind == model.GameRecord && l.games[ref.ID]
}

// eachLine calls f with each line of a file of the exchange format, its newline included, and the record it tells; with none
// for the first.
func eachLine(r io.Reader, f func(line []byte, r model.Record) error) error {
	lines := bufio.NewScanner(r)
	lines.Buffer(make([]byte, 0, exchangeBuffer), maxLine)
	for n := 1; lines.Scan(); n++ {
		var record model.Record
		var err error
		if n == 1 {
			_, err = formatOf(lines.Bytes())
		} else {
			record, err = decodeLine(lines.Bytes())
		}
		if err != nil {
			return refusedAt(n, err)
		}
		if err := f(append(slices.Clip(lines.Bytes()), '\n'), record); err != nil {
			return err
		}
	}
	return lines.Err()
}

// tableHolds tells whether a table of deliveries has a row of a student.
func tableHolds(r io.Reader, student model.ID) (holds bool, err error) {
	err = eachRow(r, student, func(_ []string, mine bool) error {
		holds = holds || mine
		return nil
	})
	return holds, err
}

// filterTable writes a table of deliveries without a student's rows.
func filterTable(w io.Writer, r io.Reader, student model.ID) error {
	out := csv.NewWriter(bufio.NewWriterSize(w, exchangeBuffer))
	out.UseCRLF = true
	err := eachRow(r, student, func(row []string, mine bool) error {
		if mine {
			return nil
		}
		return out.Write(row)
	})
	out.Flush()
	return errors.Join(err, out.Error())
}

// eachRow calls f with each row of a table of deliveries, and whether it is a student's.
func eachRow(r io.Reader, student model.ID, f func(row []string, mine bool) error) error {
	rows := csv.NewReader(bufio.NewReaderSize(r, exchangeBuffer))
	who, cell := slices.Index(header(), "student"), defused(string(student))
	for {
		row, err := rows.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err == nil {
			err = f(row, row[who] == cell)
		}
		if err != nil {
			return err
		}
	}
}
