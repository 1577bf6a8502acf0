package store

import (
	"bufio"
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"slices"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// exchangeBuffer is how many bytes are gathered before they are written.
const exchangeBuffer = 1 << 16

// Export writes everything that is kept in the exchange format: the first line, the book of cues, the students by id,
// then each session by time and id with its games by student, number and id, each with its deliveries by seq. It holds
// one session in memory at a time. What can be taken back and who is up are not part of the format.
func (s *Store) Export(w io.Writer) error {
	return s.view(func(tx *bolt.Tx) error { return exportLines(tx, w, nil) })
}

// ExportAnonymous is Export with stand-ins for all that tells who somebody is, where or when: ids, names, dates, places,
// cues and balls; other texts are left out. The same store gives the same file, which can be imported.
func (s *Store) ExportAnonymous(w io.Writer) error {
	return s.view(func(tx *bolt.Tx) error {
		a, err := standsIn(tx)
		if err != nil {
			return err
		}
		return exportLines(tx, w, a)
	})
}

// exportLines writes everything, with stand-ins where there are any.
func exportLines(tx *bolt.Tx, w io.Writer, a *stands) error {
	out := &lineWriter{w: bufio.NewWriterSize(w, exchangeBuffer)}
	out.buf = append(out.buf, firstLine+"\n"...)
	cues, err := cuesIn(tx)
	if err != nil {
		return err
	}
	for i, c := range cues {
		if a != nil {
			c = a.cue(i+1, c)
		}
		if err := out.write(c); err != nil {
			return err
		}
	}
	students, err := studentsIn(tx)
	if err != nil {
		return err
	}
	for _, student := range students {
		if a != nil {
			student = a.students[student.ID]
		}
		if err := out.write(student); err != nil {
			return err
		}
	}
	if err := eachSheaf(tx, func(s sheaf) error {
		if a != nil {
			s = a.sheaf(s)
		}
		return out.sheaf(s)
	}); err != nil {
		return err
	}
	return out.flush()
}

// lineWriter writes records as lines.
type lineWriter struct {
	w   *bufio.Writer
	buf []byte
}

func (l *lineWriter) write(r model.Record) error {
	l.buf = encodeLine(l.buf, r)
	_, err := l.w.Write(l.buf)
	l.buf = l.buf[:0]
	return err
}

func (l *lineWriter) flush() error {
	if _, err := l.w.Write(l.buf); err != nil {
		return err
	}
	return l.w.Flush()
}

func (l *lineWriter) sheaf(s sheaf) error {
	if err := l.write(s.session.Session); err != nil {
		return err
	}
	for i, g := range s.games {
		if err := l.write(g.Game); err != nil {
			return err
		}
		for _, d := range s.deliveries[i] {
			if err := l.write(d); err != nil {
				return err
			}
		}
	}
	return nil
}

// ExportCSV writes one row a delivery, in the order of Export, as RFC 4180 has it, with a row of names first. It is for
// reading in a spreadsheet and cannot be read back.
func (s *Store) ExportCSV(w io.Writer) error {
	return s.view(func(tx *bolt.Tx) error { return exportTable(tx, w, nil) })
}

// ExportCSVAnonymous is ExportCSV with the stand-ins of ExportAnonymous.
func (s *Store) ExportCSVAnonymous(w io.Writer) error {
	return s.view(func(tx *bolt.Tx) error {
		a, err := standsIn(tx)
		if err != nil {
			return err
		}
		return exportTable(tx, w, a)
	})
}

// exportTable writes every delivery, with stand-ins where there are any.
func exportTable(tx *bolt.Tx, w io.Writer, a *stands) error {
	known, err := studentsIn(tx)
	if err != nil {
		return err
	}
	students := map[model.ID]*model.Student{}
	for i := range known {
		if a != nil {
			known[i] = a.students[known[i].ID]
		}
		students[known[i].ID] = &known[i]
	}
	table := csv.NewWriter(bufio.NewWriterSize(w, exchangeBuffer))
	table.UseCRLF = true
	if err := table.Write(header()); err != nil {
		return err
	}
	if err := eachSheaf(tx, func(s sheaf) error {
		if a != nil {
			s = a.sheaf(s)
		}
		return s.rows(table, students)
	}); err != nil {
		return err
	}
	table.Flush()
	return table.Error()
}

func (s sheaf) rows(table *csv.Writer, students map[model.ID]*model.Student) error {
	row := make([]string, 0, len(columns))
	for i := range s.games {
		g := &s.games[i].Game
		sheet, err := model.NewSheet(*g, s.deliveries[i])
		if err != nil {
			return bad(err, "game %s", g.ID)
		}
		student := students[g.Student]
		if student == nil {
			return bad(fmt.Errorf("its student %s is missing", g.Student), "game %s", g.ID)
		}
		for j := range sheet.Deliveries {
			row = cells(row, ball{&s.session.Session, student, g, sheet.Racks[j], &sheet.Deliveries[j]})
			if err := table.Write(row); err != nil {
				return err
			}
		}
	}
	return nil
}

// sheaf is a session with its games by student, number and id, and each game's deliveries by seq.
type sheaf struct {
	session    sessionRow
	games      []gameRow
	deliveries [][]model.Delivery
}

// eachSheaf calls f with every session by time and then by id.
func eachSheaf(tx *bolt.Tx, f func(sheaf) error) error {
	rows, err := sessionRows(tx)
	if err != nil {
		return err
	}
	for _, row := range rows {
		s, err := sheafIn(tx, row)
		if err != nil {
			return err
		}
		for i, g := range s.games {
			if err := g.complete(len(s.deliveries[i])); err != nil {
				return err
			}
		}
		if err := f(s); err != nil {
			return err
		}
	}
	return nil
}

func sheafIn(tx *bolt.Tx, session sessionRow) (sheaf, error) {
	games, err := gamesIn(tx, session)
	if err != nil {
		return sheaf{}, err
	}
	s := sheaf{session: session, games: games, deliveries: make([][]model.Delivery, len(games))}
	at := map[model.ID]int{}
	for i, g := range games {
		at[g.ID] = i
	}
	rows, err := deliveriesIn(tx, session)
	if err != nil {
		return sheaf{}, err
	}
	for _, d := range rows {
		i, ok := at[d.Game]
		if !ok {
			return sheaf{}, bad(fmt.Errorf("its game %s is missing", d.Game), "delivery %s", d.ID)
		}
		s.deliveries[i] = append(s.deliveries[i], d.Delivery)
	}
	for _, ds := range s.deliveries {
		slices.SortStableFunc(ds, func(a, b model.Delivery) int { return cmp.Compare(a.Seq, b.Seq) })
	}
	return s, nil
}
