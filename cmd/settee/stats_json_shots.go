package main

import (
	"maps"

	"coach.settee/model"
	"coach.settee/model/insight"
)

type outcomeJSON struct {
	Earned             int         `json:"earned"`
	Unlucky            int         `json:"unlucky"`
	Lucky              int         `json:"lucky"`
	Missed             int         `json:"missed"`
	WhenGood           *float64    `json:"strike_when_good"`
	WhenPoor           *float64    `json:"strike_when_poor"`
	Difference         *float64    `json:"difference"`
	DifferenceInterval *[2]float64 `json:"difference_interval"`
	FisherP            *float64    `json:"fisher_p"`
	Pocket             pocketJSON  `json:"pocket"`
	Carry              *float64    `json:"carry"`
	Method             string      `json:"method"`
	WhenGoodInterval   *[2]float64 `json:"strike_when_good_interval"`
	WhenPoorInterval   *[2]float64 `json:"strike_when_poor_interval"`
	CarryInterval      *[2]float64 `json:"carry_interval"`
	Lanes              []laneJSON  `json:"lanes"`
}

// pocketJSON are the pocket hits of the racks whose hit is known, and the strikes of those hits.
type pocketJSON struct {
	Hits     int         `json:"hits"`
	Racks    int         `json:"racks"`
	Strikes  int         `json:"strikes"`
	Rate     *float64    `json:"rate"`
	Interval *[2]float64 `json:"interval"`
}

type laneJSON struct {
	Lane  int `json:"lane"`
	Racks int `json:"racks"`
	// Pocket may be more than the word's count: a hit that was called otherwise is one too when its boards say so.
	Pocket int               `json:"pocket"`
	Words  map[model.Hit]int `json:"words"`
}

func outcomeAsJSON(o insight.Outcome) outcomeJSON {
	return outcomeJSON{
		Earned: o.Earned, Unlucky: o.Unlucky, Lucky: o.Lucky, Missed: o.Missed,
		WhenGood: number(o.WhenGood.Rate()), WhenPoor: number(o.WhenPoor.Rate()),
		Difference: number(o.Difference), DifferenceInterval: interval(o.DifferenceInterval), FisherP: number(o.FisherP),
		Pocket: pocketJSON{
			Hits: o.Pocket.N, Racks: o.Pocket.Of, Strikes: o.Carry.N,
			Rate: number(o.Pocket.Rate()), Interval: interval(o.Pocket.Wilson()),
		},
		Carry: number(o.Carry.Rate()), Method: insight.OutcomeMethod,
		WhenGoodInterval: interval(o.WhenGood.Wilson()), WhenPoorInterval: interval(o.WhenPoor.Wilson()),
		CarryInterval: interval(o.Carry.Wilson()),
		Lanes: each(o.Lanes, func(l insight.LaneHits) laneJSON {
			words := maps.Clone(l.Words)
			if words == nil {
				words = map[model.Hit]int{}
			}
			return laneJSON{l.Lane, l.Pocket.Of, l.Pocket.N, words}
		}),
	}
}

type costJSON struct {
	axesJSON[float64]
	NotGood int                `json:"not_good"`
	Side    sideJSON           `json:"side"`
	Method  string             `json:"method"`
	Means   axesJSON[*float64] `json:"means"`
	Watched axesJSON[int]      `json:"watched"`
	// Pattern is null where no shot was less than good.
	Pattern  *patternJSON `json:"pattern"`
	Ungraded int          `json:"ungraded"`
	Graded   int          `json:"graded"`
}

// axesJSON is a value for each axis.
type axesJSON[T any] struct {
	Balance T `json:"balance"`
	Target  T `json:"target"`
	Release T `json:"release"`
	Finish  T `json:"finish"`
}

func axesAsJSON[T, U any](by [model.AxisCount]T, f func(T) U) axesJSON[U] {
	return axesJSON[U]{f(by[model.Balance]), f(by[model.Target]), f(by[model.Release]), f(by[model.Finish])}
}

func same[T any](v T) T { return v }

// sideJSON are the shots that were not good and missed the target on a side, and their boards in all.
type sideJSON struct {
	In        int `json:"in"`
	Out       int `json:"out"`
	InBoards  int `json:"in_boards"`
	OutBoards int `json:"out_boards"`
}

type patternJSON struct {
	Letters []string `json:"letters"`
	Count   int      `json:"count"`
}

func costAsJSON(c insight.Cost) costJSON {
	out := costJSON{
		axesJSON: axesAsJSON(c.ByAxis, same[float64]), NotGood: c.NotGood,
		Side: sideJSON{c.In.Shots, c.Out.Shots, c.In.Boards, c.Out.Boards}, Method: insight.CostMethod,
		Means: axesAsJSON(c.Means, number), Watched: axesAsJSON(c.Watched, same[int]), Ungraded: c.Ungraded, Graded: c.Graded,
	}
	if c.PatternCount > 0 {
		out.Pattern = &patternJSON{each(c.Pattern[:], model.Letter.String), c.PatternCount}
	}
	return out
}

