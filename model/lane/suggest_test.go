package lane_test

import (
	"math"
	"testing"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// straight is a ball whose boards were read as meant.
func straight(right bool, thrown int, a lane.Aim, hit float64) lane.Ball {
	return lane.Ball{
		Right: right, Thrown: thrown, Aim: a, Hit: hit,
		Laydown: model.Known(a.Laydown), Target: model.Known(a.Target), Clean: true,
	}
}

var usual = lane.Aim{Laydown: 20, Target: 12}

// learner has seen balls at the usual line, the lanes in turn from the left one.
func learner(hits ...float64) *lane.Learner {
	l := lane.NewLearner(0, model.Optional[lane.Estimate]{})
	for i, hit := range hits {
		l.Add(straight(i%2 == 1, i/2, usual, hit))
	}
	return l
}

func TestSuggestIsSilentThenTentative(t *testing.T) {
	for n, want := range []struct{ silent, tentative bool }{
		{true, true}, {true, true}, {false, true}, {false, true}, {false, false}, {false, false},
	} {
		got := learner([]float64{3, 3, 3, 3, 3}[:n]...).Suggest(false, n, usual)
		if got.Silent != want.silent || got.Tentative != want.tentative || got.Balls != n || got.OnLane != (n+1)/2 {
			t.Errorf("after %d balls: %+v", n, got)
		}
		if got.Silent && got.Move != (lane.Move{}) {
			t.Errorf("after %d balls it is silent and says %+v", n, got.Move)
		}
	}
}

func TestSuggestIsSilentOnOneLane(t *testing.T) {
	l := lane.NewLearner(0, model.Optional[lane.Estimate]{})
	for n := range 9 {
		l.Add(straight(false, n, usual, 4))
	}
	for _, right := range []bool{false, true} {
		if got := l.Suggest(right, 9, usual); !got.Silent {
			t.Errorf("nine balls on one lane, none on the other: %+v", got)
		}
	}
	l.OneLane()
	if got := l.Suggest(false, 9, usual); got.Silent || got.Move.Feet <= 0 {
		t.Errorf("nine balls on the only lane: %+v", got)
	}
}

func TestSuggestStays(t *testing.T) {
	got := learner(0, 0, 1, -1, 0, 0, -1, 1).Suggest(false, 4, usual)
	if got.Move != (lane.Move{}) || got.Stay != got.After || got.Stay < 0.25 || got.Silent || got.Rule != lane.Learned {
		t.Errorf("balls in the pocket: %+v", got)
	}
}

// Many balls high: the feet move inside, farther than the eyes, the straight line at 45 ft by two boards at most.
func TestSuggestMovesTowardTheMiss(t *testing.T) {
	for _, side := range []float64{1, -1} {
		hits := make([]float64, 24)
		for i := range hits {
			hits[i] = side * []float64{3, 4, 5}[i%3]
		}
		l := learner(hits...)
		got := l.Suggest(true, 12, usual)
		feet, target := side*float64(got.Move.Feet), side*float64(got.Move.Target)
		if feet < 1 || target >= feet || math.Abs(3*target-2*feet) > 2 {
			t.Errorf("hits %v: %+v", hits[:3], got)
		}
		if got.After < got.Stay+0.02 {
			t.Errorf("hits %v: a move worth %.3f", hits[:3], got.After-got.Stay)
		}
		to := lane.Aim{Laydown: 20 + float64(got.Move.Feet), Target: 12 + float64(got.Move.Target)}
		if got.After != l.Chance(true, 12, to) || got.Stay != l.Chance(true, 12, usual) {
			t.Errorf("chances %+v are not those of the lines", got)
		}
		if miss := l.Miss(true, 12, usual); side*miss.Mean < 2 || miss.SD > 1.5 {
			t.Errorf("the miss to be expected is %+v", miss)
		}
	}
}

// The best of all moves allowed, less their cost: searched here over a wider square.
func TestSuggestIsTheBestMove(t *testing.T) {
	for _, ft := range []float64{12, 15} {
		l := lane.NewLearner(ft, model.Optional[lane.Estimate]{})
		for i := range 30 {
			l.Add(straight(i%2 == 1, i/2, usual, float64(3+i%4)))
		}
		got := l.Suggest(false, 15, usual)
		best, move := got.Stay+0.02, lane.Move{}
		for feet := -9; feet <= 9; feet++ {
			for target := -9; target <= 9; target++ {
				far := max(feet, -feet, target, -target) > 6
				shift := float64(feet) + float64(target-feet)*45/ft
				cost := 0.002 * (math.Abs(float64(feet)) + math.Abs(float64(target)))
				worth := l.Chance(false, 15, lane.Aim{Laydown: 20 + float64(feet), Target: 12 + float64(target)}) - cost
				if !far && math.Abs(shift) <= 2+1e-9 && worth > best {
					best, move = worth, lane.Move{Feet: feet, Target: target}
				}
			}
		}
		if got.Move != move || move == (lane.Move{}) {
			t.Errorf("target at %v ft: %+v, want %+v", ft, got, move)
		}
	}
}

func TestSuggestStaysOnTheLane(t *testing.T) {
	edge := lane.Aim{Laydown: 38, Target: 30}
	l := lane.NewLearner(0, model.Optional[lane.Estimate]{})
	for i := range 40 {
		l.Add(straight(i%2 == 1, i/2, edge, 7))
	}
	if got := l.Suggest(false, 20, edge); got.Move.Feet > 1 {
		t.Errorf("feet from board 38 by %+v", got.Move)
	}
}

// What one lane says of the other is the pair's difference as others know it.
func TestSuggestWithThePairsDifferenceTold(t *testing.T) {
	l := lane.NewLearner(0, model.Known(lane.Estimate{Mean: 3, SD: 0.5}))
	if got := l.Suggest(true, 5, usual); !got.Silent {
		t.Errorf("before any ball: %+v", got)
	}
	for n := range 4 {
		l.Add(straight(false, n, usual, 0))
	}
	left, right := l.Suggest(false, 4, usual), l.Suggest(true, 4, usual)
	if left.Silent || right.Silent || right.OnLane != 0 {
		t.Fatalf("left %+v, right %+v", left, right)
	}
	if d := l.Miss(true, 4, usual).Mean - l.Miss(false, 4, usual).Mean; d < 2.5 || d > 3.2 || right.Move.Feet <= 0 {
		t.Errorf("told 3 boards higher, it expects %.2f and says %+v", d, right.Move)
	}
}

func TestPairDifference(t *testing.T) {
	if got := lane.PairDifference(nil); got.Known {
		t.Errorf("of no one: %+v", got)
	}
	oneLane := lane.NewLearner(0, model.Optional[lane.Estimate]{})
	oneLane.Add(straight(false, 0, usual, 3))
	told := lane.NewLearner(0, model.Known(lane.Estimate{Mean: 9, SD: 0.1}))
	told.Add(straight(false, 0, usual, 3))
	told.Add(straight(true, 0, usual, 3))
	if got := lane.PairDifference([]*lane.Learner{oneLane, told}); got.Known {
		t.Errorf("of those who cannot say: %+v", got)
	}
	higher := func() *lane.Learner { return learner(0, 2, 0, 2, 0, 2, 0, 2, 0, 2, 0, 2) }
	last := lane.Estimate{SD: 1.5}
	for n := 1; n <= 4; n++ {
		others := make([]*lane.Learner, n)
		for i := range others {
			others[i] = higher()
		}
		got := lane.PairDifference(others)
		if !got.Known || got.Value.Mean <= last.Mean || got.Value.Mean > 2 || got.Value.SD >= last.SD || got.Value.SD < 0.85 {
			t.Errorf("of %d: %+v after %+v", n, got, last)
		}
		last = got.Value
	}
}

func TestHitInWords(t *testing.T) {
	for word, want := range map[model.Hit]lane.Estimate{
		model.Pocket: {Mean: 0, SD: 0.5}, model.High: {Mean: 1.3, SD: 0.6}, model.Nose: {Mean: 2.5, SD: 0.6},
		model.Brooklyn: {Mean: 5, SD: 1.2}, model.Light: {Mean: -1.5, SD: 0.7}, model.Missed: {Mean: -5, SD: 1.5},
	} {
		if got, known := lane.HitInWords(word); !known || got != want {
			t.Errorf("%s: %+v", word, got)
		}
	}
	if _, known := lane.HitInWords(""); known {
		t.Error("no hit is known in boards")
	}
}

func TestTransition(t *testing.T) {
	rising := lane.NewLearner(0, model.Optional[lane.Estimate]{})
	for i := range 40 {
		rising.Add(straight(i%2 == 1, 4*(i/2), usual, math.Round(float64(4*(i/2))/10)))
	}
	if got := rising.Transition(); got.Mean < 0.8 || got.Mean > 1.1 || got.SD > 0.2 {
		t.Errorf("a board in ten balls: %+v", got)
	}
}
