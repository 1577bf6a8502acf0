package insight

import (
	"fmt"
	"math"
	"testing"

	"coach.settee/model"
)

// graded makes strikes with the same letter on every axis: "AAC" is three balls of 4, 4 and 2 points.
func graded(letters string, more ...with) []model.Delivery {
	var balls []model.Delivery
	for _, l := range letters {
		balls = append(balls, ball(10, fmt.Sprintf("%c%c%c%c", l, l, l, l), more...))
	}
	return balls
}

// Ten earlier shots of 4 and 3 by turns: mean 3.5, sample sd the root of 10/4/9.
var earlierSD = math.Sqrt(2.5 / 9)

func earlier(t *testing.T, more ...with) []model.DatedSheet {
	return []model.DatedSheet{game(t, 0, 1, graded("ABABAB", more...)...), game(t, 0, 2, graded("ABAB", more...)...)}
}

func TestSlippingAgainstEarlierGames(t *testing.T) {
	s := slippingOf(Input{Earlier: earlier(t), Over: []model.DatedSheet{game(t, 1, 1, graded("AACCC")...)}})
	near(t, "target", s.Target.Value, 3.5, 1e-12)
	near(t, "sd", s.SD.Value, earlierSD, 1e-12)
	if s.FromGames != 2 {
		t.Errorf("from %d games", s.FromGames)
	}
	// 0.2 of each and 0.8 of what was, from 3.5.
	for i, want := range []float64{3.6, 3.68, 3.344, 3.0752, 2.86016} {
		near(t, fmt.Sprintf("ewma %d", i), s.EWMA[i], want, 1e-12)
	}
	// The root of 0.2/1.8 is a third, of three sd.
	near(t, "lower limit", s.Limits.Value.Low, 3.5-earlierSD, 1e-12)
	near(t, "upper limit", s.Limits.Value.High, 3.5+earlierSD, 1e-12)
	// A shot of 2 is 1.5 or 2.846 sd low, 2.346 beyond the slack: the third of them passes 5.
	if s.Since != model.Known(2) || s.Until.Known {
		t.Errorf("since %v until %v", s.Since, s.Until)
	}
	if got := s.Words(); got != "slipping since frame 3: the student's fatigue or the coach's" {
		t.Errorf("%q", got)
	}
}

func TestSlippingSince(t *testing.T) {
	tests := []struct {
		name         string
		shots        string
		since, until model.Optional[int]
		words        string
	}{
		{"two bad ones are no signal", "AACC", model.Optional[int]{}, model.Optional[int]{}, "too few to say"},
		{"holding", "ABABABABAB", model.Optional[int]{}, model.Optional[int]{}, "holding"},
		// A shot of 4 is .949 high and takes off 1.449, so that the first bad one is forgotten after two.
		{"from after the sum was last 0", "CAACCC", model.Known(3), model.Optional[int]{},
			"slipping since frame 4: the student's fatigue or the coach's"},
		// 2.346, less 1.449, is 0.897 yet, and then 3.243 and 5.589.
		{"from before a good one between", "CACC", model.Known(0), model.Optional[int]{},
			"slipping since frame 1: the student's fatigue or the coach's"},
		// 7.039 less five times 1.449 is below 0.
		{"and back again", "CCCAAAAAA", model.Known(0), model.Known(7), "slipped from frame 1 to frame 8, then held"},
		// Two F's are 6.641 and 6.141 beyond the slack each.
		{"the last of two spells", "FAAAAAFAA", model.Known(6), model.Optional[int]{},
			"slipping since frame 7: the student's fatigue or the coach's"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			s := slippingOf(Input{Earlier: earlier(t), Over: []model.DatedSheet{game(t, 1, 1, graded(test.shots)...)}})
			if s.Since != test.since || s.Until != test.until {
				t.Errorf("since %v until %v", s.Since, s.Until)
			}
			if got := s.Words(); got != test.words {
				t.Errorf("%q", got)
			}
		})
	}
}

