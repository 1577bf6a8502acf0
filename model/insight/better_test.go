package insight

import (
	"fmt"
	"math"
	"math/big"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mathext"
	"pgregory.net/rapid"
)

// Computed three ways to the same digits: by the closed sum for whole parameters (a public note of 2015 on comparing
// rates) in exact fractions, by counting the orders of two uniform samples, and by numerical integration.
func TestBetterUnderUniformPriors(t *testing.T) {
	tests := []struct {
		before, since Part
		want          float64
	}{
		{Part{8, 20}, Part{14, 20}, 39653281. / 40913490},
		{Part{3, 10}, Part{7, 10}, 56255. / 58786},
		{Part{12, 30}, Part{18, 30}, .9365580865494307},
		{Part{45, 100}, Part{58, 100}, .9665187355347592},
		{Part{5, 12}, Part{5, 12}, .5},
		{Part{}, Part{}, .5},
	}
	for _, test := range tests {
		t.Run(fmt.Sprintf("%d of %d, %d of %d", test.before.N, test.before.Of, test.since.N, test.since.Of), func(t *testing.T) {
			near(t, "P", Better(test.before, test.since, 1, 1), test.want, 1e-13)
		})
	}
}

// No table for the prior of cues was found: the value was computed apart from this program, to four places.
func TestBetterUnderTheCuesPrior(t *testing.T) {
	near(t, "3 of 10, then 7 of 10", Better(Part{3, 10}, Part{7, 10}, .5, .5), .9643, 5e-5)
}

func TestBetterAgainstTheClosedSum(t *testing.T) {
	for _, before := range []Part{{0, 0}, {0, 10}, {10, 10}, {3, 10}, {37, 61}} {
		for _, since := range []Part{{0, 0}, {0, 10}, {10, 10}, {7, 10}, {40, 40}, {50, 90}} {
			near(t, fmt.Sprintf("%v then %v", before, since), Better(before, since, 1, 1), closedSum(before, since), 1e-13)
		}
	}
}

// closedSum is the sum over i below a2 of B(a1+i, b1+b2) / ((b2+i) B(1+i, b2) B(a1, b1)) for uniform priors, in exact
// fractions.
func closedSum(before, since Part) float64 {
	a1, b1 := before.N+1, before.Of-before.N+1
	a2, b2 := since.N+1, since.Of-since.N+1
	sum := new(big.Rat)
	for i := range a2 {
		term := beta(a1+i, b1+b2)
		below := new(big.Rat).Mul(beta(1+i, b2), beta(a1, b1))
		below.Mul(below, big.NewRat(int64(b2+i), 1))
		sum.Add(sum, term.Quo(term, below))
	}
	p, _ := sum.Float64()
	return p
}

// beta is B(a, b) = (a-1)! (b-1)! / (a+b-1)!.
func beta(a, b int) *big.Rat {
	factorial := func(n int) *big.Int { return new(big.Int).MulRange(1, int64(n)) }
	return new(big.Rat).SetFrac(new(big.Int).Mul(factorial(a-1), factorial(b-1)), factorial(a+b-1))
}

// With x = sin²u the density of Beta(a, b) is 2 sin^(2a-1) cos^(2b-1) / B(a, b), smooth for halves, and the other's
// distribution is gonum's.
func TestBetterAgainstQuadrature(t *testing.T) {
	for _, prior := range []struct{ a, b float64 }{{.5, .5}, {1, 1}, {2.5, 1.5}} {
		for _, before := range []Part{{0, 0}, {3, 10}, {0, 7}, {60, 100}, {400, 1000}} {
			for _, since := range []Part{{0, 1}, {7, 10}, {10, 10}, {45, 60}, {431, 1000}} {
				a1, b1 := prior.a+float64(before.N), prior.b+float64(before.Of-before.N)
				a2, b2 := prior.a+float64(since.N), prior.b+float64(since.Of-since.N)
				lbeta := mathext.Lbeta(a1, b1)
				want := quad.Fixed(func(u float64) float64 {
					sin, cos := math.Sincos(u)
					density := 2 * math.Exp((2*a1-1)*math.Log(sin)+(2*b1-1)*math.Log(cos)-lbeta)
					return density * mathext.RegIncBeta(b2, a2, cos*cos)
				}, 0, math.Pi/2, 400, quad.Legendre{}, 0)
				near(t, fmt.Sprintf("%v then %v, prior %v", before, since, prior), Better(before, since, prior.a, prior.b), want, 1e-9)
			}
		}
	}
}

func TestBetterIsEvenBothWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		part := func(name string) Part {
			of := rapid.IntRange(0, 3000).Draw(t, name)
			return Part{rapid.IntRange(0, of).Draw(t, "good "+name), of}
		}
		before, since := part("before"), part("since")
		p, other := Better(before, since, .5, .5), Better(since, before, .5, .5)
		if p < 0 || p > 1 {
			t.Fatalf("P = %v", p)
		}
		near(t, "P and the other way", p+other, 1, 1e-10)
		more := Part{since.N + 1, since.Of + 1}
		if Better(before, more, .5, .5) < p-1e-10 {
			t.Fatalf("one more good since makes %v then %v less likely better", before, since)
		}
	})
}
