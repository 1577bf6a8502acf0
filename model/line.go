package model

import (
	"fmt"
	"strconv"
	"strings"
)

// Line is where a ball goes, in boards from the student's own side, each part known or not.
type Line struct {
	Arrows     Optional[float64]
	Slide      Optional[float64]
	Breakpoint Optional[float64]
	// BreakpointFt is in feet from the foul line.
	BreakpointFt Optional[float64]
}

// IsZero tells whether nothing of the line is known.
func (l Line) IsZero() bool { return l == Line{} }

// validate tells which part of the line no prompt would have taken, or nil.
func (l Line) validate() error {
	for _, board := range []Optional[float64]{l.Arrows, l.Slide, l.Breakpoint} {
		if board.Known && !(board.Value >= 0 && board.Value <= MaxBoard) {
			return fmt.Errorf("board %v: boards are 1 to 39, the gutters beside them 0 and up to %d", board.Value, MaxBoard)
		}
	}
	if ft := l.BreakpointFt; ft.Known && !(ft.Value >= minBreakpointFt && ft.Value <= maxBreakpointFt) {
		return fmt.Errorf("a breakpoint at %v feet: %d to %d feet", ft.Value, minBreakpointFt, maxBreakpointFt)
	}
	return nil
}

// LineCall is what the line prompt says: the line a ball took, its speed, and the hit where it was read in boards.
type LineCall struct {
	Line      Line
	SpeedMPH  Optional[float64]
	HitBoards Optional[float64]
}

// MaxBoard is the highest board that a line can name: the lane's 39 and the gutter beside it.
const MaxBoard = 45

// The distances of a breakpoint from the foul line, in feet.
const minBreakpointFt, maxBreakpointFt = 20, 60

// ParseLine reads the line prompt: board at the arrows, slide board, board at the breakpoint with its distance in feet
// (8 or 8@43), speed in miles an hour, in that order, each optional from the right; "." keeps what the last line on this
// lane had, and a number with a sign, anywhere, is the hit in boards. Boards are 0 to MaxBoard, the distance of the
// breakpoint 20 to 60 feet, the speed 1 to 40 miles an hour, the hit -MaxHit to +MaxHit.
func ParseLine(text string, last LineCall) (LineCall, error) {
	var c LineCall
	parts := []func(string) error{
		func(w string) error { return readBoard(w, "the arrows", last.Line.Arrows, &c.Line.Arrows) },
		func(w string) error { return readBoard(w, "the slide", last.Line.Slide, &c.Line.Slide) },
		func(w string) error { return c.readBreakpoint(w, last) },
		func(w string) error { return c.readSpeed(w, last) },
	}
	for _, word := range strings.Fields(text) {
		if word[0] == '+' || word[0] == '-' {
			if err := c.readHit(word); err != nil {
				return LineCall{}, err
			}
			continue
		}
		if len(parts) == 0 {
			return LineCall{}, fmt.Errorf("%q is one too many: arrows, slide, breakpoint, speed; a hit has a sign, also +0", word)
		}
		if err := parts[0](word); err != nil {
			return LineCall{}, err
		}
		parts = parts[1:]
	}
	return c, nil
}

// MaxHit is the most boards from the pocket that a hit is read in.
const MaxHit = 20

func (c *LineCall) readHit(word string) error {
	boards, ok := decimal(word[1:])
	switch {
	case !ok || boards > MaxHit:
		return fmt.Errorf("%q is no hit in boards: write +1.5 for high, -1 for light, up to %d", word, MaxHit)
	case c.HitBoards.Known:
		return fmt.Errorf("%q is a second hit: a ball has one", word)
	case word[0] == '-' && boards != 0:
		boards = -boards
	}
	c.HitBoards = Known(boards)
	return nil
}

func (c *LineCall) readBreakpoint(word string, last LineCall) error {
	board, feet, has := strings.Cut(word, "@")
	if err := readBoard(board, "the breakpoint", last.Line.Breakpoint, &c.Line.Breakpoint); err != nil {
		return err
	}
	if board == "." && !has {
		c.Line.BreakpointFt = last.Line.BreakpointFt
	}
	if !has {
		return nil
	}
	ft, ok := decimal(feet)
	if !ok || ft < minBreakpointFt || ft > maxBreakpointFt {
		return fmt.Errorf("%q is no distance of a breakpoint: %d to %d feet", feet, minBreakpointFt, maxBreakpointFt)
	}
	c.Line.BreakpointFt = Known(ft)
	return nil
}

// decimal reads a number written with digits and at most one point, not negative.
func decimal(word string) (float64, bool) {
	if word == "" || strings.Trim(word, "0123456789.") != "" {
		return 0, false
	}
	n, err := strconv.ParseFloat(word, 64)
	return n, err == nil
}

func (c *LineCall) readSpeed(word string, last LineCall) error {
	if word == "." {
		c.SpeedMPH = last.SpeedMPH
		return nil
	}
	mph, ok := decimal(word)
	if !ok || mph < 1 || mph > 40 {
		return fmt.Errorf("%q is no speed: 1 to 40 miles an hour", word)
	}
	c.SpeedMPH = Known(mph)
	return nil
}

func readBoard(word, where string, last Optional[float64], to *Optional[float64]) error {
	if word == "." {
		*to = last
		return nil
	}
	board, ok := decimal(word)
	if !ok || board > MaxBoard {
		return fmt.Errorf("%q is no board at %s: boards are 1 to 39, the gutters beside them 0 and up to %d", word, where, MaxBoard)
	}
	*to = Known(board)
	return nil
}

// SetLine keeps a line prompt with the call being made; what it does not name stays as it was.
func (e *Evening) SetLine(text string) error {
	line, err := ParseLine(text, e.lastLine())
	if err != nil {
		return err
	}
	return e.Say(func(c Call, _ Rack, _ Chosen) (Call, error) {
		c.Line = line.Line.or(c.Line)
		c.SpeedMPH, c.HitBoards = or(line.SpeedMPH, c.SpeedMPH), or(line.HitBoards, c.HitBoards)
		if c.contradicts() {
			c.Hit = ""
		}
		return c, nil
	})
}

func or[T comparable](a, b Optional[T]) Optional[T] {
	if a.Known {
		return a
	}
	return b
}

// lastLine gives what was last known of the line of the student that the keys speak of, on the lane of that ball and
// before it, each part for itself.
func (e *Evening) lastLine() LineCall {
	id, _ := e.Speaking()
	lane, before := e.LaneOf(id), e.recorded+1
	if e.edit != nil {
		s := e.sheets[e.edit.Game]
		lane, before = s.Deliveries[s.Index(e.edit.Delivery)].Lane, e.order[e.edit.Delivery]
	}
	var last LineCall
	e.backwards(id, func(d Delivery) bool {
		if d.Lane == lane && e.order[d.ID] < before {
			last.Line = last.Line.or(d.Line)
			last.SpeedMPH = or(last.SpeedMPH, d.SpeedMPH)
		}
		return !last.complete()
	})
	return last
}

func (c LineCall) complete() bool {
	return c.Line.Arrows.Known && c.Line.Slide.Known && c.Line.Breakpoint.Known && c.SpeedMPH.Known
}

// or gives the line with what is not known of it as another has it. A breakpoint and its distance are one.
func (l Line) or(other Line) Line {
	if !l.Breakpoint.Known {
		l.BreakpointFt = other.BreakpointFt
	}
	l.Arrows, l.Slide, l.Breakpoint = or(l.Arrows, other.Arrows), or(l.Slide, other.Slide), or(l.Breakpoint, other.Breakpoint)
	return l
}
