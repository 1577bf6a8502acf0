package store

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"sort"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

const (
	// maxLine is the longest line that is read, in bytes.
	maxLine = 1 << 20
	// intakeBatch is how many lines, or sessions, share a transaction.
	intakeBatch = 5000
)

// intake takes the lines of a file into a store that nobody else works on.
type intake struct {
	s     *Store
	lines *bufio.Scanner
	// line is the number of the line in hand.
	line  int
	taken Imported
	// touched are the sessions, in the order in which they were met, of which games or deliveries were taken; arrived
	// says by which line each of these deliveries came.
	touched []model.ID
	arrived map[model.ID][]arrival
}

// arrival is the line by which a delivery came.
type arrival struct{ serial, line uint32 }

func newIntake(s *Store, r io.Reader) *intake {
	lines := bufio.NewScanner(r)
	lines.Buffer(make([]byte, 0, exchangeBuffer), maxLine)
	return &intake{s: s, lines: lines, arrived: map[model.ID][]arrival{}}
}

// all takes every line, and then looks whether the games are possible.
func (in *intake) all() (Imported, error) {
	if err := in.first(); err != nil {
		return Imported{}, err
	}
	for more := true; more; {
		err := in.s.update(func(tx *bolt.Tx) (err error) {
			more, err = in.some(tx)
			return err
		})
		if err != nil {
			return Imported{}, err
		}
	}
	for rest := in.touched; len(rest) > 0; {
		n := min(len(rest), intakeBatch/100)
		err := in.s.update(func(tx *bolt.Tx) error { return in.settle(tx, rest[:n]) })
		if err != nil {
			return Imported{}, err
		}
		rest = rest[n:]
	}
	return in.taken, nil
}

// refused names the line in hand.
func (in *intake) refused(err error) error { return refusedAt(in.line, err) }

func refusedAt(line int, err error) error { return fmt.Errorf("line %d: %w", line, err) }

// next goes to the next line and tells whether there is one.
func (in *intake) next() (bool, error) {
	in.line++
	more := in.lines.Scan()
	// What was read before an error is given as if it were a line.
	err := in.lines.Err()
	switch {
	case errors.Is(err, bufio.ErrTooLong):
		return false, in.refused(fmt.Errorf("it is longer than %d bytes", maxLine))
	case err != nil:
		return false, in.refused(fmt.Errorf("it cannot be read: %w", err))
	}
	return more, nil
}

// first takes the first line.
func (in *intake) first() error {
	more, err := in.next()
	if err != nil {
		return err
	}
	if !more {
		return in.refused(errors.New("the file is empty: it should begin with " + firstLine))
	}
	format, err := formatOf(in.lines.Bytes())
	switch {
	case err != nil:
		return in.refused(fmt.Errorf("%w: an export begins with %s", err, firstLine))
	case format != formatVersion:
		return in.refused(fmt.Errorf("the format %d is not known: this program reads format %d", format, formatVersion))
	}
	return nil
}

// some takes the lines of one batch and tells whether there may be more.
func (in *intake) some(tx *bolt.Tx) (bool, error) {
	for range intakeBatch {
		more, err := in.next()
		if err != nil || !more {
			return false, err
		}
		r, err := decodeLine(in.lines.Bytes())
		if err == nil {
			err = in.take(tx, r)
		}
		if err != nil {
			return false, in.refused(err)
		}
	}
	return true, nil
}

// take keeps a record that is new. What it refers to has to be kept.
func (in *intake) take(tx *bolt.Tx, r model.Record) error {
	kept, err := recordIn(tx, r.Ref())
	if err != nil {
		return err
	}
	if kept != nil {
		if !bytes.Equal(encodeLine(nil, kept), encodeLine(nil, r)) {
			return fmt.Errorf("%s is kept already and says something else", refWords(r.Ref()))
		}
		in.taken.Known++
		return nil
	}
	for _, ref := range refersTo(r) {
		if known, err := recordIn(tx, ref); err != nil || known == nil {
			return errors.Join(err, fmt.Errorf("%s is neither kept nor in a line before", refWords(ref)))
		}
	}
	if err := putRecord(tx, r); err != nil {
		return err
	}
	return in.took(tx, r)
}

// took counts what was taken and remembers what has to be looked at.
func (in *intake) took(tx *bolt.Tx, r model.Record) error {
	switch r := r.(type) {
	case model.Cue:
		in.taken.Cues++
	case model.Student:
		in.taken.Students++
	case model.Session:
		in.taken.Sessions++
	case model.Game:
		in.taken.Games++
		in.touch(r.Session)
	case model.Delivery:
		in.taken.Deliveries++
		at, _, err := find(tx, model.DeliveryRecord, r.ID)
		if err != nil {
			return err
		}
		in.touch(at.session)
		in.arrived[at.session] = append(in.arrived[at.session], arrival{at.serial, uint32(in.line)})
	}
	return nil
}

