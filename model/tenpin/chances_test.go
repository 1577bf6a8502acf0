package tenpin_test

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"coach.settee/model/tenpin"
)

// OEIS A060853: one of each ball is every game once.
func TestEqualWeightsCountTheGames(t *testing.T) {
	chances := tenpin.ScoreChances(func(tenpin.Position, int) float64 { return 1 })
	for score, row := range published(t, "a060853.csv") {
		exact, ok := new(big.Float).SetString(row[1])
		if !ok {
			t.Fatalf("%q is no count", row[1])
		}
		want, _ := exact.Float64()
		if math.Abs(chances[score]-want) > 1e-12*want {
			t.Errorf("score %d: %v, want %v", score, chances[score], want)
		}
	}
}

// 5/ throughout is 150 and 9/ throughout 190: common practice, no source; 300 is the rules' own (IBF 2.1.5).
func TestCertainScores(t *testing.T) {
	always := func(first int) func(tenpin.Position, int) float64 {
		return func(at tenpin.Position, pins int) float64 {
			if at.FullRack() && pins == first || !at.FullRack() && pins == at.StandingCount() {
				return 1
			}
			return 0
		}
	}
	for first, want := range map[int]int{10: 300, 9: 190, 5: 150, 0: 100} {
		chances := tenpin.ScoreChances(always(first))
		for score, chance := range chances {
			if certain := score == want; certain != (chance == 1) || !certain && chance != 0 {
				t.Errorf("%d and the rest: %d with chance %v", first, score, chance)
			}
		}
		if got := tenpin.ExpectedScore(always(first)); got != float64(want) {
			t.Errorf("%d and the rest: %v expected, want %d", first, got, want)
		}
	}
}

// A full rack is a strike or nothing with even chances, and every spare shot fells nothing. A strike counts the next ball,
// a strike with s = 1/2, and the one after it, which is a strike with s after a strike and nothing after a miss. So a
// frame is worth 10 s (1 + s + s²) = 8.75, and the tenth, which bowls those balls itself, as much.
func TestExpectedScoreByHand(t *testing.T) {
	got := tenpin.ExpectedScore(func(at tenpin.Position, pins int) float64 {
		switch {
		case at.FullRack() && (pins == 0 || pins == 10):
			return .5
		case !at.FullRack() && pins == 0:
			return 1
		}
		return 0
	})
	if got != 87.5 {
		t.Errorf("%v expected, want 87.5", got)
	}
}

func TestChancesOfAnyBowler(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first := drawShares(t, 10, "full rack")
		var later [11][]float64
		for n := 1; n <= 10; n++ {
			later[n] = drawShares(t, n, "spare shot")
		}
		chance := func(at tenpin.Position, pins int) float64 {
			if at.FullRack() {
				return first[pins]
			}
			return later[at.StandingCount()][pins]
		}
		sum, mean := 0.0, 0.0
		for score, c := range tenpin.ScoreChances(chance) {
			if c < 0 || c > 1+1e-12 {
				t.Fatalf("score %d has chance %v", score, c)
			}
			sum += c
			mean += float64(score) * c
		}
		if math.Abs(sum-1) > 1e-12 {
			t.Fatalf("the chances sum to %v", sum)
		}
		if got := tenpin.ExpectedScore(chance); math.Abs(got-mean) > 1e-9 {
			t.Fatalf("%v expected, the chances come to %v", got, mean)
		}
	})
}

// drawShares draws the chances of 0 to n pins, some of them none.
func drawShares(t *rapid.T, n int, label string) []float64 {
	weights := rapid.SliceOfN(rapid.IntRange(0, 9), n+1, n+1).Draw(t, label)
	weights[rapid.IntRange(0, n).Draw(t, label+" likely")]++
	sum := 0
	for _, w := range weights {
		sum += w
	}
	shares := make([]float64, n+1)
	for pins, w := range weights {
		shares[pins] = float64(w) / float64(sum)
	}
	return shares
}

// The bowler of the simulation gets better towards the end, so that every frame matters.
var firstBalls = [11]float64{.02, .01, .01, .02, .03, .05, .09, .15, .17, .20, .25}

// falls is the chance of so many pins with the ball of a frame.
func falls(frame, standing int, full bool, pins int) float64 {
	if full {
		better := .02 * float64(frame)
		if pins == 10 {
			return firstBalls[10] + better*(1-firstBalls[10])
		}
		return (1 - better) * firstBalls[pins]
	}
	made := .95 - .08*float64(standing-1)
	if pins == standing {
		return made
	}
	return (1 - made) / float64(standing)
}

// 200,000 games from a fixed seed, scored by the second scorer. The mean may be off by four standard errors (here about
// 0.21 pins), so may the share of the games from a score on.
func TestChancesAgainstSimulation(t *testing.T) {
	chance := func(at tenpin.Position, pins int) float64 {
		return falls(at.Frame(), at.StandingCount(), at.FullRack(), pins)
	}
	const games = 200_000
	luck := rand.New(rand.NewPCG(1, 2))
	var counts [301]int
	sum, squares := 0.0, 0.0
	for range games {
		totals := secondScorer(bowl(luck))
		score := totals[9]
		counts[score]++
		sum += float64(score)
		squares += float64(score * score)
	}
	mean := sum / games
	bound := 4 * math.Sqrt((squares/games-mean*mean)/games)
	if got := tenpin.ExpectedScore(chance); math.Abs(got-mean) > bound {
		t.Errorf("%v expected, %v simulated, may differ by %v", got, mean, bound)
	}
	chances := tenpin.ScoreChances(chance)
	atLeast, reached := 0.0, 0
	for score := 300; score > 0; score-- {
		atLeast += chances[score]
		reached += counts[score]
		share := float64(reached) / games
		if off := math.Abs(share - atLeast); off > 4*math.Sqrt(atLeast*(1-atLeast)/games)+1e-12 && atLeast*games > 20 {
			t.Errorf("%d and more: chance %v, simulated %v", score, atLeast, share)
		}
	}
}

// bowl bowls a game by the rules of the frames, with no position.
func bowl(luck *rand.Rand) []tenpin.Ball {
	var balls []tenpin.Ball
	for frame := 1; frame <= 10; frame++ {
		standing, full, due := 10, true, 2
		for ball := 1; ball <= due; ball++ {
			u, pins := luck.Float64(), 0
			for u -= falls(frame, standing, full, 0); u >= 0 && pins < standing; u -= falls(frame, standing, full, pins) {
				pins++
			}
			balls = append(balls, fell(pins))
			standing, full = standing-pins, false
			if standing == 0 {
				if frame < 10 {
					break
				}
				standing, full, due = 10, true, 3
			}
		}
	}
	return balls
}

func BenchmarkScoreChances(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		tenpin.ScoreChances(byCount)
	}
}

func BenchmarkExpectedScore(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		tenpin.ExpectedScore(byCount)
	}
}

func byCount(at tenpin.Position, pins int) float64 {
	return falls(at.Frame(), at.StandingCount(), at.FullRack(), pins)
}
