package insight

import (
	"fmt"
	"slices"
	"testing"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

var (
	regular = Rates{Strike: .38, Spare: .58}
	start   = tenpin.Position{}
)

// frame is the position before the first ball of a frame, then moved on by
// the pins of that many balls; foul in place of a count is one.
func frame(number int, balls ...int) tenpin.Position {
	var p tenpin.Position
	for p.Frame() < number {
		p = bowled(p, tenpin.Ball{Pins: 10})
	}
	for _, pins := range balls {
		p = bowled(p, tenpin.Ball{Pins: max(pins, 0), Foul: pins == foul})
	}
	return p
}

const foul = -1

func bowled(p tenpin.Position, b tenpin.Ball) tenpin.Position {
	next, _, err := p.Next(b)
	if err != nil {
		panic(err)
	}
	return next
}

// over is a position after the last ball.
func over() tenpin.Position { return frame(10, 3, 4) }

// The two values were agreed before the code was written; no published source.
func TestPaceCheckValues(t *testing.T) {
	t.Run("goal 6, no history, before the first ball", func(t *testing.T) {
		p := GamePace(PaceInput{Goal: 6, Rates: regular}, start)
		near(t, "expected", p.Expected, 6.0000, .00005)
		near(t, "chance", p.Chance, 0.5902, .00005)
	})
	t.Run("goal 6, no history, 4 good of 5 seen, five frames left", func(t *testing.T) {
		p := GamePace(PaceInput{Goal: 6, Rates: regular, Good: 4, Seen: 5}, frame(6))
		near(t, "expected", p.Expected, 7.6741, .00005)
		near(t, "chance", p.Chance, 0.9384, .00005)
	})
}

func TestRacksStillToCome(t *testing.T) {
	const s, c = .38, .58
	anyTenth := [3]float64{(1 - s) * (1 - c), s*(1-s) + (1-s)*c, s * s}
	tests := []struct {
		name  string
		at    tenpin.Position
		sure  int
		most  int
		extra [3]float64
	}{
		{"before the first ball", start, 10, 2, anyTenth},
		{"second ball of the first frame", frame(1, 7), 9, 2, anyTenth},
		{"five frames left", frame(6), 5, 2, anyTenth},
		{"first ball of the ninth", frame(9), 2, 2, anyTenth},
		{"second ball of the ninth", frame(9, 0), 1, 2, anyTenth},
		{"tenth: first ball", frame(10), 1, 2, anyTenth},
		{"tenth: X, then", frame(10, 10), 1, 1, [3]float64{1 - s, s, 0}},
		{"tenth: 7, then", frame(10, 7), 0, 1, [3]float64{1 - c, c, 0}},
		{"tenth: foul, then at ten pins", frame(10, foul), 0, 1, [3]float64{1 - c, c, 0}},
		{"tenth: X X, then", frame(10, 10, 10), 1, 0, [3]float64{1, 0, 0}},
		{"tenth: 7 /, then", frame(10, 7, 3), 1, 0, [3]float64{1, 0, 0}},
		{"tenth: X 7, then", frame(10, 10, 7), 0, 0, [3]float64{1, 0, 0}},
		{"tenth: X and a foul, then at ten pins", frame(10, 10, foul), 0, 0, [3]float64{1, 0, 0}},
		{"game over", over(), 0, 0, [3]float64{1, 0, 0}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := racksToCome(test.at, regular)
			if got.sure != test.sure || got.most != test.most {
				t.Errorf("%d sure and up to %d more, want %d and %d", got.sure, got.most, test.sure, test.most)
			}
			walked := walk(test.at, regular)
			for i, want := range test.extra {
				near(t, fmt.Sprintf("chance of %d extra", i), got.extra[i], want, 1e-15)
				near(t, fmt.Sprintf("walked chance of %d extra", i), walked[got.sure+i], want, 1e-12)
			}
		})
	}
}

func TestExpectedRacks(t *testing.T) {
	tests := []struct {
		name  string
		rates Rates
		want  float64
	}{
		{"no strike, no spare", Rates{}, 10},
		{"spares only", Rates{Spare: 1}, 11},
		{"strikes only", Rates{Strike: 1}, 12},
		{"regular", regular, 10.884},
		{"new", LevelRates("new"), 10.29},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) { near(t, "R", ExpectedRacks(test.rates), test.want, 1e-12) })
	}
}

func TestShrinkRates(t *testing.T) {
	t.Run("without a try they are the level's", func(t *testing.T) {
		for _, level := range model.Levels {
			got, want := ShrinkRates(LevelRates(level), 0, 0, 0, 0), LevelRates(level)
			near(t, string(level)+" strikes", got.Strike, want.Strike, 1e-15)
			near(t, string(level)+" spares", got.Spare, want.Spare, 1e-15)
		}
	})
	t.Run("twenty tries of one's own weigh as much as the level", func(t *testing.T) {
		got := ShrinkRates(LevelRates("regular"), 12, 20, 6, 20)
		near(t, "strikes", got.Strike, (.38+.60)/2, 1e-15)
		near(t, "spares", got.Spare, (.58+.30)/2, 1e-15)
	})
	t.Run("an unknown level is new", func(t *testing.T) {
		if LevelRates("") != (Rates{Strike: .10, Spare: .20}) {
			t.Errorf("got %+v", LevelRates(""))
		}
	})
}