func (in *intake) touch(session model.ID) {
	if _, ok := in.arrived[session]; !ok {
		in.touched = append(in.touched, session)
		in.arrived[session] = nil
	}
}

// refersTo lists what a record refers to.
func refersTo(r model.Record) []model.Ref {
	switch r := r.(type) {
	case model.Session:
		refs := make([]model.Ref, len(r.Roster))
		for i, seat := range r.Roster {
			refs[i] = model.Ref{Kind: model.StudentRecord, ID: seat.Student}
		}
		return refs
	case model.Game:
		return []model.Ref{{Kind: model.SessionRecord, ID: r.Session}, {Kind: model.StudentRecord, ID: r.Student}}
	case model.Delivery:
		return []model.Ref{{Kind: model.GameRecord, ID: r.Game}}
	}
	return nil
}

func refWords(ref model.Ref) string {
	words := map[model.RecordKind]string{
		model.CueRecord: "cue", model.StudentRecord: "student", model.SessionRecord: "session",
		model.GameRecord: "game", model.DeliveryRecord: "delivery",
	}
	return fmt.Sprintf("the %s %s", words[ref.Kind], ref.ID)
}

// settle looks at the games of sessions: their deliveries have to be all there and possible in their order. It keeps
// what they add up to.
func (in *intake) settle(tx *bolt.Tx, sessions []model.ID) error {
	for _, id := range sessions {
		row, _, err := sessionAt(tx, id)
		if err != nil {
			return err
		}
		s, err := sheafIn(tx, row)
		if err != nil {
			return err
		}
		for i, g := range s.games {
			tally, err := in.tallied(tx, g.Game, s.deliveries[i])
			if err != nil {
				return err
			}
			if err := putTally(tx, g.ID, tally); err != nil {
				return err
			}
		}
		if err := endList(tx, row); err != nil {
			return err
		}
	}
	return nil
}

// tallied gives what a game's deliveries, by seq, add up to, or refuses the line of the one that cannot be.
func (in *intake) tallied(tx *bolt.Tx, g model.Game, ds []model.Delivery) (model.Tally, error) {
	for i, d := range ds {
		switch {
		case d.Seq == i+1:
		case d.Seq == i:
			return model.Tally{}, in.refusedLater(tx, fmt.Errorf("the game %s has two deliveries with the seq %d", g.ID, d.Seq), d, ds[i-1])
		default:
			return model.Tally{}, in.refusedLater(tx, fmt.Errorf("the game %s has no delivery with the seq %d before this one", g.ID, i+1), d)
		}
	}
	sheet, err := model.NewSheet(g, ds)
	if err != nil {
		return model.Tally{}, in.impossible(tx, g, ds)
	}
	for i, d := range sheet.Deliveries {
		if d.Frame != ds[i].Frame || d.Ball != ds[i].Ball {
			return model.Tally{}, in.refusedLater(tx, misplaced(g, d), ds[i])
		}
	}
	return sheet.Tally, nil
}

// misplaced says where a delivery belongs, which its line has elsewhere.
func misplaced(g model.Game, d model.Delivery) error {
	if d.Frame == 0 {
		return fmt.Errorf("a delivery of a %s has no frame and no ball", g.Kind)
	}
	return fmt.Errorf("by the deliveries before it this one is ball %d of frame %d", d.Ball, d.Frame)
}

// impossible refuses the first delivery of a game that cannot be where it stands.
func (in *intake) impossible(tx *bolt.Tx, g model.Game, ds []model.Delivery) error {
	n := sort.Search(len(ds), func(i int) bool {
		_, err := model.NewSheet(g, ds[:i+1])
		return err != nil
	})
	_, err := model.NewSheet(g, ds[:n+1])
	return in.refusedLater(tx, fmt.Errorf("the game %s cannot have been so: %w", g.ID, err), ds[n])
}

// refusedLater names the line by which the first of some deliveries came that is not kept already.
func (in *intake) refusedLater(tx *bolt.Tx, reason error, ds ...model.Delivery) error {
	for _, d := range ds {
		at, _, err := find(tx, model.DeliveryRecord, d.ID)
		if err != nil {
			return err
		}
		for _, a := range in.arrived[at.session] {
			if a.serial == at.serial {
				return refusedAt(int(a.line), reason)
			}
		}
	}
	return fmt.Errorf("with what is kept already: %w", reason)
}

// endList takes away the list of actions of a session that something was brought into: its actions are not the last
// ones any more. Who was up stays.
func endList(tx *bolt.Tx, row sessionRow) error {
	if err := dropActions(tx, row.number, 0); err != nil {
		return err
	}
	if last, ok := lastBefore(tx, bucketDeliveries, place{row.number, highest}); ok {
		row.floor = last
	}
	return putSessionRow(tx, row)
}
