package insight

import (
	"time"

	"coach.settee/model"
)

// TrendMethod names how the trend is smoothed.
const TrendMethod = "gaussian kernel over games, bandwidth 3 and cut at 12, within a level; rate: wilson 95% at effective counts; " +
	"score, axes (games weighted by watched racks): student t 95% at the effective number, within the scale"

// Trend is how games went over time, as one coach saw it.
type Trend struct {
	Games []TrendGame
	// Rate is the smoothed rate of good shots, Score the smoothed score of the finished games, and Axes the smoothed mean
	// letter points, 0 to 4, by axis, a point a game; none is smoothed across a change of level.
	Rate, Score []Smooth
	Axes        [model.AxisCount][]Smooth
	Weeks       []TrendWeek
	// Baseline is the good of the first ten seen full racks in the games of the student's first evening, BaselineLevel the
	// level of the first of them.
	Baseline      Part
	BaselineLevel model.Level
}

// TrendGame is one game.
type TrendGame struct {
	ID       model.ID
	At       time.Time
	Good     Part
	Score    int
	Complete bool
	// Level is that of the first delivery, empty without one.
	Level model.Level
	// Axes are the mean letter points by axis, unknown where not watched; As the A's of the seen full racks on which the
	// axis was watched.
	Axes [model.AxisCount]model.Optional[float64]
	As   [model.AxisCount]Part
	// Break tells that the level is not that of the game before.
	Break bool
}

// Smooth is a smoothed value with its 95% band, unknown where there is too little.
type Smooth struct {
	Value model.Optional[float64]
	Band  model.Optional[Interval]
}

// TrendWeek sums the games of a week, which begins on Monday.
type TrendWeek struct {
	Monday time.Time
	Games  int
	Good   Part
	// Score is the mean of the finished games.
	Score model.Optional[float64]
}

// baselineRacks is how many seen full racks make the baseline.
const baselineRacks = 10

func trendOf(games, first []model.DatedSheet) Trend {
	t := Trend{Games: trendGames(games), Weeks: weeksOf(games)}
	t.Baseline, t.BaselineLevel = baselineOf(first)
	k := gaussian(trendBandwidth)
	for rest := t.Games; len(rest) > 0; {
		n := levelRun(rest)
		t.Rate = append(t.Rate, k.rates(rest[:n])...)
		t.Score = append(t.Score, k.scores(rest[:n])...)
		for _, a := range model.Axes {
			t.Axes[a] = append(t.Axes[a], k.axis(rest[:n], a)...)
		}
		rest = rest[n:]
	}
	return t
}

// levelRun counts the games up to the next break.
func levelRun(games []TrendGame) int {
	for i := 1; i < len(games); i++ {
		if games[i].Break {
			return i
		}
	}
	return len(games)
}

func trendGames(games []model.DatedSheet) []TrendGame {
	out := make([]TrendGame, len(games))
	var before model.Level
	for i, g := range games {
		t := g.Tally
		out[i] = TrendGame{
			ID: g.Game.ID, At: g.At, Good: Part{t.Good, t.Seen}, Score: t.Score, Complete: t.Complete, As: asOf(games[i : i+1]),
		}
		for _, a := range model.Axes {
			if t.AxisSeen[a] > 0 {
				out[i].Axes[a] = model.Known(float64(t.AxisPoints[a]) / float64(t.AxisSeen[a]))
			}
		}
		if len(g.Deliveries) == 0 {
			continue
		}
		out[i].Level = g.Deliveries[0].Level
		out[i].Break = before != "" && out[i].Level != before
		before = out[i].Level
	}
	return out
}

// asOf counts the A's of the seen full racks by axis.
func asOf(games []model.DatedSheet) (as [model.AxisCount]Part) {
	for d := range seenRacks(games) {
		for a, l := range d.Letters {
			as[a] = as[a].with(l == model.A, l != model.NoLetter)
		}
	}
	return as
}

// weeksOf sums games, which are in order, by the week they were bowled in where At is; weeks without a game are left out.
func weeksOf(games []model.DatedSheet) []TrendWeek {
	var out []TrendWeek
	finished, pins := 0, 0
	for _, g := range games {
		monday := mondayOf(g.At)
		if len(out) == 0 || !out[len(out)-1].Monday.Equal(monday) {
			out = append(out, TrendWeek{Monday: monday})
			finished, pins = 0, 0
		}
		w := &out[len(out)-1]
		w.Games++
		w.Good.N += g.Tally.Good
		w.Good.Of += g.Tally.Seen
		if g.Tally.Complete {
			finished++
			pins += g.Tally.Score
			w.Score = model.Known(float64(pins) / float64(finished))
		}
	}
	return out
}

// mondayOf gives the midnight that the week of t began with, as in ISO 8601.
func mondayOf(t time.Time) time.Time {
	sinceMonday := (int(t.Weekday()) + 6) % 7
	return time.Date(t.Year(), t.Month(), t.Day()-sinceMonday, 0, 0, 0, 0, t.Location())
}

func baselineOf(first []model.DatedSheet) (p Part, level model.Level) {
	var evening []model.DatedSheet
	if all := evenings(first); len(all) > 0 {
		evening = all[0]
	}
	for d := range seenRacks(evening) {
		if p.Of == 0 {
			level = d.Level
		}
		p = p.with(d.Good(), true)
		if p.Of == baselineRacks {
			break
		}
	}
	return p, level
}
