package store

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

const (
	// maxLine is the longest line that is read, in bytes.
	maxLine = 1 << 20
	// intakeBatch is how many lines share a transaction, fewer where they are more than intakeBytes long together.
	intakeBatch = 8192
	intakeBytes = 4 << 20
	// intakeSessions is how many sessions share a transaction.
	intakeSessions = 50
)

// intake takes the lines of a file into a store that nobody else works on.
type intake struct {
	lines *bufio.Scanner
	// read is the number of the last line that was read, line that of the line in hand.
	read, line int
	taken      Imported
	// keepMine leaves students and cues as they are kept where the file says something else: mine are these.
	keepMine bool
	mine     []Differing
	// newer puts what the file says in the place of what is kept: replaced and gone count it. strict does so only where the
	// file tells what it was when that was written.
	newer, strict  bool
	replaced, gone Imported
	// past are the forms that the file tells of records, brought the lines by which other records than deliveries came.
	past    map[model.Ref][]string
	brought map[model.Ref]int
	// uncounted are the deliveries that the bucket does not count yet.
	uncounted int
	// games says where those are that were met last.
	games map[model.ID]found
	// visited are the sessions of which games or deliveries were taken, in the order in which they were met.
	visited []*visit
	visits  map[model.ID]*visit
}

// visit is a session of which something was taken, with the lines by which its deliveries came.
type visit struct {
	session  model.ID
	arrivals []arrival
	// touched are lines by which games were changed without a delivery of them coming.
	touched map[model.ID]int
}

// arrival is the line by which a delivery came.
type arrival struct{ serial, line uint32 }

func newIntake(r io.Reader) *intake {
	lines := bufio.NewScanner(r)
	lines.Buffer(make([]byte, 0, exchangeBuffer), maxLine)
	return &intake{
		lines: lines, games: map[model.ID]found{}, visits: map[model.ID]*visit{},
		past: map[model.Ref][]string{}, brought: map[model.Ref]int{},
	}
}

// all takes every line into a store, and then looks whether the games are possible.
func (in *intake) all(s *Store) error {
	if err := in.first(); err != nil {
		return err
	}
	if err := in.every(s); err != nil {
		return err
	}
	for rest := in.visited; len(rest) > 0; {
		n := min(len(rest), intakeSessions)
		if err := s.update(func(tx *bolt.Tx) error { return in.settle(tx, rest[:n]) }); err != nil {
			return err
		}
		rest = rest[n:]
	}
	return nil
}

// every takes the lines after the first. While those of one batch are taken, those of the next are decoded.
func (in *intake) every(s *Store) error {
	encoded, decoded := make(chan *batch, 1), make(chan *batch, 1)
	defer close(encoded)
	go func() {
		defer close(decoded)
		for b := range encoded {
			b.decode()
			decoded <- b
		}
	}()
	next, spare := in.batch(&batch{}), &batch{}
	encoded <- next
	for last := false; !last; {
		b := <-decoded
		if last = b.last; !last {
			encoded <- in.batch(spare)
		}
		if err := s.update(func(tx *bolt.Tx) error { return in.some(tx, b) }); err != nil {
			return err
		}
		spare = b
	}
	return nil
}

// batch is some lines that are taken in one transaction.
type batch struct {
	// first is the number of the first line.
	first int
	// text holds the lines, ends where each ends in it.
	text []byte
	ends []int
	// records are what the lines say, up to the one that is refused.
	records []model.Record
	refusal error
	// last tells that no batch comes after this one.
	last bool
}

// batch reads the lines of a batch, in place of those that are in b.
func (in *intake) batch(b *batch) *batch {
	*b = batch{first: in.read + 1, text: b.text[:0], ends: b.ends[:0], records: b.records[:0]}
	for len(b.ends) < intakeBatch && len(b.text) < intakeBytes {
		more, err := in.next()
		if err != nil || !more {
			b.refusal, b.last = err, true
			break
		}
		b.text = append(b.text, in.lines.Bytes()...)
		b.ends = append(b.ends, len(b.text))
	}
	return b
}

// decode makes the records of the lines. A line that is refused is the last: what was wrong after it is not told.
func (b *batch) decode() {
	from := 0
	for i, to := range b.ends {
		r, err := decodeLine(b.text[from:to])
		if err != nil {
			b.refusal, b.last = refusedAt(b.first+i, err), true
			return
		}
		b.records = append(b.records, r)
		from = to
	}
}

// some takes the records of a batch, and counts them.
func (in *intake) some(tx *bolt.Tx, b *batch) error {
	for i, r := range b.records {
		in.line = b.first + i
		if err := in.take(tx, r); err != nil {
			return refusedAt(in.line, err)
		}
	}
	if b.refusal != nil {
		return b.refusal
	}
	err := countDeliveries(tx, in.uncounted)
	in.uncounted = 0
	return err
}

func refusedAt(line int, err error) error { return fmt.Errorf("line %d: %w", line, err) }

// next goes to the next line and tells whether there is one.
func (in *intake) next() (bool, error) {
	in.read++
	more := in.lines.Scan()
	// What was read before an error is given as if it were a line.
	err := in.lines.Err()
	switch {
	case errors.Is(err, bufio.ErrTooLong):
		return false, refusedAt(in.read, fmt.Errorf("it is longer than %d bytes", maxLine))
	case err != nil:
		return false, refusedAt(in.read, fmt.Errorf("it cannot be read: %w", err))
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
		return refusedAt(1, errors.New("the file is empty: it should begin with "+firstLine))
	}
	format, err := formatOf(in.lines.Bytes())
	switch {
	case bytes.HasPrefix(in.lines.Bytes(), []byte(utf8Mark)):
		return refusedAt(1, errors.New("an editor has put a byte order mark before it: save the file as UTF-8 without one"))
	case err != nil:
		return refusedAt(1, fmt.Errorf("%w: an export begins with %s", err, firstLine))
	case format != formatVersion:
		return refusedAt(1, fmt.Errorf("the format %d is not known: this program reads format %d", format, formatVersion))
	}
	return nil
}
