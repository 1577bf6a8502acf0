package lane

import (
	"fmt"
	"math"

	"coach.settee/model"
)

// Move is a move of a line in whole boards: Feet at the foul line (slide and laydown alike), Target at the arrows. Plus is
// to the bowler's inside, higher boards from the student's own side.
type Move struct{ Feet, Target int }

// ShiftAt gives by how many boards the straight line lies further inside after the move at a distance in feet from the
// foul line: by similar triangles, feet + (target - feet) ft/arrowsFt. On a lane that is the same across it holds for a ball
// that hooks too, since a small change of the launch angle turns its whole path. A target distance that is not positive
// reads as DefaultArrowsFt, here and in the other methods.
func (m Move) ShiftAt(ft, arrowsFt float64) float64 {
	return shiftAt(float64(m.Feet), float64(m.Target), ft, arrowsFt)
}

// AngleDeg gives the change of the launch angle in degrees, plus where the line is opened (turned to the student's own
// side): the arctangent of the turn, exact for a line that ran along the boards and within two hundredths for any other up
// to 4 degrees and five boards of turn.
func (m Move) AngleDeg(arrowsFt float64) float64 {
	inches := float64(m.Feet-m.Target) * BoardIn
	return degrees(math.Atan(inches / (12 * targetFt(arrowsFt))))
}

// PivotFt gives the distance from the foul line, in feet, at which the line keeps its board: arrowsFt feet/(feet - target).
// It is unknown where the whole line moves alike. It may lie beyond the pins, and one below zero lies behind the foul
// line: then the line moves to the same side at every board of the lane.
func (m Move) PivotFt(arrowsFt float64) model.Optional[float64] {
	switch m.Feet {
	case m.Target:
		return model.Optional[float64]{}
	case 0:
		return model.Known(0.0)
	}
	return model.Known(targetFt(arrowsFt) * float64(m.Feet) / float64(m.Feet-m.Target))
}

// Words tell the move for a hand: "feet 2 left, target 1 left", "feet 1 right, target stays", or "stay". A hand that is not
// known reads as right.
func (m Move) Words(hand model.Hand) string {
	if m == (Move{}) {
		return "stay"
	}
	feet, target := "feet stay", "target stays"
	if m.Feet != 0 {
		feet = fmt.Sprintf("feet %s", toward(m.Feet, hand))
	}
	if m.Target != 0 {
		target = fmt.Sprintf("target %s", toward(m.Target, hand))
	}
	return feet + ", " + target
}

// shiftAt is ShiftAt for boards at the laydown and at the target that need not be whole.
func shiftAt(laydown, target, ft, arrowsFt float64) float64 {
	return laydown + (target-laydown)*ft/targetFt(arrowsFt)
}

func targetFt(arrowsFt float64) float64 {
	if arrowsFt > 0 {
		return arrowsFt
	}
	return DefaultArrowsFt
}

// toward tells whole boards with their side, plus to the inside: "2 left".
func toward(boards int, hand model.Hand) string {
	inside, outside := Sides(hand)
	if boards < 0 {
		return fmt.Sprintf("%d %s", -boards, outside)
	}
	return fmt.Sprintf("%d %s", boards, inside)
}

// Sides names the sides of the lane for a hand: "left" and "right", for a left-hander the other way round.
func Sides(hand model.Hand) (inside, outside string) {
	if hand == model.LeftHand {
		return "right", "left"
	}
	return "left", "right"
}
