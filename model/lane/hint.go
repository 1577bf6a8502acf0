package lane

import (
	"slices"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// What a right-hander's light and high hits often leave (common practice, no source).
var (
	lightLeaves = []tenpin.PinSet{
		tenpin.Pins(2), tenpin.Pins(2, 8), tenpin.Pins(2, 4, 5, 8), tenpin.Pins(5, 7), tenpin.Pins(8, 10),
	}
	highLeaves = []tenpin.PinSet{tenpin.Pins(4), tenpin.Pins(4, 9), tenpin.Pins(3, 10), tenpin.Pins(4, 6, 7, 10)}
)

// LeaveHint says what a leave of a full rack may tell of the hit, "" for nothing: "2-8: often a light hit". It is no reading:
// many other shots leave the same pins.
func LeaveHint(leave tenpin.PinSet, hand model.Hand) string {
	as := leave
	if hand == model.LeftHand {
		as = leave.Mirror()
	}
	switch {
	case slices.Contains(lightLeaves, as):
		return leave.String() + ": often a light hit"
	case slices.Contains(highLeaves, as):
		return leave.String() + ": often a high hit"
	}
	return ""
}
