package insight

import (
	"fmt"
	"math"

	"coach.settee/model"
)

// Part is a number out of a number: 8 of 22.
type Part struct{ N, Of int }

// Rate gives N/Of, unknown of none.
func (p Part) Rate() model.Optional[float64] {
	if p.Of == 0 {
		return model.Optional[float64]{}
	}
	return model.Known(float64(p.N) / float64(p.Of))
}

// with gives the part with one more that was hit or not, where it counts at all.
func (p Part) with(hit, counts bool) Part {
	return Part{p.N + one(hit && counts), p.Of + one(counts)}
}

// String gives "8 of 22".
func (p Part) String() string { return fmt.Sprintf("%d of %d", p.N, p.Of) }

// Percent gives the rate in whole per cents, a half rounded up: "74%"; "" of none.
func (p Part) Percent() string {
	if p.Of == 0 {
		return ""
	}
	return fmt.Sprintf("%d%%", (200*p.N+p.Of)/(2*p.Of))
}

// fewestForRate is of how many a rate is told in words; of fewer the counts are told alone. Invented: at ten the 95% Wilson
// interval of an even rate is still more than half of all rates wide.
const fewestForRate = 10

// words gives the count, with the rate where there are enough: "40 of 54 (74%)", "3 of 4; too few to say".
func (p Part) words() string {
	if p.Of < fewestForRate {
		return p.String() + "; too few to say"
	}
	return fmt.Sprintf("%s (%s)", p, p.Percent())
}

// Interval is a range of values that the data leave plausible.
type Interval struct{ Low, High float64 }

// z95 is the 0.975 quantile of the standard normal distribution.
const z95 = 1.9599639845400542

// Wilson gives the 95% Wilson score interval of the rate behind the count, within 0 and 1; unknown of none. Wilson (1927)
// as method 3 of Newcombe, "Two-sided confidence intervals for the single proportion", Statistics in Medicine 17 (1998).
func (p Part) Wilson() model.Optional[Interval] {
	if p.Of == 0 {
		return model.Optional[Interval]{}
	}
	return model.Known(wilson(float64(p.N), float64(p.Of)))
}

// wilson is Wilson for counts that need not be whole: those of a weighted sample.
func wilson(k, n float64) Interval {
	const z2 = z95 * z95
	share := k / n
	centre := (share + z2/(2*n)) / (1 + z2/n)
	half := z95 / (1 + z2/n) * math.Sqrt(share*(1-share)/n+z2/(4*n*n))
	in := Interval{max(centre-half, 0), min(centre+half, 1)}
	// Rounding must not move the ends that are exact.
	if k <= 0 {
		in.Low = 0
	}
	if k >= n {
		in.High = 1
	}
	return in
}

// Difference gives the difference of the rates p minus q with its 95% interval by Newcombe's hybrid score method: method
// 10 of Newcombe, "Interval estimation for the difference between independent proportions", Statistics in Medicine 17
// (1998). Unknown where one of them is of none.
func (p Part) Difference(q Part) (difference model.Optional[float64], interval model.Optional[Interval]) {
	if p.Of == 0 || q.Of == 0 {
		return difference, interval
	}
	a, b := p.Rate().Value, q.Rate().Value
	in, other := p.Wilson().Value, q.Wilson().Value
	return model.Known(a - b), model.Known(Interval{
		Low:  a - b - math.Hypot(a-in.Low, other.High-b),
		High: a - b + math.Hypot(in.High-a, b-other.Low),
	})
}
