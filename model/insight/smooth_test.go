package insight

import (
	"fmt"
	"math"
	"testing"

	"coach.settee/model"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

func TestKernelIsCut(t *testing.T) {
	k := gaussian(3)
	if len(k) != 13 || k[0] != 1 {
		t.Fatalf("kernel %v", k)
	}
	// exp(-1/2) and exp(-8), one and four bandwidths off.
	near(t, "one bandwidth", k[3], 0.6065306597126334, 1e-15)
	near(t, "four bandwidths", k[12], 0.00033546262790251185, 1e-18)
}

func TestConstantRateIsFlat(t *testing.T) {
	games := make([]TrendGame, 40)
	for i := range games {
		games[i] = goodOf(3, 10)
	}
	for i, s := range gaussian(trendBandwidth).rates(games) {
		near(t, fmt.Sprintf("rate %d", i), s.Value.Value, .3, 1e-15)
	}
}

// A bandwidth that no other game is within gives each game's own interval.
func TestRateOfOneGameIsWilson(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		games := drawTrend(t)
		for i, s := range gaussian(.01).rates(games) {
			p := games[i].Good
			if s.Value.Known != (p.Of > 0) || s.Band.Known != (p.Of > 0) {
				t.Fatalf("%v gives %+v", p, s)
			}
			if p.Of > 0 {
				near(t, "rate", s.Value.Value, p.Rate().Value, 1e-14)
				near(t, "low", s.Band.Value.Low, p.Wilson().Value.Low, 1e-14)
				near(t, "high", s.Band.Value.High, p.Wilson().Value.High, 1e-14)
			}
		}
	})
}

// A bandwidth that all games are equally near in pools their shots: 81 of 263 is 0.2553 to 0.3662 in Newcombe (1998),
// Table I.
func TestWideRateIsPooled(t *testing.T) {
	games := []TrendGame{goodOf(30, 100), goodOf(41, 100), {}, goodOf(10, 63)}
	for _, s := range gaussian(1e6).rates(games) {
		near(t, "low", s.Band.Value.Low, .2553, 5e-5)
		near(t, "high", s.Band.Value.High, .3662, 5e-5)
	}
}

// The rates over again: every shot listed with its weight, the weights by the formula and not from the table.
func TestRatesAgainstShotByShot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		games := drawTrend(t)
		h := rapid.Float64Range(.3, 6).Draw(t, "bandwidth")
		for i, s := range gaussian(h).rates(games) {
			var weights, readings []float64
			for j, g := range games {
				if math.Abs(float64(i-j)) > 4*h {
					continue
				}
				for shot := range g.Good.Of {
					reading := 0.0
					if shot < g.Good.N {
						reading = 1
					}
					weights = append(weights, math.Exp(-math.Pow(float64(i-j)/h, 2)/2))
					readings = append(readings, reading)
				}
			}
			if s.Value.Known != (len(readings) > 0) {
				t.Fatalf("game %d: %+v of %d shots", i, s, len(readings))
			}
			if !s.Value.Known {
				continue
			}
			sum, squares := 0.0, 0.0
			for _, w := range weights {
				sum += w
				squares += w * w
			}
			mean := stat.Mean(readings, weights)
			near(t, "rate", s.Value.Value, mean, 1e-12)
			in := wilson(mean*sum*sum/squares, sum*sum/squares)
			near(t, "low", s.Band.Value.Low, in.Low, 1e-12)
			near(t, "high", s.Band.Value.High, in.High, 1e-12)
		}
	})
}

func TestBandsHoldTheValue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		games := drawTrend(t)
		k := gaussian(trendBandwidth)
		for i, s := range k.rates(games) {
			holds(t, i, s, 1)
		}
		for i, s := range k.scores(games) {
			holds(t, i, s, 300)
		}
		for _, a := range model.Axes {
			for i, s := range k.axis(games, a) {
				holds(t, i, s, 4)
			}
		}
	})
}

func holds(t *rapid.T, i int, s Smooth, most float64) {
	const rounding = 1e-12
	v, b := s.Value.Value, s.Band.Value
	if s.Band.Known && (!s.Value.Known || b.Low > v+rounding || b.High < v-rounding || b.Low < 0 || b.High > most) {
		t.Fatalf("point %d: %v within %v", i, v, b)
	}
	if math.IsNaN(v) || math.IsNaN(b.Low) || math.IsNaN(b.High) {
		t.Fatalf("point %d: %v within %v", i, v, b)
	}
}

