package lane

import "math"

// Reading errors of whole boards, as variances: a coach's standard deviation of 0.4 board at the laydown, 0.3 at the arrows
// and 0.5 at the pins (invented), and 1/12 for the rounding to whole boards.
const (
	laydownReading = 0.4*0.4 + 1.0/12
	targetReading  = 0.3*0.3 + 1.0/12
	hitReading     = 0.5*0.5 + 1.0/12
)

// The scatter of a student of whom nothing was read, boards squared, and the balls that it is worth. The variance at the
// arrows is the mean of those of bowlers who average 160, 180 and 200: the published widths of ten tries are 4.5, 4 and 3
// boards ("Tracking your tracking", a magazine's technique page, 2012, seen as an excerpt), and the width of ten normal values
// is 3.08 standard deviations. The laydown's and the covariance are invented.
const (
	priorLaydown    = 0.64
	priorTarget     = 1.6
	priorCovariance = 0.32
	priorBalls      = 8
)

// scatter sums by how much balls missed what was meant, in boards: of those of which the laydown, the board at the arrows,
// and both were read.
type scatter struct {
	laydowns, targets, pairs   float64
	laydown2, target2, product float64
}

func (s *scatter) add(b Ball) {
	dl, dt := b.Laydown.Value-b.Aim.Laydown, b.Target.Value-b.Aim.Target
	if b.Laydown.Known {
		s.laydowns++
		s.laydown2 += dl * dl
	}
	if b.Target.Known {
		s.targets++
		s.target2 += dt * dt
	}
	if b.Laydown.Known && b.Target.Known {
		s.pairs++
		s.product += dl * dt
	}
}

// covariance gives the true scatter's variances and covariance: the prior's and the read ones weighted by balls, the reading
// errors taken off.
func (s scatter) covariance() (laydown, target, both float64) {
	laydown = (priorBalls*(priorLaydown+laydownReading)+s.laydown2)/(priorBalls+s.laydowns) - laydownReading
	target = (priorBalls*(priorTarget+targetReading)+s.target2)/(priorBalls+s.targets) - targetReading
	both = (priorBalls*priorCovariance + s.product) / (priorBalls + s.pairs)
	laydown, target = max(laydown, 0.15), max(target, 0.25)
	limit := 0.9 * math.Sqrt(laydown*target)
	return laydown, target, max(-limit, min(limit, both))
}

// shrinkage turns what was read of a ball's scatter into what it is expected to have been.
type shrinkage struct {
	// both is V (V+N)^-1 of a ball with both boards read: rows are the true laydown and target, columns the read ones.
	both [2][2]float64
	// laydown and target are for a ball with that board alone read.
	laydown, target [2]float64
}

func (s scatter) shrinkage() shrinkage {
	l, t, c := s.covariance()
	rl, rt := l+laydownReading, t+targetReading
	det := rl*rt - c*c
	return shrinkage{
		both:    [2][2]float64{{(l*rt - c*c) / det, (c*rl - l*c) / det}, {(c*rt - t*c) / det, (t*rl - c*c) / det}},
		laydown: [2]float64{l / rl, c / rl},
		target:  [2]float64{c / rt, t / rt},
	}
}

// What the hit scatters by beside sigma where boards of the line were not read, boards squared: without any it is 2.5 boards
// in place of 1.6, as simulated students have it. Of that, the shares left when one board was read follow, rounded, from the
// prior's scatter at two boards at the pins for each board of laydown or target. All invented.
const (
	nothingRead = 2.5*2.5 - startSigma*startSigma
	targetOnly  = 0.3 * nothingRead
	laydownOnly = 0.9 * nothingRead
)

// noise gives the variance by which a ball's hit scatters more than that of a ball with all read in boards.
func (b Ball) noise() float64 {
	extra := b.readingNoise()
	switch {
	case b.Laydown.Known && b.Target.Known:
		return extra
	case b.Target.Known:
		return extra + targetOnly
	case b.Laydown.Known:
		return extra + laydownOnly
	}
	return extra + nothingRead
}

// readingNoise gives by how much the variance of reading this hit is above that of boards.
func (b Ball) readingNoise() float64 {
	if b.HitSD == 0 {
		return 0
	}
	return max(0, b.HitSD*b.HitSD-hitReading)
}
