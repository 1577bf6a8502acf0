package handout

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// ring draws a game's good shots against the goal.
type ring struct {
	Name string
	Good int
	Of   string
	// On and Off are the lengths of the drawn and of the other part of the circle, which is 100 long.
	On, Off int
	Alt     string
}

// rings give the good count of each game against the goal; of the last ones where there are many, and to the gentle none
// that is nought.
func (t told) rings() []ring {
	goal := t.chosen.Goal.Whole()
	var out []ring
	for i, g := range t.games() {
		if g.Tally.Seen == 0 || t.gentle() && g.Tally.Good == 0 {
			continue
		}
		r := ring{Name: fmt.Sprintf("Game %d", i+1), Good: g.Tally.Good, Of: fmt.Sprintf("goal %d", goal)}
		r.On = min(100, 100*r.Good/max(goal, 1))
		r.Off = 100 - r.On
		r.Alt = fmt.Sprintf("%s: %d good, goal %d", r.Name, r.Good, goal)
		out = append(out, r)
	}
	return out[max(0, len(out)-mostStrips):]
}

// moved is the number that moved most clearly.
type moved struct {
	// Now and Then are the rates as they are shown, What says of what, Counts from which counts.
	Now, Then    string
	What, Counts string
	// of is the axis, or insight.SinglePins, that it is of; down tells that it fell.
	of   string
	down bool
}

// moved gives the one number that moved since the games before: of what is worked on, else of the good shots, else of what
// moved furthest beyond chance. A number moved where Newcombe's interval of the difference leaves zero out; for gentle only
// up. With too few shots on either side there is none.
func (t told) moved() *moved {
	var best *moved
	far := 0.0
	for _, c := range t.candidates() {
		if c.now.Of < fewestShots || c.before.Of < fewestShots {
			continue
		}
		diff, in := c.now.Difference(c.before)
		up, down := in.Value.Low > 0, in.Value.High < 0
		if !up && (!down || t.gentle()) {
			continue
		}
		beyond := math.Abs(diff.Value) / (in.Value.High - in.Value.Low)
		if c.first {
			return t.movedBy(c, down)
		}
		if best == nil || beyond > far {
			best, far = t.movedBy(c, down), beyond
		}
	}
	return best
}

// candidate is a number that may have moved.
type candidate struct {
	of, what    string
	now, before insight.Part
	// first tells that it goes before the others.
	first bool
}

func (t told) candidates() []candidate {
	focus := t.Figures.Student.Focus
	var first, rest []candidate
	for _, a := range model.Axes {
		what := a.String() + " graded A"
		if t.dots() {
			what = a.String() + " just right"
		}
		c := candidate{a.String(), what, asOn(t.now, a), asOn(t.before, a), focus == a.String()}
		if c.first {
			first = append(first, c)
		} else {
			rest = append(rest, c)
		}
	}
	first = append(first, candidate{"", "good shots", t.now.Counts.Good, t.before.Counts.Good, true})
	return slices.Concat(first, rest, []candidate{
		{insight.SinglePins, "single pins made", t.now.Spares.Single, t.before.Spares.Single, false},
		{"", "hits in the pocket", t.now.Outcome.Pocket, t.before.Outcome.Pocket, false},
	})
}

// asOn sums the A's on an axis.
func asOn(r insight.Report, a model.Axis) (sum insight.Part) {
	for _, g := range r.Trend.Games {
		sum.N += g.As[a].N
		sum.Of += g.As[a].Of
	}
	return sum
}

func (t told) movedBy(c candidate, down bool) *moved {
	m := &moved{
		Now: c.now.Percent(), Then: c.before.Percent(), What: c.what,
		Counts: fmt.Sprintf("tonight %s, before %s", c.now, c.before), of: c.of, down: down,
	}
	if t.gentle() {
		m.Now, m.Then = inTen(c.now), inTen(c.before)
		m.Counts = ""
	}
	return m
}

// inTen says a rate as "6 in 10".
func inTen(p insight.Part) string { return fmt.Sprintf("%.0f in 10", 10*p.Rate().Value) }

// costs are what the shots cost that were not good.
type costs struct {
	Head  string
	Bars  []bar
	Notes []string
	Alt   string
}

// bar is one axis's share, Length of 100.
type bar struct {
	Name, Value string
	Length      int
}

