package model

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// ParseAim reads a line to aim at as it is typed, "17 34 8@43": the board at the arrows, the slide board and the board at
// the breakpoint with its distance in feet, each optional from the right, in the ranges of ParseLine. What is left out, and
// "." in its place, stays as the line in force has it; a breakpoint and its distance are one.
func ParseAim(text string, inForce Line) (Line, error) {
	var c LineCall
	parts := []func(string) error{
		func(w string) error { return readBoard(w, "the arrows", inForce.Arrows, &c.Line.Arrows) },
		func(w string) error { return readBoard(w, "the slide", inForce.Slide, &c.Line.Slide) },
		func(w string) error { return c.readBreakpoint(w, LineCall{Line: inForce}) },
	}
	for i, word := range strings.Fields(text) {
		if i == len(parts) {
			return Line{}, fmt.Errorf("%q is one too many: arrows, slide, breakpoint", word)
		}
		if err := parts[i](word); err != nil {
			return Line{}, err
		}
	}
	if c.Line.BreakpointFt.Known && !c.Line.Breakpoint.Known {
		return Line{}, errNoBreakpoint
	}
	c.Line.BreakpointFt = or(c.Line.BreakpointFt, inForce.BreakpointFt)
	return c.Line.or(inForce), nil
}

var errNoBreakpoint = errors.New("a breakpoint's distance without its board: 8@43 is board 8 at 43 feet")

// Aim sets the line that a student aims at on a lane of the pair, from the next delivery there on and in place of all
// that was aimed at. What says it for a move that the coach accepted, "feet 2 left, target 1 left"; with "" the line
// itself is told.
func (e *Evening) Aim(student ID, lane int, line Line, what string) (Step, error) {
	seat, ok := e.SeatOf(student)
	if !ok {
		return Step{}, errNotSeated
	}
	if PairOf(lane) != seat.Pair() {
		return Step{}, fmt.Errorf("%s is on %s, lane %d is another pair's", e.Label(student), seat.Pair(), lane)
	}
	if err := line.validateAim(); err != nil {
		return Step{}, err
	}
	if err := ValidateText(what); err != nil {
		return Step{}, err
	}
	if line == e.AimOf(student, lane) {
		return e.upStep(), nil
	}
	words := fmt.Sprintf("%s aims %s on lane %d", e.Label(student), line.aimWords(), lane)
	if what != "" {
		words = fmt.Sprintf("%s on lane %d: %s", e.Label(student), lane, what)
	}
	return e.reseat(student, words, func(s *Seat) { s.Aimed[sideOf(lane)] = line })
}

// validateAim tells why the line cannot be aimed at, or nil.
func (l Line) validateAim() error {
	switch {
	case l.IsZero():
		return errors.New("no line is named: 17 34 8@43 is arrows, slide and breakpoint")
	case l.BreakpointFt.Known && !l.Breakpoint.Known:
		return errNoBreakpoint
	}
	return l.validate()
}

// AimOf gives the line that the student's next delivery on a lane is aimed at: what was set for that lane, else as the
// student last bowled there tonight. It is zero where neither tells.
func (e *Evening) AimOf(student ID, lane int) Line {
	seat, ok := e.SeatOf(student)
	if !ok {
		seat = Seat{Student: student}
	}
	line, _ := e.inForce(seat, lane, e.recorded+1)
	return line
}

// sideOf gives a lane's place in its pair.
func sideOf(lane int) int { return (lane + 1) % 2 }

// aimedOn gives the line set for a lane of the seat's pair, zero for any other lane.
func (s Seat) aimedOn(lane int) Line {
	if PairOf(lane) != s.Pair() {
		return Line{}
	}
	return s.Aimed[sideOf(lane)]
}

// seatWhen gives a student's seat as it was when a delivery was recorded, without the lines aimed at where the evening's
// list of actions no longer goes back that far.
func (e *Evening) seatWhen(student ID, delivery Ref) Seat {
	made := slices.IndexFunc(e.log, func(a Action) bool {
		return slices.ContainsFunc(a.Changes, func(c Change) bool { return c.Before == nil && c.Ref == delivery })
	})
	if made < 0 {
		return Seat{Student: student}
	}
	session := e.session
	for _, a := range slices.Backward(e.log[made:]) {
		for _, c := range a.Changes {
			if was, ok := c.Before.(Session); ok {
				session = was
			}
		}
	}
	if i := session.Seat(student); i >= 0 {
		return session.Roster[i]
	}
	return Seat{Student: student}
}

// aimWords says a line as what is aimed at: "at 17 from 34 through 8@43".
func (l Line) aimWords() string {
	var words []string
	say := func(before string, of Optional[float64]) {
		if of.Known {
			words = append(words, before+strconv.FormatFloat(of.Value, 'f', -1, 64))
		}
	}
	say("at ", l.Arrows)
	say("from ", l.Slide)
	say("through ", l.Breakpoint)
	if last := len(words) - 1; l.BreakpointFt.Known {
		words[last] += "@" + strconv.FormatFloat(l.BreakpointFt.Value, 'f', -1, 64)
	}
	return strings.Join(words, " ")
}
