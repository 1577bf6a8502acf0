package model

import (
	"cmp"
	"errors"
	"maps"
	"slices"
)

// Up gives who is up, as a copy.
func (e *Evening) Up() Up { return Up{Lane: e.up.Lane, OnPair: maps.Clone(e.up.OnPair)} }

// UpStudent gives the student that the keys speak of, "" where the pair in view has none.
func (e *Evening) UpStudent() ID { return e.up.OnPair[e.up.Lane] }

// UpOn gives the student who is up on a pair, "" for none.
func (e *Evening) UpOn(p Pair) ID { return e.up.OnPair[p[0]] }

// PairInView gives the pair that the coach looks at.
func (e *Evening) PairInView() Pair { return PairOf(e.up.Lane) }

// PutUp puts a student up and turns to that student's pair. A delivery reopened and not changed is left.
func (e *Evening) PutUp(id ID) (Step, error) {
	if _, ok := e.SeatOf(id); !ok {
		return Step{}, errNotSeated
	}
	if e.edit != nil && e.edit.Changed() {
		return Step{}, errChanged
	}
	e.edit = nil
	e.putUp(id)
	return e.upStep(), nil
}

// PutUpBeside puts up the student a number of places after the one who is up, in screen order and around its end.
func (e *Evening) PutUpBeside(by int) (Step, error) {
	seats := e.Seats()
	if len(seats) == 0 {
		return Step{}, errNobodyUp
	}
	i := slices.IndexFunc(seats, func(s Seat) bool { return s.Student == e.UpStudent() })
	n := len(seats)
	if i < 0 && by < 0 {
		i = n
	}
	return e.PutUp(seats[((i+by)%n+n)%n].Student)
}

// NextPair turns to the next pair that has students, at the one who is up there.
func (e *Evening) NextPair() (Step, error) {
	if e.edit != nil && e.edit.Changed() {
		return Step{}, errChanged
	}
	pairs := e.session.Pairs
	at := slices.Index(pairs, e.PairInView())
	for i := 1; i < len(pairs); i++ {
		p := pairs[(at+i)%len(pairs)]
		if e.up.OnPair[p[0]] != "" {
			e.edit = nil
			e.up.Lane = p[0]
			return e.upStep(), nil
		}
	}
	return Step{}, errors.New("no other pair has students: P moves one, A adds one")
}

func (e *Evening) upStep() Step { return Step{Session: e.session.ID, Up: e.Up()} }

// putUp puts a student up, if seated, and turns to the pair.
func (e *Evening) putUp(id ID) {
	if seat, ok := e.SeatOf(id); ok {
		e.up.Lane = seat.Pair()[0]
		e.up.OnPair[e.up.Lane] = id
	}
}

// settleUp takes off whom the roster no longer has on a pair and puts up whose turn it is on a pair that has nobody up.
func (e *Evening) settleUp() {
	for _, p := range e.session.Pairs {
		seats := e.seatsOn(p)
		up := e.up.OnPair[p[0]]
		switch {
		case slices.ContainsFunc(seats, func(s Seat) bool { return s.Student == up }):
		case len(seats) == 0:
			delete(e.up.OnPair, p[0])
		default:
			e.up.OnPair[p[0]] = e.turnOn(seats)
		}
	}
	maps.DeleteFunc(e.up.OnPair, func(lane int, _ ID) bool { return !slices.Contains(e.session.Pairs, PairOf(lane)) })
	if !slices.Contains(e.session.Pairs, e.PairInView()) && len(e.session.Pairs) > 0 {
		e.up.Lane = e.session.Pairs[0][0]
	}
}

// takeTurns puts up whose turn it is on the pairs of students for whom what was bowled is no longer what it was, where
// the session rotates.
func (e *Evening) takeTurns(students ...ID) {
	if !e.session.Rotate {
		return
	}
	for _, id := range students {
		if seat, ok := e.SeatOf(id); ok {
			e.up.OnPair[seat.Pair()[0]] = e.turnOn(e.seatsOn(seat.Pair()))
		}
	}
}

