package insight

import (
	"fmt"
	"math"
	"strings"

	"coach.settee/model"
)

// coachWords say that the coach chose it.
func coachWords(t model.Tone) string {
	switch t {
	case model.Gentle:
		return "the coach picked this one for you"
	case model.Blunt:
		return "The coach chose it."
	}
	return "the coach chose it"
}

// why says the choice in one sentence of at most 100 columns of ASCII. Gentle has no figures and tells of nothing that went
// wrong.
func (c choice) why() string {
	switch c.what {
	case WorkOnSpares:
		return c.spareWords()
	case WorkOnLine:
		return c.lineWords()
	case WorkOnSpeed:
		return c.speedWords()
	case KeepGoing:
		return c.keepWords()
	}
	return c.axisWords()
}

func (c choice) keepWords() string {
	switch {
	case c.early && c.tone == model.Gentle:
		return "it is early yet: keep going, we are watching"
	case c.early && c.tone == model.Blunt:
		return "Too few shots seen to say: keep watching."
	case c.early:
		return "too few shots seen to say; keep watching"
	case c.met && c.tone == model.Gentle:
		return "the goal is met: keep going just like this"
	case c.tone == model.Gentle:
		return "keep going just like this"
	case c.met && c.tone == model.Blunt:
		return fmt.Sprintf("Goal met, %d good of %d: nothing stands out.", c.Counts.Good.N, c.Counts.Good.Of)
	case c.met:
		return fmt.Sprintf("the goal is met, %d good of %d, and nothing stands out", c.Counts.Good.N, c.Counts.Good.Of)
	case c.tone == model.Blunt:
		return "Nothing stands out."
	}
	return "nothing stands out"
}

func (c choice) spareWords() string {
	single := c.Spares.Single
	left := single.Of - single.N
	pins := ""
	if c.singles.Known {
		pins = fmt.Sprintf(", about %s a game", model.NumberOf(atLeastOne(c.singles.Value), "pin"))
	}
	switch c.tone {
	case model.Gentle:
		return "next we look at single pins: they are the quickest way to a better game"
	case model.Blunt:
		return fmt.Sprintf("%d of %d single pins missed%s: nothing costs more.", left, single.Of, pins)
	}
	return fmt.Sprintf("%d of %d single pins were missed%s, and no axis costs more", left, single.Of, pins)
}

func (c choice) lineWords() string {
	o := c.Outcome
	switch c.tone {
	case model.Gentle:
		return "the throw is there: next we look at where to stand and where to aim"
	case model.Blunt:
		return fmt.Sprintf("%d good shots without a strike, %d of %d hits in the pocket: the line, not the throw.",
			o.Unlucky, o.Pocket.N, o.Pocket.Of)
	}
	return fmt.Sprintf("%d good shots were no strike, and %d of %d hits were in the pocket: the line, not the throw",
		o.Unlucky, o.Pocket.N, o.Pocket.Of)
}

func (c choice) speedWords() string {
	sd := c.Consistency.SpeedMPH.SD.Value
	switch c.tone {
	case model.Gentle:
		return "next we look at the speed: easy, and the same each time"
	case model.Blunt:
		return fmt.Sprintf("Speed varies by %.1f mph: same speed, every ball.", sd)
	}
	return fmt.Sprintf("the speed varies by %.1f mph from ball to ball, and no axis stands out", sd)
}

func (c choice) axisWords() string {
	switch c.tone {
	case model.Gentle:
		return c.gentleAxis()
	case model.Blunt:
		return c.bluntAxis()
	}
	return c.plainAxis()
}

func (c choice) gentleAxis() string {
	switch c.because {
	case costsMost, costsFarMost:
		return fmt.Sprintf("next we look at %s: it is where most of the good ones are waiting", c.axis)
	case comesFirst:
		return fmt.Sprintf("next we look at %s: it comes first, and the rest builds on it", c.axis)
	}
	return fmt.Sprintf("next we look at %s: good ones are waiting there", c.axis)
}

func (c choice) plainAxis() string {
	cost := fmt.Sprintf("%s cost %s of the %s", c.axis, c.Cost.share(c.axis), model.NumberOf(c.Cost.NotGood, "shot"))
	if c.Cost.NotGood == 1 {
		cost += " that was not good, "
	} else {
		cost += " that were not good, "
	}
	switch c.because {
	case comesFirst:
		return cost + fmt.Sprintf("and it comes before %s", c.other)
	case costsAsMuch:
		return cost + "as many as any other"
	case isFalling:
		return cost + "and it has been going down"
	case otherRises:
		return cost + fmt.Sprintf("and %s is getting better", c.other)
	}
	return cost + "more than any other"
}

func (c choice) bluntAxis() string {
	name := c.axis.String()
	cost := fmt.Sprintf("%s cost %s of %d: ", strings.ToUpper(name[:1])+name[1:], c.Cost.share(c.axis), c.Cost.NotGood)
	switch c.because {
	case costsFarMost:
		return cost + "nothing else comes close."
	case comesFirst:
		return cost + fmt.Sprintf("it comes before %s.", c.other)
	case costsAsMuch:
		return cost + "as many as any other."
	case isFalling:
		return cost + "it has been going down."
	case otherRises:
		return cost + fmt.Sprintf("%s is getting better.", c.other)
	}
	return cost + "more than any other."
}

// atLeastOne rounds what is more than nothing.
func atLeastOne(x float64) int { return max(1, int(math.Round(x))) }
