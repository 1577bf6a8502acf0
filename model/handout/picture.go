package handout

import (
	"fmt"

	"coach.settee/model"
	"coach.settee/model/lane"
	"coach.settee/model/tenpin"
)

// picture is a lane from above, laneWide wide, with the pins at the top and the approach at the bottom. It is drawn to be
// read, not to scale: far narrower lengthwise than a lane is.
type picture struct {
	// Path is the ball's way, Foot the slide foot's place and Eye the target's across the lane, -1 where unknown.
	Path      string
	Foot, Eye int
	Arrows    []spot
	Pins      []spot
}

// spot is a pin, or an arrow; Aimed is what is aimed at.
type spot struct {
	X, Y  int
	Aimed bool
}

// The picture: a lane of 39 boards two units each, 60 feet long in lengthFt units a foot, the pins beyond.
const (
	boardWide = 2
	laneWide  = 40 * boardWide
	pinsTop   = 10
	headPin   = 26
	foulLine  = 140
	footLine  = 152
)

// picture draws a line to a pin, to the pocket for pin 0; straight tells that the ball does not turn. What is not known of it
// is left to be drawn by hand.
func (t told) picture(l model.Line, pin int, standing tenpin.PinSet, straight bool) *picture {
	right := t.Figures.Student.Hand != model.LeftHand
	p := &picture{Foot: -1, Eye: -1}
	if l.Slide.Known {
		p.Foot = across(l.Slide.Value, right)
	}
	if l.Arrows.Known {
		p.Eye = across(l.Arrows.Value, right)
	}
	for _, n := range []int{5, 10, 15, 20, 25, 30, 35} {
		// The arrows form a V, the middle one farthest from the foul line.
		p.Arrows = append(p.Arrows, spot{across(float64(n), right), along(15.5 - abs(n-20)/8), l.Arrows.Known && n == int(l.Arrows.Value)})
	}
	for n := 1; n <= 10; n++ {
		at, ft := lane.PinAt(n)
		p.Pins = append(p.Pins, spot{across(at, true), headPin - int((ft-lane.PinsFt)*6+.5), standing.Has(n)})
	}
	if !l.Slide.Known || !l.Arrows.Known {
		return p
	}
	offset := lane.DefaultSlideOffset
	if o := t.Figures.Student.SlideOffset; o.Known {
		offset = o.Value
	}
	end := spot{X: across(lane.Pocket, right), Y: headPin}
	if pin > 0 {
		end = p.Pins[pin-1]
	}
	p.Path = path(l, l.Slide.Value-offset, end, right, straight)
	return p
}

// path goes straight from the laydown over the arrows, and from there to its end, turning by way of the breakpoint or of a
// place on the straight line.
func path(l model.Line, laydown float64, end spot, right, straight bool) string {
	const arrowsFt, turnFt = 15.0, 44.0
	start := fmt.Sprintf("M%d %d L%d %d", across(laydown, right), along(0), across(l.Arrows.Value, right), along(arrowsFt))
	if straight {
		return start + fmt.Sprintf(" L%d %d", end.X, end.Y)
	}
	turn, ft := laydown+(l.Arrows.Value-laydown)*turnFt/arrowsFt, turnFt
	if l.Breakpoint.Known {
		turn = l.Breakpoint.Value
		if l.BreakpointFt.Known {
			ft = l.BreakpointFt.Value
		}
	}
	turn = min(max(turn, 2), 38)
	return start + fmt.Sprintf(" Q%d %d %d %d", across(turn, right), along(ft), end.X, end.Y)
}

// across gives a board's place, counted from the right for a right-hander.
func across(board float64, right bool) int {
	x := int(board*boardWide + .5)
	if right {
		x = laneWide - x
	}
	return x
}

// along gives the place of a distance from the foul line in feet.
func along(ft float64) int { return foulLine - int(ft*(foulLine-headPin)/lane.PinsFt+.5) }

func abs(n int) float64 { return float64(max(n, -n)) }
