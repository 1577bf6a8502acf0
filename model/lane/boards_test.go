package lane_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"coach.settee/model/lane"
)

// The edges are those of the lane's 41.5 inches; the middle of a ball on them is still on it.
func TestOnLane(t *testing.T) {
	for board, want := range map[float64]bool{
		lane.Board(0): true, lane.Board(-.1): false, 0: false, 20: true, lane.Board(41.5): true, lane.Board(41.6): false, 40: false,
	} {
		if got := lane.OnLane(board); got != want {
			t.Errorf("board %g: %v", board, got)
		}
	}
}

// The lane is 41.5 inches of 39 boards; the rest is arithmetic, to the digits worked by hand.
func TestBoardsAndInches(t *testing.T) {
	near(t, "a board in inches", lane.BoardIn, 1.064103, 5e-7)
	near(t, "a board in millimetres", lane.BoardIn*25.4, 27.0282, 5e-5)
	near(t, "the middle of the lane", lane.Inches(20), 20.75, 1e-12)
	near(t, "the lane's own edge", lane.Board(0), .5, 1e-12)
	near(t, "the lane's other edge", lane.Board(41.5), 39.5, 1e-12)
}

func TestBoardsThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		board := rapid.Float64Range(-10, 50).Draw(t, "board")
		near(t, "the board", lane.Board(lane.Inches(board)), board, 1e-12)
		near(t, "the board mirrored twice", lane.Mirror(lane.Mirror(board)), board, 1e-12)
		near(t, "both sides", lane.Inches(board)+lane.Inches(lane.Mirror(board)), 41.5, 1e-12)
	})
}

// The triangle of 12 inches is the rules'; the boards and feet were worked from it apart from this program.
func TestPins(t *testing.T) {
	want := map[int][2]float64{
		1: {20, 60}, 2: {25.639, 60.866}, 3: {14.361, 60.866}, 4: {31.277, 61.732}, 5: {20, 61.732}, 6: {8.723, 61.732},
		7: {36.916, 62.598}, 8: {25.639, 62.598}, 9: {14.361, 62.598}, 10: {3.084, 62.598},
	}
	for pin, at := range want {
		board, ft := lane.PinAt(pin)
		near(t, fmt.Sprintf("the board of pin %d", pin), board, at[0], 5e-4)
		near(t, fmt.Sprintf("the feet of pin %d", pin), ft, at[1], 5e-4)
	}
	for _, pin := range []int{-1, 0, 11} {
		if board, ft := lane.PinAt(pin); !math.IsNaN(board) || !math.IsNaN(ft) {
			t.Errorf("pin %d is at board %v, %v ft", pin, board, ft)
		}
	}
}

func TestPinsStandTwelveInchesApart(t *testing.T) {
	neighbours := [][2]int{{1, 2}, {1, 3}, {2, 3}, {2, 4}, {2, 5}, {3, 5}, {3, 6}, {4, 5}, {5, 6}, {4, 7}, {4, 8}, {5, 8},
		{5, 9}, {6, 9}, {6, 10}, {7, 8}, {8, 9}, {9, 10}}
	for _, n := range neighbours {
		b1, f1 := lane.PinAt(n[0])
		b2, f2 := lane.PinAt(n[1])
		near(t, fmt.Sprint("inches between ", n), math.Hypot(lane.Inches(b1)-lane.Inches(b2), (f1-f2)*12), 12, 1e-9)
	}
	for _, m := range [][2]int{{2, 3}, {4, 6}, {7, 10}, {8, 9}, {1, 1}, {5, 5}} {
		own, _ := lane.PinAt(m[0])
		other, _ := lane.PinAt(m[1])
		near(t, fmt.Sprint("the mirror of ", m), lane.Mirror(own), other, 1e-12)
	}
}

// The rule is the trade's (lane-play articles of several magazines: the length less 31). What it asks of the ball is
// geometry: a straight line from that board at the oil's end to the pocket.
func TestRuleOf31(t *testing.T) {
	for _, test := range []struct{ ft, board, lineDeg float64 }{
		{35, 4, 2.74}, {39, 8, math.NaN()}, {40, 9, 2.16}, {43, 12, math.NaN()}, {45, 14, 1.19},
	} {
		board := lane.RuleOf31(test.ft)
		if board != test.board {
			t.Errorf("oil of %v ft: board %v, want %v", test.ft, board, test.board)
		}
		if line := math.Atan2((lane.Pocket-board)*lane.BoardIn/12, lane.PinsFt-test.ft) * 180 / math.Pi; !math.IsNaN(test.lineDeg) {
			near(t, "the line to the pocket", line, test.lineDeg, .005)
		}
	}
	for _, ft := range []float64{0, 31, 31.9, 60.1, 70, math.NaN(), math.Inf(1)} {
		if board := lane.RuleOf31(ft); !math.IsNaN(board) {
			t.Errorf("oil of %v ft: board %v, want none", ft, board)
		}
	}
}

// Published: 17 to 18 counts as pocket (trade pages, a governing body's figure for 4 to 6 degrees), and the best place at
// about 6 degrees is 6 cm off the head pin's middle (Physics 18, 96, 2025).
func TestPocket(t *testing.T) {
	if lane.Pocket != 17.5 {
		t.Errorf("the pocket is board %v", lane.Pocket)
	}
	sixCentimetres := lane.Board(lane.Inches(20) - 6/2.54)
	near(t, "6 cm off the head pin", sixCentimetres, 17.78, .005)
	if sixCentimetres < 17 || sixCentimetres > 18 {
		t.Errorf("6 cm off the head pin is board %v, not 17 to 18", sixCentimetres)
	}
	degrees := func(from, to float64) float64 {
		return math.Atan2((to-from)*lane.BoardIn/12, lane.PinsFt) * 180 / math.Pi
	}
	near(t, "the steepest straight line to the middle", degrees(.5, 20), 1.65, .005)
	near(t, "a straight line from board 4.5 to the pocket", degrees(4.5, lane.Pocket), 1.10, .005)
}