func TestPaceEdges(t *testing.T) {
	goal6 := PaceInput{Goal: 6, Rates: regular}
	with := func(change func(in *PaceInput)) PaceInput {
		in := goal6
		change(&in)
		return in
	}
	tests := []struct {
		name           string
		in             PaceInput
		at             tenpin.Position
		expected       float64
		low, high      float64 // of the chance
		needed         int
		openMin, openM int
	}{
		{"no history is the goal itself", goal6, start, 6, .59, .60, 6, 10, 12},
		{"all good in history", with(func(in *PaceInput) { in.PastGood, in.PastSeen = 110, 110 }), start,
			10.884 * (110 + 72/10.884) / 122, .99, 1, 6, 10, 12},
		{"none good in history", with(func(in *PaceInput) { in.PastSeen = 110 }), start,
			10.884 * (72 / 10.884) / 122, 0, .01, 6, 10, 12},
		{"all good so far", with(func(in *PaceInput) { in.Good, in.Seen = 5, 5 }), frame(6),
			5 + 5.884*(12*6/10.884+5)/17, .98, 1, 1, 5, 7},
		{"none good so far", with(func(in *PaceInput) { in.Seen = 5 }), frame(6),
			5.884 * (12 * 6 / 10.884) / 17, 0, .05, 6, 5, 7},
		{"all unseen is as before the first ball", with(func(in *PaceInput) { in.Unseen = 5 }), frame(6), 6, .59, .60, 6, 10, 12},
		{"met", with(func(in *PaceInput) { in.Good, in.Seen = 6, 6 }), frame(7),
			6 + 4.884*(12*6/10.884+6)/18, 1, 1, 0, 4, 6},
		{"out of reach", with(func(in *PaceInput) { in.Good, in.Seen = 2, 9 }), frame(10),
			2 + 1.884*(12*6/10.884+2)/21, 0, 0, 4, 1, 3},
		{"over and short", with(func(in *PaceInput) { in.Good, in.Seen = 5, 10 }), over(), 5, 0, 0, 1, 0, 0},
		{"over, short, one unseen", with(func(in *PaceInput) { in.Good, in.Seen, in.Unseen = 5, 9, 1 }), over(),
			5 + (12*6/10.884+5)/21, .55, .56, 1, 1, 1},
		{"last ball, tenth X X", with(func(in *PaceInput) { in.Good, in.Seen = 5, 11 }), frame(10, 10, 10),
			5 + (12*6/10.884+5)/23, .50, .51, 1, 1, 1},
		{"last ball, tenth 7 /", with(func(in *PaceInput) { in.Good, in.Seen = 5, 10 }), frame(10, 7, 3),
			5 + (12*6/10.884+5)/22, .52, .53, 1, 1, 1},
		{"last ball, tenth X 7", with(func(in *PaceInput) { in.Good, in.Seen = 5, 11 }), frame(10, 10, 7), 5, 0, 0, 1, 0, 0},
		{"tenth 7, spare shot due", with(func(in *PaceInput) { in.Good, in.Seen = 5, 10 }), frame(10, 7),
			5 + .58*(12*6/10.884+5)/22, .30, .31, 1, 0, 1},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			p := GamePace(test.in, test.at)
			near(t, "expected", p.Expected, test.expected, 1e-12)
			if p.Chance < test.low || p.Chance > test.high {
				t.Errorf("chance %v, want %v to %v", p.Chance, test.low, test.high)
			}
			got := []int{p.Needed, p.OpenMin, p.OpenMax}
			if want := []int{test.needed, test.openMin, test.openM}; !slices.Equal(got, want) {
				t.Errorf("needed, fewest and most open %v, want %v", got, want)
			}
		})
	}
	t.Run("half a goal is rounded up", func(t *testing.T) {
		p := GamePace(PaceInput{Goal: 8.5, Rates: regular, Good: 3, Seen: 3}, frame(4))
		if p.Target != 9 || p.Needed != 6 {
			t.Errorf("target %d, needed %d", p.Target, p.Needed)
		}
	})
	t.Run("out of range is held at the range", func(t *testing.T) {
		wild := PaceInput{Goal: 40, Rates: Rates{Strike: -1, Spare: 7}, PastGood: 9, PastSeen: 4, Good: 5, Seen: 2, Unseen: -3}
		held := PaceInput{Goal: 10, Rates: Rates{Strike: 0, Spare: 1}, PastGood: 4, PastSeen: 4, Good: 2, Seen: 2}
		if got, want := GamePace(wild, start), GamePace(held, start); got != want {
			t.Errorf("got %+v, want %+v", got, want)
		}
	})
	t.Run("a certain rate is certain", func(t *testing.T) {
		p := GamePace(PaceInput{Goal: 10, Rates: Rates{}, PastGood: 100, PastSeen: 100}, start)
		near(t, "chance", p.Chance, 1, 1e-12)
		near(t, "expected", p.Expected, 10, 1e-12)
	})
}

