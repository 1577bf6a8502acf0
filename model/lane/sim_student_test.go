package lane_test

import (
	"math"
	"math/rand/v2"

	"coach.settee/model/lane"
)

// simRelease is how a student lets go: speed, revolutions and the axis' rotation in degrees.
type simRelease struct{ mph, rpm, rotation float64 }

// simStudent throws with a scatter; the standard deviation at the arrows is one of three that follow from published widths of
// ten tries (3, 4 and 4.5 boards for averages of 200, 180 and 160, over 3.0775).
type simStudent struct {
	simRelease
	targetSD float64
	line     lane.Aim
}

const (
	simLaydownSD = 0.8
	simSpeedSD   = 0.25
)

func newSimStudent(r *rand.Rand) simStudent {
	return simStudent{
		simRelease: simRelease{
			mph:      min(20, max(12.5, 16.5+1.4*r.NormFloat64())),
			rpm:      min(500, max(120, 280+70*r.NormFloat64())),
			rotation: min(75, max(20, 45+11*r.NormFloat64())),
		},
		targetSD: []float64{0.97, 1.30, 1.46}[r.IntN(3)],
	}
}

// newSimStudents makes students with lines of whole boards that reach the pocket on the lane as it should be, none beside a
// gutter.
func newSimStudents(p pattern, r *rand.Rand, n int) []simStudent {
	nominal := newSimLane(p, 40, p.oil, 0.20, 0, 0.0003)
	var out []simStudent
	for len(out) < n {
		s := newSimStudent(r)
		line, ok := s.lineFor(nominal)
		if !ok {
			continue
		}
		s.line = line
		at := func(laydown, target float64) float64 {
			return nominal.throw(s.simRelease, lane.Aim{line.Laydown + laydown, line.Target + target}, nil)
		}
		if math.Abs(at(0, 1)-at(0, -1))/2 <= 7 && math.Abs(at(1, 0)-at(-1, 0))/2 <= 6 {
			out = append(out, s)
		}
	}
	return out
}

// lineFor finds the line whose mean ball reaches the pocket and leaves the oil nearest the board that the rule of 31 gives.
func (s simStudent) lineFor(l *simLane) (lane.Aim, bool) {
	best, found := lane.Aim{}, false
	off := math.Inf(1)
	track := make([]float64, 0, simFeet)
	for open := 0.0; open < 9.5; open += 0.5 {
		last := -1.0
		for target := 5.0; target <= 30.5 && target+open <= 36; target += 0.5 {
			track = track[:0]
			b := l.throw(s.simRelease, lane.Aim{target + open, target}, &track)
			if last > 0 && b > 0 && (last-lane.Pocket)*(b-lane.Pocket) <= 0 {
				exit := track[min(len(track)-1, int(l.oilFt))]
				if d := math.Abs(exit - (l.oilFt - 31)); d < off {
					off, best, found = d, lane.Aim{math.RoundToEven(target + open), math.RoundToEven(target)}, true
				}
			}
			last = b
		}
	}
	return best, found
}

// bowl throws one ball at a line, wears the lane, and gives where the ball went: laydown, board at the arrows, hit.
func (s simStudent) bowl(l *simLane, a lane.Aim, r *rand.Rand) (went lane.Aim, hit float64) {
	laydown := simLaydownSD * r.NormFloat64()
	target := 0.5*laydown + math.Sqrt(max(0.01, s.targetSD*s.targetSD-0.25*simLaydownSD*simLaydownSD))*r.NormFloat64()
	release := s.simRelease
	release.mph += simSpeedSD * r.NormFloat64()
	went = lane.Aim{a.Laydown + laydown, a.Target + target}
	track := make([]float64, 0, simFeet)
	hit = l.throw(release, went, &track) - lane.Pocket
	l.wearUnder(track)
	return went, hit
}
