package lane_test

import (
	"math"
	"math/rand/v2"

	"coach.settee/model/lane"
)

// The simulated evening: a ball that slides, then rolls, on a lane whose friction varies across and along it and that every
// ball wears a little. While a ball slides its friction keeps one direction, so the path needs no more than steps along that
// direction. All numbers of lanes and students are invented; they were chosen so that lines, scatter and pair differences look
// like those of a house and of a flat pattern.
const (
	simGravity = 9.80665
	simFoot    = 0.3048
	simMPH     = 0.44704
	simBoard   = 41.5 / 39 * 0.0254
	simRadius  = 4.275 * 0.0254
	simBeta    = 0.4
	simStep    = 0.02
	simFeet    = 61
	simBoards  = 42
)

// simLane is one lane: its friction on a grid of a foot by a board, oil to oilFt, a tilt to the right in radians.
type simLane struct {
	oilFt, dry, tilt, wear float64
	thrown                 int
	mu                     [simFeet][simBoards]float64
}

// pattern is an oil pattern: its friction in the middle, and whether it is drier outside.
type pattern struct {
	name  string
	oil   float64
	house bool
}

var (
	house = pattern{"house", 0.016, true}
	flat  = pattern{"flat", 0.021, false}
)

func newSimLane(p pattern, oilFt, oil, dry, tilt, wear float64) *simLane {
	const outside = 0.13
	l := &simLane{oilFt: oilFt, dry: dry, tilt: tilt, wear: wear}
	for y := range l.mu {
		taper := 1.0
		if float64(y) > oilFt-6 {
			taper = max(0, min(1, (oilFt+1-float64(y))/7))
		}
		for b := range l.mu[y] {
			in := oil
			if p.house {
				in += (outside - oil) * min(1, max(0, (math.Abs(float64(b)-20)-8)/6))
			}
			l.mu[y][b] = dry - (dry-in)*taper
		}
	}
	return l
}

// newSimPair makes the two lanes of a pair, which differ a little.
func newSimPair(p pattern, r *rand.Rand) [2]*simLane {
	oil := p.oil * math.Exp(0.10*r.NormFloat64())
	oilFt := 40 + 1.2*r.NormFloat64()
	dry := min(0.27, max(0.14, 0.20+0.02*r.NormFloat64()))
	wear := 0.00012 + 0.00038*r.Float64()
	var pair [2]*simLane
	for i := range pair {
		pair[i] = newSimLane(p, oilFt+0.7*r.NormFloat64(), oil*math.Exp(0.05*r.NormFloat64()), dry,
			0.00035*r.NormFloat64(), wear*(0.8+0.4*r.Float64()))
	}
	return pair
}

func (l *simLane) clone() *simLane {
	c := *l
	return &c
}

// wearUnder takes oil away under a track of boards, one a foot.
func (l *simLane) wearUnder(track []float64) {
	l.thrown++
	for y, b := range track {
		if float64(y) > l.oilFt {
			break
		}
		row := &l.mu[y]
		for i := max(0, int(b)-3); i < min(simBoards, int(b)+5); i++ {
			if row[i] < l.dry {
				d := (float64(i) - b) / 1.6
				row[i] = min(l.dry, row[i]+l.wear*math.Exp(-0.5*d*d))
			}
		}
	}
}

// friction interpolates the grid.
func (l *simLane) friction(b, ft float64) float64 {
	ft, b = min(ft, 59.9), max(b, 0)
	j, i := int(ft), int(b)
	fy, fb := ft-float64(j), b-float64(i)
	r0, r1 := &l.mu[j], &l.mu[j+1]
	return (r0[i]*(1-fb)+r0[i+1]*fb)*(1-fy) + (r1[i]*(1-fb)+r1[i+1]*fb)*fy
}

// throw gives the board at the pins of a ball from a laydown board toward the board at the arrows, -10 and 50 for the
// gutters. With a track it appends the board at each foot.
func (l *simLane) throw(s simRelease, a lane.Aim, track *[]float64) float64 {
	v0, spin := s.mph*simMPH, s.rpm*2*math.Pi/60*simRadius
	rot := s.rotation * math.Pi / 180
	sin, cos := math.Sincos(math.Atan2((a.Laydown-a.Target)*simBoard, 15*simFoot))
	along, across := v0-spin*math.Cos(rot), spin*math.Sin(rot)
	slip := math.Hypot(along, across)
	ux, uy := (-along*sin-across*cos)/slip, (along*cos-across*sin)/slip
	x, y, vx, vy := (a.Laydown-0.5)*simBoard, 0.0, -v0*sin, v0*cos
	fall := simGravity * l.tilt
	for next := 0; ; {
		board, ft := x/simBoard+0.5, y/simFoot
		for track != nil && float64(next) <= ft && next < simFeet {
			*track = append(*track, board)
			next++
		}
		switch {
		case board < 0.5:
			return -10
		case board > 39.5:
			return 50
		case ft >= 60:
			return (x-vx*(y-60*simFoot)/vy)/simBoard + 0.5
		}
		if slip <= 0 {
			ax := -fall / (1 + simBeta)
			x += vx*simStep + ax*simStep*simStep/2
			y += vy * simStep
			vx += ax * simStep
			continue
		}
		mu := l.friction(board+vx*simStep/2/simBoard, ft+vy*simStep/2/simFoot)
		rate := (1 + 1/simBeta) * simGravity * mu
		h := min(simStep, slip/rate)
		ax, ay := -mu*simGravity*ux-fall, -mu*simGravity*uy
		x += vx*h + ax*h*h/2
		y += vy*h + ay*h*h/2
		vx += ax * h
		vy += ay * h
		if slip -= rate * h; slip < 1e-9 {
			slip = 0
		}
	}
}
