package lane_test

import (
	"math"
	"testing"

	"coach.settee/model/lane"
)

// The margins of the learner (one student alone) over the other rules, as a simulation in plain Python with the same lanes,
// students and coach gave them for 50 sessions: its shares were 0.284, 0.253 and 0.196 on the house pattern, 0.163, 0.134 and
// 0.080 on the flat one. Held less three standard errors of a difference, 0.007 each.
var margins = map[string]struct{ overStay, overFollow float64 }{
	"house": {0.284 - 0.253, 0.284 - 0.196},
	"flat":  {0.163 - 0.134, 0.163 - 0.080},
}

const slack = 3 * 0.007

var simRuns = []run{
	{name: "stay", policy: stay, reading: sharp},
	{name: "follow", policy: follow, reading: sharp},
	{name: "two clean", policy: twoClean, reading: sharp},
	{name: "learner", policy: learnt, reading: sharp, learns: true},
	{name: "coarse two clean", policy: twoClean, reading: coarse},
	{name: "coarse two clean by eye", policy: twoCleanByEye, reading: coarse},
	{name: "coarse learner", policy: learnt, reading: coarse, learns: true},
}

// sessions gives how many evenings are played: the standard error of a gain is near 0.003 with 300, 0.006 with 60.
func sessions() int {
	if testing.Short() {
		return 60
	}
	return 300
}

func TestSimulatedEvenings(t *testing.T) {
	for _, p := range []pattern{house, flat} {
		t.Run(p.name, func(t *testing.T) {
			played := simulate(p, sessions(), simRuns)
			for _, run := range simRuns {
				e := played[run.name]
				t.Logf("%-24s %.4f, %.1f moves a student", run.name, e.share(), e.movesEach())
			}
			gains(t, played, "learner", "stay", margins[p.name].overStay-slack)
			gains(t, played, "learner", "follow", margins[p.name].overFollow-slack)
			// Worth showing beside the rule that needs no reading: better on the house pattern; on the flat one a tie, which
			// 0.01 bounds.
			least := map[string]float64{"house": 0.005, "flat": -0.01}[p.name]
			gains(t, played, "coarse learner", "coarse two clean", least)
			gains(t, played, "coarse learner", "coarse two clean by eye", least)
			for tenth := 2; tenth <= 3; tenth++ {
				for _, name := range []string{"learner", "coarse learner"} {
					honest(t, played, name, tenth, tooHigh[p.name+", "+name][tenth])
				}
			}
		})
	}
}

func gains(t *testing.T, played map[string]evenings, learner, other string, least float64) {
	t.Helper()
	gain, se := played[learner].gain(played[other])
	t.Logf("%s over %s: %+.4f (standard error %.4f), at least %+.4f", learner, other, gain, se, least)
	if gain < least {
		t.Errorf("%s gains %.4f (standard error %.4f) over %s, want %.4f", learner, gain, se, other, least)
	}
}

// tooHigh is by how much the chances stated from 0.2 and from 0.3 on were above the share of hits, as measured here with 300
// sessions: what Suggest's comment says of them.
var tooHigh = map[string]map[int]float64{
	"house, learner":        {2: 0.006, 3: -0.007},
	"house, coarse learner": {2: 0.031, 3: 0.024},
	"flat, learner":         {2: 0.063, 3: 0.135},
	"flat, coarse learner":  {2: 0.094, 3: 0.159},
}

// honest holds the chances stated in a tenth to the share of hits, as far off as was measured and three standard errors.
func honest(t *testing.T, played map[string]evenings, name string, tenth int, measured float64) {
	t.Helper()
	h := played[name].honesty(tenth)
	off, most := h.said-h.was, math.Abs(measured)+3*h.se
	t.Logf("%s said %.3f, was %.3f of %d balls (standard error %.4f), at most %.3f off", name, h.said, h.was, h.balls, h.se, most)
	if h.balls < 200 || !(math.Abs(off) <= most) {
		t.Errorf("%s said %.3f, was %.3f of %d balls, want it within %.3f", name, h.said, h.was, h.balls, most)
	}
}

// The lane, the ball and the wear against the simulation in plain Python: the board at the pins before and after 40 balls on
// the same line.
func TestSimulatedLane(t *testing.T) {
	for _, c := range []struct {
		pattern       pattern
		tilt          float64
		release       simRelease
		aim           lane.Aim
		fresh, worn40 float64
	}{
		{house, 0, simRelease{16.5, 280, 45}, lane.Aim{Laydown: 18, Target: 12}, 22.683854355, 24.316398763},
		{house, 0, simRelease{14, 180, 30}, lane.Aim{Laydown: 14, Target: 10}, 18.370327751, 19.701405388},
		{house, 0.0006, simRelease{16.5, 280, 45}, lane.Aim{Laydown: 18, Target: 12}, 22.196525375, 23.815387094},
		{house, 0.0006, simRelease{14, 180, 30}, lane.Aim{Laydown: 14, Target: 10}, 17.484719888, 18.791219847},
		{flat, 0, simRelease{16.5, 280, 45}, lane.Aim{Laydown: 18, Target: 12}, 17.313016736, 21.722457549},
		{flat, 0, simRelease{14, 180, 30}, lane.Aim{Laydown: 14, Target: 10}, 13.590994014, 16.472806763},
		{flat, 0.0006, simRelease{16.5, 280, 45}, lane.Aim{Laydown: 18, Target: 12}, 16.540611787, 20.933396735},
		{flat, 0.0006, simRelease{14, 180, 30}, lane.Aim{Laydown: 14, Target: 10}, 12.485902163, 15.332497230},
	} {
		l := newSimLane(c.pattern, 40.4, c.pattern.oil*1.03, 0.19, c.tilt, 0.0003)
		fresh := l.throw(c.release, c.aim, nil)
		for range 40 {
			var track []float64
			l.throw(c.release, c.aim, &track)
			l.wearUnder(track)
		}
		if worn := l.throw(c.release, c.aim, nil); math.Abs(fresh-c.fresh) > 1e-6 || math.Abs(worn-c.worn40) > 1e-6 {
			t.Errorf("%s, %+v: boards %.9f and %.9f, want %.9f and %.9f", c.pattern.name, c.aim, fresh, worn, c.fresh, c.worn40)
		}
	}
}
