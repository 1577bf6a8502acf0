package insight

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// The level's rates are invented; what is held is that they agree with those of the pace.
func TestLevelShotsAgreeWithLevelRates(t *testing.T) {
	for _, level := range model.Levels {
		r, want := levelShots(level), LevelRates(level)
		near(t, string(level)+" strikes", r.strike(), want.Strike, .03)
		near(t, string(level)+" spares", r.spares(), want.Spare, .03)
		near(t, string(level)+" good a game", r.Good*ExpectedRacks(want), level.Defaults().Goal.Shots(), 1e-12)
		near(t, string(level)+" first balls", sum(r.FirstBall), 1, 1e-12)
		for left := 1; left <= 10; left++ {
			near(t, string(level)+" missed", sum(r.Missed[left]), 1, 1e-12)
		}
		if r.StrikeGood <= r.StrikePoor || r.Single <= r.Multi || r.Multi <= r.Split {
			t.Errorf("%s: %+v", level, r)
		}
	}
	if levelShots("") != levelShots(model.New) {
		t.Error("no level is not as new")
	}
}

func sum(shares [10]float64) float64 {
	total := 0.0
	for _, s := range shares {
		total += s
	}
	return total
}

// Nine on each first ball and p of the single pins: a frame is 9, with p it is 10 and the next ball's 9.
func TestWorthWithoutStrikes(t *testing.T) {
	for _, p := range []float64{0, .25, 1} {
		r := ShotRates{Single: p, FirstBall: [10]float64{9: 1}, Missed: [11][10]float64{1: {1}}}
		near(t, "expected", r.expected(), 90+100*p, 1e-9)
		near(t, "a single pin", r.perSingle().Value, 10, 1e-9)
	}
}

// strikeOrNothing strikes with each good shot and fells nothing else. With s strikes a frame is 10 s (1 + s + s²).
func strikeOrNothing(s float64) ShotRates {
	return ShotRates{Good: s, StrikeGood: 1, FirstBall: [10]float64{1}, Missed: [11][10]float64{10: {1}}}
}

func TestWorthOfStrikes(t *testing.T) {
	score := func(s float64) float64 { return 100 * s * (1 + s + s*s) }
	for _, s := range []float64{0, .3, .5} {
		r := strikeOrNothing(s)
		near(t, "expected", r.expected(), score(s), 1e-9)
		more := s + 1/(10+s+s*s) // no spares, so R is 10 + s + s²
		near(t, "a good shot", r.perGoodShot(), score(more)-score(s), 1e-9)
		if r.perSingle().Known {
			t.Error("a single pin is worth something where none is ever left")
		}
	}
	// R is 12: there is no better rate than 1, so it is told by one fewer.
	perfect := strikeOrNothing(1)
	near(t, "a perfect game", perfect.expected(), 300, 1e-9)
	near(t, "a perfect game's shot", perfect.perGoodShot(), 300-score(11./12), 1e-9)
	chances := perfect.reaching([]int{300, 1, 0, 301})
	if want := []ScoreChance{{300, 1}, {1, 1}, {0, 1}, {301, 0}}; !slices.Equal(chances, want) {
		t.Errorf("chances %v, want %v", chances, want)
	}
}

// Poor shots that strike more often make a good one cost pins.
func TestWorthBelowNothing(t *testing.T) {
	r := levelShots(model.Regular)
	r.StrikeGood, r.StrikePoor = r.StrikePoor, r.StrikeGood
	if got := r.perGoodShot(); got >= 0 {
		t.Errorf("a good shot is worth %v", got)
	}
}