type worthJSON struct {
	Expected    *float64 `json:"expected_score"`
	PerGoodShot *float64 `json:"pins_per_good_shot"`
	Method      string   `json:"method"`
	PerSingle   *float64 `json:"pins_per_single_spare"`
	// Rates is null where the score is.
	Chances []chanceJSON `json:"chances"`
	Rates   *ratesJSON   `json:"rates"`
	Racks   int          `json:"racks"`
}

type chanceJSON struct {
	Score  int     `json:"score"`
	Chance float64 `json:"chance"`
}

type ratesJSON struct {
	Good       float64     `json:"good"`
	StrikeGood float64     `json:"strike_when_good"`
	StrikePoor float64     `json:"strike_when_poor"`
	Single     float64     `json:"single"`
	Multi      float64     `json:"multi"`
	Split      float64     `json:"split"`
	FirstBall  [10]float64 `json:"first_ball"`
	SplitOf    [11]float64 `json:"split_of"`
	// Missed is by the pins left.
	Missed [11][10]float64 `json:"missed"`
}

func worthAsJSON(v insight.Worth) worthJSON {
	out := worthJSON{
		Expected: number(v.Expected), PerGoodShot: number(v.PerGoodShot), Method: insight.WorthMethod,
		PerSingle: number(v.PerSingle), Racks: v.Racks,
		Chances: each(v.Chances, func(c insight.ScoreChance) chanceJSON { return chanceJSON(c) }),
	}
	if v.Expected.Known {
		r := v.Rates
		out.Rates = &ratesJSON{r.Good, r.StrikeGood, r.StrikePoor, r.Single, r.Multi, r.Split, r.FirstBall, r.SplitOf, r.Missed}
	}
	return out
}

type consistencyJSON struct {
	Arrows spreadJSON `json:"arrows"`
	Hit    spreadJSON `json:"hit"`
	Method string     `json:"method"`
	// SpeedMPH has its mean for the bias.
	SpeedMPH spreadJSON `json:"speed_mph"`
}

type spreadJSON struct {
	N         int      `json:"n"`
	Bias      *float64 `json:"bias"`
	SD        *float64 `json:"sd"`
	WithinOne *float64 `json:"within_one"`
	// WithinOneCount is of N.
	WithinOneCount    int         `json:"within_one_count"`
	WithinOneInterval *[2]float64 `json:"within_one_interval"`
}

func consistencyAsJSON(c insight.Consistency) consistencyJSON {
	return consistencyJSON{
		Arrows: spreadAsJSON(c.Arrows), Hit: spreadAsJSON(c.Hit), Method: insight.ConsistencyMethod,
		SpeedMPH: spreadAsJSON(c.SpeedMPH),
	}
}

func spreadAsJSON(s insight.Spread) spreadJSON {
	return spreadJSON{
		N: s.N, Bias: number(s.Bias), SD: number(s.SD), WithinOne: number(s.WithinOne.Rate()),
		WithinOneCount: s.WithinOne.N, WithinOneInterval: interval(s.WithinOne.Wilson()),
	}
}

type sparesJSON struct {
	Single madeJSON    `json:"single"`
	Multi  madeJSON    `json:"multi"`
	Split  madeJSON    `json:"split"`
	Leaves []leaveJSON `json:"leaves"`
	Open   int         `json:"open_frames"`
	Method string      `json:"method"`
	Frames int         `json:"frames"`
	// Unnamed are leaves of more than one pin that were not named.
	Unnamed madeJSON `json:"unnamed"`
}

type madeJSON struct {
	Made     int         `json:"made"`
	Tried    int         `json:"tried"`
	Interval *[2]float64 `json:"interval"`
}

type leaveJSON struct {
	Leave string `json:"leave"`
	madeJSON
}

func madeAsJSON(p insight.Part) madeJSON { return madeJSON{p.N, p.Of, interval(p.Wilson())} }

func sparesAsJSON(s insight.Spares) sparesJSON {
	return sparesJSON{
		Single: madeAsJSON(s.Single), Multi: madeAsJSON(s.Multi), Split: madeAsJSON(s.Split),
		Leaves: each(s.Leaves, func(l insight.LeaveCount) leaveJSON {
			return leaveJSON{l.Leave.String(), madeAsJSON(l.Made)}
		}),
		Open: s.Open.N, Method: insight.SparesMethod, Frames: s.Open.Of, Unnamed: madeAsJSON(s.Unknown),
	}
}
