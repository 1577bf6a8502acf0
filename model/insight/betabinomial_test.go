package insight

import (
	"fmt"
	"math"
	"math/big"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/combin"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

func drawn(a, b float64, n int) urn {
	u := newUrn(a, b, nil)
	for range n {
		u.draw()
	}
	return u
}

// The fractions were computed in exact arithmetic from the rules posterior
// (a+k, b+n-k) and predictive C(n,k) B(a+k,b+n-k)/B(a,b); no published table.
func TestBetaBinomialExactFractions(t *testing.T) {
	tests := []struct {
		name string
		a, b float64
		want [][2]float64 // numerator, denominator for 0, 1, 2 …
	}{
		{"Beta(2,3), then 7 good of 10, next 5", 2 + 7, 3 + 3,
			[][2]float64{{7, 323}, {63, 646}, {70, 323}, {385, 1292}, {165, 646}, {143, 1292}}},
		{"uniform and no data, next 4", 1, 1,
			[][2]float64{{1, 5}, {1, 5}, {1, 5}, {1, 5}, {1, 5}}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			u := drawn(test.a, test.b, len(test.want)-1)
			tail := 0.0
			for k := len(test.want) - 1; k >= 0; k-- {
				want := test.want[k][0] / test.want[k][1]
				near(t, fmt.Sprintf("P(%d)", k), u.p[k], want, 1e-15)
				tail += want
				near(t, fmt.Sprintf("P(at least %d)", k), u.atLeast(k), tail, 1e-15)
			}
		})
	}
}

var shapes = []struct{ a, b float64 }{
	{1, 1}, {9, 6}, {6.6152, 5.3848}, {10.6152, 6.3848}, {.55, 11.45}, {11.9, .1}, {1.2, 130}, {80.5, 43.25},
}

func TestBetaBinomialAgainstDirectSum(t *testing.T) {
	for _, shape := range shapes {
		for _, n := range []int{1, 2, 5, 12, 24, 48} {
			u := drawn(shape.a, shape.b, n)
			for k := range n + 1 {
				near(t, fmt.Sprintf("P(%d of %d) at Beta(%v,%v)", k, n, shape.a, shape.b),
					u.p[k], directly(shape.a, shape.b, k, n), 1e-14)
			}
		}
	}
}

// directly is P(k of n) as a product of rising factorials in exact fractions.
func directly(a, b float64, k, n int) float64 {
	p := new(big.Rat).SetInt(new(big.Int).Binomial(int64(n), int64(k)))
	p.Mul(p, rising(new(big.Rat).SetFloat64(a), k))
	p.Mul(p, rising(new(big.Rat).SetFloat64(b), n-k))
	sum := new(big.Rat).Add(new(big.Rat).SetFloat64(a), new(big.Rat).SetFloat64(b))
	p.Quo(p, rising(sum, n))
	f, _ := p.Float64()
	return f
}

func rising(x *big.Rat, n int) *big.Rat {
	product := big.NewRat(1, 1)
	for i := range n {
		product.Mul(product, new(big.Rat).Add(x, big.NewRat(int64(i), 1)))
	}
	return product
}

func TestBetaBinomialAgainstGonum(t *testing.T) {
	t.Run("closed form by its beta function", func(t *testing.T) {
		for _, shape := range shapes {
			for _, n := range []int{1, 5, 12, 100} {
				u := drawn(shape.a, shape.b, n)
				for k := range n + 1 {
					log := combin.LogGeneralizedBinomial(float64(n), float64(k)) +
						mathext.Lbeta(shape.a+float64(k), shape.b+float64(n-k)) - mathext.Lbeta(shape.a, shape.b)
					near(t, fmt.Sprintf("P(%d of %d) at Beta(%v,%v)", k, n, shape.a, shape.b), u.p[k], math.Exp(log), 1e-12)
				}
			}
		}
	})
	t.Run("binomial averaged over its beta", func(t *testing.T) {
		for _, shape := range shapes {
			if shape.a < 1 || shape.b < 1 {
				continue // the density has no end there, and the quadrature no accuracy
			}
			u, beta := drawn(shape.a, shape.b, 7), distuv.Beta{Alpha: shape.a, Beta: shape.b}
			for k := range 8 {
				want := quad.Fixed(func(p float64) float64 {
					return beta.Prob(p) * distuv.Binomial{N: 7, P: p}.Prob(float64(k))
				}, 0, 1, 2000, quad.Legendre{}, 0)
				near(t, fmt.Sprintf("P(%d of 7) at Beta(%v,%v)", k, shape.a, shape.b), u.p[k], want, 1e-6)
			}
		}
	})
}

func TestBetaBinomialAtTheEnds(t *testing.T) {
	t.Run("b of 0 is all good", func(t *testing.T) {
		u := drawn(12, 0, 5)
		near(t, "P(at least 5)", u.atLeast(5), 1, 1e-15)
	})
	t.Run("a of 0 is none good", func(t *testing.T) {
		u := drawn(0, 12, 5)
		near(t, "P(0)", u.p[0], 1, 1e-15)
	})
	t.Run("no racks is surely none", func(t *testing.T) {
		u := drawn(3, 4, 0)
		near(t, "P(0)", u.p[0], 1, 0)
		near(t, "P(at least 1)", u.atLeast(1), 0, 0)
	})
}

func TestBetaBinomialSumsToOneWithItsMean(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(1e-6, 300).Draw(t, "a")
		b := rapid.Float64Range(1e-6, 300).Draw(t, "b")
		n := rapid.IntRange(0, 300).Draw(t, "n")
		u := drawn(a, b, n)
		sum, mean := 0.0, 0.0
		for k, p := range u.p {
			if p < 0 || p > 1 {
				t.Fatalf("P(%d) = %v", k, p)
			}
			sum += p
			mean += float64(k) * p
		}
		near(t, "sum", sum, 1, 1e-12)
		near(t, "mean", mean, float64(n)*a/(a+b), 1e-9)
	})
}

func TestPriorMeanIsStrictlyInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawInput(t)
		if m := in.held().priorMean(); m <= 0 || m >= 1 {
			t.Fatalf("m = %v for %+v", m, in)
		}
		if a, b := in.held().posterior(); a <= 0 || b <= 0 {
			t.Fatalf("Beta(%v, %v) for %+v", a, b, in)
		}
	})
}

type failer interface {
	Helper()
	Errorf(format string, args ...any)
}

func near(t failer, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s = %.16g, want %.16g", what, got, want)
	}
}