// By hand, drawn towards the level by 20 tries each.
func TestShotRatesOfGames(t *testing.T) {
	g := game(t, 0, 1,
		ball(9, "AAAA", left(10)), ball(1, ""), // good, no strike; a single made
		ball(10, "AAAA"),                          // good, a strike
		ball(10, "DAAA"),                          // poor, a strike
		ball(8, "DAAA", left(7, 10)), ball(1, ""), // poor; a split of two missed, one pin
		ball(8, "", left(2, 8)), ball(2, ""), // not seen; no split, made
		ball(0, "AAAA", fouled()), ball(4, ""), // good, nothing; ten pins missed, four
		ball(10, "····"), // seen and not graded, a strike
		ball(10, ""),     // not seen, a strike
	)
	r, level := countShots([]model.DatedSheet{g}).rates(levelShots(model.Regular)), levelShots(model.Regular)
	for _, c := range []struct {
		what      string
		got       float64
		n, of     float64
		withLevel float64
	}{
		{"good", r.Good, 3, 5, level.Good},
		{"strike when good", r.StrikeGood, 1, 3, level.StrikeGood},
		{"strike when poor", r.StrikePoor, 1, 2, level.StrikePoor},
		{"single", r.Single, 1, 1, level.Single},
		{"multi", r.Multi, 1, 2, level.Multi},
		{"split", r.Split, 0, 1, level.Split},
		{"first ball 9", r.FirstBall[9], 1, 4, level.FirstBall[9]},
		{"first ball 8", r.FirstBall[8], 2, 4, level.FirstBall[8]},
		{"first ball 0", r.FirstBall[0], 1, 4, level.FirstBall[0]},
		{"splits of two", r.SplitOf[2], 1, 2, level.SplitOf[2]},
		{"splits of three", r.SplitOf[3], 0, 0, level.SplitOf[3]},
		{"one pin of two", r.Missed[2][1], 1, 1, .5},
		{"four pins of ten", r.Missed[10][4], 1, 1, r.FirstBall[4]},
	} {
		near(t, c.what, c.got, (c.n+20*c.withLevel)/(c.of+20), 1e-12)
	}
}

// A leave of two that was not named is a split with .30, and was made with .70 x .58 + .30 x .12 = .442. Of a made one
// .30 x .12 / .442 is a split, of a missed one .30 x .88 / .558.
func TestLeavesNotNamed(t *testing.T) {
	g := game(t, 0, 1,
		ball(8, ""), ball(2, ""),
		ball(8, ""), ball(0, ""),
		ball(8, ""), ball(1, ""),
		ball(9, ""), ball(0, ""), // a single all the same
	)
	r := countShots([]model.DatedSheet{g}).rates(levelShots(model.Regular))
	made, missed := .036/.442, 2*.264/.558
	near(t, "split", r.Split, (made+20*.12)/(made+missed+20), 1e-12)
	near(t, "multi", r.Multi, (1-made+20*.58)/(3-made-missed+20), 1e-12)
	near(t, "single", r.Single, 20*.80/21, 1e-12)
	near(t, "splits of two", r.SplitOf[2], .30, 1e-12)
}

// Many games that are all alike overcome the level.
func TestWorthInTheLimit(t *testing.T) {
	const games = 2000
	for _, c := range []struct {
		name     string
		game     []model.Delivery
		expected float64
	}{
		{"strikes", times(12, ball(10, "AAAA")), 300},
		{"spares after nine", append(times(10, ball(9, "AAAA", left(10)), ball(1, "AAAA")), ball(9, "AAAA")), 190},
		{"gutter balls", times(20, ball(0, "DAAA")), 0},
	} {
		one := game(t, 0, 1, c.game...)
		w := worthOf(slices.Repeat([]model.DatedSheet{one}, games), model.Regular, nil)
		near(t, c.name, w.Expected.Value, c.expected, .6)
		if w.Racks != one.Tally.Racks*games {
			t.Errorf("%s: %d racks", c.name, w.Racks)
		}
	}
}

