package insight

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Better gives the posterior probability, 0 to 1, that the rate behind since is higher than the one behind before, where
// each has the prior Beta(a, b), both above 0. It is true to 1e-9 for tens of thousands.
//
// With equal posteriors it is a half. From there each count raises one parameter by one, and the incomplete beta function's
//
//	I_x(a, b) = I_x(a+1, b) + x^a (1-x)^b / (a B(a, b))
//
// and the like for b (NIST Digital Library of Mathematical Functions 8.17.20 and 21, from memory), averaged over the other
// posterior Beta(c, d), changes it by h/a, where h = B(a+c, b+d) / (B(a, b) B(c, d)).
func Better(before, since Part, a, b float64) float64 {
	r := rivals{
		p: [4]float64{a, b, a, b}, better: .5,
		h: math.Exp(mathext.Lbeta(2*a, 2*b) - 2*mathext.Lbeta(a, b)),
	}
	counts := [4]int{since.N, since.Of - since.N, before.N, before.Of - before.N}
	// In step, because h is nowhere on that way much below what it is at its ends, so that it does not get lost.
	steps := max(counts[0], counts[1], counts[2], counts[3])
	var done [4]int
	for step := 1; step <= steps; step++ {
		for i, n := range counts {
			for ; done[i] < n*step/steps; done[i]++ {
				r.raise(i)
			}
		}
	}
	return min(max(r.better, 0), 1)
}

// rivals are two beta distributions, p[0] and p[1] of the first, p[2] and p[3] of the second, with the probability that
// the first is higher.
type rivals struct {
	p         [4]float64
	better, h float64
}

// raise makes parameter i one more.
func (r *rivals) raise(i int) {
	own, match, other := r.p[i], r.p[i^2], r.p[i^1]
	gain := r.h / own
	if i == 1 || i == 2 {
		gain = -gain
	}
	r.better += gain
	r.h *= (own + match) / own * (own + other) / (r.p[0] + r.p[1] + r.p[2] + r.p[3])
	r.p[i]++
}
