package lane

// System is one of the trade's ways to move, with its rule as it is told and what geometry says of it.
type System struct {
	Name string
	// Rule is what the trade says, in one line.
	Rule string
	// Footnote says to people what holds of it, for a target at DefaultArrowsFt and a strike ball that enters at 5 degrees.
	Footnote string
}

// Systems gives the systems in the order in which they are told. The rules of 3:1:2, 3-6-9 and 2-4-6 are told so in trade
// pages; what they do is geometry.
func Systems() []System {
	return []System{
		{
			Name: "3:1:2", Rule: "two boards at the stance, one at the foul line, three at the pins the other way; same target",
			Footnote: "Exact if the walk follows the line to the target; walked parallel, two boards of stance are six at the pins.",
		},
		{
			Name: "3-6-9", Rule: "feet 3, 6 or 9 boards away from the pin for its row; same target",
			Footnote: "Hits all six if the walk follows the line and the hook stays; walked parallel, only the 2 and 3 are hit.",
		},
		{
			Name: "2-4-6", Rule: "target 2, 4 or 6 boards toward the pin for its row",
			Footnote: "Holds only where the laydown follows by half; with the laydown held, the ball goes past the 7 and the 10.",
		},
		{
			Name: "parallel", Rule: "feet and target alike",
			Footnote: "The whole line moves one board. On a lane that is the same across, a high ball is then a board higher.",
		},
		{
			Name: "2:1", Rule: "feet two boards, target one",
			Footnote: "Opens the line and brings it back two boards at the pins; it keeps its board at 30 ft.",
		},
		{
			Name: "3:2", Rule: "feet three boards, target two",
			Footnote: "Opens the line and brings it back one board at the pins; it keeps its board at 45 ft.",
		},
	}
}