// What is bowled at one level does not move what is smoothed at another.
func TestLevelIsNotSmoothedAcross(t *testing.T) {
	of := func(letters string) Trend {
		games := []model.DatedSheet{game(t, 0, 1, ball(10, letters), ball(10, letters))}
		for n := range 4 {
			games = append(games, game(t, 0, n+2, times(12, ball(10, "AAAA", atLevel(model.Elite)))...))
		}
		return trendOf(games, nil)
	}
	poor, good := of("DDDD"), of("AAAA")
	if !poor.Games[1].Break || poor.Rate[0] == good.Rate[0] {
		t.Fatalf("no break, or the first game is not seen: %+v, %+v", poor.Games[1], poor.Rate[0])
	}
	for i := 1; i < 5; i++ {
		if poor.Rate[i] != good.Rate[i] || poor.Score[i] != good.Score[i] {
			t.Errorf("game %d is smoothed across the level: %+v, %+v", i, poor.Rate[i], good.Rate[i])
		}
		for _, a := range model.Axes {
			if poor.Axes[a][i] != good.Axes[a][i] || poor.Axes[a][i].Value != model.Known(4.0) {
				t.Errorf("%v of game %d is smoothed across the level: %+v", a, i, poor.Axes[a][i])
			}
		}
	}
	if poor.Score[0].Value.Known || poor.Score[4].Value.Value != 300 {
		t.Errorf("scores %+v: the first game is unfinished, the others are 300", poor.Score)
	}
}

// Equally near games give the usual interval of a mean: of 137 142 165 174 117 181 147 133 151 (mean 1347/9, squares by hand
// 204983 - 1347²/9 = 3382) at 8 degrees of freedom, t = 2.306 (Student's table, from memory).
func TestWideScoreIsMeanInterval(t *testing.T) {
	var games []TrendGame
	for _, score := range []int{137, 142, 165, 174, 117, 181, 147, 133, 151} {
		games = append(games, scored(score))
	}
	mean, half := 1347.0/9, 2.306*math.Sqrt(3382.0/8/9)
	for _, s := range gaussian(1e5).scores(games) {
		near(t, "mean", s.Value.Value, mean, 1e-6)
		near(t, "low", s.Band.Value.Low, mean-half, 1e-2)
		near(t, "high", s.Band.Value.High, mean+half, 1e-2)
	}
}

// The weighted mean and scatter by gonum's, on weights scaled to sum to their effective number: its variance is then that
// of the formula.
func TestScoresAgainstGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		games := drawTrend(t)
		k := gaussian(trendBandwidth)
		finished := 0
		for _, g := range games {
			if g.Complete {
				finished++
			}
		}
		for i, s := range k.scores(games) {
			var y, w []float64
			for j, g := range games {
				if d := math.Abs(float64(i - j)); g.Complete && d <= 12 {
					y, w = append(y, float64(g.Score)), append(w, math.Exp(-d*d/18))
				}
			}
			if s.Value.Known != (finished >= 3 && len(y) > 0) {
				t.Fatalf("game %d: %+v with %d finished near", i, s, len(y))
			}
			if s.Value.Known {
				near(t, "mean", s.Value.Value, stat.Mean(y, w), 1e-9)
				bandOf(t, s, y, w, 300)
			}
		}
	})
}

func TestFewScoresAreUnknown(t *testing.T) {
	k := gaussian(trendBandwidth)
	for _, s := range k.scores([]TrendGame{scored(150), scored(160), {Score: 90}}) {
		if s.Value.Known || s.Band.Known {
			t.Errorf("%+v of two finished games", s)
		}
	}
	// One finished game, then two out of its reach: at the first there is a value and no scatter, half way there is nothing.
	games := append([]TrendGame{scored(150)}, make([]TrendGame, 30)...)
	scores := k.scores(append(games, scored(160), scored(170)))
	if s := scores[0]; s.Value.Value != 150 || s.Band.Known {
		t.Errorf("%+v at a lone game of 150", s)
	}
	if s := scores[15]; s.Value.Known || s.Band.Known {
		t.Errorf("%+v with no finished game within reach", s)
	}
}

// watched makes a game with the mean of an axis over n racks.
func watched(a model.Axis, mean float64, n int) TrendGame {
	var g TrendGame
	g.Axes[a], g.As[a] = model.Known(mean), Part{0, n}
	return g
}

// Equally near games of as many racks give the usual interval of a mean, those of more racks weigh more. By hand: 2, 3, 3, 4
// have the mean 3 and s² = 2/3, and t = 3.182 at 3 degrees of freedom (Student's table, from memory). Racks 12 12 12 36 make
// the mean (2+3+3+3·4)/6 = 10/3, n = 6²/12 = 3, s² = (16/9+1/9+1/9+3·4/9)/6 · 3/2 = 5/6, and t = 4.303 at 2.
func TestWideAxisIsMeanInterval(t *testing.T) {
	for _, c := range []struct {
		last             int
		mean, s2, n, tee float64
	}{{12, 3, 2. / 3, 4, 3.182}, {36, 10. / 3, 5. / 6, 3, 4.303}} {
		var games []TrendGame
		for i, mean := range []float64{2, 3, 3, 4} {
			games = append(games, watched(model.Release, mean, []int{12, 12, 12, c.last}[i]), TrendGame{})
		}
		half := c.tee * math.Sqrt(c.s2/c.n)
		for _, s := range gaussian(1e5).axis(games, model.Release) {
			near(t, "mean", s.Value.Value, c.mean, 1e-6)
			near(t, "low", s.Band.Value.Low, c.mean-half, 1e-3)
			near(t, "high", s.Band.Value.High, min(c.mean+half, 4), 1e-3)
		}
		for _, s := range gaussian(1e5).axis(games, model.Finish) {
			if s.Value.Known || s.Band.Known {
				t.Fatalf("%+v of an axis that nobody watched", s)
			}
		}
	}
}

