package store

import (
	"maps"
	"slices"
	"time"

	"coach.settee/model"
)

// sessionHead is what a session's games and deliveries are kept by.
type sessionHead struct {
	id model.ID
	// number stands for the session in the keys of its games and deliveries.
	number uint32
	// floor is the serial up to which deliveries no longer tell of actions: the list that they were in is gone.
	floor uint32
	at    time.Time
	open  bool
}

// sessionRow is a session with what only the store knows of it.
type sessionRow struct {
	model.Session
	number, floor uint32
}

func decodeSessionHead(key, value []byte) (sessionHead, error) {
	d, err := unseal(key, value)
	if err != nil {
		return sessionHead{}, err
	}
	h := sessionHead{id: model.ID(key), number: d.uint32(), floor: d.uint32()}
	h.open = d.byte()&sessionClosed == 0
	h.at = d.time()
	return h, d.err
}

func (r sessionRow) encode(key []byte) []byte {
	e := newEncoder()
	e.uint32(r.number)
	e.uint32(r.floor)
	encodeSession(e, r.Session)
	return e.seal(key)
}

func decodeSessionRow(key, value []byte) (sessionRow, error) {
	d, err := unseal(key, value)
	if err != nil {
		return sessionRow{}, err
	}
	r := sessionRow{number: d.uint32(), floor: d.uint32()}
	r.Session = decodeSession(d, model.ID(key))
	return r, d.err
}

// The bits of a session's and a seat's flags.
const (
	sessionRotate = 1 << iota
	sessionBlock
	sessionClosed
	sessionAimed
	// sessionMore says that the lanes' state and the seats' later fields follow.
	sessionMore

	seatAlternate = 1 << 0
	seatOut       = 1 << 1
)

func encodeSession(e *encoder, s model.Session) {
	var flags byte
	if s.Rotate {
		flags |= sessionRotate
	}
	if s.Block {
		flags |= sessionBlock
	}
	if !s.Closed.IsZero() {
		flags |= sessionClosed
	}
	aimed := slices.ContainsFunc(s.Roster, func(seat model.Seat) bool { return seat.Aimed != [2]model.Line{} })
	if aimed {
		flags |= sessionAimed
	}
	more := hasMore(s)
	if more {
		flags |= sessionMore
	}
	e.byte(flags)
	e.time(s.At)
	if !s.Closed.IsZero() {
		e.time(s.Closed)
	}
	e.text(s.Place)
	e.numbers(s.PatternFt, s.ArrowsFt)
	e.count(len(s.Pairs))
	for _, p := range s.Pairs {
		e.count(p[0])
		e.count(p[1])
	}
	e.count(len(s.Roster))
	for _, seat := range s.Roster {
		encodeSeat(e, seat)
	}
	if aimed {
		for _, seat := range s.Roster {
			e.line(seat.Aimed[0])
			e.line(seat.Aimed[1])
		}
	}
	if more {
		encodeMore(e, s)
	}
}

func hasMore(s model.Session) bool {
	return s.PatternKind != "" || !s.Oiled.IsZero() || s.Before != "" ||
		slices.ContainsFunc(s.Roster, func(seat model.Seat) bool {
			return seat.Sentence != "" || seat.Watched != 0 || seat.Goal != 0
		})
}

func encodeMore(e *encoder, s model.Session) {
	e.text(s.PatternKind)
	e.text(s.Before)
	oiled := byte(0)
	if !s.Oiled.IsZero() {
		oiled = 1
	}
	e.byte(oiled)
	if oiled == 1 {
		e.time(s.Oiled)
	}
	for _, seat := range s.Roster {
		e.text(seat.Sentence)
		e.byte(byte(seat.Watched))
		e.count(int(seat.Goal))
	}
}

func encodeSeat(e *encoder, s model.Seat) {
	var flags byte
	if s.Alternate {
		flags |= seatAlternate
	}
	if s.Out {
		flags |= seatOut
	}
	e.byte(flags)
	e.id(s.Student)
	e.count(s.Lane)
	e.count(s.Order)
	for _, text := range []string{s.Cue, s.Focus, s.Homework, s.Next} {
		e.text(text)
	}
}

func decodeSession(d *decoder, id model.ID) model.Session {
	flags := d.byte()
	s := model.Session{
		ID: id, Rotate: flags&sessionRotate != 0, Block: flags&sessionBlock != 0, At: d.time(),
	}
	if flags&sessionClosed != 0 {
		s.Closed = d.time()
	}
	s.Place = d.text()
	d.numbers(&s.PatternFt, &s.ArrowsFt)
	for range d.items() {
		s.Pairs = append(s.Pairs, model.Pair{d.count(), d.count()})
	}
	for range d.items() {
		s.Roster = append(s.Roster, decodeSeat(d))
	}
	if flags&sessionAimed != 0 {
		for i := range s.Roster {
			s.Roster[i].Aimed = [2]model.Line{d.line(), d.line()}
		}
	}
	if flags&sessionMore != 0 {
		decodeMore(d, &s)
	}
	return s
}

func decodeMore(d *decoder, s *model.Session) {
	s.PatternKind, s.Before = d.text(), d.text()
	if d.byte() == 1 {
		s.Oiled = d.time()
	}
	for i := range s.Roster {
		seat := &s.Roster[i]
		seat.Sentence, seat.Watched, seat.Goal = d.text(), model.AxisSet(d.byte()), model.Goal(d.count())
	}
}

func decodeSeat(d *decoder) model.Seat {
	flags := d.byte()
	return model.Seat{
		Alternate: flags&seatAlternate != 0, Out: flags&seatOut != 0,
		Student: d.id(), Lane: d.count(), Order: d.count(),
		Cue: d.text(), Focus: d.text(), Homework: d.text(), Next: d.text(),
	}
}

func encodeUp(e *encoder, u model.Up) {
	e.count(u.Lane)
	e.count(len(u.OnPair))
	for _, lane := range slices.Sorted(maps.Keys(u.OnPair)) {
		e.count(lane)
		e.id(u.OnPair[lane])
	}
}

func decodeUp(d *decoder) model.Up {
	u := model.Up{Lane: d.count(), OnPair: map[int]model.ID{}}
	for range d.items() {
		lane := d.count()
		u.OnPair[lane] = d.id()
	}
	return u
}
