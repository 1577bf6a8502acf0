package model

import (
	"errors"
	"fmt"
	"slices"
	"time"
)

var errNotSeated = errors.New("that student is not in tonight's roster")

// Seat gives a new student a place on a lane of the evening, last in that pair's order, and the student's record is kept
// with it. Who shares a lane's pair with others alternates lanes as they do.
func (e *Evening) Seat(s Student, lane int) (Step, error) { return e.seat(nil, s, lane) }

// SeatKnown is Seat for a student whose record is kept already, as was: taking it back takes back the place and what
// changed of the record, not the student.
func (e *Evening) SeatKnown(was, s Student, lane int) (Step, error) { return e.seat(was, s, lane) }

// seat seats a student whose record was before, nil for one that is new.
func (e *Evening) seat(before Record, s Student, lane int) (Step, error) {
	if err := s.Validate(); err != nil {
		return Step{}, err
	}
	if _, ok := e.SeatOf(s.ID); ok {
		return Step{}, fmt.Errorf("%s is in tonight's roster already: another of that name needs a surname or an initial", s.Name)
	}
	pair := PairOf(lane)
	if !slices.Contains(e.session.Pairs, pair) {
		return Step{}, fmt.Errorf("lane %d is on none of tonight's pairs", lane)
	}
	session := e.session.clone()
	seats := e.seatsOn(pair)
	seat := Seat{Student: s.ID, Lane: lane, Order: 1, Alternate: true}
	if len(seats) > 0 {
		seat.Order = seats[len(seats)-1].Order + 1
		seat.Alternate = slices.ContainsFunc(seats, func(x Seat) bool { return x.Alternate })
	}
	session.Roster = append(session.Roster, seat)
	changes := []Change{
		{Ref: s.Ref(), Before: before, After: s},
		{Ref: session.Ref(), Before: e.session, After: session},
	}
	return e.rearranged(Action{Student: s.ID, What: fmt.Sprintf("%s added on %s", s.Name, pair), Changes: changes})
}

// ToggleOut takes the student who is up out of the rotation, whereupon the next is up where the session rotates, or back
// in.
func (e *Evening) ToggleOut() (Step, error) {
	id := e.UpStudent()
	seat, ok := e.SeatOf(id)
	if !ok {
		return Step{}, errNobodyUp
	}
	what := e.Label(id) + " is out of the rotation"
	if seat.Out {
		what = e.Label(id) + " is back in the rotation"
	}
	step, err := e.reseat(id, what, func(s *Seat) { s.Out = !s.Out })
	if err != nil {
		return Step{}, err
	}
	if !seat.Out {
		e.takeTurns(id)
		step.Up = e.Up()
	}
	return step, nil
}

// ChangeLane moves the student who is up to the other lane of the pair from the next ball on.
func (e *Evening) ChangeLane() (Step, error) {
	id := e.UpStudent()
	seat, ok := e.SeatOf(id)
	if !ok {
		return Step{}, errNobodyUp
	}
	frame := e.Rack(id).Frame
	to := seat.Pair().Other(seat.LaneFor(frame))
	what := fmt.Sprintf("%s goes to lane %d", e.Label(id), to)
	return e.reseat(id, what, func(s *Seat) { s.Lane = s.Pair().Other(s.Lane) })
}

