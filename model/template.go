package model

import (
	"cmp"
	"slices"
	"time"
)

// NewEveningLike begins an evening arranged like an earlier one: its place, pattern, arrows, pairs, rotation, and roster
// with lanes, order and watched axes, without those who are archived or no longer known, who are given by name in without.
// What belongs to one evening (cue, focus, homework, next meeting, lines, sentence, out, when oiled, who before) is not taken
// over.
func NewEveningLike(like Session, id ID, at time.Time, students map[ID]Student) (e *Evening, step Step, without []string, err error) {
	s := Session{
		ID: id, At: at.UTC().Truncate(time.Second), Place: like.Place, PatternFt: like.PatternFt, PatternKind: like.PatternKind,
		ArrowsFt: like.ArrowsFt, Pairs: slices.Clone(like.Pairs), Rotate: like.Rotate, Block: like.Block,
	}
	s.Roster, without = rosterLike(like.Roster, students)
	e, step, err = NewEvening(s)
	if err != nil {
		return nil, Step{}, nil, err
	}
	for _, seat := range s.Roster {
		e.students[seat.Student] = students[seat.Student]
	}
	if seats := e.Seats(); len(seats) > 0 {
		e.up.Lane = seats[0].Pair()[0]
	}
	e.settleUp()
	step.Up = e.Up()
	return e, step, without, nil
}

// rosterLike gives the seats of an earlier evening for another one, their places in each pair's order without gaps, and
// who is left out.
func rosterLike(earlier []Seat, students map[ID]Student) (roster []Seat, without []string) {
	places := map[Pair]int{}
	earlier = slices.Clone(earlier)
	slices.SortStableFunc(earlier, func(a, b Seat) int {
		return cmp.Or(cmp.Compare(a.Pair()[0], b.Pair()[0]), cmp.Compare(a.Order, b.Order))
	})
	for _, seat := range earlier {
		student, known := students[seat.Student]
		switch {
		case !known:
			without = append(without, string(seat.Student))
			continue
		case student.Archived:
			without = append(without, student.Name)
			continue
		}
		places[seat.Pair()]++
		roster = append(roster, Seat{
			Student: seat.Student, Lane: seat.Lane, Order: places[seat.Pair()], Alternate: seat.Alternate, Watched: seat.Watched,
		})
	}
	return roster, without
}

// LikeToday gives, of earlier evenings in order of time, the one that a new evening now most likely repeats: the last one of
// the same weekday (in now's zone) on another day, else the last one; false where there is none.
func LikeToday(earlier []Session, now time.Time) (Session, bool) {
	if len(earlier) == 0 {
		return Session{}, false
	}
	today := now.Format(time.DateOnly)
	for _, s := range slices.Backward(earlier) {
		at := s.At.In(now.Location())
		if at.Weekday() == now.Weekday() && at.Format(time.DateOnly) != today {
			return s, true
		}
	}
	return earlier[len(earlier)-1], true
}
