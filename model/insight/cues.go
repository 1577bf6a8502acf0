package insight

import (
	"fmt"

	"coach.settee/model"
)

// CuesMethod names how CueEffect.Better is reckoned.
const CuesMethod = "two Beta(1/2,1/2) posteriors, exact"

const (
	// cueRacks is how many racks each side of a cue an evening counts at most.
	cueRacks = 10
	// cuePrior is both parameters of the prior of a rate, Jeffreys's.
	cuePrior = .5
	// cueEvenings is on how many evenings a cue has to have racks on both sides before more than the counts is told.
	cueEvenings = 3
)

// CueEffect is how a cue went.
type CueEffect struct {
	Cue string
	// Uses counts how often it was given and bowled with in a game: given anew, or again after another or after none.
	// Evenings counts those on which it was, Compared those of them with racks before and since.
	Uses, Evenings, Compared int
	// Before and Since are the good of as many seen full racks before and since it, up to ten each an evening.
	Before, Since Part
	// Better is the posterior probability that the rate since is higher, unknown without racks. A cue is given after a bad
	// spell, after which shots get better by themselves, so that it is too high even for an idle cue.
	Better model.Optional[float64]
	// InForce counts the seen full racks with the cue in force.
	InForce int
}

// Words tells the counts: "soft hand: 7 of 10 since, 3 of 10 before".
func (c CueEffect) Words() string {
	if c.Since.Of == 0 {
		noun := "racks"
		if c.InForce == 1 {
			noun = "rack"
		}
		return fmt.Sprintf("%s: %d %s, none to compare", c.Cue, c.InForce, noun)
	}
	return fmt.Sprintf("%s: %d of %d since, %d of %d before", c.Cue, c.Since.N, c.Since.Of, c.Before.N, c.Before.Of)
}

// WordsBetter tells whether the cue helped, with the caution that belongs to it. It is empty until there was something to
// compare on three evenings.
func (c CueEffect) WordsBetter() string {
	const likely, veryLikely = .8, .95 // invented
	if c.Compared < cueEvenings || !c.Better.Known {
		return ""
	}
	switch p := c.Better.Value; {
	case p >= veryLikely:
		return "very likely better, but an idle cue looks good after a slump"
	case p >= likely:
		return "likely better, but an idle cue looks good after a slump"
	case p <= 1-veryLikely:
		return "very likely worse, though even an idle cue tends to look good"
	case p <= 1-likely:
		return "likely worse, though even an idle cue tends to look good"
	}
	return "no telling yet, and even an idle cue tends to look good"
}

func cuesOf(games []model.DatedSheet) []CueEffect {
	var cues []CueEffect
	place := map[string]int{}
	for _, evening := range evenings(games) {
		cued := cuedRacks(evening)
		for _, spell := range cued.spells {
			i, known := place[spell.cue]
			if !known {
				i = len(cues)
				place[spell.cue] = i
				cues = append(cues, CueEffect{Cue: spell.cue})
			}
			cues[i].add(cued.good, spell)
		}
	}
	for i := range cues {
		cues[i].compare()
	}
	return cues
}

// compare holds the racks since against those before, where there are some.
func (c *CueEffect) compare() {
	if c.Since.Of > 0 {
		c.Better = model.Known(Better(c.Before, c.Since, cuePrior, cuePrior))
	}
}

// add counts an evening whose seen full racks in order were good or not.
func (c *CueEffect) add(good []bool, spell cueSpell) {
	n := min(cueRacks, spell.from, spell.to-spell.from)
	c.Evenings++
	c.Uses += spell.uses
	c.InForce += spell.inForce
	if n == 0 {
		return
	}
	c.Compared++
	for i := range n {
		c.Before.N += one(good[spell.from-1-i])
		c.Since.N += one(good[spell.from+i])
	}
	c.Before.Of += n
	c.Since.Of += n
}

// cuedEvening tells of an evening's seen full racks in order which were good, and when its cues were first in force.
type cuedEvening struct {
	good   []bool
	spells []cueSpell
}

// cueSpell is a cue of an evening: the racks from and up to which it was first in force, how often it was given, and how
// many racks it was in force in all.
type cueSpell struct {
	cue           string
	from, to      int
	uses, inForce int
}

func cuedRacks(games []model.DatedSheet) cuedEvening {
	var e cuedEvening
	place := map[string]int{}
	now := -1 // the spell of the cue in force
	for _, g := range games {
		for i := range g.Sheet.Deliveries {
			d := &g.Sheet.Deliveries[i]
			now = e.turn(d.Cue, now, place)
			if !d.Seen || d.Dead || !g.Sheet.Racks[i].Full {
				continue
			}
			if now >= 0 {
				e.spells[now].inForce++
			}
			e.good = append(e.good, d.Good())
		}
	}
	e.end(now)
	return e
}

// turn gives the spell of the cue, now being that of the delivery before.
func (e *cuedEvening) turn(cue string, now int, place map[string]int) int {
	if now < 0 && cue == "" || now >= 0 && cue == e.spells[now].cue {
		return now
	}
	e.end(now)
	if cue == "" {
		return -1
	}
	i, known := place[cue]
	if !known {
		i = len(e.spells)
		place[cue] = i
		e.spells = append(e.spells, cueSpell{cue: cue, from: len(e.good), to: -1})
	}
	e.spells[i].uses++
	return i
}

// end ends a spell where it is the cue's first.
func (e *cuedEvening) end(spell int) {
	if spell >= 0 && e.spells[spell].to < 0 {
		e.spells[spell].to = len(e.good)
	}
}
