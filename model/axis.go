package model

import (
	"fmt"
	"strings"
)

// Axis is one of the four things a delivery is judged on, in the order used everywhere.
type Axis uint8

// The axes. Balance is what happens up to the slide, Target where the ball crosses the arrows against where it was
// meant, Release the hand at the bottom of the swing, Finish from the release until the ball is past the arrows.
const (
	Balance Axis = iota
	Target
	Release
	Finish
)

// AxisCount is the number of axes.
const AxisCount = 4

// Axes lists the axes in their order.
var Axes = [AxisCount]Axis{Balance, Target, Release, Finish}

var axisNames = [AxisCount]string{"balance", "target", "release", "finish"}

// String gives the axis's name in lower case.
func (a Axis) String() string {
	if int(a) < len(axisNames) {
		return axisNames[a]
	}
	return fmt.Sprintf("axis(%d)", uint8(a))
}

// ParseAxis reads an axis's name.
func ParseAxis(s string) (Axis, error) {
	for i, name := range axisNames {
		if s == name {
			return Axis(i), nil
		}
	}
	return 0, fmt.Errorf("%q is no axis: use balance, target, release or finish", s)
}

// AxisSet is a set of axes; bit i is Axes[i].
type AxisSet uint8

// AllAxes holds every axis.
const AllAxes AxisSet = 1<<AxisCount - 1

// Has tells whether a is in the set.
func (s AxisSet) Has(a Axis) bool { return s&(1<<a) != 0 }

// With gives the set with a in it.
func (s AxisSet) With(a Axis) AxisSet { return s | 1<<a }

// String names the axes of the set: "balance, target".
func (s AxisSet) String() string {
	var names []string
	for _, a := range Axes {
		if s.Has(a) {
			names = append(names, a.String())
		}
	}
	return strings.Join(names, ", ")
}
