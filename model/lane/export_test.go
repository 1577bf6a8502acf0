package lane

import "math"

// Chance gives how often the next ball hits within a board of the pocket with a line, 0 to 1.
func (l *Learner) Chance(right bool, thrown int, a Aim) float64 {
	return l.fit().chance(l.aimed(right, thrown, a))
}

// Miss gives where the student's ball is to be expected with a line on a lane, thrown balls into its evening: boards from
// the pocket, with how well that mean is known, the scatter of single balls left out.
func (l *Learner) Miss(right bool, thrown int, a Aim) Estimate {
	f := l.fit()
	x := l.aimed(right, thrown, a)
	return Estimate{x.dot(f.theta), math.Sqrt(f.cov.form(x))}
}
