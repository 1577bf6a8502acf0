package main

import (
	"time"

	"coach.settee/model"
	"coach.settee/model/insight"
)

type slippingJSON struct {
	Points    []float64   `json:"points"`
	EWMA      []float64   `json:"ewma"`
	Limits    *[2]float64 `json:"limits"`
	Since     *shotJSON   `json:"since"`
	Method    string      `json:"method"`
	Target    *float64    `json:"target"`
	SD        *float64    `json:"sd"`
	FromGames int         `json:"from_games"`
	Load      int         `json:"load"`
	// LoadLimit is null where the student has none.
	LoadLimit *int `json:"load_limit"`
	// Until is where what slipped was back.
	Until *shotJSON `json:"until"`
}

// shotJSON names a delivery: its game, with its number in the evening, its frame, its id, and its place in the points
// from 1.
type shotJSON struct {
	Game     model.ID `json:"game"`
	Number   int      `json:"number"`
	Frame    int      `json:"frame"`
	Delivery model.ID `json:"delivery"`
	Shot     int      `json:"shot"`
}

func slippingAsJSON(s insight.Slipping, over []model.DatedSheet) slippingJSON {
	out := slippingJSON{
		Points: each(s.Points, same[float64]), EWMA: each(s.EWMA, same[float64]), Limits: interval(s.Limits),
		Method: insight.SlippingMethod, Target: number(s.Target), SD: number(s.SD), FromGames: s.FromGames, Load: s.Load,
	}
	shot := func(at model.Optional[int]) *shotJSON {
		if !at.Known {
			return nil
		}
		d := s.Shots[at.Value]
		return &shotJSON{d.Game, numberOf(d.Game, over), d.Frame, d.ID, at.Value + 1}
	}
	out.Since, out.Until = shot(s.Since), shot(s.Until)
	if s.Limit > 0 {
		out.LoadLimit = &s.Limit
	}
	return out
}

// numberOf gives a game's number in its evening.
func numberOf(game model.ID, over []model.DatedSheet) int {
	for _, s := range over {
		if s.Sheet.Game.ID == game {
			return s.Sheet.Game.Number
		}
	}
	return 0
}

type ownCallJSON struct {
	Calls          int      `json:"calls"`
	Kappa          *float64 `json:"kappa"`
	MeanDifference *float64 `json:"mean_difference"`
	Kinder         int      `json:"kinder"`
	Harder         int      `json:"harder"`
	Method         string   `json:"method"`
}

func ownCallAsJSON(o insight.OwnCall) ownCallJSON {
	return ownCallJSON{
		Calls: o.Calls, Kappa: number(o.Kappa), MeanDifference: number(o.MeanDifference), Kinder: o.Kinder,
		Harder: o.Harder, Method: insight.OwnCallMethod,
	}
}

type streaksJSON struct {
	AfterGood racksJSON `json:"good_after_good"`
	AfterPoor racksJSON `json:"good_after_poor"`
	RunsP     *float64  `json:"runs_p"`
	Method    string    `json:"method"`
	Runs      int       `json:"runs"`
	Longest   int       `json:"longest"`
	// Expected is the mean of the runs by chance.
	Expected float64 `json:"runs_expected"`
}

func streaksAsJSON(s insight.Streaks) streaksJSON {
	return streaksJSON{
		AfterGood: racksAsJSON(s.AfterGood), AfterPoor: racksAsJSON(s.AfterPoor), RunsP: number(s.RunsP),
		Method: insight.StreaksMethod, Runs: s.Runs, Longest: s.Longest, Expected: s.Expected,
	}
}

type trendJSON struct {
	Games     []trendGameJSON `json:"games"`
	Smooth    []*float64      `json:"smooth"`
	Band      []*[2]float64   `json:"band"`
	Baseline  baselineJSON    `json:"baseline"`
	Method    string          `json:"method"`
	Score     []*float64      `json:"smooth_score"`
	ScoreBand []*[2]float64   `json:"band_score"`
	Weeks     []weekJSON      `json:"weeks"`
	// Axes are the smoothed mean letter points, 0 to 4.
	Axes axesJSON[smoothJSON] `json:"axes"`
}

// smoothJSON is a smoothed line with its band, a point a game.
type smoothJSON struct {
	Smooth []*float64    `json:"smooth"`
	Band   []*[2]float64 `json:"band"`
}

type trendGameJSON struct {
	ID       model.ID           `json:"id"`
	At       string             `json:"at"`
	Good     int                `json:"good"`
	Seen     int                `json:"seen"`
	Score    int                `json:"score"`
	Level    *model.Level       `json:"level"`
	Complete bool               `json:"complete"`
	Axes     axesJSON[*float64] `json:"axes"`
	Break    bool               `json:"break"`
}

type baselineJSON struct {
	Good     int          `json:"good"`
	Seen     int          `json:"seen"`
	Interval *[2]float64  `json:"interval"`
	Level    *model.Level `json:"level"`
}

type weekJSON struct {
	// Monday is the day on which the week begins.
	Monday string   `json:"monday"`
	Games  int      `json:"games"`
	Good   int      `json:"good"`
	Seen   int      `json:"seen"`
	Score  *float64 `json:"score"`
}

func trendAsJSON(t insight.Trend) trendJSON {
	rate, score := smoothAsJSON(t.Rate), smoothAsJSON(t.Score)
	return trendJSON{
		Games: each(t.Games, func(g insight.TrendGame) trendGameJSON {
			return trendGameJSON{
				ID: g.ID, At: instant(g.At), Good: g.Good.N, Seen: g.Good.Of, Score: g.Score, Level: levelOf(g.Level),
				Complete: g.Complete, Axes: axesAsJSON(g.Axes, number), Break: g.Break,
			}
		}),
		Smooth: rate.Smooth, Band: rate.Band,
		Baseline: baselineJSON{t.Baseline.N, t.Baseline.Of, interval(t.Baseline.Wilson()), levelOf(t.BaselineLevel)},
		Method:   insight.TrendMethod, Score: score.Smooth, ScoreBand: score.Band,
		Weeks: each(t.Weeks, func(w insight.TrendWeek) weekJSON {
			return weekJSON{w.Monday.Format(time.DateOnly), w.Games, w.Good.N, w.Good.Of, number(w.Score)}
		}),
		Axes: axesAsJSON(t.Axes, smoothAsJSON),
	}
}

func smoothAsJSON(points []insight.Smooth) smoothJSON {
	return smoothJSON{
		Smooth: each(points, func(s insight.Smooth) *float64 { return number(s.Value) }),
		Band:   each(points, func(s insight.Smooth) *[2]float64 { return interval(s.Band) }),
	}
}