// costs are told of enough shots, and to nobody who gets dots.
func (t told) costs() *costs {
	c := t.now.Cost
	if t.dots() || c.Graded < fewestShots || c.NotGood == 0 {
		return nil
	}
	out := &costs{Head: "What cost the other " + model.NumberOf(c.NotGood, "shot"), Alt: c.Words()}
	if c.NotGood == 1 {
		out.Head = "What cost the other shot"
	}
	most := slices.Max(c.ByAxis[:])
	for _, a := range model.Axes {
		if c.Watched[a] == 0 {
			continue
		}
		out.Bars = append(out.Bars, bar{a.String(), tenths(c.ByAxis[a]), int(math.Round(100 * c.ByAxis[a] / most))})
	}
	for _, words := range []string{c.WordsSide(), c.WordsPattern()} {
		if words != "" {
			out.Notes = append(out.Notes, words)
		}
	}
	return out
}

func tenths(x float64) string { return strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64) }

// results set how it was thrown against what fell, for those who get letters.
type results struct{ Earned, Unlucky, Lucky, Missed int }

func (t told) results() *results {
	o := t.now.Outcome
	if t.dots() || o.WhenGood.Of+o.WhenPoor.Of < fewestShots {
		return nil
	}
	return &results{o.Earned, o.Unlucky, o.Lucky, o.Missed}
}

// trend is the way since the baseline.
type trend struct {
	Words string
	// Points are the games' rates of good shots, as places in a picture 300 wide and 60 high, Path the smoothed rate.
	Points []point
	Path   string
	// Base is the baseline's height there.
	Base int
	// Note says how to read it.
	Note string
	Alt  string
}

type point struct {
	X, Y int
	// Tonight tells a game of the evening.
	Tonight bool
}

// trendLine tells the good shots against the first ten of the first evening: not on that evening, not across a change of
// level, and to the gentle only where they are more.
func (t told) trendLine() *trend {
	base, now := t.trend.Baseline, t.now.Counts.Good
	first, games := t.Figures.First, t.games()
	if base.Of < fewestShots || now.Of < fewestShots || len(first) == 0 || len(games) == 0 ||
		first[0].Game.Session == games[0].Game.Session || t.trend.BaselineLevel != levelOf(t.Figures.Over) {
		return nil
	}
	if t.gentle() {
		if now.Rate().Value <= base.Rate().Value {
			return nil
		}
		return &trend{Words: fmt.Sprintf("Tonight more of your shots were good than when you began: %s.", now)}
	}
	out := &trend{Words: fmt.Sprintf("At the start %s good, tonight %s.", base, now)}
	t.draw(out)
	return out
}

// fewestDrawn is how many games make a picture.
const fewestDrawn = 3

const trendNote = "a dot a game, tonight large; dashed: the start; as one coach saw it"

// The picture of the trend: its width, its height, and the room around the points.
const trendWidth, trendHeight, trendEdge = 300, 60, 6

// draw puts the games of this level into the picture.
func (t told) draw(out *trend) {
	var drawn []int
	for i := len(t.trend.Games) - 1; i >= 0; i-- {
		if t.trend.Games[i].Good.Of > 0 {
			drawn = append(drawn, i)
		}
		if t.trend.Games[i].Break {
			break
		}
	}
	if len(drawn) < fewestDrawn {
		return
	}
	slices.Reverse(drawn)
	tonight := t.games()[0].Game.Session
	height := func(rate float64) int { return trendEdge + int((1-rate)*(trendHeight-2*trendEdge)+.5) }
	for n, i := range drawn {
		x := trendEdge + n*(trendWidth-2*trendEdge)/(len(drawn)-1)
		g := t.trend.Games[i]
		out.Points = append(out.Points, point{x, height(g.Good.Rate().Value), t.isOf(g.ID, tonight)})
		if s := t.trend.Rate[i].Value; s.Known {
			step := "L"
			if out.Path == "" {
				step = "M"
			}
			out.Path += fmt.Sprintf("%s%d %d ", step, x, height(s.Value))
		}
	}
	out.Base = height(t.trend.Baseline.Rate().Value)
	out.Note = trendNote
	out.Alt = fmt.Sprintf("good shots in the last %d games beside those at the start, as one coach saw it", len(drawn))
}

func (t told) isOf(game, session model.ID) bool {
	return slices.ContainsFunc(t.Figures.Over, func(s model.DatedSheet) bool {
		return s.Game.ID == game && s.Game.Session == session
	})
}