func TestWorthOfAnybody(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rate := func(label string) float64 { return float64(rapid.IntRange(0, 20).Draw(t, label)) / 20 }
		r := levelShots(rapid.SampledFrom(model.Levels[:]).Draw(t, "level"))
		r.Good, r.StrikeGood, r.StrikePoor = rate("good"), rate("strike when good"), rate("strike when poor")
		r.Single, r.Multi, r.Split = rate("single"), rate("multi"), rate("split")
		if r.StrikeGood < r.StrikePoor {
			r.StrikeGood, r.StrikePoor = r.StrikePoor, r.StrikeGood
		}
		const rounding = 1e-9
		expected := r.expected()
		if r.perGoodShot() < -rounding || r.perSingle().Value < -rounding || expected < 0 || expected > 300+rounding {
			t.Fatalf("expected %v, a good shot %v, a single pin %v", expected, r.perGoodShot(), r.perSingle())
		}
		every := make([]int, 301)
		for score := range every {
			every[score] = score
		}
		mean := 0.0
		chances := r.reaching(every)
		for score := 1; score <= 300; score++ {
			mean += chances[score].Chance
			if chances[score].Chance > chances[score-1].Chance {
				t.Fatalf("%v after %v", chances[score], chances[score-1])
			}
		}
		if math.Abs(mean-expected) > rounding {
			t.Fatalf("expected %v, by the chances %v", expected, mean)
		}
		// One more single pin made a game, by the rate, where there is room for it.
		s := r.strike()
		more := r
		more.Single += 1 / ((10 + s) * (1 - s) * r.FirstBall[9])
		if more.Single <= 1 && math.Abs(more.expected()-expected-r.perSingle().Value) > rounding {
			t.Fatalf("a single pin is worth %v, made it adds %v", r.perSingle().Value, more.expected()-expected)
		}
	})
}

// 50,000 games from a fixed seed: the mean score, the full racks, the single-pin spare shots and the chance of 200 may be
// off by four standard errors.
func TestWorthAgainstSimulation(t *testing.T) {
	const games = 50_000
	for _, level := range []model.Level{model.New, model.Regular, model.Elite} {
		r := levelShots(level)
		luck := rand.New(rand.NewPCG(3, 4))
		var score, racks, singles, reached sample
		for range games {
			balls, full, single := r.bowl(luck)
			card, err := tenpin.Score(balls)
			if err != nil || !card.Complete {
				t.Fatalf("%v: %v", balls, err)
			}
			score.add(float64(card.Score))
			racks.add(float64(full))
			singles.add(float64(single))
			reached.add(float64(one(card.Score >= 200)))
		}
		s := r.strike()
		score.holds(t, string(level)+" score", r.expected())
		racks.holds(t, string(level)+" racks", ExpectedRacks(Rates{Strike: s, Spare: r.spares()}))
		singles.holds(t, string(level)+" single pins", (10+s)*(1-s)*r.FirstBall[9])
		reached.holds(t, string(level)+" 200", r.reaching([]int{200})[0].Chance)
	}
}

// sample is what a simulation came to.
type sample struct{ n, sum, squares float64 }

func (s *sample) add(x float64) { s.n, s.sum, s.squares = s.n+1, s.sum+x, s.squares+x*x }

func (s *sample) holds(t *testing.T, what string, want float64) {
	t.Helper()
	mean := s.sum / s.n
	near(t, what, want, mean, 4*math.Sqrt((s.squares/s.n-mean*mean)/s.n))
}