func TestDrillPace(t *testing.T) {
	in := PaceInput{Goal: 6, Rates: regular}
	t.Run("ten deliveries, before the first", func(t *testing.T) {
		p, ok := DrillPace(in, Drill{Length: 10})
		near(t, "expected", p.Expected, 10*6/10.884, 1e-12)
		if !ok || p.Target != 6 || p.OpenMin != 10 || p.OpenMax != 10 {
			t.Errorf("%v %+v", ok, p)
		}
		want := 0.0
		for k := 6; k <= 10; k++ {
			want += directly(72/10.884, 12-72/10.884, k, 10)
		}
		near(t, "chance", p.Chance, want, 1e-13)
	})
	t.Run("under way, with one unseen", func(t *testing.T) {
		p, _ := DrillPace(PaceInput{Goal: 6, Rates: regular, Good: 3, Seen: 4, Unseen: 1}, Drill{Length: 10})
		if p.Needed != 3 || p.OpenMin != 6 || p.OpenMax != 6 || p.Unseen != 1 {
			t.Errorf("%+v", p)
		}
	})
	t.Run("a whole goal is not rounded up", func(t *testing.T) {
		// 42 x 6 / 10.08 is 25, and comes out a last digit above it.
		p, _ := DrillPace(PaceInput{Goal: 6, Rates: Rates{Strike: .04, Spare: .04}}, Drill{Length: 42})
		if p.Target != 25 {
			t.Errorf("target %d", p.Target)
		}
	})
	t.Run("bowled beyond its length", func(t *testing.T) {
		p, _ := DrillPace(PaceInput{Goal: 6, Rates: regular, Good: 2, Seen: 12}, Drill{Length: 10})
		if p.OpenMin != 0 || p.OpenMax != 0 || p.Chance != 0 || p.Expected != 2 {
			t.Errorf("%+v", p)
		}
	})
	none := map[string]Drill{
		"without a length": {}, "at named pins": {Length: 10, AtPins: true}, "longer than any drill": {Length: LongestDrill + 1},
	}
	for name, drill := range none {
		t.Run("no pace "+name, func(t *testing.T) {
			if p, ok := DrillPace(in, drill); ok {
				t.Errorf("got %+v", p)
			}
		})
	}
}

func TestPaceWords(t *testing.T) {
	game := func(good, seen, unseen int, at tenpin.Position) Pace {
		return GamePace(PaceInput{Goal: 6, Rates: regular, Good: good, Seen: seen, Unseen: unseen}, at)
	}
	drill := func(good, seen, unseen int) Pace {
		p, _ := DrillPace(PaceInput{Goal: 6, Rates: regular, Good: good, Seen: seen, Unseen: unseen}, Drill{Length: 10})
		return p
	}
	tests := []struct {
		pace Pace
		want string
	}{
		{game(2, 5, 0, frame(6)), "needs 4 of the 5 to 7 racks left"},
		{game(0, 0, 0, start), "needs 6 of the 10 to 12 racks left"},
		{game(2, 4, 1, frame(6)), "needs 4 of the 5 to 7 racks left + 1 unseen"},
		{game(1, 3, 6, frame(10)), "needs 5: 1 to 3 racks left + 6 unseen"},
		{game(6, 7, 0, frame(8)), "goal met"},
		{game(9, 9, 1, over()), "goal met"},
		{game(2, 9, 0, frame(10)), "1 to 3 racks left, 4 needed"},
		{game(3, 10, 0, frame(10, 10)), "1 to 2 racks left, 3 needed"},
		{game(4, 10, 0, frame(10, 7)), "at most 1 rack left, 2 needed"},
		{game(5, 10, 0, frame(10, 7)), "needs the rack after a spare"},
		{game(5, 9, 1, frame(10, 7)), "needs 1: at most 1 rack left + 1 unseen"},
		{game(5, 11, 0, frame(10, 10, 10)), "needs the last rack"},
		{game(4, 11, 0, frame(10, 10, 10)), "1 rack left, 2 needed"},
		{game(5, 11, 0, frame(10, 10, 7)), "1 short of the goal"},
		{game(5, 9, 2, over()), "1 short of the goal, 2 unseen"},
		{drill(4, 4, 0), "needs 2 of the 6 racks left"},
		{drill(4, 8, 0), "needs both racks left"},
		{drill(3, 7, 0), "needs all 3 racks left"},
		{drill(2, 8, 0), "2 racks left, 4 needed"},
		{drill(2, 7, 1), "2 racks left + 1 unseen, 4 needed"},
	}
	for _, test := range tests {
		t.Run(test.want, func(t *testing.T) {
			if got := test.pace.Words(); got != test.want {
				t.Errorf("got %q", got)
			}
		})
	}
}
