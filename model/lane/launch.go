package lane

import (
	"fmt"
	"math"
)

// Through gives the release with the launch angle that takes the ball over a board at the arrows, 0 to 40, which are
// arrowsFt from the foul line, 5 to 30 feet. The launch angle in r is not looked at. A value out of its range, a board that
// no launch reaches, or a ball that never gets to the pins, is an error in words.
func Through(r Release, o Oil, arrows, arrowsFt float64) (Release, error) {
	r.LaunchDeg = 0
	err := bounded(
		bound{"the board at the arrows", arrows, "", lowest, highest, ", counted from the student's own side"},
		arrowsBound(arrowsFt),
	)
	if err != nil {
		return Release{}, err
	}
	if _, err := Roll(r, o); err != nil {
		return Release{}, err
	}
	launch, ok := solve(func(deg float64) float64 {
		r.LaunchDeg = deg
		return roll(r, o).BoardAt(arrowsFt) - arrows
	})
	if !ok {
		return Release{}, fmt.Errorf("from laydown board %g no launch up to %g degrees crosses board %g at %g ft",
			r.Laydown, widestLaunch, arrows, arrowsFt)
	}
	r.LaunchDeg = launch
	_, err = Roll(r, o)
	return r, err
}

// solve finds where a falling function of the launch angle is 0, by false position. An end that stays for a second time is
// weighed half as much (the Illinois rule), so that both ends close in.
func solve(off func(deg float64) float64) (deg float64, ok bool) {
	low, high := -widestLaunch, widestLaunch
	offLow, offHigh := off(low), off(high)
	if !(offLow >= 0 && offHigh <= 0) {
		return 0, false
	}
	const near, most = 1e-12, 100
	before := 0.0
	for range most {
		deg = low + (high-low)*offLow/(offLow-offHigh)
		here := off(deg)
		if math.Abs(here) <= near {
			break
		}
		again := here*before > 0
		if here > 0 {
			low, offLow = deg, here
		} else {
			high, offHigh = deg, here
		}
		switch {
		case again && here > 0:
			offHigh /= 2
		case again:
			offLow /= 2
		}
		before = here
	}
	return deg, true
}