// MovePair moves the student who is up, or everyone of that pair, to the pair of a lane. The pair becomes one of the
// evening's where it is not yet, and one that everyone leaves is no longer one of them. One student bowls the next ball on the lane that is named; everyone keeps to the side of
// the pair they had. Who comes to others alternates lanes as they do.
func (e *Evening) MovePair(lane int, all bool) (Step, error) {
	id := e.UpStudent()
	seat, ok := e.SeatOf(id)
	if !ok {
		return Step{}, errNobodyUp
	}
	if lane < 1 || lane > MaxLane {
		return Step{}, fmt.Errorf("lane %d: lanes are 1 to %d", lane, MaxLane)
	}
	from, to := seat.Pair(), PairOf(lane)
	if from == to {
		return Step{}, fmt.Errorf("%s is on %s already: W goes to the other lane", e.Label(id), to)
	}
	session := e.session.clone()
	if !slices.Contains(session.Pairs, to) {
		session.Pairs = append(session.Pairs, to)
		slices.SortFunc(session.Pairs, func(a, b Pair) int { return a[0] - b[0] })
	}
	if all {
		session.Pairs = slices.DeleteFunc(session.Pairs, func(p Pair) bool { return p == from })
	}
	there := e.seatsOn(to)
	order := 0
	if n := len(there); n > 0 {
		order = there[n-1].Order
	}
	for _, s := range e.seatsOn(from) {
		if s.Student != id && !all {
			continue
		}
		order++
		moved := &session.Roster[session.Seat(s.Student)]
		moved.Lane, moved.Order, moved.Aimed = to[s.Lane-from[0]], order, [2]Line{}
		if len(there) > 0 {
			moved.Alternate = slices.ContainsFunc(there, func(x Seat) bool { return x.Alternate })
		}
		if !all && moved.LaneFor(e.Rack(id).Frame) != lane {
			moved.Lane = to.Other(moved.Lane)
		}
	}
	what := fmt.Sprintf("%s goes to lane %d", e.Label(id), lane)
	if all {
		what = fmt.Sprintf("everyone on %s goes to %s", from, to)
	}
	step, err := e.rearranged(Action{
		Student: id, What: what,
		Changes: []Change{{Ref: session.Ref(), Before: e.session, After: session}},
	})
	if err == nil && len(there) == 0 {
		e.up.OnPair[to[0]] = id
		step.Up = e.Up()
	}
	return step, err
}

// Arrange changes the session's own fields: place, pattern, rotation and the like, with the words for what was done.
func (e *Evening) Arrange(what string, change func(*Session)) (Step, error) {
	session := e.session.clone()
	change(&session)
	return e.rearranged(Action{What: what, Changes: []Change{{Ref: session.Ref(), Before: e.session, After: session}}})
}

// Close ends the evening. A call begun and not recorded is in the way of it, and so is a delivery reopened and changed.
func (e *Evening) Close(at time.Time) (Step, error) {
	switch {
	case !e.session.Open():
		return Step{}, errors.New("the evening is closed already")
	case e.edit != nil && e.edit.Changed():
		return Step{}, errChanged
	}
	var students []ID
	for _, s := range e.Seats() {
		students = append(students, s.Student)
	}
	if err := e.NoneBegun(students...); err != nil {
		return Step{}, err
	}
	return e.Arrange("evening closed", func(s *Session) {
		s.Closed = at.UTC().Truncate(time.Second)
		for i := range s.Roster {
			s.Roster[i].Goal = e.ChosenFor(s.Roster[i].Student).Goal
		}
	})
}

// reseat changes a student's seat.
func (e *Evening) reseat(id ID, what string, change func(*Seat)) (Step, error) {
	session := e.session.clone()
	change(&session.Roster[session.Seat(id)])
	return e.rearranged(Action{
		Student: id, What: what,
		Changes: []Change{{Ref: session.Ref(), Before: e.session, After: session}},
	})
}

// rearranged does an action that changes the session, unless it would become one that cannot be, and settles who is up.
func (e *Evening) rearranged(a Action) (Step, error) {
	for _, c := range a.Changes {
		if err := c.After.Validate(); err != nil {
			return Step{}, err
		}
	}
	step, err := e.do(a)
	if err != nil {
		return Step{}, err
	}
	gone := !slices.Contains(e.session.Pairs, e.PairInView())
	e.settleUp()
	if seat, ok := e.SeatOf(a.Student); ok && (gone || e.up.OnPair[e.up.Lane] == "") {
		e.up.Lane = seat.Pair()[0]
	}
	step.Up = e.Up()
	return step, nil
}
