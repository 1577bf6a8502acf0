package insight

import (
	"slices"

	"coach.settee/model"
)

// NextMethod names how the next thing to work on is chosen.
const NextMethod = "rules in a fixed order: what costs most a game, in pins or shots, weighed by trend and level order"

// Next is the one thing to work on next.
type Next struct {
	// What is an axis, or spares, speed, line or keep going; the coach's own words where ByCoach.
	What string
	// Why says it in one sentence, in the student's tone.
	Why string
	// Early tells that too little was seen for the figures to choose.
	Early bool
	// ByCoach tells that the coach chose it; Figures is then what the figures would have chosen, and FiguresWhy why.
	ByCoach             bool
	Figures, FiguresWhy string
}

// What to work on, besides an axis by its name.
const (
	WorkOnSpares = "spares"
	WorkOnSpeed  = "speed"
	WorkOnLine   = "line"
	KeepGoing    = "keep going"
)

// The thresholds of the choice; common practice, no source.
const (
	// racksAGame is the full racks by which counts are brought to a game: 10 to 12 are bowled.
	racksAGame = 11.0
	// fewestRacks is how many seen and graded full racks say anything: about a game.
	fewestRacks = 10
	// clearlyMore is how many times as much a later axis, or spares, must cost before it goes before an earlier axis in a
	// student below regular.
	clearlyMore = 1.5
	// standsOut is what an axis must cost in shots a game to be worked on where the goal is met, or before speed, and the good
	// shots a game without a strike from which the line is.
	standsOut = 2.0
	// fallWeight is by how much an axis weighs more for each letter that its mean has fallen from the earlier half of the
	// games to the later, at most one letter; and less for each that it has risen.
	fallWeight = 0.25
	// fewestForFall is how many games with the axis watched tell whether its mean has fallen.
	fewestForFall = 4
	// fewestSingles and singlesAGame are the single pins tried and those not made a game from which spares are worked on.
	fewestSingles, singlesAGame = 10, 1.0
	// fewestHits and poorPocket are the hits read, and the rate of pocket hits below which the line is in question.
	fewestHits, poorPocket = 10, 0.5
	// fewestSpeeds and wideSpeed are the speeds read, and the standard deviation in miles an hour from which it is too wide.
	fewestSpeeds, wideSpeed = 10, 1.0
)

// nextOf chooses what to work on. From regular up single pins are set against shots in pins a game where Report.Worth
// prices both above nothing; else, and below regular, where the same throw has yet to make the spares too, in shots a game.
// The first rule that applies decides:
//
//  1. fewer than ten seen and graded full racks: keep going, it is too early to say
//  2. from regular up, two good shots a game or more without a strike, more of them than of the others, and under half of at
//     least ten hits in the pocket: the line
//  3. a single pin or more a game not made, of at least ten tried, and dearer than any axis (below regular 1.5 times as
//     dear): spares
//  4. an axis that costs two shots a game or more: the one that costs most; what it costs weighs up to a quarter more where
//     its mean letter is falling over the games of this level and up to a quarter less where it is rising; below regular an
//     earlier axis goes instead unless this one costs clearly more (over 1.5 times as much)
//  5. at least ten speeds read whose standard deviation is 1 mile an hour or more: the speed
//  6. the goal met: keep going
//  7. the axis of rule 4, if it costs anything; else keep going
//
// The coach's focus overrules it.
func nextOf(s model.Student, r Report) Next {
	c := choiceOf(s.Chosen(), r)
	what, why := c.what, c.why()
	if s.Focus == "" {
		return Next{What: what, Why: why, Early: c.early}
	}
	return Next{What: s.Focus, Why: coachWords(c.tone), Early: c.early, ByCoach: true, Figures: what, FiguresWhy: why}
}

// choice is what the figures choose, with what the words need.
type choice struct {
	what string
	// early tells that too little was seen to say, met that the goal is met.
	early, met bool
	// axis is the axis that would be worked on, and why it goes before the others; none where no axis costs anything.
	axis    model.Axis
	none    bool
	because because
	// other is the axis that because speaks of.
	other model.Axis
	// singles is the pins a game that single pins cost, unknown where they are not priced, or by too little for words.
	singles model.Optional[float64]
	tone    model.Tone
	Report
}

// because is why an axis goes before the others.
type because uint8

const (
	costsMost because = iota
	// costsFarMost is at least twice what any other costs.
	costsFarMost
	costsAsMuch
	comesFirst
	isFalling
	otherRises
)

