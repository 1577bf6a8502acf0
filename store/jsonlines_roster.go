package store

import (
	"slices"

	"coach.settee/model"
)

// seatLine is a place in the roster as a line tells it: with the lines aimed at by their lanes.
type seatLine struct {
	model.Seat
	aims []aim
}

// aim is the line aimed at on a lane.
type aim struct {
	lane int
	line model.Line
}

func makeAimFields() []field[aim] {
	lane := always(wholeField("lane", 1, model.MaxLane, func(a *aim) *int { return &a.lane }))
	return append([]field[aim]{lane}, makeLineFields(func(a *aim) *model.Line { return &a.line })...)
}

func rosterField[T any](key string, at func(*T) *[]model.Seat) field[T] {
	return field[T]{
		key: key,
		write: func(b []byte, v *T) []byte {
			return appendList(b, *at(v), func(b []byte, s model.Seat) []byte {
				l := lineOfSeat(s)
				return appendObject(b, "", seatFields, &l)
			})
		},
		read: func(r *lineReader, v *T) {
			r.list(maxList, func(int) {
				var l seatLine
				readObject(r, "", seatFields, &l)
				*at(v) = append(*at(v), l.seat(r))
			})
		},
	}
}

func lineOfSeat(s model.Seat) seatLine {
	l := seatLine{Seat: s}
	for i, lane := range s.Pair() {
		if !s.Aimed[i].IsZero() {
			l.aims = append(l.aims, aim{lane, s.Aimed[i]})
		}
	}
	return l
}

// seat gives the place that a line tells, whose lines have to be of its pair, and one for a lane.
func (l seatLine) seat(r *lineReader) model.Seat {
	pair := l.Pair()
	var told [2]bool
	for _, a := range l.aims {
		i := slices.Index(pair[:], a.lane)
		switch {
		case i < 0:
			r.refuse("aimed: lane %d is not of the pair %s", a.lane, pair)
			return model.Seat{}
		case told[i]:
			r.refuse("aimed: lane %d is there twice", a.lane)
			return model.Seat{}
		}
		told[i], l.Aimed[i] = true, a.line
	}
	return l.Seat
}
