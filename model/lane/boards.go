package lane

import (
	"math"

	"coach.settee/model"
)

const (
	// Pocket is the board on which the middle of a pocket ball crosses PinsFt. Trade pages call 17 to 18 pocket.
	Pocket = 17.5
	// PinsFt is the distance from the foul line to the middle of the head pin, in feet.
	PinsFt = 60.0
	// DefaultArrowsFt is where a target is looked for unless the session says otherwise, in feet. Sources differ, 12 to 17,
	// and the arrows form a V, so that it is a setting.
	DefaultArrowsFt = 15.0
	// BoardIn is the width of a board in inches: 39 of them are the lane's 41.5.
	BoardIn = 41.5 / 39
)

// Boards is how many boards a lane has, so that no move is of more.
const Boards = 39

// lowest and highest are the boards that a ball can be asked to start on or to cross: the lane's own and the one beside each
// edge, where the middle of a ball is on its way into the gutter.
const lowest, highest = 0.0, 40.0

// laneFrom and laneTo are the edges of the lane, half a board beside the middles of boards 1 and 39.
const laneFrom, laneTo = 0.5, 39.5

// OnLane tells whether the middle of a ball on that board is between the lane's edges; beyond them is the gutter.
func OnLane(board float64) bool { return board >= laneFrom && board <= laneTo }

// hasBoard tells whether a board is one of the lane's own, which an advised move keeps to.
func hasBoard(board float64) bool { return board >= 1 && board <= Boards }

// ArrowsFt gives the distance of the target in feet that an evening goes by, DefaultArrowsFt where none is set.
func ArrowsFt(set model.Optional[float64]) float64 {
	if set.Known {
		return set.Value
	}
	return DefaultArrowsFt
}

// CheckArrowsFt refuses a distance of the arrows outside 5 to 30 feet.
func CheckArrowsFt(ft float64) error { return arrowsBound(ft).check() }

func arrowsBound(ft float64) bound {
	return bound{"the distance of the arrows", ft, " ft", 5, 30, ""}
}

// Inches gives the distance of a board's middle from the lane's edge on the student's own side.
func Inches(board float64) float64 { return (board - .5) * BoardIn }

// Board gives the board at a distance in inches from the lane's edge on the student's own side.
func Board(inches float64) float64 { return inches/BoardIn + .5 }

// Mirror gives the same place counted from the other side of the lane.
func Mirror(board float64) float64 { return 40 - board }

// PinAt gives the middle of a pin, 1 to 10, in a right-hander's boards and in feet; for a left-hander the board is its
// Mirror. Any other pin is nowhere: NaN. The pins stand 12 inches apart in an equilateral triangle (the game's
// equipment rules).
func PinAt(pin int) (board, ft float64) {
	if pin < 1 || pin > 10 {
		return math.NaN(), math.NaN()
	}
	row, first := 0, 1
	for pin > first+row {
		first += row + 1
		row++
	}
	const apart = 12.0
	fromLeft := float64(pin-first) - float64(row)/2
	return 20 - fromLeft*apart/BoardIn, PinsFt + float64(row)*apart*math.Sqrt(3)/2/12
}

// RuleOf31 gives the board on which the ball should leave the oil: the pattern's length in feet less 31. It is the trade's
// starting point, no more: the breakpoint lies beyond. For less than 32 feet or more than 60 it names no board: NaN.
func RuleOf31(oilFt float64) (board float64) {
	if !(oilFt >= 32 && oilFt <= PinsFt) {
		return math.NaN()
	}
	return oilFt - 31
}
