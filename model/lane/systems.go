package lane

// System is one of the trade's ways to move, with its rule as it is told and what geometry says of it.
type System struct {
	Name string
	// Rule is what the trade says, in one line.
	Rule string
	// Ways are the ways in which it is followed, which differ at the pins.
	Ways []Way
	// Footnote says to people what holds of it, for a target at DefaultArrowsFt and a strike ball that enters at 5 degrees.
	Footnote string
}

// Way is one way of following a system. Laydown and Target are the boards that one step of it moves them, plus to the
// inside, for pins on the student's own side (a spare system) or toward the inside (a system of moves).
type Way struct {
	Name            string
	Laydown, Target float64
	// Spares tells whether a step is a row of pins: one for the 2 and 3, two for the 4 and 6, three for the 7 and 10.
	Spares bool
}

// AtPins gives the boards by which one step moves the straight line at the head pin, plus to the inside.
func (w Way) AtPins(arrowsFt float64) float64 { return shiftAt(w.Laydown, w.Target, PinsFt, arrowsFt) }

// Passes gives by how many boards the ball's middle passes a right-hander's pin, plus to the right of it, and whether it
// hits, for a strike ball through the pocket at an entry angle in degrees. The pins are those of one row's end: 2, 4, 7 and
// 3, 6, 10; any other, and a way that is not for spares, is neither: 0, false.
func (w Way) Passes(pin int, arrowsFt, entryDeg float64) (right float64, hits bool) {
	steps, ok := spareSteps[pin]
	if !ok || !w.Spares {
		return 0, false
	}
	board, ft := PinAt(pin)
	ball := pocketBall(entryDeg).at(ft) + shiftAt(steps*w.Laydown, steps*w.Target, ft, arrowsFt)
	right = board - ball
	return right, hitsPin(right)
}

// spareSteps are the steps of a spare system for each pin at a row's end, plus for the student's own side.
var spareSteps = map[int]float64{2: -1, 4: -2, 7: -3, 3: 1, 6: 2, 10: 3}

// Systems gives the systems in the order in which they are told. The rules of 3:1:2, 3-6-9 and 2-4-6 are told so in trade
// pages; what they do is geometry.
func Systems() []System {
	return []System{
		{
			Name: "3:1:2", Rule: "two boards at the stance, one at the foul line, three at the pins the other way; same target",
			Ways: []Way{
				{Name: "walk along the line", Laydown: 1},
				{Name: "walk parallel to the boards", Laydown: 2},
			},
			Footnote: "Exact if the walk follows the line to the target; walked parallel, two boards of stance are six at the pins.",
		},
		{
			Name: "3-6-9", Rule: "feet 3, 6 or 9 boards away from the pin for its row; same target",
			Ways: []Way{
				{Name: "walk along the line", Laydown: 1.5, Spares: true},
				{Name: "walk parallel to the boards", Laydown: 3, Spares: true},
			},
			Footnote: "Hits all six if the walk follows the line and the hook stays; walked parallel, only the 2 and 3 are hit.",
		},
		{
			Name: "2-4-6", Rule: "target 2, 4 or 6 boards toward the pin for its row",
			Ways: []Way{
				{Name: "laydown follows by half", Laydown: -1, Target: -2, Spares: true},
				{Name: "laydown stays", Target: -2, Spares: true},
			},
			Footnote: "Holds only where the laydown follows by half; with the laydown held, the ball goes past the 7 and the 10.",
		},
		{
			Name: "parallel", Rule: "feet and target alike", Ways: []Way{{Name: "one board", Laydown: 1, Target: 1}},
			Footnote: "The whole line moves one board. On a lane that is the same across, a high ball is then a board higher.",
		},
		{
			Name: "2:1", Rule: "feet two boards, target one", Ways: []Way{{Name: "one step", Laydown: 2, Target: 1}},
			Footnote: "Opens the line and brings it back two boards at the pins; it keeps its board at 30 ft.",
		},
		{
			Name: "3:2", Rule: "feet three boards, target two", Ways: []Way{{Name: "one step", Laydown: 3, Target: 2}},
			Footnote: "Opens the line and brings it back one board at the pins; it keeps its board at 45 ft.",
		},
	}
}
