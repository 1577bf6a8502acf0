package lane_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"coach.settee/model/lane"
)

// The closed form against the full equations of the ball, stepped in time: position, velocity and all three of the spin,
// none of them knowing that the slip keeps its direction.
func TestRollAgainstIntegration(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 400))
	between := func(low, high float64) float64 { return low + (high-low)*random.Float64() }
	for i := range 400 {
		r := lane.Release{
			SpeedMPH: between(10, 22), RevRPM: between(0, 600), AxisRotationDeg: between(0, 110), TiltDeg: between(0, 40),
			Laydown: between(5, 35), LaunchDeg: between(-3, 6), Beta: between(.32, .45),
		}
		o := lane.Oil{Ft: between(25, 50), Mu: between(.005, .1), DryMu: between(.1, .35)}
		compare(t, fmt.Sprintf("ball %d, %+v on %+v", i, r, o), r, o)
	}
	for _, c := range pathCases(t) {
		compare(t, c.name, c.Release, c.Oil)
	}
}

func compare(t *testing.T, what string, r lane.Release, o lane.Oil) {
	t.Helper()
	p := rolled(t, r, o)
	b := released(r, func(_, y float64) float64 {
		if y < o.Ft*footM {
			return o.Mu
		}
		return o.DryMu
	})
	b.edge = o.Ft * footM
	const within = 1e-8
	for _, ft := range []float64{5, 15, 30, 45, 60} {
		b.to(ft * footM)
		near(t, fmt.Sprintf("%s: the board at %v ft", what, ft), p.BoardAt(ft), lane.Board(-b.x/.0254), within)
	}
	near(t, what+": the seconds", p.Seconds(), b.t, within)
	near(t, what+": the speed", p.SpeedAtPinsMPH(), math.Hypot(b.vx, b.vy)/mphMS, within)
	near(t, what+": the entry", p.EntryDeg(), math.Atan2(-b.vx, b.vy)*180/math.Pi, within)
	for far := 60.; !b.rolling && far < 1000; far++ {
		b.to(far * footM)
	}
	near(t, what+": feet to rolling", p.RollFt(), b.rollY/footM, within)
}

// The turn holds no friction, not even one that differs across the lane.
func TestTurnWhateverTheFrictionAcross(t *testing.T) {
	r := lane.Release{Laydown: 20, LaunchDeg: 2, SpeedMPH: 17.5, RevRPM: 320, AxisRotationDeg: 50, TiltDeg: 15, Beta: .4}
	b := released(r, func(x, y float64) float64 { return .02 + .10*(.5+.5*math.Sin(-9*x+1.3*y))*(y/18) })
	b.to(110 * footM)
	if !b.rolling {
		t.Fatal("it still slips")
	}
	want := rolled(t, r, lane.Oil{Ft: 20, Mu: .1, DryMu: .3}).EntryDeg()
	near(t, "the angle of travel", math.Atan2(-b.vx, b.vy)*180/math.Pi, want, 1e-8)
	near(t, "the same, worked apart from this program", want, 5.03524063547, 1e-9)
}

// stepped is a ball on the lane in metres and seconds: x to the right of a right-hander's edge of the lane, y down the lane,
// z up.
type stepped struct {
	t       float64
	rolling bool
	rollY   float64
	edge    float64 // where the friction jumps: no step may cross it
	beta    float64
	mu      func(x, y float64) float64
	state
}

type state struct{ x, y, vx, vy, wx, wy, wz float64 }

func released(r lane.Release, mu func(x, y float64) float64) *stepped {
	rad := math.Pi / 180
	sin, cos := math.Sincos(r.LaunchDeg * rad)
	v, w := r.SpeedMPH*mphMS, r.RevRPM*2*math.Pi/60
	flat := w * math.Cos(r.TiltDeg*rad)
	// Rolling along the travel d turns about z × d; side turn about -d moves the lowest point to the right.
	over, side := flat*math.Cos(r.AxisRotationDeg*rad), flat*math.Sin(r.AxisRotationDeg*rad)
	return &stepped{beta: r.Beta, mu: mu, edge: math.Inf(1), state: state{
		x: -lane.Inches(r.Laydown) * .0254, vx: v * sin, vy: v * cos,
		wx: -over*cos - side*sin, wy: over*sin - side*cos, wz: w * math.Sin(r.TiltDeg*rad),
	}}
}

const radiusM = 4.275 * .0254

// slip is the velocity of the lowest point: v + w × (0, 0, -R).
func (s state) slip() (x, y float64) { return s.vx - s.wy*radiusM, s.vy + s.wx*radiusM }

// rates is the derivative of the state with friction mu along the slip's opposite. The torque about the middle is
// (0, 0, -R) × F, over beta R² per mass.
func (b *stepped) rates(s state, mu float64) state {
	d := state{x: s.vx, y: s.vy}
	if b.rolling {
		return d
	}
	ux, uy := s.slip()
	u := math.Hypot(ux, uy)
	d.vx, d.vy = -mu*g*ux/u, -mu*g*uy/u
	d.wx, d.wy = radiusM*d.vy/(b.beta*radiusM*radiusM), -radiusM*d.vx/(b.beta*radiusM*radiusM)
	return d
}

func (s state) plus(h float64, d state) state {
	return state{s.x + h*d.x, s.y + h*d.y, s.vx + h*d.vx, s.vy + h*d.vy, s.wx + h*d.wx, s.wy + h*d.wy, s.wz + h*d.wz}
}

// step is one of Runge and Kutta's fourth order. Friction that jumps is that of the side where the step begins.
func (b *stepped) step(h float64) state {
	mu := func(s state) float64 {
		if !math.IsInf(b.edge, 1) {
			return b.mu(b.x, b.y)
		}
		return b.mu(s.x, s.y)
	}
	k1 := b.rates(b.state, mu(b.state))
	s2 := b.plus(h/2, k1)
	k2 := b.rates(s2, mu(s2))
	s3 := b.plus(h/2, k2)
	k3 := b.rates(s3, mu(s3))
	s4 := b.plus(h, k3)
	k4 := b.rates(s4, mu(s4))
	return b.plus(h/6, k1).plus(h/3, k2).plus(h/3, k3).plus(h/6, k4)
}

// to steps the ball to a distance. Towards rolling the steps shrink with the slip, so that its direction is never asked
// for where it is rounding noise.
func (b *stepped) to(y float64) {
	const longest, noSlip = 2e-3, 1e-12
	for b.y < y-1e-13 {
		h, goal := longest, y
		if b.y < b.edge-1e-13 {
			goal = min(goal, b.edge)
		}
		if !b.rolling {
			ux, uy := b.slip()
			u := math.Hypot(ux, uy)
			if u < noSlip {
				b.rolling, b.rollY = true, b.y
				continue
			}
			h = min(h, .9*u/((1+1/b.beta)*b.mu(b.x, b.y)*g))
		}
		next := b.step(h)
		if next.y > goal {
			for range 6 {
				h -= (next.y - goal) / next.vy
				next = b.step(h)
			}
		}
		if math.Abs(next.y-b.edge) < 1e-12 {
			next.y = b.edge
		}
		b.state, b.t = next, b.t+h
	}
}
