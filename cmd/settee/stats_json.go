package main

import (
	"encoding/json"
	"io"
	"time"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// statsJSON is every figure as a machine reads it: numbers as they were reckoned, null where a figure has too little behind
// it, times in UTC. What comes to an object later is added at its end.
type statsJSON struct {
	Student struct {
		ID    model.ID    `json:"id"`
		Name  string      `json:"name"`
		Level model.Level `json:"level"`
	} `json:"student"`
	Games       int             `json:"games"`
	Counts      countsJSON      `json:"counts"`
	Outcome     outcomeJSON     `json:"outcome"`
	Cost        costJSON        `json:"cost"`
	Worth       worthJSON       `json:"worth"`
	Cues        []cueJSON       `json:"cues"`
	Slipping    slippingJSON    `json:"slipping"`
	OwnCall     ownCallJSON     `json:"own_call"`
	Consistency consistencyJSON `json:"consistency"`
	Spares      sparesJSON      `json:"spares"`
	Streaks     streaksJSON     `json:"streaks"`
	Trend       trendJSON       `json:"trend"`
	Next        nextJSON        `json:"next"`
	ByGame      []byGameJSON    `json:"by_game"`
	Drills      []drillJSON     `json:"drills"`
}

func writeStatsJSON(w io.Writer, in insight.Input, r insight.Report) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	return e.Encode(statsAsJSON(in, r))
}

func statsAsJSON(in insight.Input, r insight.Report) statsJSON {
	out := statsJSON{
		Games: r.Games, Counts: countsAsJSON(r.Counts), Outcome: outcomeAsJSON(r.Outcome), Cost: costAsJSON(r.Cost),
		Worth: worthAsJSON(r.Worth), Cues: each(r.Cues, cueAsJSON), Slipping: slippingAsJSON(r.Slipping, in.Over),
		OwnCall: ownCallAsJSON(r.OwnCall), Consistency: consistencyAsJSON(r.Consistency), Spares: sparesAsJSON(r.Spares),
		Streaks: streaksAsJSON(r.Streaks), Trend: trendAsJSON(r.Trend), Next: nextAsJSON(r.Next),
		ByGame: each(r.ByGame, byGameAsJSON), Drills: each(r.Drills, drillAsJSON),
	}
	out.Student.ID, out.Student.Name, out.Student.Level = in.Student.ID, in.Student.Name, in.Student.Chosen().Level
	return out
}

type countsJSON struct {
	RacksSeen      int         `json:"racks_seen"`
	Good           int         `json:"good"`
	Rate           *float64    `json:"rate"`
	Interval       *[2]float64 `json:"interval"`
	Untouched      int         `json:"untouched"`
	RacksUnseen    int         `json:"racks_unseen"`
	SpareSeen      int         `json:"spare_shots_seen"`
	SpareGood      int         `json:"spare_shots_good"`
	Fouls          int         `json:"fouls"`
	Load           int         `json:"load"`
	Method         string      `json:"method"`
	UntouchedGood  int         `json:"untouched_good"`
	SpareUntouched int         `json:"spare_shots_untouched"`
	SpareUnseen    int         `json:"spare_shots_unseen"`
}

func countsAsJSON(c insight.Counts) countsJSON {
	return countsJSON{
		RacksSeen: c.Good.Of, Good: c.Good.N, Rate: number(c.Good.Rate()), Interval: interval(c.Good.Wilson()),
		Untouched: c.Untouched, RacksUnseen: c.Unseen, SpareSeen: c.Spare.Of, SpareGood: c.Spare.N, Fouls: c.Fouls,
		Load: c.Load, Method: insight.CountsMethod,
		UntouchedGood: c.UntouchedGood, SpareUntouched: c.SpareUntouched, SpareUnseen: c.SpareUnseen,
	}
}

type byGameJSON struct {
	ID       model.ID   `json:"id"`
	At       string     `json:"at"`
	Session  model.ID   `json:"session"`
	Number   int        `json:"number"`
	Counts   countsJSON `json:"counts"`
	Score    int        `json:"score"`
	Complete bool       `json:"complete"`
}

func byGameAsJSON(g insight.GameCount) byGameJSON {
	return byGameJSON{
		ID: g.Game.ID, At: instant(g.At), Session: g.Game.Session, Number: g.Game.Number, Counts: countsAsJSON(g.Counts),
		Score: g.Score, Complete: g.Complete,
	}
}

type drillJSON struct {
	Name  string `json:"name"`
	Pins  []int  `json:"pins"`
	Balls int    `json:"balls"`
	Good  int    `json:"good"`
	Seen  int    `json:"seen"`
	Made  int    `json:"made"`
	Tried int    `json:"tried"`
}

func drillAsJSON(d insight.DrillCount) drillJSON {
	return drillJSON{d.Name, d.Pins.Numbers(), d.Balls, d.Good.N, d.Good.Of, d.Made.N, d.Made.Of}
}

type cueJSON struct {
	Cue      string    `json:"cue"`
	Evenings int       `json:"evenings"`
	Before   racksJSON `json:"before"`
	Since    racksJSON `json:"since"`
	Better   *float64  `json:"probability_better"`
	Method   string    `json:"method"`
	InForce  int       `json:"racks_in_force"`
	// Compared counts the evenings with racks before and since.
	Compared int `json:"evenings_compared"`
}

// racksJSON are the good of some racks.
type racksJSON struct {
	Good     int         `json:"good"`
	Racks    int         `json:"racks"`
	Interval *[2]float64 `json:"interval"`
}

func racksAsJSON(p insight.Part) racksJSON { return racksJSON{p.N, p.Of, interval(p.Wilson())} }

func cueAsJSON(c insight.CueEffect) cueJSON {
	return cueJSON{
		Cue: c.Cue, Evenings: c.Evenings, Before: racksAsJSON(c.Before), Since: racksAsJSON(c.Since),
		Better: number(c.Better), Method: insight.CuesMethod, InForce: c.InForce, Compared: c.Compared,
	}
}

type nextJSON struct {
	What   string `json:"what"`
	Why    string `json:"why"`
	Method string `json:"method"`
	// Figures is null unless the coach chose otherwise.
	ByCoach bool         `json:"by_coach"`
	Figures *figuresJSON `json:"figures"`
}

type figuresJSON struct {
	What string `json:"what"`
	Why  string `json:"why"`
}

func nextAsJSON(n insight.Next) nextJSON {
	out := nextJSON{What: n.What, Why: n.Why, Method: insight.NextMethod, ByCoach: n.ByCoach}
	if n.ByCoach {
		out.Figures = &figuresJSON{n.Figures, n.FiguresWhy}
	}
	return out
}

// number gives a number, or null where it is not known.
func number(v model.Optional[float64]) *float64 {
	if !v.Known {
		return nil
	}
	return &v.Value
}

// interval gives both ends, or null where they are not known.
func interval(v model.Optional[insight.Interval]) *[2]float64 {
	if !v.Known {
		return nil
	}
	return &[2]float64{v.Value.Low, v.Value.High}
}

// levelOf gives a level, or null where there is none.
func levelOf(l model.Level) *model.Level {
	if l == "" {
		return nil
	}
	return &l
}

// instant writes a time as RFC 3339 does, in UTC.
func instant(t time.Time) string { return t.UTC().Format(time.RFC3339) }

// each gives a list of what f makes of the parts of another, empty rather than null.
func each[T, U any](list []T, f func(T) U) []U {
	out := make([]U, 0, len(list))
	for _, v := range list {
		out = append(out, f(v))
	}
	return out
}
