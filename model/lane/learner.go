package lane

import (
	"math"

	"coach.settee/model"
)

// Learner learns, for one student on one pair with one ball, what a move of feet and target does to the board at the
// pins, from balls whose hit was read:
//
//	y = c + o z + d n/10 + p P + q Q + e
//
// y is the hit in boards (plus is high), z is -1/2 on the left lane and +1/2 on the right, n the balls thrown on that lane
// before by anyone, P the shift of the target from the base line and Q the shift of the target less that of the laydown: the
// deliberate move with the scatter that was read on that ball. The base line is that of the first ball. c, o, d, p, q and
// the variance of e are estimated by Bayes' rule with independent normal priors (see newPrior); everything that the estimate
// needs of the balls is kept in sums, so that a ball costs the same however many came before.
//
// A Learner is not for use by several goroutines at once.
type Learner struct {
	arrowsFt float64
	prior    prior
	pairTold bool
	oneLane  bool
	base     Aim
	balls    []Ball
	perLane  [2]int
	read     int
	scatter  scatter
	sums     []sums
	fitted   *fit
}

// Aim is a line as it is meant: the boards of the laydown and at the arrows.
type Aim struct{ Laydown, Target float64 }

// DefaultSlideOffset is how many boards the laydown lies outside the slide board where a student's own is not known
// (common practice, no source).
const DefaultSlideOffset = 6.0

// Ball is what was seen of a full rack's first ball.
type Ball struct {
	// Right tells the right lane of the pair from the left.
	Right bool
	// Thrown is how many balls anyone had thrown on that lane before.
	Thrown int
	// Aim is the line in force.
	Aim Aim
	// Laydown (the slide board less the student's offset) and Target (the board at the arrows) are where the ball went.
	Laydown, Target model.Optional[float64]
	// Hit is in boards from the pocket, plus is high. HitSD is the error of a reading that is not in boards (see HitInWords),
	// 0 for one that is.
	Hit, HitSD float64
	// Clean tells that the ball went as it was meant; it is asked only where the boards were not read.
	Clean bool
}

// Estimate is a value in boards with its standard deviation.
type Estimate struct{ Mean, SD float64 }

// NewLearner begins with no balls. The target lies arrowsFt from the foul line (0 reads as DefaultArrowsFt); difference is
// how many boards higher the right lane of the pair plays, as known from the others (see PairDifference); it counts for no
// surer than a tenth of a board.
func NewLearner(arrowsFt float64, difference model.Optional[Estimate]) *Learner {
	if arrowsFt == 0 {
		arrowsFt = DefaultArrowsFt
	}
	p := newPrior(arrowsFt)
	if difference.Known {
		p.mean[numDifference], p.sd[numDifference] = difference.Value.Mean, max(0.1, difference.Value.SD)
	}
	return &Learner{arrowsFt: arrowsFt, prior: p, pairTold: difference.Known}
}

// OneLane tells the learner that the student bowls on one lane of the pair only: it does not wait for the other.
func (l *Learner) OneLane() { l.oneLane = true }

// widestHit is the most boards that a hit counts for: farther out nobody reads boards at the pins.
const widestHit = 8.0

// Add learns from a ball.
func (l *Learner) Add(b Ball) {
	if len(l.balls) == 0 {
		l.base = b.Aim
	}
	b.Hit = max(-widestHit, min(widestHit, b.Hit))
	l.balls = append(l.balls, b)
	l.perLane[laneIndex(b.Right)]++
	if b.Laydown.Known || b.Target.Known {
		l.read++
	}
	l.scatter.add(b)
	l.sumsOf(b.noise()).add(l.observed(b), b.Hit)
	l.fitted = nil
}

// Transition tells how many boards higher the lanes play for ten balls thrown on them.
func (l *Learner) Transition() Estimate {
	f := l.fit()
	return Estimate{f.theta[numTransition], math.Sqrt(f.cov[numTransition][numTransition])}
}

// Difference tells how many boards higher the right lane plays than the left for this student.
func (l *Learner) Difference() Estimate {
	f := l.fit()
	return Estimate{f.theta[numDifference], math.Sqrt(f.cov[numDifference][numDifference])}
}

const (
	// pairSD and studentSD part the prior's spread of a pair's difference into what all students share and what is each one's
	// own; both are invented, and together make the 1.5 boards of a learner's prior.
	studentSD = 0.85
	pairSD    = 1.236
)

// PairDifference pools what the learners of other students say of the pair: how many boards higher the right lane will play
// than the left for one more student. Learners that were told the difference themselves, or saw one lane only, say nothing;
// unknown if none says anything.
//
// Each learner's own prior is taken off again (precisions subtract), so that it is counted once; students scatter about the
// pair's difference with an invented standard deviation of 0.85 boards.
func PairDifference(others []*Learner) model.Optional[Estimate] {
	precision, weighted, said := 1/(pairSD*pairSD), 0.0, false
	for _, l := range others {
		if l.pairTold || l.perLane[0] == 0 || l.perLane[1] == 0 {
			continue
		}
		d, own := l.Difference(), l.prior
		seen := 1/(d.SD*d.SD) - 1/(own.sd[numDifference]*own.sd[numDifference])
		if seen <= 0 {
			continue
		}
		alone := (d.Mean/(d.SD*d.SD) - own.mean[numDifference]/(own.sd[numDifference]*own.sd[numDifference])) / seen
		w := 1 / (1/seen + studentSD*studentSD)
		precision, weighted, said = precision+w, weighted+w*alone, true
	}
	if !said {
		return model.Optional[Estimate]{}
	}
	return model.Known(Estimate{weighted / precision, math.Sqrt(1/precision + studentSD*studentSD)})
}

func laneIndex(right bool) int {
	if right {
		return 1
	}
	return 0
}

// HitInWords gives a hit that was read in a word as boards from the pocket with the error of such a reading; for the
// learner alone: the hit stays a word everywhere else. The middles are the pins' geometry, the errors invented. Unknown where
// no hit was read.
func HitInWords(h model.Hit) (hit Estimate, known bool) {
	switch h {
	case model.Pocket:
		return Estimate{0, 0.5}, true
	case model.High:
		return Estimate{1.3, 0.6}, true
	case model.Nose:
		return Estimate{2.5, 0.6}, true
	case model.Brooklyn:
		return Estimate{5, 1.2}, true
	case model.Light:
		return Estimate{-1.5, 0.7}, true
	case model.Missed:
		return Estimate{-5, 1.5}, true
	}
	return Estimate{}, false
}