// bowl bowls a game shot by shot: good or not, strike or not, split or not, made or not.
func (r ShotRates) bowl(luck *rand.Rand) (balls []tenpin.Ball, full, singles int) {
	comes := func(rate float64) bool { return luck.Float64() < rate }
	pick := func(shares [10]float64) int {
		u, pins := luck.Float64(), 0
		for u -= shares[0]; u >= 0 && pins < 9; u -= shares[pins] {
			pins++
		}
		return pins
	}
	for frame := 1; frame <= 10; frame++ {
		left, due := 10, 2
		fresh := true
		for ball := 1; ball <= due; ball++ {
			pins := left
			switch {
			case fresh:
				full++
				strike := r.StrikePoor
				if comes(r.Good) {
					strike = r.StrikeGood
				}
				if !comes(strike) {
					pins = pick(r.FirstBall)
				}
			default:
				made := r.Multi
				if left == 1 {
					singles++
					made = r.Single
				} else if comes(r.SplitOf[left]) {
					made = r.Split
				}
				if !comes(made) {
					pins = pick(r.Missed[left])
				}
			}
			balls = append(balls, tenpin.Ball{Pins: pins})
			left -= pins
			fresh = false
			if left == 0 {
				if frame < 10 {
					break
				}
				left, due, fresh = 10, 3, true
			}
		}
	}
	return balls, full, singles
}

func TestWorthNeedsARack(t *testing.T) {
	unseen := game(t, 0, 1, times(12, ball(10, ""))...)
	w := worthOf([]model.DatedSheet{unseen}, model.Regular, []int{200})
	if w.Expected.Known || w.PerGoodShot.Known || w.PerSingle.Known || w.Chances != nil || w.Racks != 0 {
		t.Errorf("unseen: %+v", w)
	}
	seen := game(t, 0, 2, ball(9, "AAAA"))
	w = worthOf([]model.DatedSheet{unseen, seen}, model.Regular, nil)
	if !w.Expected.Known || !w.PerGoodShot.Known || !w.PerSingle.Known || len(w.Chances) != 5 || w.Racks != 1 {
		t.Errorf("one seen: %+v", w)
	}
	w = worthOf([]model.DatedSheet{seen}, model.Regular, []int{180, 120})
	if len(w.Chances) != 2 || w.Chances[0].Score != 180 || w.Chances[1].Chance <= w.Chances[0].Chance {
		t.Errorf("180 and 120: %v", w.Chances)
	}
}

func TestWorthWords(t *testing.T) {
	worth := func(racks int, pins float64) Worth {
		return Worth{
			Expected: model.Known(154.3), PerGoodShot: model.Known(pins), PerSingle: model.Known(pins), Racks: racks,
			Chances: []ScoreChance{{200, .123}},
		}
	}
	for got, want := range map[string]string{
		worth(20, 1).WordsExpected():   "at this rate a game comes to about 154",
		worth(19, 1).WordsExpected():   "expected score: too few to say",
		worth(20, 6.4).WordsGood():     "one more good shot a game is worth about 6 pins",
		worth(20, 1.2).WordsGood():     "one more good shot a game is worth about 1 pin",
		worth(20, -.4).WordsGood():     "one more good shot a game is worth less than a pin",
		worth(20, -.6).WordsGood():     "good shots have not struck more than the others so far",
		worth(19, -.6).WordsGood():     "one more good shot a game: too few to say",
		worth(20, 10.9).WordsSingle():  "one more single pin made a game is worth about 11 pins",
		Worth{Racks: 20}.WordsSingle(): "one more single pin made a game: too few to say",
		worth(20, 1).WordsReach()[0]:   "200 or more in about 12 of 100 games",
		ScoreChance{300, .004}.Words(): "300 in fewer than 1 of 100 games",
		ScoreChance{100, .996}.Words(): "100 or more in nearly every game",
		ScoreChance{100, .99}.Words():  "100 or more in about 99 of 100 games",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if worth(19, 1).WordsReach() != nil {
		t.Error("chances are told with too few racks")
	}
}

func BenchmarkWorth(b *testing.B) {
	games := slices.Repeat([]model.DatedSheet{sparesGame(b)}, 1000)
	b.ReportAllocs()
	for b.Loop() {
		worthOf(games, model.Regular, nil)
	}
}

func BenchmarkSpares(b *testing.B) {
	games := slices.Repeat([]model.DatedSheet{sparesGame(b)}, 1000)
	b.ReportAllocs()
	for b.Loop() {
		sparesOf(games)
	}
}