// The smoothed letters over again rack by rack, the means from the letter points themselves; the band by gonum's scatter of
// the games on weights that sum to their effective number.
func TestAxesAgainstRackByRack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := rapid.SliceOfN(rapid.SliceOfN(rapid.Float64Range(0, 4), 0, 12), 0, 30).Draw(t, "letters")
		games, seen := make([]TrendGame, len(points)), 0
		for i, p := range points {
			if len(p) > 0 {
				games[i] = watched(model.Balance, stat.Mean(p, nil), len(p))
				seen++
			}
		}
		for i, s := range gaussian(trendBandwidth).axis(games, model.Balance) {
			var racks, rackWeights, means, weights []float64
			for j, p := range points {
				d := float64(i - j)
				if math.Abs(d) > 12 || len(p) == 0 {
					continue
				}
				w := math.Exp(-d * d / 18)
				for _, v := range p {
					racks, rackWeights = append(racks, v), append(rackWeights, w)
				}
				means, weights = append(means, games[j].Axes[model.Balance].Value), append(weights, w*float64(len(p)))
			}
			if s.Value.Known != (seen >= 3 && len(racks) > 0) {
				t.Fatalf("game %d: %+v with %d racks near, %d games in all", i, s, len(racks), seen)
			}
			if !s.Value.Known {
				continue
			}
			near(t, "mean", s.Value.Value, stat.Mean(racks, rackWeights), 1e-9)
			bandOf(t, s, means, weights, 4)
		}
	})
}

// bandOf checks a band against gonum's weighted variance and the t quantile at an unrounded number of games.
func bandOf(t *rapid.T, s Smooth, values, weights []float64, most float64) {
	sum, squares := 0.0, 0.0
	for _, w := range weights {
		sum += w
		squares += w * w
	}
	n := sum * sum / squares
	if math.Abs(n-2) < 1e-9 {
		t.Skip("on the edge")
	}
	if s.Band.Known != (n > 2) {
		t.Fatalf("%+v of %v effective games", s, n)
	}
	if !s.Band.Known {
		return
	}
	scaled := make([]float64, len(weights))
	for j, w := range weights {
		scaled[j] = w * sum / squares
	}
	mean, variance := stat.MeanVariance(values, scaled)
	// t is taken at the nearest tenth of a degree of freedom.
	half := func(freedom float64) float64 {
		return distuv.StudentsT{Sigma: 1, Nu: freedom}.Quantile(.975) * math.Sqrt(variance/n)
	}
	least, greatest := half(n-1+.051), half(n-1-.051)
	const rounding = 1e-9
	if low := s.Band.Value.Low; low > max(mean-least, 0)+rounding || low < max(mean-greatest, 0)-rounding {
		t.Fatalf("low %v of mean %v, half %v to %v", low, mean, least, greatest)
	}
	if high := s.Band.Value.High; high < min(mean+least, most)-rounding || high > min(mean+greatest, most)+rounding {
		t.Fatalf("high %v of mean %v, half %v to %v", high, mean, least, greatest)
	}
}

func BenchmarkTrend(b *testing.B) {
	var games []model.DatedSheet
	for n := range 1500 {
		games = append(games, game(b, n/3, n%3+1, times(10, ball(n%9+1, "ABAA"), ball(0, ""))...))
	}
	for b.Loop() {
		trendOf(games, games[:3])
	}
}

func drawTrend(t *rapid.T) []TrendGame {
	games := make([]TrendGame, rapid.IntRange(0, 40).Draw(t, "games"))
	for i := range games {
		n := rapid.IntRange(0, 12).Draw(t, "seen")
		games[i] = goodOf(rapid.IntRange(0, n).Draw(t, "good"), n)
		for _, a := range model.Axes {
			if of := rapid.IntRange(0, n).Draw(t, "watched"); of > 0 {
				games[i].Axes[a], games[i].As[a] = model.Known(rapid.Float64Range(0, 4).Draw(t, "mean")), Part{0, of}
			}
		}
		games[i].Score, games[i].Complete = rapid.IntRange(0, 300).Draw(t, "score"), rapid.Bool().Draw(t, "finished")
	}
	return games
}
