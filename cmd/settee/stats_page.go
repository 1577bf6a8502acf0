package main

import (
	"fmt"
	"io"
	"strings"
	"time"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// pageGames, pageWeeks, pageCues and pageLeaves are how many of them the page lists: a page of all that was ever bowled
// would be read by nobody.
const pageGames, pageWeeks, pageCues, pageLeaves = 20, 12, 20, 16

// statsPage is the figures as text: in words for the coach first, below them the numbers that a statistician reads.
type statsPage struct{ textPage }

func writeStatsPage(w io.Writer, in insight.Input, r insight.Report) error {
	var p statsPage
	p.head(in, r)
	p.counts(r)
	p.outcome(r.Outcome)
	p.cost(r)
	p.worth(r.Worth)
	p.cues(r.Cues)
	p.slipping(r.Slipping)
	p.ownCall(r.OwnCall)
	p.consistency(r.Consistency)
	p.spares(r.Spares)
	p.streaks(r.Streaks)
	p.trend(r.Trend)
	p.next(r.Next)
	_, err := io.WriteString(w, p.String())
	return err
}

func (p *statsPage) head(in insight.Input, r insight.Report) {
	p.flow("", "%s (%s): every figure", in.Student.Name, in.Student.Chosen().Level)
	over := model.NumberOf(r.Games, "game")
	if len(in.Over) > 0 {
		first, last := in.Over[0].At.Format(time.DateOnly), in.Over[len(in.Over)-1].At.Format(time.DateOnly)
		over += ", " + first
		if last != first {
			over += " to " + last
		}
	}
	p.flow("", "Over %s. Only games count, but for the load and the drills. Numbers in brackets are the ends of intervals: "+
		"what so many shots leave likely (%s). The letters behind all of it are one coach's.", over, insight.CountsMethod)
}

// section begins a part of the page.
func (p *statsPage) section(title string) { p.WriteString("\n" + strings.ToUpper(title) + "\n") }

// say puts words under a section's title, each of them on lines of its own; empty ones are left out.
func (p *statsPage) say(words ...string) {
	for _, w := range words {
		if w != "" {
			p.flow("  ", "%s", w)
		}
	}
}

// note is say for a line of numbers.
func (p *statsPage) note(format string, args ...any) { p.flow("  ", format, args...) }

// share is note for a count with its rate, where there is any.
func (p *statsPage) share(of string, part insight.Part) {
	if part.Of > 0 {
		p.note("%s: %s", of, share(part))
	}
}

// share writes a count with its rate and the rate's interval: "8 of 22, 0.3636 [0.1973, 0.5705]".
func share(p insight.Part) string {
	if p.Of == 0 {
		return "none"
	}
	return fmt.Sprintf("%s, %s %s", p, figure(p.Rate()), ends(p.Wilson()))
}

// figure writes a number with four places, as tables of statistics do.
func figure(v model.Optional[float64]) string {
	if !v.Known {
		return "not known"
	}
	return fmt.Sprintf("%.4f", v.Value)
}

func ends(v model.Optional[insight.Interval]) string {
	if !v.Known {
		return "[not known]"
	}
	return fmt.Sprintf("[%.4f, %.4f]", v.Value.Low, v.Value.High)
}

// bar draws a part of a whole in so many columns.
func bar(part, whole float64, columns int) string {
	n := 0
	if whole > 0 {
		n = int(part/whole*float64(columns) + .5)
	}
	return strings.Repeat("#", min(max(n, 0), columns))
}

// latest gives the last n of a list.
func latest[T any](list []T, n int) []T { return list[max(0, len(list)-n):] }

// left tells that a list was cut.
func (p *statsPage) left(all, shown int, things string) {
	if all > shown {
		p.note("(%d of %d %s; --json has them all)", shown, all, things)
	}
}
