package lane

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// fit is what the balls say.
type fit struct {
	theta five
	cov   fiveByFive
	// sigma2 is the variance of a hit with all read, the scatter that was read left out; spread2 that of the next ball.
	sigma2, spread2 float64
}

const (
	// startSigma is the standard deviation of a hit whose scatter was read, before any ball, in boards; worth startBalls.
	startSigma = 1.6
	startBalls = 10
	// sigmaRounds is how often sigma and the five numbers are estimated in turn.
	sigmaRounds = 3
)

// fit gives the estimate from all balls: the five numbers for the sigma at hand, then sigma from the squared residuals, each
// weighted by sigma² over the variance of its ball, in turn.
func (l *Learner) fit() *fit {
	if l.fitted != nil {
		return l.fitted
	}
	r := l.scatter.shrinkage().regressors()
	classes := make([]normal, len(l.sums))
	for i := range l.sums {
		classes[i] = l.sums[i].normal(r)
	}
	f := &fit{sigma2: startSigma * startSigma}
	for range sigmaRounds {
		f.theta, f.cov = l.prior.posterior(classes, f.sigma2)
		squares, n := startBalls*startSigma*startSigma, float64(startBalls)
		for _, c := range classes {
			squares += f.sigma2 / (f.sigma2 + c.noise) * c.residual(f.theta)
			n += c.n
		}
		f.sigma2 = squares / n
	}
	f.spread2 = l.spread2(f.theta)
	l.fitted = f
	return f
}

// posterior gives mean and covariance of the five numbers for a known sigma²: the normal equations of the conjugate normal
// prior (Lindley and Smith, "Bayes estimates for the linear model", J. R. Statist. Soc. B 34, 1972; from memory), by
// Cholesky. The prior keeps the matrix positive definite, so that neither the factors nor the solution can fail.
func (p prior) posterior(classes []normal, sigma2 float64) (five, fiveByFive) {
	precision := mat.NewSymDense(numbers, nil)
	right := mat.NewVecDense(numbers, nil)
	for i := range numbers {
		w := 1 / (p.sd[i] * p.sd[i])
		a, b := w, w*p.mean[i]
		for _, c := range classes {
			a += c.xx[i][i] / (sigma2 + c.noise)
			b += c.xy[i] / (sigma2 + c.noise)
		}
		precision.SetSym(i, i, a)
		right.SetVec(i, b)
		for j := range i {
			off := 0.0
			for _, c := range classes {
				off += c.xx[i][j] / (sigma2 + c.noise)
			}
			precision.SetSym(i, j, off)
		}
	}
	var chol mat.Cholesky
	var theta mat.VecDense
	var cov mat.SymDense
	chol.Factorize(precision)
	chol.SolveVecTo(&theta, right)
	chol.InverseTo(&cov)
	var t five
	var v fiveByFive
	for i := range numbers {
		t[i] = theta.AtVec(i)
		for j := range numbers {
			v[i][j] = cov.At(i, j)
		}
	}
	return t, v
}

const (
	// startSpread is the standard deviation of a student's next ball at the pins before any ball, in boards; worth spreadBalls.
	startSpread = 2.5
	spreadBalls = 6
	// wildest is the most that one ball's squared residual counts for the spread.
	wildest = 36.0
)

// spread2 gives the variance of the student's next ball at the pins, from the residuals about the line that was meant:
// what was read of the scatter is left in, since the next ball will scatter too, and the error of reading taken off.
func (l *Learner) spread2(theta five) float64 {
	squares := spreadBalls * startSpread * startSpread
	for _, b := range l.balls {
		r := b.Hit - l.aimed(b.Right, b.Thrown, b.Aim).dot(theta)
		squares += min(wildest, r*r) - b.readingNoise()
	}
	return max(1, squares/float64(spreadBalls+len(l.balls))-hitReading)
}

// chance gives how often the student's next ball hits within a board of the pocket.
func (f *fit) chance(x five) float64 {
	mean, sd := x.dot(f.theta), math.Sqrt(f.cov.form(x)+f.spread2)
	return normalCDF((1-mean)/sd) - normalCDF((-1-mean)/sd)
}

func normalCDF(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
