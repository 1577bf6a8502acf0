package model

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// ParseLanes reads lanes as a prompt takes them: "7", "7 9 11", "7-12". Each lane names its pair; the pairs come in
// order, each once.
func ParseLanes(text string) ([]Pair, error) {
	words := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' })
	if len(words) == 0 {
		return nil, errors.New("no lane is named: 7 is the pair 7/8, 7-12 are three pairs")
	}
	var pairs []Pair
	for _, word := range words {
		from, to, err := laneRange(word)
		if err != nil {
			return nil, err
		}
		for lane := from; lane <= to; lane++ {
			if p := PairOf(lane); !slices.Contains(pairs, p) {
				pairs = append(pairs, p)
			}
		}
	}
	slices.SortFunc(pairs, func(a, b Pair) int { return a[0] - b[0] })
	if len(pairs) > MaxPairs {
		return nil, fmt.Errorf("%d pairs: an evening takes up to %d", len(pairs), MaxPairs)
	}
	return pairs, nil
}

// ParseLane reads the number of one lane, 1 to MaxLane.
func ParseLane(text string) (int, error) {
	lane, ok := whole(text)
	switch {
	case !ok:
		return 0, fmt.Errorf("%q is no lane: give its number", text)
	case lane < 1 || lane > MaxLane:
		return 0, fmt.Errorf("lane %d: lanes are 1 to %d", lane, MaxLane)
	}
	return lane, nil
}

func laneRange(word string) (from, to int, err error) {
	first, last, isRange := strings.Cut(strings.ReplaceAll(word, "/", "-"), "-")
	if !isRange {
		last = first
	}
	from, okFrom := whole(first)
	to, okTo := whole(last)
	switch {
	case !okFrom || !okTo || to < from:
		return 0, 0, fmt.Errorf("%q names no lane: 7 is the pair 7/8, 7-12 are three pairs", word)
	case from < 1 || to > MaxLane:
		return 0, 0, fmt.Errorf("%q: lanes are 1 to %d", word, MaxLane)
	}
	return from, to, nil
}

// AddPairs adds pairs of lanes to the evening.
func (e *Evening) AddPairs(pairs []Pair) (Step, error) {
	fresh := slices.DeleteFunc(slices.Clone(pairs), func(p Pair) bool { return slices.Contains(e.session.Pairs, p) })
	if len(fresh) == 0 {
		return Step{}, errors.New("the evening has these lanes already")
	}
	names := make([]string, len(fresh))
	for i, p := range fresh {
		names[i] = p.String()
	}
	return e.Arrange(strings.Join(names, ", ")+" added", func(s *Session) {
		s.Pairs = append(s.Pairs, fresh...)
		slices.SortFunc(s.Pairs, func(a, b Pair) int { return a[0] - b[0] })
	})
}

// SetPlace names the place; an empty text takes the name off.
func (e *Evening) SetPlace(text string) (Step, error) {
	what := "place: " + text
	if text == "" {
		what = "place taken off"
	}
	return e.Arrange(what, func(s *Session) { s.Place = text })
}

// The shortest and the longest oil that a pattern is taken to have, in feet.
const minPatternFt, maxPatternFt = 20, 60

// SetPattern sets the length of the oil from a text in feet; an empty one takes it off.
func (e *Evening) SetPattern(text string) (Step, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return e.Arrange("pattern taken off", func(s *Session) { s.PatternFt = Optional[float64]{} })
	}
	ft, ok := decimal(text)
	if !ok || ft < minPatternFt || ft > maxPatternFt {
		return Step{}, fmt.Errorf("%q is no length of oil: %d to %d feet", text, minPatternFt, maxPatternFt)
	}
	return e.Arrange(fmt.Sprintf("pattern of %v feet", ft), func(s *Session) { s.PatternFt = Known(ft) })
}

// ToggleRotate sets whether the next student is put up by itself after a frame, or no longer.
func (e *Evening) ToggleRotate() (Step, error) {
	what := "the next student is put up after a frame"
	if e.session.Rotate {
		what = "who is up changes by hand only"
	}
	return e.Arrange(what, func(s *Session) { s.Rotate = !s.Rotate })
}

// ToggleBlock sets whether a student stays up through a drill, or changes after each delivery.
func (e *Evening) ToggleBlock() (Step, error) {
	what := "drills in blocks: a student stays up to its end"
	if e.session.Block {
		what = "drills in turn: the next student after each delivery"
	}
	return e.Arrange(what, func(s *Session) { s.Block = !s.Block })
}

// ToggleAlternate sets whether a student bowls even frames on the pair's other lane.
func (e *Evening) ToggleAlternate(id ID) (Step, error) {
	seat, ok := e.SeatOf(id)
	if !ok {
		return Step{}, errNotSeated
	}
	what := fmt.Sprintf("%s alternates lanes", e.Label(id))
	if seat.Alternate {
		what = fmt.Sprintf("%s stays on lane %d", e.Label(id), seat.Lane)
	}
	return e.reseat(id, what, func(s *Seat) { s.Alternate = !s.Alternate })
}

// MoveInOrder moves a student in the bowling order of the pair, forward where by is negative.
func (e *Evening) MoveInOrder(id ID, by int) (Step, error) {
	seat, ok := e.SeatOf(id)
	if !ok {
		return Step{}, errNotSeated
	}
	seats := e.seatsOn(seat.Pair())
	at := slices.IndexFunc(seats, func(s Seat) bool { return s.Student == id })
	to := at + by
	switch {
	case to < 0:
		return Step{}, fmt.Errorf("%s bowls first on %s already", e.Label(id), seat.Pair())
	case to >= len(seats):
		return Step{}, fmt.Errorf("%s bowls last on %s already", e.Label(id), seat.Pair())
	}
	seats = slices.Delete(seats, at, at+1)
	seats = slices.Insert(seats, to, seat)
	session := e.session.clone()
	for i, s := range seats {
		session.Roster[session.Seat(s.Student)].Order = i + 1
	}
	return e.rearranged(Action{
		Student: id, What: fmt.Sprintf("%s bowls in place %d on %s", e.Label(id), to+1, seat.Pair()),
		Changes: []Change{{Ref: session.Ref(), Before: e.session, After: session}},
	})
}

// LaneWithRoom gives the lane of a pair on which fewer students begin, the odd one where it is the same.
func (e *Evening) LaneWithRoom(p Pair) int {
	seats := e.seatsOn(p)
	if len(onLane(seats, p[1])) < len(onLane(seats, p[0])) {
		return p[1]
	}
	return p[0]
}
