package lane

import (
	"errors"
	"math"
)

// LeftOut says what a path does not know, for wherever its figures are shown.
const LeftOut = "The path leaves out core and flare, oil across the lane and how it wears, the lane's slope, loft " +
	"and the gutter. Friction is a guess: trust differences, not the board."

// Path is where one ball goes: a parabola in the oil and one on the dry while it slips, then a straight line.
type Path struct {
	legs   [3]leg
	count  int
	rollFt float64
	pins   crossing
}

// leg is a stretch of constant acceleration, in metres and seconds; x is leftward of a right-hander's edge of the lane.
type leg struct {
	t, x, y, vx, vy, ax, ay float64
	lasts                   float64
}

// crossing is the ball where it crosses a distance.
type crossing struct {
	t, x, vx, vy float64
}

// Metres, seconds and kilograms inside; g is the standard one.
const (
	inch, foot, mph = .0254, .3048, .44704
	gravity         = 9.80665
	radius          = 4.275 * inch
)

// Roll reckons the path of a ball, in closed form. A value out of its range, or a ball that never gets to the pins, is an
// error in words.
//
// The ball is a sphere with its mass in the middle and Coulomb friction under it. The contact point slips over the lane
// with u; friction slows the ball by mu g û and turns it so that u itself falls by (1 + 1/beta) mu g û. Both lie along u,
// so u never changes direction: while mu is constant the path is a parabola, and when u is gone the ball rolls straight on.
// The velocity then, (v + beta v_spin)/(1 + beta), does not depend on mu. (Derived; the case of no spin is in mechanics
// textbooks.)
func Roll(r Release, o Oil) (Path, error) {
	if err := r.check(); err != nil {
		return Path{}, err
	}
	if err := o.check(); err != nil {
		return Path{}, err
	}
	p := roll(r, o)
	pins, ok := p.crossing(PinsFt * foot)
	if !ok {
		return Path{}, errors.New("this ball never gets to the pins: give it more speed or less back spin")
	}
	p.pins = pins
	return p, nil
}

// roll is the path of values in their ranges, whether or not it gets to the pins.
func roll(r Release, o Oil) Path {
	slip, at := release(r)
	perSlip := 1 + 1/r.beta()
	left := math.Hypot(slip.x, slip.y)
	dirX, dirY := slip.x/left, slip.y/left
	var p Path
	for _, zone := range [2]struct{ end, mu float64 }{{o.Ft * foot, o.Mu}, {math.Inf(1), o.DryMu}} {
		if left == 0 {
			break
		}
		at.ax, at.ay = -zone.mu*gravity*dirX, -zone.mu*gravity*dirY
		toRoll, toEnd := left/(perSlip*zone.mu*gravity), at.until(zone.end)
		at.lasts = min(toRoll, toEnd)
		p.add(at)
		if toRoll <= toEnd {
			left = 0
		} else {
			left = max(0, left-perSlip*zone.mu*gravity*at.lasts)
		}
		at = at.end()
	}
	p.rollFt = at.y / foot
	at.lasts = math.Inf(1)
	p.add(at)
	return p
}

type vector struct{ x, y float64 }

// release gives the velocity of the contact point over the lane and the state of the ball at the foul line.
func release(r Release) (slip vector, at leg) {
	speed := r.SpeedMPH * mph
	spin := r.RevRPM * 2 * math.Pi / 60 * radius * math.Cos(radians(r.TiltDeg))
	sinRot, cosRot := math.Sincos(radians(r.AxisRotationDeg))
	sinLaunch, cosLaunch := math.Sincos(radians(r.LaunchDeg))
	ahead, aside := speed-spin*cosRot, spin*sinRot
	slip = vector{-ahead*sinLaunch - aside*cosLaunch, ahead*cosLaunch - aside*sinLaunch}
	return slip, leg{x: Inches(r.Laydown) * inch, vx: -speed * sinLaunch, vy: speed * cosLaunch}
}

func radians(deg float64) float64 { return deg * math.Pi / 180 }
func degrees(rad float64) float64 { return rad * 180 / math.Pi }

// until gives the time from the leg's start to a distance, infinite when it never gets there. The form adds only what has
// one sign, so that nothing cancels.
func (l leg) until(y float64) float64 {
	far := y - l.y
	square := l.vy*l.vy + 2*l.ay*far
	if math.IsInf(far, 1) || square < 0 {
		return math.Inf(1)
	}
	return 2 * far / (l.vy + math.Sqrt(square))
}

func (l leg) end() leg {
	c := l.after(l.lasts)
	return leg{t: c.t, x: c.x, y: l.y + l.vy*l.lasts + l.ay*l.lasts*l.lasts/2, vx: c.vx, vy: c.vy}
}

func (l leg) after(q float64) crossing {
	return crossing{t: l.t + q, x: l.x + l.vx*q + l.ax*q*q/2, vx: l.vx + l.ax*q, vy: l.vy + l.ay*q}
}

func (p *Path) add(l leg) {
	p.legs[p.count] = l
	p.count++
}

func (p Path) crossing(y float64) (crossing, bool) {
	for _, l := range p.legs[:p.count] {
		if q := l.until(y); q <= l.lasts && !math.IsInf(q, 1) {
			return l.after(q), true
		}
	}
	return crossing{}, false
}

// BoardAt gives the board of the ball's middle at a distance in feet from the foul line, also beyond the pins, as if
// nothing stood there. Off the lane it is the board that would be there. It is NaN before the foul line and where the
// ball never gets.
func (p Path) BoardAt(ft float64) float64 {
	c, ok := p.crossing(ft * foot)
	if !ok || ft < 0 {
		return math.NaN()
	}
	return Board(c.x / inch)
}

// Breakpoint gives the lowest board between the foul line and the pins, and the feet where it is; the foul line when the
// ball only goes inside, the pins when it never turns.
func (p Path) Breakpoint() (ft, board float64) {
	board = p.BoardAt(0)
	for _, l := range p.legs[:p.count] {
		if l.ax <= 0 || l.vx >= 0 {
			continue
		}
		q := -l.vx / l.ax
		if b := Board(l.after(q).x / inch); q <= l.lasts && l.t+q <= p.pins.t && b < board {
			ft, board = (l.y+l.vy*q+l.ay*q*q/2)/foot, b
		}
	}
	if end := p.BoardAt(PinsFt); end < board {
		return PinsFt, end
	}
	return ft, board
}

// EntryDeg is the angle of travel to the boards at the pins, plus towards the inside. Of a ball that rolls by then it is
// the turn less the launch angle, whatever the oil.
func (p Path) EntryDeg() float64 { return degrees(math.Atan2(p.pins.vx, p.pins.vy)) }

// RollFt is where the ball stops slipping and rolls, in feet from the foul line; it may lie beyond the pins.
func (p Path) RollFt() float64 { return p.rollFt }

// SpeedAtPinsMPH is the speed at the pins in miles an hour.
func (p Path) SpeedAtPinsMPH() float64 { return math.Hypot(p.pins.vx, p.pins.vy) / mph }

// Seconds is the time from the foul line to the pins.
func (p Path) Seconds() float64 { return p.pins.t }

// PocketOffset is how many boards from the pocket the ball gets to the pins, plus high and minus light.
func (p Path) PocketOffset() float64 { return p.BoardAt(PinsFt) - Pocket }