func TestSlippingAgainstTheFirstTenShots(t *testing.T) {
	tonight := func(second string) Input {
		return Input{Over: []model.DatedSheet{
			game(t, 0, 1, graded("FFFFFFFFFFFF")...), // another evening
			game(t, 1, 2, graded("ABABABABAB")...),
			sheet(t, model.Game{Kind: model.KindDrill, Length: 5}, 1, 3, graded("FFF")...),
			game(t, 1, 4, graded(second)...),
		}}
	}
	s := slippingOf(tonight("BCCCC"))
	near(t, "target", s.Target.Value, 3.5, 1e-12)
	near(t, "sd", s.SD.Value, earlierSD, 1e-12)
	if s.FromGames != 0 || len(s.Points) != 15 || len(s.Shots) != 15 || len(s.EWMA) != 15 {
		t.Errorf("%d points, from %d games", len(s.Points), s.FromGames)
	}
	if s.Since != model.Known(10) {
		t.Errorf("since %v", s.Since)
	}
	if got := s.Words(); got != "slipping since frame 1 of game 2: the student's fatigue or the coach's" {
		t.Errorf("%q", got)
	}
	if got := slippingOf(tonight("")).Words(); got != "too few to say" {
		t.Errorf("nothing after the ten: %q", got)
	}
	if got := slippingOf(tonight("A")).Words(); got != "holding" {
		t.Errorf("one after the ten: %q", got)
	}
}

// What is bad among the ten that the chart is held against is no signal.
func TestSlippingBeginsAfterTheFirstTen(t *testing.T) {
	s := slippingOf(Input{Over: []model.DatedSheet{game(t, 0, 1, graded("AAAAAAFFFFBB")...)}})
	if s.Since.Known || s.Words() != "holding" {
		t.Errorf("since %v: %s", s.Since, s.Words())
	}
}

func TestSlippingUnknown(t *testing.T) {
	ofLevel := func(l model.Level) []model.DatedSheet { return earlier(t, atLevel(l)) }
	alike := []model.DatedSheet{game(t, 0, 1, graded("BBBBBBBBBB")...)}
	tests := []struct {
		name string
		in   Input
		want string
	}{
		{"nothing", Input{}, "too few to say"},
		{"nine shots", Input{Over: []model.DatedSheet{game(t, 1, 1, graded("ABABABABA")...)}}, "too few to say"},
		{"nine earlier, nine tonight", Input{
			Earlier: []model.DatedSheet{game(t, 0, 1, graded("ABABABABA")...)},
			Over:    []model.DatedSheet{game(t, 1, 1, graded("FFFFFFFFF")...)},
		}, "too few to say"},
		{"earlier ones at another level", Input{
			Earlier: ofLevel(model.Elite), Over: []model.DatedSheet{game(t, 1, 1, graded("CCCCC")...)},
		}, "too few to say"},
		{"all alike", Input{
			Earlier: alike, Over: []model.DatedSheet{game(t, 1, 1, graded("CCCCCCCCCC")...)},
		}, "too much alike to say"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			s := slippingOf(test.in)
			if s.Target.Known || s.SD.Known || s.Limits.Known || s.Since.Known || s.FromGames == 2 {
				t.Errorf("%+v", s)
			}
			if got := s.Words(); got != test.want {
				t.Errorf("%q", got)
			}
		})
	}
}

// Weights of what was watched only: 25 of C and 25 of A of 50 are 3 points; nothing watched is not graded, and a spare shot
// or an unseen rack no point of the chart.
func TestSlippingShotPoints(t *testing.T) {
	s := slippingOf(Input{Over: []model.DatedSheet{game(t, 0, 1,
		ball(7, "C·A·"), ball(3, "FFFF"), ball(10, "····"), ball(10, ""),
		ball(10, "BAAF", weights(model.Weights{40, 30, 20, 10})),
	)}})
	if len(s.Points) != 2 {
		t.Fatalf("points %v", s.Points)
	}
	near(t, "first", s.Points[0], 3, 1e-15)
	near(t, "second", s.Points[1], 3.2, 1e-15)
	// Without a target the mean of the evening begins from its own: 3.1.
	near(t, "ewma", s.EWMA[0], .2*3+.8*3.1, 1e-12)
}

func TestSlippingLoad(t *testing.T) {
	over := []model.DatedSheet{
		game(t, 0, 1, graded("AAA")...),
		sheet(t, model.Game{Kind: model.KindWarmup}, 1, 1, graded("AAAA")...),
		game(t, 1, 2, append(graded("AA"), ball(0, "", dead()), ball(10, ""))...),
	}
	tests := []struct {
		limit int
		want  string
	}{
		{0, ""}, {60, ""}, {11, ""}, {10, "8 of 10 deliveries tonight"}, {9, "8 of 9 deliveries tonight"},
		{8, "8 of 8 deliveries tonight: the limit"}, {7, "8 of 7 deliveries tonight: over the limit"},
	}
	for _, test := range tests {
		s := slippingOf(Input{Student: model.Student{LoadLimit: test.limit}, Over: over})
		if s.Load != 8 || s.Limit != test.limit {
			t.Errorf("load %d, limit %d", s.Load, s.Limit)
		}
		if got := s.WordsLoad(); got != test.want {
			t.Errorf("limit %d: %q", test.limit, got)
		}
	}
}
