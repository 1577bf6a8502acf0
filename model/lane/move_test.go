package lane_test

import (
	"math"
	"testing"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// The table of moves for a target at 15 ft was computed by similar triangles, to the digits given here; that feet 8 and
// target 5 hold a breakpoint is common practice, no source.
func TestMove(t *testing.T) {
	never := math.NaN()
	tests := []struct {
		move           lane.Move
		at15, at40     float64
		at45, at60     float64
		angle, pivotFt float64
	}{
		{lane.Move{Feet: 1, Target: 1}, 1, 1, 1, 1, 0, never},
		{lane.Move{Feet: 4, Target: 3}, 3, 1.33, 1, 0, .34, 60},
		{lane.Move{Feet: 3, Target: 2}, 2, .33, 0, -1, .34, 45},
		{lane.Move{Feet: 8, Target: 5}, 5, 0, -1, -4, 1.02, 40},
		{lane.Move{Feet: 5, Target: 3}, 3, -.33, -1, -3, .68, 37.5},
		{lane.Move{Feet: 2, Target: 1}, 1, -.67, -1, -2, .34, 30},
		{lane.Move{Feet: 3, Target: 1}, 1, -2.33, -3, -5, .68, 22.5},
		{lane.Move{Feet: 1}, 0, -1.67, -2, -3, .34, 15},
		{lane.Move{Target: 1}, 1, 2.67, 3, 4, -.34, 0},
		{lane.Move{Feet: 2, Target: 3}, 3, 4.67, 5, 6, -.34, -30},
		{lane.Move{}, 0, 0, 0, 0, 0, never},
	}
	for _, tt := range tests {
		for ft, want := range map[float64]float64{15: tt.at15, 40: tt.at40, 45: tt.at45, 60: tt.at60} {
			if got := tt.move.ShiftAt(ft, 15); math.Abs(got-want) > .0051 {
				t.Errorf("%+v shifts the line by %v at %v ft, want %v", tt.move, got, ft, want)
			}
		}
		if got := tt.move.AngleDeg(15); math.Abs(got-tt.angle) > .0051 {
			t.Errorf("%+v turns the line by %v degrees, want %v", tt.move, got, tt.angle)
		}
		got := tt.move.PivotFt(15)
		if got.Known == math.IsNaN(tt.pivotFt) || got.Known && got.Value != tt.pivotFt || math.Signbit(got.Value) != (tt.pivotFt < 0) {
			t.Errorf("%+v keeps its board at %+v, want %v", tt.move, got, tt.pivotFt)
		}
	}
}

// Three boards of 41.5/39 inches over 15 feet: arctan(3.19231/180).
func TestMoveOpensByADegree(t *testing.T) {
	m := lane.Move{Feet: 8, Target: 5}
	if got := m.AngleDeg(15); math.Abs(got-1.01605) > 5e-5 {
		t.Errorf("feet 8 and target 5 open the line by %v degrees", got)
	}
	if at40, at45 := m.ShiftAt(40, 15), m.ShiftAt(45, 15); at40 != 0 || at45 != -1 {
		t.Errorf("they shift it by %v at 40 ft and %v at 45 ft", at40, at45)
	}
}

// One board of target is 60/A boards at the pins, one of laydown 1 - 60/A.
func TestMoveForOtherTargets(t *testing.T) {
	for arrowsFt, want := range map[float64][2]float64{
		13.5: {4.44, -3.44}, 12.5: {4.80, -3.80}, 16: {3.75, -2.75}, 0: {4, -3}, -1: {4, -3}, math.NaN(): {4, -3},
	} {
		target, feet := lane.Move{Target: 1}.ShiftAt(60, arrowsFt), lane.Move{Feet: 1}.ShiftAt(60, arrowsFt)
		if math.Abs(target-want[0]) > .0051 || math.Abs(feet-want[1]) > .0051 {
			t.Errorf("target at %v ft: %v and %v, want %v", arrowsFt, target, feet, want)
		}
	}
	if got := (lane.Move{Feet: 3, Target: 2}).PivotFt(12); got != model.Known(36.0) {
		t.Errorf("feet 3 and target 2 at 12 ft keep their board at %+v", got)
	}
}

func TestMoveInWords(t *testing.T) {
	tests := []struct {
		move        lane.Move
		right, left string
	}{
		{lane.Move{Feet: 2, Target: 1}, "feet 2 left, target 1 left", "feet 2 right, target 1 right"},
		{lane.Move{Feet: -3, Target: -2}, "feet 3 right, target 2 right", "feet 3 left, target 2 left"},
		{lane.Move{Feet: 1}, "feet 1 left, target stays", "feet 1 right, target stays"},
		{lane.Move{Target: -1}, "feet stay, target 1 right", "feet stay, target 1 left"},
		{lane.Move{}, "stay", "stay"},
	}
	for _, tt := range tests {
		if r, l := tt.move.Words(model.RightHand), tt.move.Words(model.LeftHand); r != tt.right || l != tt.left {
			t.Errorf("%+v: %q and %q", tt.move, r, l)
		}
	}
}
