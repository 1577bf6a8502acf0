package insight

import (
	"math"

	"coach.settee/model"
	"gonum.org/v1/gonum/stat/distuv"
)

const (
	// trendBandwidth is in games; it is chosen here: an evening or two on each side tell most of a point.
	trendBandwidth = 3.0
	// kernelReach is where the kernel is cut, in bandwidths: what lies beyond has 1/3000 of the weight of the point itself.
	kernelReach = 4.0
	// fewestReadings is how many games at one level make a smoothed score, or mean of an axis; chosen here.
	fewestReadings = 3
	// fewestForBand is the effective number of games below which their scatter is not told.
	fewestForBand = 2.0
)

// kernel holds weights by the distance in games, from 0.
type kernel []float64

// gaussian gives the kernel exp(-(d/h)²/2) of the bandwidth h > 0 in games, cut at four bandwidths.
func gaussian(bandwidth float64) kernel {
	k := make(kernel, int(kernelReach*bandwidth)+1)
	for d := range k {
		x := float64(d) / bandwidth
		k[d] = math.Exp(-x * x / 2)
	}
	return k
}

// rates smooths the rate of good shots over games of one level, a point a game: the Nadaraya-Watson estimate (Nadaraya,
// "On estimating regression", Theory of Probability and Its Applications 9, 1964; Watson, "Smooth regression analysis",
// Sankhya A 26, 1964) with every shot of game j a reading of weight w(|i-j|):
//
//	r(i) = Σ w k / Σ w n, with the effective count of shots (Σ w n)² / Σ w² n
//
// The band is Wilson's interval at r and the effective count (that of Kish, Survey Sampling, 1965). Unknown where no shot
// within reach was seen.
func (k kernel) rates(games []TrendGame) []Smooth {
	out := make([]Smooth, len(games))
	for i := range games {
		var good, seen, squares float64
		for j := max(0, i-len(k)+1); j < min(len(games), i+len(k)); j++ {
			w, p := k.at(i-j), games[j].Good
			good += w * float64(p.N)
			seen += w * float64(p.Of)
			squares += w * w * float64(p.Of)
		}
		if seen == 0 {
			continue
		}
		rate, effective := good/seen, seen*seen/squares
		out[i] = Smooth{model.Known(rate), model.Known(wilson(rate*effective, effective))}
	}
	return out
}

// scores smooths the scores of the finished games of one level, each game of weight one.
func (k kernel) scores(games []TrendGame) []Smooth {
	readings := make([]reading, len(games))
	for i, g := range games {
		if g.Complete {
			readings[i] = reading{float64(g.Score), 1}
		}
	}
	return k.means(readings, Interval{0, 300})
}

// axis smooths the mean letter points of an axis over games of one level, each game weighted by the seen full racks on which
// the axis was watched: the mean at a point is that of the racks, and how far it is sure comes from how the games scatter.
func (k kernel) axis(games []TrendGame, a model.Axis) []Smooth {
	readings := make([]reading, len(games))
	for i, g := range games {
		if g.Axes[a].Known {
			readings[i] = reading{g.Axes[a].Value, float64(g.As[a].Of)}
		}
	}
	return k.means(readings, Interval{float64(model.F.Points()), float64(model.A.Points())})
}

// reading is a game's value and the weight that it has beside other games, 0 where there is none.
type reading struct{ value, weight float64 }

// means smooths readings v u, a point each, as rates does, with the weights w = w(|i-j|) u and the effective number of games
// n = (Σ w)² / Σ w²:
//
//	m(i) = Σ w v / Σ w, s² = Σ w (v-m)² / Σ w · n/(n-1), band m ± t(0.975; n-1) s/√n, held within what is possible
//
// which at equal weights is the t interval of a mean; t is taken at the nearest tenth of a degree of freedom. All is unknown
// with fewer than three games that have a weight, the value where none is within reach, the band where n is below two.
func (k kernel) means(readings []reading, possible Interval) []Smooth {
	out := make([]Smooth, len(readings))
	if weighty(readings) < fewestReadings {
		return out
	}
	quantiles := map[float64]float64{}
	for i := range readings {
		var sum, weight, squares float64
		lo, hi := max(0, i-len(k)+1), min(len(readings), i+len(k))
		for j := lo; j < hi; j++ {
			w := k.at(i-j) * readings[j].weight
			sum += w * readings[j].value
			weight += w
			squares += w * w
		}
		if weight == 0 {
			continue
		}
		mean, n := sum/weight, weight*weight/squares
		out[i].Value = model.Known(mean)
		if n < fewestForBand {
			continue
		}
		scatter := 0.0
		for j := lo; j < hi; j++ {
			d := readings[j].value - mean
			scatter += k.at(i-j) * readings[j].weight * d * d
		}
		freedom := math.Round(10*(n-1)) / 10
		if quantiles[freedom] == 0 {
			quantiles[freedom] = distuv.StudentsT{Sigma: 1, Nu: freedom}.Quantile(0.975)
		}
		half := quantiles[freedom] * math.Sqrt(scatter/weight/(n-1))
		out[i].Band = model.Known(Interval{max(mean-half, possible.Low), min(mean+half, possible.High)})
	}
	return out
}

func (k kernel) at(distance int) float64 {
	return k[max(distance, -distance)]
}

// weighty counts the readings that have a weight.
func weighty(readings []reading) int {
	n := 0
	for _, r := range readings {
		if r.weight > 0 {
			n++
		}
	}
	return n
}
