package main

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"coach.settee/model"
	"coach.settee/model/insight"
)

func (p *statsPage) slipping(s insight.Slipping) {
	p.section("slipping in the evening")
	p.say(s.Words(), s.WordsLoad())
	if len(s.Points) > 0 {
		from := "the first ten shots"
		if s.FromGames > 0 {
			from = model.NumberOf(s.FromGames, "earlier game")
		}
		p.note("%s; target %s, sd %s from %s; smoothed now %.4f, limits %s (%s)", model.NumberOf(len(s.Points), "shot"),
			figure(s.Target), figure(s.SD), from, s.EWMA[len(s.EWMA)-1], ends(s.Limits), insight.SlippingMethod)
	}
	p.note("load of the evening: %d", s.Load)
	if s.Limit > 0 {
		p.note("The limit of %d is one the coach has set; how much is right is for the student and licensed practice to say.", s.Limit)
	}
}

func (p *statsPage) ownCall(o insight.OwnCall) {
	p.section("own call and the coach's")
	p.say(o.Words())
	if o.Calls > 0 {
		p.note("kappa %s over %s, mean difference %s on the 4-point scale, plus is kinder (%s)", figure(o.Kappa),
			model.NumberOf(o.Calls, "call"), signed(o.MeanDifference), insight.OwnCallMethod)
	}
}

func signed(v model.Optional[float64]) string {
	if !v.Known {
		return figure(v)
	}
	return fmt.Sprintf("%+.4f", v.Value)
}

func (p *statsPage) streaks(s insight.Streaks) {
	p.section("streaks")
	p.say(s.Words())
	if s.Runs == 0 {
		return
	}
	p.say(s.WordsAfter(), insight.StreaksCaution)
	p.share("good after a good one", s.AfterGood)
	p.share("good after another", s.AfterPoor)
	p.note("%s, by chance %.4f, p %s; longest of good shots %d (%s)", model.NumberOf(s.Runs, "run"), s.Expected, figure(s.RunsP),
		s.Longest, insight.StreaksMethod)
}

func (p *statsPage) trend(t insight.Trend) {
	p.section("trend")
	p.say(t.Words(), t.WordsScore(), insight.OneEye)
	p.trendGames(t)
	p.trendWeeks(t)
	p.share("baseline, the first full racks of the first evening", t.Baseline)
	p.trendAxes(t)
	p.note("(%s)", insight.TrendMethod)
}

// trendGames draws a line for each game: its rate of good shots, the smoothed one, and the band around that.
func (p *statsPage) trendGames(t insight.Trend) {
	const columns = 41
	shown := latest(t.Games, pageGames)
	if len(shown) == 0 {
		return
	}
	fmt.Fprintf(&p.Builder, "  %-10s  %8s  %5s  0%%%s100%%\n", "game", "good", "score", strings.Repeat(" ", columns-6))
	for i, g := range shown {
		score := fmt.Sprint(g.Score)
		if !g.Complete {
			score += "+"
		}
		rate := t.Rate[len(t.Games)-len(shown)+i]
		fmt.Fprintf(&p.Builder, "  %-10s  %8s  %5s  %s", g.At.Format(time.DateOnly), g.Good, score, trendLine(g.Good.Rate(), rate, columns))
		if g.Break {
			fmt.Fprintf(&p.Builder, " %s", g.Level)
		}
		p.WriteString("\n")
	}
	p.note("o a game's rate, * the smoothed one, - its 95%% band; + is unfinished; a level is named where it changed")
	p.left(len(t.Games), len(shown), "games")
	if last := t.Rate[len(t.Rate)-1]; last.Value.Known {
		p.note("smoothed now: good %s %s; score %s %s", figure(last.Value), ends(last.Band),
			figure(t.Score[len(t.Score)-1].Value), ends(t.Score[len(t.Score)-1].Band))
	}
}

func trendLine(rate model.Optional[float64], smooth insight.Smooth, columns int) string {
	line := []byte(strings.Repeat(" ", columns))
	at := func(v float64) int { return min(max(int(math.Round(v*float64(columns-1))), 0), columns-1) }
	if smooth.Band.Known {
		for i := at(smooth.Band.Value.Low); i <= at(smooth.Band.Value.High); i++ {
			line[i] = '-'
		}
	}
	if rate.Known {
		line[at(rate.Value)] = 'o'
	}
	if smooth.Value.Known {
		line[at(smooth.Value.Value)] = '*'
	}
	return strings.TrimRight(string(line), " ")
}

func (p *statsPage) trendWeeks(t insight.Trend) {
	shown := latest(t.Weeks, pageWeeks)
	for _, w := range shown {
		score := "none finished"
		if w.Score.Known {
			score = fmt.Sprintf("mean score %.1f", w.Score.Value)
		}
		p.note("week of %s: %s, %s good, %s", w.Monday.Format(time.DateOnly), model.NumberOf(w.Games, "game"), w.Good, score)
	}
	p.left(len(t.Weeks), len(shown), "weeks")
}

// trendAxes tells the smoothed letters of each axis at the first game of the level now and at the last game.
func (p *statsPage) trendAxes(t insight.Trend) {
	var lines []string
	for _, a := range model.Axes {
		if first, now := t.Axis(a); now.Value.Known {
			lines = append(lines, fmt.Sprintf("  %-8s  %s, now %s %s\n", a, figure(first.Value), figure(now.Value), ends(now.Band)))
		}
	}
	switch {
	case len(t.Games) == 0:
	case len(lines) == 0:
		p.note("mean letters: too few games to say")
	case slices.ContainsFunc(t.Games, func(g insight.TrendGame) bool { return g.Break }):
		p.note("mean letters smoothed, 4 is A: at the first game of the level now, and now with the 95%% band")
	default:
		p.note("mean letters smoothed, 4 is A: at the first game, and now with the 95%% band")
	}
	p.WriteString(strings.Join(lines, ""))
}

func (p *statsPage) next(n insight.Next) {
	p.section("what to work on next")
	p.say(n.What, n.Why)
	if n.ByCoach {
		p.say("the figures would have chosen "+n.Figures, n.FiguresWhy)
	}
	p.note("(%s)", insight.NextMethod)
}
