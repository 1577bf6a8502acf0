package tenpin

// Leave is what stands after a ball, as far as it is known. The zero value is
// an unknown leave.
type Leave struct {
	Known bool
	Pins  PinSet // none if not known
}

// Standing is the leave that is known to be exactly these pins.
func Standing(s PinSet) Leave { return Leave{Known: true, Pins: s} }

// Ball is one delivery as the score sees it.
type Ball struct {
	// Pins is how many fell and count, 0 to 10; 0 on a foul.
	Pins int
	// Foul: whatever fell does not count, and the rack is again what it was
	// before the ball.
	Foul bool
	// After is what stands after the ball, if it is known: all ten again after
	// a foul at ten pins, none after a strike or a spare.
	After Leave
	// Split is what the record says of a split where After is not known. It is
	// not looked at where After is known: then the pins decide.
	Split Verdict
}