// turnOn gives whose turn it is among the seats of a pair, of which there is at least one: the one who bowled there last
// until the turn is over, then who comes after; where nobody has bowled there, the first who is not out.
func (e *Evening) turnOn(seats []Seat) ID {
	last := e.lastOn(seats)
	if last == "" {
		return cmp.Or(nextIn(seats, ""), seats[0].Student)
	}
	seat, _ := e.SeatOf(last)
	if !seat.Out && !e.turnOver(last) {
		return last
	}
	return e.after(last, seat)
}

func (e *Evening) seatsOn(p Pair) []Seat {
	return slices.DeleteFunc(e.Seats(), func(s Seat) bool { return s.Pair() != p })
}

// advance puts up who bowls after a student's delivery on that pair, where the session rotates: after a frame, and in a
// drill or a warm-up after each delivery unless the session keeps to blocks.
func (e *Evening) advance(id ID) {
	seat, ok := e.SeatOf(id)
	if !ok || !e.session.Rotate || !e.turnOver(id) {
		return
	}
	e.up.OnPair[seat.Pair()[0]] = e.after(id, seat)
}

// turnOver tells whether the student's turn is over after the last delivery.
func (e *Evening) turnOver(id ID) bool {
	s := e.Sheet(id)
	switch {
	case s == nil || len(s.Deliveries) == 0:
		return false
	case s.Deliveries[len(s.Deliveries)-1].Dead:
		return false
	case s.Game.Kind == KindGame:
		return !s.MidFrame()
	case s.Game.Kind == KindDrill && e.session.Block:
		return s.Finished()
	}
	return true
}

// midFrame tells whether a student is in the middle of a frame.
func (e *Evening) midFrame(id ID) bool {
	s := e.Sheet(id)
	return s != nil && s.MidFrame()
}

// after gives who is up after a student on that student's pair: one who is in mid-frame, else the next in the order who
// is not out; where nobody alternates, of each lane's next the one who waited longest. If there is none, the same stays.
func (e *Evening) after(id ID, seat Seat) ID {
	seats := e.seatsOn(seat.Pair())
	at := slices.IndexFunc(seats, func(s Seat) bool { return s.Student == id })
	for i := 1; i < len(seats); i++ {
		if s := seats[(at+i)%len(seats)]; !s.Out && e.midFrame(s.Student) {
			return s.Student
		}
	}
	if slices.ContainsFunc(seats, func(s Seat) bool { return s.Alternate }) {
		return cmp.Or(nextIn(seats, id), id)
	}
	there := onLane(seats, seat.Pair().Other(seat.Lane))
	next, candidate := nextIn(onLane(seats, seat.Lane), id), nextIn(there, e.lastOn(there))
	if next == "" || candidate != "" && e.bowled[candidate].order <= e.bowled[next].order {
		return cmp.Or(candidate, id)
	}
	return next
}

// nextIn gives the next after a student in a bowling order, the first where the student is not in it, skipping who is
// out; "" where all are.
func nextIn(seats []Seat, id ID) ID {
	at := slices.IndexFunc(seats, func(s Seat) bool { return s.Student == id })
	for i := 1; i <= len(seats); i++ {
		if s := seats[(at+i)%len(seats)]; !s.Out {
			return s.Student
		}
	}
	return ""
}

// lastOn gives who of the seats bowled last on their pair, "" if nobody has.
func (e *Evening) lastOn(seats []Seat) ID {
	var last ID
	at := 0
	for _, s := range seats {
		if b := e.bowled[s.Student]; b.order > at && PairOf(b.lane) == s.Pair() {
			last, at = s.Student, b.order
		}
	}
	return last
}

func onLane(seats []Seat, lane int) []Seat {
	return slices.DeleteFunc(slices.Clone(seats), func(s Seat) bool { return s.Lane != lane })
}
