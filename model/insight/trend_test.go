package insight

import (
	"fmt"
	"math"
	"testing"
	"time"

	"coach.settee/model"
	"pgregory.net/rapid"
)

// goodOf makes a game's figures with k good of n.
func goodOf(k, n int) TrendGame { return TrendGame{Good: Part{k, n}} }

func scored(score int) TrendGame { return TrendGame{Score: score, Complete: true} }

func TestTrendGames(t *testing.T) {
	games := []model.DatedSheet{
		// Three full racks seen, two of them good (BAAA is an A-), and one not seen; spare shots stay out.
		game(t, 0, 1, ball(10, "AAAA"), ball(9, "BAAA"), ball(1, "FFFF"), ball(10, ""), ball(8, "CAA·")),
		// Finished: nine and none ten times are 90.
		game(t, 0, 2, times(10, ball(9, ""), ball(0, ""))...),
		game(t, 1, 1),
		game(t, 1, 2, ball(10, "A···", atLevel(model.Advanced))),
		game(t, 2, 1, ball(10, "A···", atLevel(model.Advanced))),
	}
	tr := trendOf(games, nil)
	if len(tr.Games) != 5 || len(tr.Rate) != 5 || len(tr.Score) != 5 {
		t.Fatalf("%d games, %d rates, %d scores: want 5 each", len(tr.Games), len(tr.Rate), len(tr.Score))
	}
	first := tr.Games[0]
	if first.ID != "s0-g1" || !first.At.Equal(evening0) || first.Good != (Part{2, 3}) || first.Complete {
		t.Errorf("first game %+v", first)
	}
	// Balance A B C is (4+3+2)/3 = 3, finish A A over the two racks on which it was watched is 4.
	if first.Axes[model.Balance] != model.Known(3.0) || first.Axes[model.Finish] != model.Known(4.0) {
		t.Errorf("means %v", first.Axes)
	}
	if want := [model.AxisCount]Part{{1, 3}, {3, 3}, {3, 3}, {2, 2}}; first.As != want {
		t.Errorf("As %v, want %v", first.As, want)
	}
	if g := tr.Games[1]; !g.Complete || g.Score != 90 || g.Good != (Part{}) || g.Axes[0].Known {
		t.Errorf("second game %+v", g)
	}
	for i, want := range []struct {
		level model.Level
		brk   bool
	}{{model.Regular, false}, {model.Regular, false}, {"", false}, {model.Advanced, true}, {model.Advanced, false}} {
		if g := tr.Games[i]; g.Level != want.level || g.Break != want.brk {
			t.Errorf("game %d: level %q, break %v: want %q, %v", i, g.Level, g.Break, want.level, want.brk)
		}
	}
	// The game that nobody watched has its neighbour's two of three; beyond the break it is one of one.
	near(t, "rate", tr.Rate[1].Value.Value, 2.0/3, 1e-15)
	near(t, "rate after the break", tr.Rate[3].Value.Value, 1, 1e-15)
	for _, a := range model.Axes {
		if len(tr.Axes[a]) != 5 || tr.Axes[a][0].Value.Known {
			t.Errorf("%v is smoothed to %v of one watched game a level", a, tr.Axes[a])
		}
	}
}

func TestTrendOfNothing(t *testing.T) {
	tr := trendOf(nil, nil)
	if len(tr.Games)+len(tr.Rate)+len(tr.Score)+len(tr.Weeks) != 0 || tr.Baseline.Of != 0 {
		t.Errorf("%+v", tr)
	}
}

func TestWeeks(t *testing.T) {
	east := time.FixedZone("east", 12*3600)
	at := func(day, hour int) time.Time { return time.Date(2026, 3, day, hour, 0, 0, 0, east) }
	nines := times(10, ball(9, "AAAA"), ball(0, ""))
	dated := func(at time.Time, balls ...model.Delivery) model.DatedSheet {
		g := game(t, 0, 1, balls...)
		g.At = at
		return g
	}
	weeks := weeksOf([]model.DatedSheet{
		dated(at(1, 23), ball(10, "DAAA")), // a Sunday
		dated(at(2, 0), nines...),          // Monday, still Sunday in UTC
		dated(at(8, 23), ball(10, "")),     // the Sunday after
		dated(at(18, 9), nines...),         // the Wednesday of the week after the next
	})
	want := []TrendWeek{
		{Monday: time.Date(2026, 2, 23, 0, 0, 0, 0, east), Games: 1, Good: Part{0, 1}},
		{Monday: at(2, 0), Games: 2, Good: Part{10, 10}, Score: model.Known(90.0)},
		{Monday: at(16, 0), Games: 1, Good: Part{10, 10}, Score: model.Known(90.0)},
	}
	if fmt.Sprint(weeks) != fmt.Sprint(want) {
		t.Errorf("weeks\n%v\nwant\n%v", weeks, want)
	}
}

func TestMondayIsTheISOWeek(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := evening0.Add(time.Duration(rapid.Int64Range(-1e6, 1e6).Draw(t, "minutes")) * time.Minute)
		monday := mondayOf(at)
		year, week := at.ISOWeek()
		if y, w := monday.ISOWeek(); monday.Weekday() != time.Monday || y != year || w != week || monday.After(at) {
			t.Fatalf("%v begins its week on %v", at, monday)
		}
	})
}

