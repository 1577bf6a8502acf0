package tui

import (
	"fmt"
	"strings"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// allNumbers gives every figure of the page with what only a statistician reads: intervals, p values, limits, and the
// methods by name.
func (p stripPicture) allNumbers(w int) []string {
	r := p.report()
	var blocks []figureBlock
	if p.reading() {
		blocks = append(blocks, says(p.theme.alert, w-1, "reading earlier games: what hangs on them is not here yet"))
	}
	for _, f := range []func(insight.Report) numbers{
		countNumbers, outcomeNumbers, costNumbers, worthNumbers, cueNumbers, slippingNumbers, ownNumbers, consistencyNumbers,
		spareNumbers, streakNumbers, trendNumbers, nextNumbers,
	} {
		n := f(r)
		block := figureBlock{p.theme.title.on(cut(n.title, w-1))}
		block = append(block, says(ink{}, w-1, n.words...)...)
		for _, fact := range n.facts {
			block = append(block, factLines(fact, w-1, p.theme)...)
		}
		blocks = append(blocks, append(block, says(p.theme.quiet, w-1, "method: "+n.method)...))
	}
	return stacked(blocks)
}

// numbers is one figure: its words, its numbers each with a name, and how it was reckoned.
type numbers struct {
	title  string
	words  []string
	facts  [][2]string
	method string
}

// factLines gives a number beside its name, or below it where there is no room.
func factLines(fact [2]string, w int, t *theme) []string {
	name := 44
	if w < besideWidth {
		name = 30
	}
	label := "  " + fact[0]
	if width(label) <= name-2 && width(fact[1]) <= w-name {
		return []string{t.quiet.on(fit(label, name)) + fact[1]}
	}
	lines := []string{t.quiet.on(cut(label, w))}
	for _, line := range wrap(fact[1], w-4) {
		lines = append(lines, "    "+line)
	}
	return lines
}

// of writes a figure that may be unknown.
func of(o model.Optional[float64], format string) string {
	if !o.Known {
		return "too few to say"
	}
	return fmt.Sprintf(format, o.Value)
}

// within writes a figure with its interval.
func within(o model.Optional[float64], in model.Optional[insight.Interval]) string {
	if !o.Known || !in.Known {
		return of(o, "%.4f")
	}
	return of(o, "%.4f") + "  [" + interval(in, "%.4f") + "]"
}

func interval(o model.Optional[insight.Interval], format string) string {
	if !o.Known {
		return "too few to say"
	}
	return fmt.Sprintf(format+" to "+format, o.Value.Low, o.Value.High)
}

func rate(p insight.Part) string {
	if p.Of == 0 {
		return "0/0  too few to say"
	}
	return fmt.Sprintf("%d/%d  ", p.N, p.Of) + within(p.Rate(), p.Wilson())
}

func countNumbers(r insight.Report) numbers {
	c := r.Counts
	facts := [][2]string{{"good of the seen full racks", rate(c.Good)}, {"good of the seen spare shots", rate(c.Spare)}}
	facts = append(facts, [2]string{"without a letter key",
		fmt.Sprintf("%d of the seen, %d of the good, %d of the spare shots", c.Untouched, c.UntouchedGood, c.SpareUntouched)},
		[2]string{"unseen", fmt.Sprintf("%d full racks, %d spare shots", c.Unseen, c.SpareUnseen)},
		[2]string{"fouls, load", fmt.Sprintf("%d, %d", c.Fouls, c.Load)})
	for _, g := range r.ByGame {
		facts = append(facts, [2]string{fmt.Sprintf("of %s, score %d", g.At.Format("2 January"), g.Score), rate(g.Counts.Good)})
	}
	words := []string{c.Words(), c.WordsRate()}
	for _, d := range r.Drills {
		words = append(words, "drill "+d.Words())
	}
	return numbers{"Counts", words, facts, insight.CountsMethod}
}

func outcomeNumbers(r insight.Report) numbers {
	o := r.Outcome
	words := []string{o.WordsResults(), o.Words()}
	for _, lane := range o.Lanes {
		words = append(words, lane.Sentence())
	}
	return numbers{"Thrown against fell", words, [][2]string{
		{"strikes of good shots", rate(o.WhenGood)}, {"strikes of the others", rate(o.WhenPoor)},
		{"difference", within(o.Difference, o.DifferenceInterval)},
		{"Fisher's exact p", of(o.FisherP, "%.4f")},
		{"pocket hits of the full racks with a hit", rate(o.Pocket)}, {"strikes of the pocket hits", rate(o.Carry)},
	}, insight.OutcomeMethod}
}

func costNumbers(r insight.Report) numbers {
	c := r.Cost
	var facts [][2]string
	for _, a := range model.Axes {
		facts = append(facts, [2]string{a.String() + ": share, mean letter of 4, racks",
			fmt.Sprintf("%.4f, %s, %d", c.ByAxis[a], of(c.Means[a], "%.3f"), c.Watched[a])})
	}
	facts = append(facts, [2]string{"not good, graded of the seen", fmt.Sprintf("%d, %d of %d", c.NotGood, c.Graded, c.Graded+c.Ungraded)},
		[2]string{"in: shots, boards", fmt.Sprintf("%d, %d", c.In.Shots, c.In.Boards)},
		[2]string{"out: shots, boards", fmt.Sprintf("%d, %d", c.Out.Shots, c.Out.Boards)})
	return numbers{"What cost the shots", []string{c.Words(), c.WordsSide(), c.WordsPattern()}, facts, insight.CostMethod}
}

func worthNumbers(r insight.Report) numbers {
	v := r.Worth
	words := append([]string{v.WordsExpected(), v.WordsGood(), v.WordsSingle()}, v.WordsReach()...)
	facts := [][2]string{
		{"expected score", of(v.Expected, "%.2f")}, {"pins for one more good shot a game", of(v.PerGoodShot, "%.2f")},
		{"pins for one more single pin", of(v.PerSingle, "%.2f")},
		{"rate drawn to the level's: good", fmt.Sprintf("%.4f", v.Rates.Good)},
		{"strikes of good shots, of others", fmt.Sprintf("%.4f, %.4f", v.Rates.StrikeGood, v.Rates.StrikePoor)},
		{"spares of single pins, more, splits", fmt.Sprintf("%.4f, %.4f, %.4f", v.Rates.Single, v.Rates.Multi, v.Rates.Split)},
	}
	for _, c := range v.Chances {
		facts = append(facts, [2]string{fmt.Sprintf("chance of at least %d", c.Score), fmt.Sprintf("%.4f", c.Chance)})
	}
	return numbers{"Worth of a good shot", words, facts, insight.WorthMethod}
}

func cueNumbers(r insight.Report) numbers {
	n := numbers{title: "Cues", method: insight.CuesMethod}
	if len(r.Cues) == 0 {
		n.words = []string{"no cue was in force"}
	}
	for _, c := range r.Cues {
		n.facts = append(n.facts, [2]string{clean(c.Cue), fmt.Sprintf(
			"in force on %s, compared on %d; before %s; since %s; chance that the rate since is higher %s",
			plural(c.Evenings, "evening", "evenings"), c.Compared, rate(c.Before), rate(c.Since), of(c.Better, "%.4f"))})
	}
	return n
}

func slippingNumbers(r insight.Report) numbers {
	s := r.Slipping
	ewma := model.Optional[float64]{}
	if len(s.EWMA) > 0 {
		ewma = model.Known(s.EWMA[len(s.EWMA)-1])
	}
	from := "the first ten shots"
	if s.FromGames > 0 {
		from = plural(s.FromGames, "earlier game", "earlier games")
	}
	return numbers{"Slipping", []string{s.Words(), s.WordsLoad()}, [][2]string{
		{"shots", fmt.Sprint(len(s.Points))}, {"smoothed now", of(ewma, "%.4f")}, {"limits", interval(s.Limits, "%.4f")},
		{"target, sd", of(s.Target, "%.4f") + ", " + of(s.SD, "%.4f")}, {"they come from", from},
		{"load of the evening, limit", fmt.Sprintf("%d, %d", s.Load, s.Limit)},
	}, insight.SlippingMethod}
}

func ownNumbers(r insight.Report) numbers {
	o := r.OwnCall
	return numbers{"Own call against the coach's", []string{o.Words()}, [][2]string{
		{"calls", fmt.Sprint(o.Calls)}, {"kappa", of(o.Kappa, "%.4f")}, {"mean difference, plus is kinder", of(o.MeanDifference, "%+.4f")},
		{"kinder, harder", fmt.Sprintf("%d, %d", o.Kinder, o.Harder)},
	}, insight.OwnCallMethod}
}

func consistencyNumbers(r insight.Report) numbers {
	n := numbers{title: "Consistency", words: r.Consistency.Words(), method: insight.ConsistencyMethod}
	for _, s := range []struct {
		name   string
		spread insight.Spread
	}{{"board at the arrows less the one aimed at", r.Consistency.Arrows},
		{"hit in boards from the pocket", r.Consistency.Hit}, {"speed in miles an hour", r.Consistency.SpeedMPH}} {
		n.facts = append(n.facts, [2]string{s.name + ": n, mean, sd, within one", fmt.Sprintf("%d, %s, %s, %s", s.spread.N,
			of(s.spread.Bias, "%+.3f"), of(s.spread.SD, "%.3f"), rate(s.spread.WithinOne))})
	}
	return n
}

func spareNumbers(r insight.Report) numbers {
	s := r.Spares
	n := numbers{title: "Spares", words: []string{s.Words(), s.WordsMissed(), s.WordsOpen()}, method: insight.SparesMethod}
	n.facts = [][2]string{{"single pins", rate(s.Single)}, {"more than one pin", rate(s.Multi)}, {"splits", rate(s.Split)}, {"not named", rate(s.Unknown)},
		{"open frames", rate(s.Open)}}
	var leaves []string
	for _, l := range s.Leaves {
		leaves = append(leaves, fmt.Sprintf("%s %d/%d", l.Leave, l.Made.N, l.Made.Of))
	}
	if len(leaves) > 0 {
		n.words = append(n.words, "made by leave: "+strings.Join(leaves, ", "))
	}
	return n
}

func streakNumbers(r insight.Report) numbers {
	s := r.Streaks
	return numbers{"Streaks", []string{s.Words(), s.WordsAfter(), insight.StreaksCaution}, [][2]string{
		{"good after a good one", rate(s.AfterGood)}, {"good after another", rate(s.AfterPoor)},
		{"runs, by chance", fmt.Sprintf("%d, %.2f", s.Runs, s.Expected)}, {"runs test p", of(s.RunsP, "%.4f")},
		{"longest of good shots", fmt.Sprint(s.Longest)},
	}, insight.StreaksMethod}
}

func trendNumbers(r insight.Report) numbers {
	t := r.Trend
	n := numbers{title: "Trend", words: []string{t.Words(), t.WordsScore(), insight.OneEye}, method: insight.TrendMethod}
	n.facts = [][2]string{{"baseline, the first full racks of the first evening", rate(t.Baseline)}}
	if last := len(t.Games) - 1; last >= 0 {
		n.facts = append(n.facts, [2]string{"smoothed now: good", within(t.Rate[last].Value, t.Rate[last].Band)},
			[2]string{"smoothed now: score", within(t.Score[last].Value, t.Score[last].Band)})
	}
	for i, g := range t.Games {
		fact := fmt.Sprintf("%s good, score %d, %s", g.Good, g.Score, g.Level)
		for _, a := range model.Axes {
			if g.Axes[a].Known {
				fact += fmt.Sprintf(", %s %.2f", axisKeys[a], g.Axes[a].Value)
			}
		}
		if i < len(t.Rate) && t.Rate[i].Value.Known {
			fact += fmt.Sprintf(", smoothed %.3f [%s]", t.Rate[i].Value.Value, interval(t.Rate[i].Band, "%.3f"))
		}
		n.facts = append(n.facts, [2]string{g.At.Format("2 January 2006"), fact})
	}
	return n
}

func nextNumbers(r insight.Report) numbers {
	n := numbers{title: "What to work on next", words: []string{r.Next.What + ": " + r.Next.Why}, method: insight.NextMethod}
	if r.Next.ByCoach {
		n.words = append(n.words, "the figures: "+r.Next.Figures+": "+r.Next.FiguresWhy)
	}
	return n
}
