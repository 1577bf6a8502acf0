package main

import (
	"fmt"
	"strings"

	"coach.settee/model"
	"coach.settee/model/insight"
)

func (p *statsPage) counts(r insight.Report) {
	c := r.Counts
	p.section("good shots")
	p.say(c.Words(), c.WordsRate(), c.WordsSpare())
	p.share("good of the seen full racks", c.Good)
	p.share("good of the seen spare shots", c.Spare)
	p.note("without a letter key: %d of the seen, %d of the good, %d of the spare shots", c.Untouched, c.UntouchedGood,
		c.SpareUntouched)
	p.note("fouls %d; load %d, warm-ups, drills, unseen and dead balls included", c.Fouls, c.Load)
	for _, d := range r.Drills {
		p.say(d.Words())
	}
}

func (p *statsPage) outcome(o insight.Outcome) {
	p.section("how it was thrown and what fell")
	p.say(o.WordsResults(), o.Words(), o.WordsPocket(), o.WordsCarry())
	for _, l := range o.Lanes {
		p.say(l.Sentence())
	}
	if o.WhenGood.Of+o.WhenPoor.Of > 0 {
		p.twoByTwo(o)
	}
	p.share("pocket hits of the full racks with a hit", o.Pocket)
	p.share("strikes of the pocket hits", o.Carry)
}

func (p *statsPage) twoByTwo(o insight.Outcome) {
	fmt.Fprintf(&p.Builder, "                 strike  no strike\n")
	fmt.Fprintf(&p.Builder, "  good           %6d  %9d\n", o.Earned, o.Unlucky)
	fmt.Fprintf(&p.Builder, "  not good       %6d  %9d\n", o.Lucky, o.Missed)
	p.share("strikes of good shots", o.WhenGood)
	p.share("strikes of the others", o.WhenPoor)
	p.note("difference %s %s, Fisher's exact p %s (%s)", figure(o.Difference), ends(o.DifferenceInterval),
		figure(o.FisherP), insight.OutcomeMethod)
}

func (p *statsPage) cost(r insight.Report) {
	const columns = 30
	c := r.Cost
	p.section("what cost the shots")
	p.say(c.Words(), c.WordsSide(), c.WordsPattern())
	if held := insight.HeldUp(r); held != "" {
		p.say("held up: " + held)
	}
	if c.Graded+c.Ungraded == 0 {
		return
	}
	for _, a := range model.Axes {
		mean := "not watched"
		if c.Means[a].Known {
			mean = fmt.Sprintf("mean letter %.2f of 4 on %d", c.Means[a].Value, c.Watched[a])
		}
		fmt.Fprintf(&p.Builder, "  %-8s%8.4f  %-*s  %s\n", a, c.ByAxis[a], columns,
			bar(c.ByAxis[a], float64(c.NotGood), columns), mean)
	}
	p.note("shares of %s (%s); %d of %d seen were graded", model.NumberOf(c.NotGood, "shot")+" not good", insight.CostMethod,
		c.Graded, c.Graded+c.Ungraded)
}

func (p *statsPage) worth(w insight.Worth) {
	p.section("what one more good shot is worth")
	p.say(w.WordsExpected(), w.WordsGood(), w.WordsSingle())
	p.say(w.WordsReach()...)
	if !w.Expected.Known {
		return
	}
	p.note("expected score %s; pins for one more good shot a game %s, for one more single pin %s", figure(w.Expected),
		figure(w.PerGoodShot), figure(w.PerSingle))
	chances := make([]string, 0, len(w.Chances))
	for _, c := range w.Chances {
		chances = append(chances, fmt.Sprintf("%d %.4f", c.Score, c.Chance))
	}
	p.note("chance of at least %s", strings.Join(chances, ", "))
	r := w.Rates
	p.note("from rates drawn to the level's: good %.4f; strikes of good shots %.4f, of others %.4f; spares of single pins %.4f, "+
		"of more %.4f, of splits %.4f (%s; %s)", r.Good, r.StrikeGood, r.StrikePoor, r.Single, r.Multi, r.Split,
		insight.WorthMethod, model.NumberOf(w.Racks, "full rack"))
}

func (p *statsPage) cues(cues []insight.CueEffect) {
	p.section("cues")
	if len(cues) == 0 {
		p.say("no cue was in force in a game")
		return
	}
	shown := latest(cues, pageCues)
	for _, c := range shown {
		p.say(c.Words(), c.WordsBetter())
		p.note("in force on %s, compared on %d; before %s; since %s; chance that the rate since is higher %s",
			model.NumberOf(c.Evenings, "evening"), c.Compared, share(c.Before), share(c.Since), figure(c.Better))
	}
	p.left(len(cues), len(shown), "cues")
	p.note("A cue is given after a bad spell, after which shots get better by themselves: these chances are too high even for "+
		"an idle cue (%s).", insight.CuesMethod)
}

func (p *statsPage) consistency(c insight.Consistency) {
	p.section("consistency")
	p.say(c.Words()...)
	for _, s := range []struct {
		of     string
		spread insight.Spread
	}{{"board at the arrows less the one aimed at", c.Arrows}, {"hit in boards from the pocket", c.Hit},
		{"speed in miles an hour", c.SpeedMPH}} {
		if s.spread.N > 0 {
			p.note("%s: n %d, mean %s, sd %s, within one %s", s.of, s.spread.N, figure(s.spread.Bias), figure(s.spread.SD),
				share(s.spread.WithinOne))
		}
	}
}

func (p *statsPage) spares(s insight.Spares) {
	p.section("spares")
	p.say(s.Words(), s.WordsMissed(), s.WordsOpen())
	p.share("single pins", s.Single)
	p.share("more than one pin", s.Multi)
	p.share("splits", s.Split)
	p.share("not named", s.Unknown)
	p.share("open frames", s.Open)
	shown := s.Leaves[:min(len(s.Leaves), pageLeaves)]
	leaves := make([]string, 0, len(shown))
	for _, l := range shown {
		leaves = append(leaves, fmt.Sprintf("%s: %s", l.Leave, l.Made))
	}
	if len(leaves) > 0 {
		p.note("made by leave: %s", strings.Join(leaves, ", "))
	}
	p.left(len(s.Leaves), len(shown), "leaves")
}