func choiceOf(in model.Chosen, r Report) choice {
	c := choice{Report: r, tone: in.Tone}
	graded := r.Counts.Good.Of - r.Cost.Ungraded
	if graded < fewestRacks {
		c.what, c.early = KeepGoing, true
		return c
	}
	below := in.Level == model.New || in.Level == model.Developing
	games := float64(graded) / racksAGame
	c.met = float64(r.Counts.Good.N)/games >= in.Goal.Shots()
	shots := c.chooseAxis(below) / games
	switch {
	case !below && c.isLine(games):
		c.what = WorkOnLine
	case c.isSpares(slices.Max(c.Cost.ByAxis[:])/games, below):
		c.what = WorkOnSpares
	case !c.none && shots >= standsOut:
		c.what = c.axis.String()
	case r.Consistency.SpeedMPH.N >= fewestSpeeds && r.Consistency.SpeedMPH.SD.Value >= wideSpeed:
		c.what = WorkOnSpeed
	case c.met || c.none:
		c.what = KeepGoing
	default:
		c.what = c.axis.String()
	}
	return c
}

func (c *choice) isLine(games float64) bool {
	o := c.Outcome
	return float64(o.Unlucky)/games >= standsOut && o.Unlucky > o.Missed &&
		o.Pocket.Of >= fewestHits && o.Pocket.Rate().Value < poorPocket
}

// isSpares tells whether single pins cost more than shots that were not good, and enough to be worked on.
func (c *choice) isSpares(shots float64, below bool) bool {
	single := c.Spares.Single
	games := float64(c.Counts.Good.Of+c.Counts.Unseen) / racksAGame
	left := float64(single.Of-single.N) / games
	if single.Of < fewestSingles || left < singlesAGame {
		return false
	}
	if below {
		return left > clearlyMore*shots
	}
	if w := c.Worth; w.PerGoodShot.Value > 0 && w.PerSingle.Value > 0 {
		left *= w.PerSingle.Value
		shots *= w.PerGoodShot.Value
		if w.Racks >= fewestForWorth {
			c.singles = model.Known(left)
		}
	}
	return left > shots
}

// chooseAxis sets the axis to work on, and gives the largest share of the shots that were not good, weighed by trend.
func (c *choice) chooseAxis(below bool) float64 {
	cost := c.Cost.ByAxis
	var weighed [model.AxisCount]float64
	dearest, most := model.Balance, model.Balance
	for _, a := range model.Axes {
		weighed[a] = cost[a] * (1 + fallWeight*c.Trend.fall(a))
		if weighed[a] > weighed[dearest] {
			dearest = a
		}
		if cost[a] > cost[most] {
			most = a
		}
	}
	c.axis, c.none = dearest, cost[dearest] <= 0
	if below {
		c.axis = earliest(weighed, dearest)
	}
	c.explain(dearest, most)
	return weighed[dearest]
}

// earliest gives the first axis that does not cost clearly less than the dearest.
func earliest(cost [model.AxisCount]float64, dearest model.Axis) model.Axis {
	for _, a := range model.Axes {
		if cost[a]*clearlyMore >= cost[dearest] {
			return a
		}
	}
	return dearest
}

// explain sets why the chosen axis goes before the others: dearest is the one that weighs most, most the one that costs
// most.
func (c *choice) explain(dearest, most model.Axis) {
	cost := c.Cost.ByAxis
	second := 0.0
	for _, a := range model.Axes {
		if a != c.axis {
			second = max(second, cost[a])
		}
	}
	const rounding = 1e-9 // equal shares are sums in another order
	switch mine := cost[c.axis]; {
	case mine >= 2*second:
		c.because = costsFarMost
	case mine > second+rounding:
		c.because = costsMost
	case mine >= second-rounding:
		c.because = costsAsMuch
	case c.axis != dearest:
		c.because, c.other = comesFirst, dearest
	case c.Trend.fall(c.axis) > 0:
		c.because = isFalling
	default:
		c.because, c.other = otherRises, most
	}
}

// fall gives by how many letters an axis's mean has fallen from the earlier half of the last games of one level to the
// later half, -1 to 1 and minus where it has risen; 0 with too few games. A middle game is in neither half.
func (t Trend) fall(a model.Axis) float64 {
	var means []float64
	for i := len(t.Games) - 1; i >= 0; i-- {
		if m := t.Games[i].Axes[a]; m.Known {
			means = append(means, m.Value)
		}
		if t.Games[i].Break {
			break
		}
	}
	if len(means) < fewestForFall {
		return 0
	}
	half, fallen := len(means)/2, 0.0
	for i := range half {
		// The latest game is the first.
		fallen += means[len(means)-1-i] - means[i]
	}
	return min(max(fallen/float64(half), -1), 1)
}
