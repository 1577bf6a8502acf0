package tui

import (
	"slices"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// place is a board at a distance in feet.
type place struct{ ft, board float64 }

// drawnPaths are the lines drawn on the lane, each from the foul line on; none where too little of it is known.
type drawnPaths struct {
	aimed, moved []place
	// thrown are the last balls on the lane, the last one last.
	thrown [][]place
	// computed is the path from the student's record, missing what the record or the evening lacks for it.
	computed []place
	missing  []string
}

// lastThrown is how many balls of the student are drawn.
const lastThrown = 5

func (k lineKnown) paths(thrown []model.Thrown) drawnPaths {
	p := drawnPaths{aimed: k.polyline(k.aimed, model.Known(0.0))}
	if k.moves() {
		p.moved = k.polyline(k.movedLine(), model.Known(0.0))
	}
	for i := len(thrown) - 1; i >= 0 && len(p.thrown) < lastThrown; i-- {
		x := thrown[i]
		if x.Student != k.by.ID || x.Delivery.Lane != k.lane || !x.Full || x.Delivery.Line.IsZero() {
			continue
		}
		if line := k.polyline(x.Delivery.Line, x.Delivery.HitBoards); line != nil {
			p.thrown = append(p.thrown, line)
		}
	}
	slices.Reverse(p.thrown)
	p.computed, p.missing = k.computed()
	return p
}

// movedLine gives the line after the move, the breakpoint moved as straight lines are.
func (k lineKnown) movedLine() model.Line {
	to := k.advice.To
	if b, ft := k.aimed.Breakpoint, k.aimed.BreakpointFt; b.Known && ft.Known {
		to.Breakpoint = model.Known(b.Value + k.advice.Move.ShiftAt(ft.Value, k.arrowsFt()))
		to.BreakpointFt = ft
	}
	return to
}

// straightFt is how far a line without a breakpoint is drawn straight on where no length of the oil is known.
const straightFt = 40.0

// polyline gives what a line names: from the laydown over the arrows to the breakpoint and to the pins, where the hit is
// so many boards from the pocket. Without a breakpoint it goes straight on as far as the oil.
func (k lineKnown) polyline(l model.Line, hit model.Optional[float64]) []place {
	if !l.Arrows.Known {
		return nil
	}
	var line []place
	if l.Slide.Known {
		line = append(line, place{0, l.Slide.Value - k.slideOffset()})
	}
	line = append(line, place{k.arrowsFt(), l.Arrows.Value})
	switch {
	case l.Breakpoint.Known && l.BreakpointFt.Known && l.BreakpointFt.Value > k.arrowsFt():
		line = append(line, place{l.BreakpointFt.Value, l.Breakpoint.Value})
		if hit.Known {
			line = append(line, place{lane.PinsFt, lane.Pocket + hit.Value})
		}
	case l.Slide.Known:
		to := straightFt
		if oil := k.session.PatternFt; oil.Known {
			to = oil.Value
		}
		slope := (line[1].board - line[0].board) / k.arrowsFt()
		line = append(line, place{to, line[1].board + slope*(to-k.arrowsFt())})
	}
	return line
}

func (k lineKnown) slideOffset() float64 {
	if o := k.by.SlideOffset; o.Known {
		return o.Value
	}
	return lane.DefaultSlideOffset
}

// The friction that a path is computed with: in the middle of what gives lines that the trade calls usual. An assumption,
// nobody measures it at the lanes.
const inOil, onDry = 0.02, 0.2

// computed gives the path of the student's ball over the line aimed at, or what is missing for it.
func (k lineKnown) computed() (path []place, missing []string) {
	by, oil := k.by, k.session.PatternFt
	need := func(has bool, what string) {
		if !has {
			missing = append(missing, what)
		}
	}
	need(k.aimed.Slide.Known && k.aimed.Arrows.Known, "slide and arrows of the line")
	need(oil.Known, "the oil's length")
	need(by.SpeedMPH.Known, "speed")
	need(by.RevRPM.Known, "rev rate")
	need(by.AxisRotation.Known, "axis rotation")
	if len(missing) > 0 {
		return nil, missing
	}
	o := lane.Oil{Ft: oil.Value, Mu: inOil, DryMu: onDry}
	r, err := lane.Through(lane.Release{
		Laydown: k.aimed.Slide.Value - k.slideOffset(), SpeedMPH: by.SpeedMPH.Value, RevRPM: by.RevRPM.Value,
		AxisRotationDeg: by.AxisRotation.Value,
	}, o, k.aimed.Arrows.Value, k.arrowsFt())
	if err != nil {
		return nil, []string{"a path: " + err.Error()}
	}
	p, err := lane.Roll(r, o)
	if err != nil {
		return nil, []string{"a path: " + err.Error()}
	}
	for ft := 0.0; ft <= lane.PinsFt; ft++ {
		path = append(path, place{ft, p.BoardAt(ft)})
	}
	return path, nil
}
