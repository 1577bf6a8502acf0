package lane

// The five numbers of a Learner, by their place.
const (
	numLevel = iota
	numDifference
	numTransition
	numParallel
	numClosing
	numbers
)

type (
	five       [numbers]float64
	fiveByFive [numbers]five
)

func (v five) dot(w five) float64 {
	sum := 0.0
	for i := range v {
		sum += v[i] * w[i]
	}
	return sum
}

// form gives v'Mv.
func (m fiveByFive) form(v five) float64 {
	sum := 0.0
	for i := range v {
		sum += v[i] * m[i].dot(v)
	}
	return sum
}

type prior struct{ mean, sd five }

// newPrior gives what is believed before any ball: c 0 (2.5), o 0 (1.5), d 0.3 (0.3), p 0.3 (0.8), q 2.5 (0.6). The means
// come from the straight-line geometry and the ball's path, the standard deviations from simulated students; it is invented
// in so far as those are. An extra turn of the line tells (60/A-1)/3 as much with the target at A ft as at 15.
func newPrior(arrowsFt float64) prior {
	turn := (60/arrowsFt - 1) / 3
	return prior{mean: five{0, 0, 0.3, 0.3, 2.5 * turn}, sd: five{2.5, 1.5, 0.3, 0.8, 0.6 * turn}}
}

// aimed gives the regressors of a ball that goes as it is meant.
func (l *Learner) aimed(right bool, thrown int, a Aim) five {
	z := -0.5
	if right {
		z = 0.5
	}
	target := a.Target - l.base.Target
	return five{1, z, float64(thrown) / 10, target, target - (a.Laydown - l.base.Laydown)}
}
