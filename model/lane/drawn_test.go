package lane_test

import (
	"slices"
	"testing"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// Worked by hand: the laydown is the slide less six boards, or less the student's own offset, and a line without a
// breakpoint goes on as straight as from the laydown to the arrows.
func TestDraw(t *testing.T) {
	bent := board(12, 26)
	bent.Breakpoint, bent.BreakpointFt = model.Known(8.0), model.Known(43.0)
	ada := righty("ada")
	p := newTonight(ada)
	for i := range 7 {
		p.ball("ada", 8, went(board(float64(10+i), 26)), boards(1))
	}
	p.ball("ada", 8, spare, went(board(30, 26)))
	p.ball("bo", 8, went(board(31, 26)))
	p.ball("ada", 7, went(board(32, 26)))
	p.ball("ada", 8, went(bent), boards(-2))
	in := lane.DrawInput{Student: ada, Advice: lane.Advice{Lane: 8, From: bent, To: bent}, Thrown: p.Thrown}
	d := lane.Draw(in)
	drawnAs(t, "the line aimed at", d.Aimed, lane.Place{Ft: 0, Board: 20}, lane.Place{Ft: 15, Board: 12},
		lane.Place{Ft: 43, Board: 8}, lane.Place{Ft: 60, Board: 17.5})
	if d.Moved != nil || len(d.Thrown) != 5 {
		t.Fatalf("%d balls, moved to %v", len(d.Thrown), d.Moved)
	}
	drawnAs(t, "the fifth but last ball", d.Thrown[0], lane.Place{Ft: 0, Board: 20}, lane.Place{Ft: 15, Board: 13},
		lane.Place{Ft: 40, Board: 4.0 / 3})
	drawnAs(t, "the last ball", d.Thrown[4], lane.Place{Ft: 0, Board: 20}, lane.Place{Ft: 15, Board: 12},
		lane.Place{Ft: 43, Board: 8}, lane.Place{Ft: 60, Board: 15.5})
	want := []string{"the oil's length", "speed", "rev rate", "axis rotation"}
	if d.Computed != nil || !slices.Equal(d.Missing, want) {
		t.Errorf("%v, missing %q", d.Computed, d.Missing)
	}
	in.Advice.Move, in.Advice.To = lane.Move{Feet: 2, Target: 1}, board(13, 28)
	in.Advice.To.Breakpoint, in.Advice.To.BreakpointFt = model.Known(7.1), model.Known(43.0)
	in.Student.SlideOffset = model.Known(5.0)
	drawnAs(t, "the line after the move", lane.Draw(in).Moved, lane.Place{Ft: 0, Board: 23}, lane.Place{Ft: 15, Board: 13},
		lane.Place{Ft: 43, Board: 7.1}, lane.Place{Ft: 60, Board: 17.5})
	in.Advice.From = model.Line{Slide: model.Known(26.0)}
	if d := lane.Draw(in); d.Aimed != nil || d.Missing[0] != "slide and arrows of the line" {
		t.Errorf("without arrows %v is drawn, missing %q", d.Aimed, d.Missing)
	}
}

// The path goes from the laydown over the arrows that were aimed at, foot by foot to the pins.
func TestDrawComputesAPath(t *testing.T) {
	ada := righty("ada")
	ada.SpeedMPH, ada.RevRPM, ada.AxisRotation = model.Known(17.0), model.Known(300.0), model.Known(45.0)
	d := lane.Draw(lane.DrawInput{
		Student: ada, Advice: lane.Advice{Lane: 8, From: usualLine, To: usualLine},
		ArrowsFt: model.Known(14.0), PatternFt: model.Known(41.0),
	})
	if len(d.Computed) != 61 || d.Missing != nil {
		t.Fatalf("%d places, missing %q", len(d.Computed), d.Missing)
	}
	near(t, "board at the foul line", d.Computed[0].Board, 20, 1e-9)
	near(t, "board at the arrows", d.Computed[14].Board, 12, 1e-6)
}

func drawnAs(t *testing.T, what string, got []lane.Place, want ...lane.Place) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%s is %v, want %v", what, got, want)
	}
	for i := range want {
		near(t, what+": feet", got[i].Ft, want[i].Ft, 1e-12)
		near(t, what+": board", got[i].Board, want[i].Board, 1e-12)
	}
}
