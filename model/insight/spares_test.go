package insight

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// sparesGame has every kind of leave: single pins, named and not, splits, others, ten pins and leaves not named.
func sparesGame(t testing.TB) model.DatedSheet {
	return game(t, 0, 1,
		ball(9, "AAAA", left(10)), ball(1, ""), // a single, made, unseen
		ball(9, "AAAA"), ball(0, "AAAA"), // a single not named, missed: open
		ball(8, "AAAA", left(7, 10)), ball(1, "AAAA"), // a split, missed: open
		ball(0, "AAAA", left(tenpin.AllPins.Numbers()...)), ball(10, "AAAA"), // ten pins, made
		ball(0, "AAAA", fouled()), ball(4, "AAAA"), // ten pins, missed: open
		ball(6, "AAAA", left(2, 4, 5, 8)), ball(0, "AAAA", dead()), ball(4, "AAAA"), // four pins, made
		ball(7, "AAAA"), ball(3, "AAAA"), // not named, made
		ball(7, "AAAA"), ball(2, "AAAA"), // not named, missed: open
		ball(10, "AAAA"),
		ball(10, "AAAA"), ball(9, "AAAA", left(10)), ball(0, "AAAA"), // the tenth's third ball is a spare shot; not open
	)
}

func TestSpares(t *testing.T) {
	s := sparesOf([]model.DatedSheet{sparesGame(t)})
	for _, k := range []struct {
		kind      string
		got, want Part
	}{
		{"single", s.Single, Part{1, 3}},
		{"multi", s.Multi, Part{2, 3}},
		{"split", s.Split, Part{0, 1}},
		{"unknown", s.Unknown, Part{1, 2}},
		{"all", s.All(), Part{4, 9}},
		{"open", s.Open, Part{4, 10}},
	} {
		if k.got != k.want {
			t.Errorf("%s: %v, want %v", k.kind, k.got, k.want)
		}
	}
	// The most frequent first; 2-4-5-8 before 7-10 by the pins.
	want := []LeaveCount{
		{tenpin.AllPins, Part{1, 2}}, {tenpin.Pins(10), Part{1, 2}},
		{tenpin.Pins(2, 4, 5, 8), Part{1, 1}}, {tenpin.Pins(7, 10), Part{0, 1}},
	}
	if !slices.Equal(s.Leaves, want) {
		t.Errorf("leaves %v, want %v", s.Leaves, want)
	}
}

func TestSparesWords(t *testing.T) {
	s := sparesOf([]model.DatedSheet{sparesGame(t)})
	for got, want := range map[string]string{
		s.Words():                "spares 4 of 9: single pins 1 of 3, more 2 of 3, splits 0 of 1, unnamed 1 of 2",
		s.WordsMissed():          "",
		s.WordsOpen():            "open frames 4 of 10",
		Spares{}.Words():         "no spare shots",
		Spares{}.WordsOpen():     "no finished frames",
		missing(7).WordsMissed(): "missed most: the 7 pin, 2 times of 3",
		missing(tenpin.AllPins.Numbers()...).WordsMissed(): "",
		missing(2, 8).WordsMissed():                        "missed most: 2-8 (sleeper), 2 times of 3",
		missing(1, 3).WordsMissed():                        "missed most: 1-3, 2 times of 3",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// missing are the spares of somebody who made one leave one time of three, and another always.
func missing(pins ...int) Spares {
	return Spares{Leaves: []LeaveCount{{tenpin.Pins(4), Part{9, 9}}, {tenpin.Pins(pins...), Part{1, 3}}}}
}

// Which frames are finished, and which of them are open.
func TestOpenFrames(t *testing.T) {
	open := []model.Delivery{ball(3, ""), ball(4, "")}
	spare := []model.Delivery{ball(3, ""), ball(7, "")}
	nine := times(9, ball(10, ""))
	for name, c := range map[string]struct {
		balls []model.Delivery
		want  Part
	}{
		"nothing bowled":                {nil, Part{}},
		"in the middle of a frame":      {open[:1], Part{}},
		"one open":                      {open, Part{1, 1}},
		"one spare":                     {spare, Part{0, 1}},
		"a spare and the next begun":    {append(spare[:2:2], open[0]), Part{0, 1}},
		"nine strikes":                  {nine, Part{0, 9}},
		"the tenth begun with a strike": {append(nine[:9:9], ball(10, ""), ball(3, "")), Part{0, 9}},
		"the tenth open":                {append(nine[:9:9], open...), Part{1, 10}},
		"the tenth a strike, 3 and 4":   {append(nine[:9:9], ball(10, ""), ball(3, ""), ball(4, "")), Part{0, 10}},
		"the tenth a spare and nothing": {append(nine[:9:9], ball(3, ""), ball(7, ""), ball(0, "")), Part{0, 10}},
		"two gutter balls in the tenth": {append(nine[:9:9], ball(0, ""), ball(0, "")), Part{1, 10}},
	} {
		if got := sparesOf([]model.DatedSheet{game(t, 0, 1, c.balls...)}).Open; got != c.want {
			t.Errorf("%s: %v open, want %v", name, got, c.want)
		}
	}
}

// The parts are those of the tallies that are kept beside the games.
func TestSparesSumToTheTally(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var games []model.DatedSheet
		var tally Part
		for number := range rapid.IntRange(1, 3).Draw(rt, "games") {
			g := game(t, 0, number+1, drawLeaves(rt)...)
			games = append(games, g)
			tally.N += g.Tally.SpareMade
			tally.Of += g.Tally.SpareTried
		}
		s := sparesOf(games)
		if s.All() != tally {
			rt.Fatalf("%v by kind, %v in all", s.All(), tally)
		}
		var named Part
		for i, l := range s.Leaves {
			named.N += l.Made.N
			named.Of += l.Made.Of
			if i > 0 && l.Made.Of > s.Leaves[i-1].Made.Of {
				rt.Fatalf("%v is not in order", s.Leaves)
			}
		}
		if named.N > tally.N-s.Unknown.N || named.Of > tally.Of-s.Unknown.Of {
			rt.Fatalf("%v at named leaves, %v in all, %v of them unknown", named, tally, s.Unknown)
		}
	})
}

// drawLeaves draws a game or the beginning of one, seen or not, its leaves named or not.
func drawLeaves(t *rapid.T) []model.Delivery {
	var balls []model.Delivery
	var at tenpin.Position
	for range rapid.IntRange(0, 21).Draw(t, "balls") {
		if at.Over() {
			break
		}
		letters := rapid.SampledFrom([]string{"AAAA", "AABA", "DAAA", "CCCC", "····", ""}).Draw(t, "letters")
		d := ball(0, letters)
		if stood := at.Standing(); stood.Known && rapid.Bool().Draw(t, "named") {
			stay := tenpin.PinSet(rapid.IntRange(0, int(tenpin.AllPins)).Draw(t, "stay")) & stood.Pins
			d.Pins, d.After = model.Known(at.StandingCount()-stay.Count()), tenpin.Standing(stay)
		} else {
			d.Pins = model.Known(rapid.IntRange(0, at.StandingCount()).Draw(t, "pins"))
		}
		balls = append(balls, d)
		at = bowled(at, d.Scored())
	}
	return balls
}
