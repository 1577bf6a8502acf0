package insight

import (
	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// ShotRates are a student's rates, each 0 to 1.
type ShotRates struct {
	// Good is the rate of good shots at full racks, StrikeGood and StrikePoor the strikes of the good and of the others.
	Good, StrikeGood, StrikePoor float64
	// Single, Multi and Split are the spares made of those kinds of leave.
	Single, Multi, Split float64
	// FirstBall is the distribution of the pins of a first ball that is no strike, 0 to 9.
	FirstBall [10]float64
	// SplitOf is, by the pins left, the share of splits among such leaves.
	SplitOf [11]float64
	// Missed is, by the pins left, the distribution of the pins of a spare shot that does not clear them.
	Missed [11][10]float64
}

// levelShots are the rates to start from at a level; an unknown level has those of New. They are an invented prior,
// plausible and taken from no table, but agree with LevelRates: the rate of good is the level's goal over its expected
// racks, and strikes and spares come to LevelRates within .03. A spare shot that misses fells any number of pins equally
// often, but at ten pins what a first ball that is no strike does.
func levelShots(level model.Level) ShotRates {
	r := ShotRates{
		Good:    level.Defaults().Goal.Shots() / ExpectedRacks(LevelRates(level)),
		SplitOf: [11]float64{2: .30, 3: .25, 4: .25, 5: .20, 6: .10, 7: .05, 8: .02},
	}
	switch level {
	case model.Developing:
		r.StrikeGood, r.StrikePoor, r.Single, r.Multi, r.Split = .32, .16, .62, .40, .06
		r.FirstBall = [10]float64{.04, .02, .03, .04, .05, .08, .12, .18, .22, .22}
	case model.Regular:
		r.StrikeGood, r.StrikePoor, r.Single, r.Multi, r.Split = .50, .28, .80, .58, .12
		r.FirstBall = [10]float64{.02, .005, .01, .015, .03, .05, .11, .19, .27, .30}
	case model.Advanced:
		r.StrikeGood, r.StrikePoor, r.Single, r.Multi, r.Split = .58, .36, .90, .72, .18
		r.FirstBall = [10]float64{.01, 0, .005, .005, .01, .03, .08, .16, .30, .40}
	case model.Elite:
		r.StrikeGood, r.StrikePoor, r.Single, r.Multi, r.Split = .66, .45, .96, .82, .25
		r.FirstBall = [10]float64{.005, 0, 0, .005, .01, .02, .06, .13, .29, .48}
	default:
		r.StrikeGood, r.StrikePoor, r.Single, r.Multi, r.Split = .18, .07, .40, .19, .03
		r.FirstBall = [10]float64{.12, .04, .05, .07, .09, .11, .13, .15, .14, .10}
	}
	for left := 1; left < 10; left++ {
		for pins := range left {
			r.Missed[left][pins] = 1 / float64(left)
		}
	}
	r.Missed[10] = r.FirstBall
	return r
}

// strike is the rate of strikes at full racks.
func (r ShotRates) strike() float64 { return r.Good*r.StrikeGood + (1-r.Good)*r.StrikePoor }

// spares is the rate of spares over all spare shots.
func (r ShotRates) spares() float64 {
	made := 0.0
	for pins, share := range r.FirstBall {
		made += share * r.spare(10-pins)
	}
	return made
}

// spare is the rate of spares with so many pins left.
func (r ShotRates) spare(left int) float64 {
	if left == 1 {
		return r.Single
	}
	return (1-r.SplitOf[left])*r.Multi + r.SplitOf[left]*r.Split
}

// chance is the chance of the pins of a ball, for the distribution of scores. Balls are taken as independent.
func (r ShotRates) chance() func(at tenpin.Position, pins int) float64 {
	strike := r.strike()
	var spare [11]float64
	for left := 1; left <= 10; left++ {
		spare[left] = r.spare(left)
	}
	return func(at tenpin.Position, pins int) float64 {
		left := at.StandingCount()
		switch {
		case at.FullRack() && pins == 10:
			return strike
		case at.FullRack():
			return (1 - strike) * r.FirstBall[pins]
		case pins == left:
			return spare[left]
		default:
			return (1 - spare[left]) * r.Missed[left][pins]
		}
	}
}

// shotCounts are the counts behind ShotRates.
type shotCounts struct {
	// good is of the full racks that were seen and graded, strikeGood and strikePoor part those.
	good, strikeGood, strikePoor Part
	// single, multi and split are the spare shots at single pins and at named leaves, unnamed the others by the pins left.
	single, multi, split Part
	unnamed              [11]Part
	// first counts the first balls that were no strikes, seen or not, by their pins.
	first [10]int
	// splitOf are the splits of the named leaves of full racks, by the pins left.
	splitOf [11]Part
	// missed counts the spare shots that did not clear, by the pins left and those that fell.
	missed [11][10]int
}

func countShots(games []model.DatedSheet) shotCounts {
	spares := sparesOf(games)
	c := shotCounts{single: spares.Single, multi: spares.Multi, split: spares.Split}
	for x := range eachShot(games) {
		cleared, left := x.cleared(), x.rack.Count
		if x.rack.Full {
			c.addFullRack(x, cleared)
			continue
		}
		if !cleared {
			c.missed[left][x.Pins.Value]++
		}
		c.unnamed[left] = c.unnamed[left].with(cleared, left > 1 && !x.rack.Standing.Known)
	}
	return c
}

func (c *shotCounts) addFullRack(x shot, strike bool) {
	if x.Grade() != model.Ungraded {
		good := x.Good()
		c.good = c.good.with(good, true)
		c.strikeGood = c.strikeGood.with(strike, good)
		c.strikePoor = c.strikePoor.with(strike, !good)
	}
	if strike {
		return
	}
	c.first[x.Pins.Value]++
	left := x.After.Pins.Count()
	c.splitOf[left] = c.splitOf[left].with(x.After.Pins.IsSplit(), x.After.Known)
}

// rates draws the counts towards the level's rates as if 20 more tries of each kind had come out at those, as
// ShrinkRates does.
func (c shotCounts) rates(level ShotRates) ShotRates {
	r := ShotRates{
		Good:       c.good.tries().towards(level.Good),
		StrikeGood: c.strikeGood.tries().towards(level.StrikeGood),
		StrikePoor: c.strikePoor.tries().towards(level.StrikePoor),
		Single:     c.single.tries().towards(level.Single),
		Multi:      c.multi.tries().towards(level.Multi),
		Split:      c.split.tries().towards(level.Split),
		FirstBall:  sharesTowards(c.first, level.FirstBall),
	}
	level.Missed[10] = r.FirstBall
	for left := 1; left <= 10; left++ {
		r.SplitOf[left] = c.splitOf[left].tries().towards(level.SplitOf[left])
		r.Missed[left] = sharesTowards(c.missed[left], level.Missed[left])
	}
	multi, split := c.withUnnamed(r)
	r.Multi, r.Split = multi.towards(level.Multi), split.towards(level.Split)
	return r
}

// withUnnamed gives the spare shots at splits and at other leaves, with the leaves that were not named among them: each is
// a split as far as one of so many pins, made or missed, is likely to be one at the rates so far. It is one step of
// expectation and maximisation (Dempster, Laird and Rubin, Journal of the Royal Statistical Society B 39, 1977; from
// memory).
func (c shotCounts) withUnnamed(r ShotRates) (multi, split tries) {
	multi, split = c.multi.tries(), c.split.tries()
	for left, p := range c.unnamed {
		if p.Of == 0 {
			continue
		}
		all, share, rate := p.tries(), r.SplitOf[left], r.spare(left)
		made := all.made * share * r.Split / rate
		missed := (all.of - all.made) * share * (1 - r.Split) / (1 - rate)
		split.made += made
		split.of += made + missed
		multi.made += all.made - made
		multi.of += all.of - made - missed
	}
	return multi, split
}

// tries are those made of a number; neither need be whole.
type tries struct{ made, of float64 }

func (p Part) tries() tries { return tries{float64(p.N), float64(p.Of)} }

func (t tries) towards(level float64) float64 {
	return (t.made + levelTries*level) / (t.of + levelTries)
}

func sharesTowards(counts [10]int, level [10]float64) [10]float64 {
	all := 0
	for _, n := range counts {
		all += n
	}
	var shares [10]float64
	for pins, n := range counts {
		shares[pins] = Part{n, all}.tries().towards(level[pins])
	}
	return shares
}
