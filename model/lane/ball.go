package lane

import "fmt"

// Release is how a ball leaves the hand.
type Release struct {
	// Laydown is the board on which the ball's middle comes down at the foul line, 0 to 40.
	Laydown float64
	// LaunchDeg is the angle of the ball's first travel to the boards, plus towards the own gutter, -20 to 20 degrees. The
	// straight line from laydown to arrows is 0.1 to 0.5 degrees less, because the ball has turned by then.
	LaunchDeg float64
	// SpeedMPH is the speed at the foul line, 1 to 40 miles an hour.
	SpeedMPH float64
	// RevRPM is the rate of revolution, 0 to 1000 a minute.
	RevRPM float64
	// AxisRotationDeg is 0 for a ball that turns end over end along its travel and 90 for side turn alone, which hooks to
	// the inside; minus is a backup ball. -120 to 120 degrees.
	AxisRotationDeg float64
	// TiltDeg is the axis tilt, 0 to 90 degrees. Only the horizontal part of the spin acts.
	TiltDeg float64
	// Beta is the moment of inertia over mass and radius squared, (RG/R)²: 0.4 for a uniform ball (RG 2.704 inches in a
	// ball of 8.55), about 0.33 to 0.43 for the balls that the rules allow. 0.1 to 0.67, and 0 reads as 0.4.
	Beta float64
}

// Oil is what the ball rolls over: friction Mu to Ft, DryMu beyond it, the same across the lane. Nobody measures friction
// at the lanes: 0.015 to 0.024 and about 0.2 give the lines that the trade calls usual, and are a fit, not a measurement.
type Oil struct {
	// Ft is where the oil ends, 1 to 60 feet.
	Ft float64
	// Mu is the coefficient of friction in the oil, 0 to 1, and DryMu beyond it, 0.01 to 1.
	Mu, DryMu float64
}

const (
	uniformBall  = .4
	widestLaunch = 20.0
)

func (r Release) check() error {
	return bounded(
		bound{"the laydown board", r.Laydown, "", lowest, highest, ", counted from the student's own side"},
		bound{"the launch angle", r.LaunchDeg, " degrees", -widestLaunch, widestLaunch, ", plus towards the own gutter"},
		bound{"the speed", r.SpeedMPH, " mph", 1, 40, ""},
		bound{"the rev rate", r.RevRPM, " rpm", 0, 1000, ""},
		bound{"the axis rotation", r.AxisRotationDeg, " degrees", -120, 120, ", minus for a backup ball"},
		bound{"the axis tilt", r.TiltDeg, " degrees", 0, 90, ""},
		bound{"beta", r.beta(), "", .1, .67, ", where a uniform ball is 0.4"},
	)
}

func (r Release) beta() float64 {
	if r.Beta == 0 {
		return uniformBall
	}
	return r.Beta
}

func (o Oil) check() error {
	return bounded(
		bound{"the length of the oil", o.Ft, " ft", 1, PinsFt, ""},
		bound{"the friction in the oil", o.Mu, "", 0, 1, ", usually 0.01 to 0.05"},
		bound{"the friction on the dry", o.DryMu, "", .01, 1, ", usually about 0.2"},
	)
}

func bounded(bounds ...bound) error {
	for _, b := range bounds {
		if err := b.check(); err != nil {
			return err
		}
	}
	return nil
}

// bound is a value and the range that makes sense of it.
type bound struct {
	what      string
	value     float64
	unit      string
	low, high float64
	note      string
}

func (b bound) check() error {
	if b.value >= b.low && b.value <= b.high {
		return nil
	}
	return fmt.Errorf("%s cannot be %g%s: give %g to %g%s%s", b.what, b.value, b.unit, b.low, b.high, b.unit, b.note)
}
