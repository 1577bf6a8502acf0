package insight

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"coach.settee/model"
)

// With equal weights and the bar at A-, one B among A's is good, and two are not; a C is not, nor is any D or F.
func TestCostOfOneShot(t *testing.T) {
	third, sixth := 1./3, 1./6
	tests := []struct {
		letters string
		weights model.Weights
		want    [model.AxisCount]float64
	}{
		{"AACA", model.Weights{25, 25, 25, 25}, [4]float64{0, 0, 1, 0}},
		// Either B at A is enough: half each.
		{"BABA", model.Weights{25, 25, 25, 25}, [4]float64{.5, 0, .5, 0}},
		// Any two of the three B's are needed.
		{"BBAB", model.Weights{25, 25, 25, 25}, [4]float64{third, third, 0, third}},
		// Three of the four B's are needed.
		{"BBBB", model.Weights{25, 25, 25, 25}, [4]float64{.25, .25, .25, .25}},
		// The D is needed, and then the one B left is good.
		{"ADAB", model.Weights{25, 25, 25, 25}, [4]float64{0, 1, 0, 0}},
		// The D is needed and either B: of the six orders of the three, the D comes last or second in four.
		{"DBAB", model.Weights{25, 25, 25, 25}, [4]float64{2 * third, sixth, 0, sixth}},
		// Of the two watched axes, half the weight each, C and A are 3.0 and A and B 3.5: both are needed.
		{"C··B", model.Weights{25, 25, 25, 25}, [4]float64{.5, 0, 0, .5}},
		// An axis without weight cannot lift the grade, but below C it is in the way, here of its own.
		{"DAAA", model.Weights{0, 30, 30, 40}, [4]float64{1, 0, 0, 0}},
		{"BAAC", model.Weights{0, 30, 30, 40}, [4]float64{0, 0, 0, 1}},
	}
	for _, test := range tests {
		t.Run(test.letters, func(t *testing.T) {
			c := costOf([]model.DatedSheet{game(t, 0, 1, ball(10, test.letters, weights(test.weights)))})
			if c.NotGood != 1 || c.Graded != 1 {
				t.Fatalf("%d not good of %d", c.NotGood, c.Graded)
			}
			for a, want := range test.want {
				near(t, model.Axis(a).String(), c.ByAxis[a], want, 1e-12)
			}
		})
	}
}

func TestCostOfAGame(t *testing.T) {
	thrownAgain := func(d *model.Delivery) { d.Dead = true }
	c := costOf([]model.DatedSheet{game(t, 0, 1,
		ball(10, "AAAA"),
		ball(10, "AACA"),                             // release
		ball(7, "AABB", side(model.Inside, 2)),       // release and finish, half each
		ball(3, "FFFF", side(model.Inside, 9)),       // a spare shot
		ball(10, ""),                                 // unseen
		ball(10, "ACAA", side(model.Outside, 3)),     // target
		ball(10, "BAAA", side(model.Outside, 5)),     // good all the same
		ball(10, "FFFF", thrownAgain),                // thrown again
		ball(10, "AABB", side(model.Inside, 1)),      // release and finish
		ball(10, "A···", weights([4]int{0, 0, 100})), // watched without a weight: not graded
	)})
	if c.NotGood != 4 || c.Graded != 6 || c.Ungraded != 1 {
		t.Errorf("%d not good of %d, %d ungraded", c.NotGood, c.Graded, c.Ungraded)
	}
	for a, want := range [4]float64{0, 1, 2, 1} {
		near(t, model.Axis(a).String(), c.ByAxis[a], want, 1e-12)
	}
	if want := (SideMiss{2, 3}); c.In != want {
		t.Errorf("in %+v", c.In)
	}
	if want := (SideMiss{1, 3}); c.Out != want {
		t.Errorf("out %+v", c.Out)
	}
	if c.Pattern.String() != "AABB" || c.PatternCount != 2 {
		t.Errorf("pattern %s, %d times", c.Pattern, c.PatternCount)
	}
	// Balance: six A's and a B of seven racks; target: five A's and a C of six; release: 4 2 3 4 4 3; finish: 4 4 3 4 4 3.
	for a, want := range [4]float64{27. / 7, 22. / 6, 20. / 6, 22. / 6} {
		near(t, "mean "+model.Axis(a).String(), c.Means[a].Value, want, 1e-12)
	}
	if want := [4]int{7, 6, 6, 6}; c.Watched != want {
		t.Errorf("watched %v", c.Watched)
	}
}

func TestCostPatternOfEqualsIsTheEarlier(t *testing.T) {
	c := costOf([]model.DatedSheet{game(t, 0, 1, times(2, ball(10, "AACA"), ball(10, "ACAA"), ball(10, "CAAA"))...)})
	if c.Pattern.String() != "AACA" || c.PatternCount != 2 {
		t.Errorf("pattern %s, %d times", c.Pattern, c.PatternCount)
	}
}