func TestBaseline(t *testing.T) {
	good, poor := ball(10, "AAAA", atLevel(model.New)), ball(10, "DAAA")
	evening := []model.DatedSheet{
		// 3 good and 2 not, one unseen and one dead; then 9 more, of which five make the ten.
		game(t, 0, 2, good, good, good, poor, poor, ball(10, ""), ball(0, "", dead())),
		game(t, 0, 3, times(9, good)...),
		game(t, 1, 1, good),
	}
	if p, level := baselineOf(evening); p != (Part{8, 10}) || level != model.New {
		t.Errorf("baseline %v at %q, want 8 of 10 at new", p, level)
	}
	if p, _ := baselineOf([]model.DatedSheet{evening[0], evening[2]}); p != (Part{3, 5}) {
		t.Errorf("baseline %v of a short first evening, want 3 of 5", p)
	}
	if p, level := baselineOf(nil); p != (Part{}) || level != "" {
		t.Errorf("baseline %v at %q of nothing", p, level)
	}
}

func TestTrendWords(t *testing.T) {
	levels := func(n int, l model.Level, k, of int) []TrendGame {
		out := make([]TrendGame, n)
		for i := range out {
			out[i] = TrendGame{Good: Part{k, of}, Level: l}
		}
		return out
	}
	changed := append(levels(5, model.New, 5, 10), levels(4, model.Regular, 5, 10)...)
	changed[5].Break = true
	short := append(levels(5, model.New, 5, 10), levels(2, model.Regular, 5, 10)...)
	short[5].Break = true
	for _, c := range []struct {
		name  string
		games []TrendGame
		base  Part
		at    model.Level
		want  string
	}{
		{"no games", nil, Part{3, 10}, model.New, "too few games to say"},
		{"two games", levels(2, model.New, 5, 10), Part{3, 10}, model.New, "too few games to say"},
		{"three of which nobody saw two", append(levels(1, model.New, 5, 10), levels(2, model.New, 0, 0)...), Part{3, 10},
			model.New, "too few games to say"},
		{"two since the level changed", short, Part{3, 10}, model.New, "too few games to say"},
		{"level changed", changed, Part{3, 10}, model.New, "the level changed: 50% now, between 35% and 65%"},
		{"back at the level of the start", changed, Part{5, 10}, model.Regular,
			"5 of 10 at the start, 50% now, between 35% and 65%"},
		{"nothing bowled in the last", append(levels(9, model.New, 9, 10), TrendGame{}), Part{2, 10}, model.New,
			"up from 2 of 10 at the start: 90% now, between 79% and 96%"},
		{"no start", levels(9, "", 9, 10), Part{}, "", "90% now, between 80% and 95%"},
		{"up", levels(9, model.New, 9, 10), Part{2, 10}, model.New, "up from 2 of 10 at the start: 90% now, between 80% and 95%"},
		{"down", levels(9, model.New, 1, 10), Part{9, 10}, model.New,
			"down from 9 of 10 at the start: 10% now, between 5% and 20%"},
		{"ten shots are too few", levels(9, model.New, 5, 10), Part{3, 10}, model.New,
			"3 of 10 at the start, 50% now, between 37% and 63%"},
	} {
		tr := Trend{Games: c.games, Baseline: c.base, BaselineLevel: c.at}
		for rest := tr.Games; len(rest) > 0; {
			n := levelRun(rest)
			tr.Rate = append(tr.Rate, gaussian(trendBandwidth).rates(rest[:n])...)
			rest = rest[n:]
		}
		if got := tr.Words(); got != c.want || len(got) > 64 {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// Up and down agree with Newcombe's interval where the count now is a whole one.
func TestAgainstIsNewcombe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		now := Part{Of: rapid.IntRange(1, 60).Draw(t, "now of")}
		now.N = rapid.IntRange(0, now.Of).Draw(t, "now")
		base := Part{Of: rapid.IntRange(1, 10).Draw(t, "base of")}
		base.N = rapid.IntRange(0, base.Of).Draw(t, "base")
		_, in := now.Difference(base)
		want := 0
		if in.Value.Low > 0 {
			want = 1
		} else if in.Value.High < 0 {
			want = -1
		}
		if math.Abs(in.Value.Low) < 1e-12 || math.Abs(in.Value.High) < 1e-12 {
			t.Skip("on the edge")
		}
		if got := (Trend{Baseline: base}).against(Smooth{now.Rate(), now.Wilson()}); got != want {
			t.Fatalf("%v against %v: %d, want %d by %v", now, base, got, want, in.Value)
		}
	})
}

func TestTrendAxis(t *testing.T) {
	point := func(v float64) Smooth { return Smooth{Value: model.Known(v)} }
	games := make([]TrendGame, 5)
	tr := Trend{Games: games}
	tr.Axes[model.Release] = []Smooth{point(1), point(2), {}, point(3), point(4)}
	if first, now := tr.Axis(model.Release); first != point(1) || now != point(4) {
		t.Errorf("from %v to %v, want 1 to 4", first, now)
	}
	games[2].Break = true
	if first, now := tr.Axis(model.Release); first != point(3) || now != point(4) {
		t.Errorf("from %v to %v since the level changed, want 3 to 4", first, now)
	}
	if first, now := (Trend{}).Axis(model.Release); first != (Smooth{}) || now != (Smooth{}) {
		t.Errorf("from %v to %v of nothing", first, now)
	}
}

func TestTrendWordsScore(t *testing.T) {
	for _, c := range []struct {
		score []Smooth
		want  string
	}{
		{nil, "too few finished games to say"},
		{[]Smooth{{}}, "too few finished games to say"},
		{[]Smooth{{}, {Value: model.Known(171.6)}}, "score 172 now"},
		{[]Smooth{{Value: model.Known(171.6), Band: model.Known(Interval{159.7, 183.4})}}, "score 172 now, between 160 and 183"},
	} {
		if got := (Trend{Score: c.score}).WordsScore(); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
