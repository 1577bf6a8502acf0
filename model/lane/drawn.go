package lane

import (
	"slices"

	"coach.settee/model"
)

// Place is a board at a distance in feet.
type Place struct{ Ft, Board float64 }

// Drawn are the lines to draw on a lane, each from the foul line on; nil where too little of it is known.
type Drawn struct {
	// Aimed is the line in force, Moved that after the move that is advised.
	Aimed, Moved []Place
	// Thrown are the student's last balls on the lane as read, the last one last.
	Thrown [][]Place
	// Computed is the path that the student's ball would take over the line aimed at; Missing names what the record or the
	// evening lacks for it. The friction is assumed: nobody measures it at the lanes.
	Computed []Place
	Missing  []string
}

// DrawInput is what lines are drawn from.
type DrawInput struct {
	Student model.Student
	Advice  Advice
	// Thrown is every ball on the pair (see Tonight).
	Thrown []model.Thrown
	// ArrowsFt and PatternFt are the evening's distance of the target and length of the oil, in feet.
	ArrowsFt, PatternFt model.Optional[float64]
}

// lastThrown is how many balls of the student are drawn.
const lastThrown = 5

// Draw gives the lines to draw on the lane of an advice.
func Draw(in DrawInput) Drawn {
	d := Drawn{Aimed: in.polyline(in.Advice.From, model.Known(0.0))}
	if in.Advice.Move != (Move{}) {
		d.Moved = in.polyline(in.Advice.To, model.Known(0.0))
	}
	for _, x := range slices.Backward(in.Thrown) {
		if len(d.Thrown) == lastThrown {
			break
		}
		if x.Student != in.Student.ID || x.Delivery.Lane != in.Advice.Lane || !x.Full || x.Delivery.Line.IsZero() {
			continue
		}
		if line := in.polyline(x.Delivery.Line, x.Delivery.HitBoards); line != nil {
			d.Thrown = append(d.Thrown, line)
		}
	}
	slices.Reverse(d.Thrown)
	d.Computed, d.Missing = in.computed()
	return d
}

// straightFt is how far a line without a breakpoint is drawn straight on where no length of the oil is known.
const straightFt = 40.0

// polyline gives what a line names: from the laydown over the arrows to the breakpoint and to the pins, where the hit is
// so many boards from the pocket. Without a breakpoint it goes straight on as far as the oil.
func (in DrawInput) polyline(l model.Line, hit model.Optional[float64]) []Place {
	if !l.Arrows.Known {
		return nil
	}
	arrowsFt := ArrowsFt(in.ArrowsFt)
	var line []Place
	if l.Slide.Known {
		line = append(line, Place{0, l.Slide.Value - slideOffset(in.Student)})
	}
	line = append(line, Place{arrowsFt, l.Arrows.Value})
	switch {
	case l.Breakpoint.Known && l.BreakpointFt.Known && l.BreakpointFt.Value > arrowsFt:
		line = append(line, Place{l.BreakpointFt.Value, l.Breakpoint.Value})
		if hit.Known {
			line = append(line, Place{PinsFt, Pocket + hit.Value})
		}
	case l.Slide.Known:
		to := straightFt
		if in.PatternFt.Known {
			to = in.PatternFt.Value
		}
		slope := (line[1].Board - line[0].Board) / arrowsFt
		line = append(line, Place{to, line[1].Board + slope*(to-arrowsFt)})
	}
	return line
}

// The friction that a path is computed with: in the middle of what gives lines that the trade calls usual. An assumption.
const inOil, onDry = 0.02, 0.2

// computed gives the path of the student's ball over the line aimed at, or what is missing for it.
func (in DrawInput) computed() (path []Place, missing []string) {
	by, aimed := in.Student, in.Advice.From
	need := func(has bool, what string) {
		if !has {
			missing = append(missing, what)
		}
	}
	need(aimed.Slide.Known && aimed.Arrows.Known, "slide and arrows of the line")
	need(in.PatternFt.Known, "the oil's length")
	need(by.SpeedMPH.Known, "speed")
	need(by.RevRPM.Known, "rev rate")
	need(by.AxisRotation.Known, "axis rotation")
	if len(missing) > 0 {
		return nil, missing
	}
	o := Oil{Ft: in.PatternFt.Value, Mu: inOil, DryMu: onDry}
	r, err := Through(Release{
		Laydown: aimed.Slide.Value - slideOffset(by), SpeedMPH: by.SpeedMPH.Value, RevRPM: by.RevRPM.Value,
		AxisRotationDeg: by.AxisRotation.Value,
	}, o, aimed.Arrows.Value, ArrowsFt(in.ArrowsFt))
	if err != nil {
		return nil, []string{"a path: " + err.Error()}
	}
	p, err := Roll(r, o)
	if err != nil {
		return nil, []string{"a path: " + err.Error()}
	}
	for ft := 0.0; ft <= PinsFt; ft++ {
		path = append(path, Place{ft, p.BoardAt(ft)})
	}
	return path, nil
}