func TestCostWithoutAnything(t *testing.T) {
	c := costOf(nil)
	if c.Means[0].Known || c.NotGood != 0 || c.Words() != "no full rack was graded" {
		t.Errorf("%+v: %s", c, c.Words())
	}
	if c.WordsSide() != "" || c.WordsPattern() != "" {
		t.Errorf("words %q %q", c.WordsSide(), c.WordsPattern())
	}
}

func TestCostWords(t *testing.T) {
	tests := []struct {
		c    Cost
		want string
	}{
		{Cost{Graded: 22, NotGood: 14, ByAxis: [4]float64{32. / 12, 20. / 12, 69. / 12, 47. / 12}},
			"release cost 5.8 of 14, finish 3.9"},
		{Cost{Graded: 3, NotGood: 1, ByAxis: [4]float64{.5, 0, .5, 0}}, "balance cost 0.5 of 1, release 0.5"},
		{Cost{Graded: 3, NotGood: 2, ByAxis: [4]float64{.5, 0, .5, 1}}, "finish cost 1 of 2, balance 0.5"},
		{Cost{Graded: 3}, "every graded shot was good"},
	}
	for _, test := range tests {
		if got := test.c.Words(); got != test.want {
			t.Errorf("got %q, want %q", got, test.want)
		}
	}
	c := Cost{
		In: SideMiss{1, 1}, Out: SideMiss{5, 9}, PatternCount: 3,
		Pattern: model.Letters{model.A, model.NoLetter, model.B, model.C},
	}
	if got := c.WordsSide(); got != "missed inside once (1 board), outside 5 times (9 boards)" {
		t.Errorf("side %q", got)
	}
	if got := c.WordsPattern(); got != "most often release B, finish C (3 times)" {
		t.Errorf("pattern %q", got)
	}
}

func TestCostPartsSumToTheWhole(t *testing.T) {
	letter := rapid.SampledFrom([]string{"A", "A", "A", "B", "B", "C", "D", "F", "·"})
	bar := rapid.SampledFrom([]model.ShotGrade{model.GradeA, model.GradeAMinus, model.GradeBPlus, model.GradeC})
	split := rapid.SampledFrom([]model.Weights{
		{25, 25, 25, 25}, {40, 20, 20, 20}, {30, 30, 30, 10}, {0, 0, 0, 100}, {100, 0, 0, 0}, {34, 33, 33, 0},
	})
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(0, 12).Draw(rt, "racks")
		balls := make([]model.Delivery, n)
		heldAtA := rapid.IntRange(0, 3).Draw(rt, "the axis at A")
		alike := rapid.Bool().Draw(rt, "target and release alike")
		for i := range balls {
			letters := []string{letter.Draw(rt, "b"), letter.Draw(rt, "t"), letter.Draw(rt, "r"), letter.Draw(rt, "f")}
			w := split.Draw(rt, "weights")
			if alike {
				letters[2], w = letters[1], model.Weights{25, 25, 25, 25}
			}
			letters[heldAtA] = "A"
			if alike && (heldAtA == 1 || heldAtA == 2) {
				letters[1], letters[2] = "A", "A"
			}
			balls[i] = ball(10, letters[0]+letters[1]+letters[2]+letters[3], weights(w))
			balls[i].Bar = bar.Draw(rt, "bar")
		}
		c := costOf([]model.DatedSheet{game(t, 0, 1, balls...)})
		checkCost(rt, c, n, balls)
		if c.ByAxis[heldAtA] != 0 {
			rt.Fatalf("%s was always A and cost %v", model.Axis(heldAtA), c.ByAxis[heldAtA])
		}
		if alike {
			near(rt, "release, alike to target", c.ByAxis[model.Release], c.ByAxis[model.Target], 1e-12)
		}
	})
}

func checkCost(t *rapid.T, c Cost, seen int, balls []model.Delivery) {
	t.Helper()
	notGood := 0
	for _, d := range balls {
		if d.Grade() != model.Ungraded && !d.Good() {
			notGood++
		}
	}
	if c.NotGood != notGood || c.Graded+c.Ungraded != seen {
		t.Fatalf("%d not good, want %d; %d graded and %d not of %d", c.NotGood, notGood, c.Graded, c.Ungraded, seen)
	}
	sum := 0.
	for _, share := range c.ByAxis {
		sum += share
	}
	near(t, "sum of the shares", sum, float64(notGood), 1e-9)
}

// The sum over many shots must not drift: the shares are summed as whole twelfths.
func TestCostOfALongHistory(t *testing.T) {
	var games []model.DatedSheet
	for i := range 1000 {
		games = append(games, game(t, i, 1, times(3, ball(10, "DBAB"), ball(10, "BBAB"), ball(10, "BABA"), ball(10, "AAAA"))...))
	}
	c := costOf(games)
	// Per three shots that were not good: 2/3 + 1/3 + 1/2, 1/6 + 1/3, 1/2 and 1/6 + 1/3.
	for a, want := range [4]float64{4500, 1500, 1500, 1500} {
		near(t, fmt.Sprint(model.Axis(a)), c.ByAxis[a], want, 0)
	}
}
