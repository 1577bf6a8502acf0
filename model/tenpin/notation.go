package tenpin

import (
	"strconv"
	"strings"
)

// Notation writes the game as it is usually written, frames parted by spaces:
// "X X X 72 (8)/ F9 X 7/ 9- XX8".
func (c Card) Notation() string {
	var b strings.Builder
	for i, f := range c.Frames {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(f.Notation())
	}
	return b.String()
}

// Notation writes the frame's balls without spaces: "(8)/".
func (f Frame) Notation() string { return strings.Join(f.Marks(), "") }

// Marks is what the score sheet shows for each ball of the frame: "X" for a
// strike, "/" for a spare, "-" for no pin, "F" for a foul, else the count, in
// parentheses where it left a split. Balls that cannot follow each other in a
// frame are left out.
func (f Frame) Marks() []string {
	marks := make([]string, 0, len(f.Balls))
	// Whatever can be bowled in a frame can be bowled in the tenth.
	p := Position{frame: lastFrame}
	for _, b := range f.Balls {
		next, _, err := p.Next(b)
		if err != nil {
			break
		}
		marks = append(marks, p.mark(b))
		p = next
	}
	return marks
}

// mark is the sign for a ball bowled from this position.
func (p Position) mark(b Ball) string {
	switch {
	case b.Foul:
		return "F"
	case b.Pins == 0:
		return "-"
	case b.Pins == p.StandingCount() && p.FullRack():
		return "X"
	case b.Pins == p.StandingCount():
		return "/"
	case p.SplitBy(b) == SplitYes:
		return "(" + strconv.Itoa(b.Pins) + ")"
	default:
		return strconv.Itoa(b.Pins)
	}
}
