package main

import (
	"slices"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// planned is a warm-up or a drill that a student begins after so many finished games of a week's evening.
type planned struct {
	week, student, after int
	plan                 model.Plan
	// balls is how many a warm-up has; a drill knows its length.
	balls int
}

// plansOf lists the warm-ups and drills of a week's evening.
func plansOf(week int) []planned {
	plans := []planned{
		{week: 1, student: 2, plan: model.Plan{Kind: model.KindWarmup}, balls: 5},
		{week: 3, student: 3, after: 1, plan: model.Plan{Kind: model.KindDrill, Name: "slow feet", Length: 10}},
		{week: 4, student: 0, plan: model.Plan{Kind: model.KindWarmup}, balls: 6},
		{week: 4, student: 4, after: 1, plan: model.Plan{
			Kind: model.KindDrill, Name: "corner", Length: 6, Pins: tenpin.Pins(10),
		}},
	}
	return slices.DeleteFunc(plans, func(p planned) bool { return p.week != week })
}

// oddity is what happens to a ball now and then.
type oddity int

const (
	nothingOdd oddity = iota
	foul
	deadBall
	// caughtUp is a frame that nobody watched, typed afterwards from the overhead.
	caughtUp
)

// turnOfEvents is an oddity at a student's first full rack after so many deliveries of a week's evening.
type turnOfEvents struct {
	week, student, load int
	what                oddity
}

// turnsOf lists the oddities of a week's evening.
func turnsOf(week int) []turnOfEvents {
	turns := []turnOfEvents{
		{0, 3, 11, foul}, {1, 1, 20, deadBall}, {2, 5, 8, deadBall}, {3, 2, 26, foul}, {3, 4, 15, caughtUp},
		{4, 3, 13, foul}, {4, 0, 17, deadBall}, {4, 2, 24, deadBall}, {4, 4, 6, caughtUp},
	}
	return slices.DeleteFunc(turns, func(t turnOfEvents) bool { return t.week != week })
}

// turn takes the oddity that is due for a student's ball.
func (c *coach) turn(id model.ID, r model.Rack) oddity {
	if !r.Full || r.Frame == 0 || r.Frame > 9 {
		return nothingOdd
	}
	for i, t := range c.turns {
		if c.order[t.student] == id && c.evening.Load(id) >= t.load {
			c.turns = slices.Delete(c.turns, i, i+1)
			return t.what
		}
	}
	return nothingOdd
}

// begin begins what is planned for the student who is up, or a game after it.
func (c *coach) begin(b bowler) {
	last := c.evening.Sheet(b.ID)
	if last != nil && last.Game.Kind == model.KindGame && !last.Ended() {
		return
	}
	for i, p := range c.plans {
		if c.order[p.student] != b.ID {
			continue
		}
		if last != nil && last.Game.Kind == p.plan.Kind {
			if p.plan.Kind == model.KindWarmup && last.Live() < p.balls || p.plan.Length > last.Live() {
				return
			}
			c.plans = slices.Delete(c.plans, i, i+1)
			c.keep(c.evening.Begin(model.Plan{Kind: model.KindGame}, ""))
			return
		}
		if c.finished(b.ID) == p.after {
			c.keep(c.evening.Begin(p.plan, ""))
			return
		}
	}
}

// letters lowers the axes that were off, as far as they are watched, and says by how many boards a target was missed.
func (c *coach) letters(b bowler, thrown ball) {
	chosen := b.Chosen()
	for _, a := range model.Axes {
		steps := thrown.steps[a]
		if !chosen.Watched.Has(a) {
			continue
		}
		if a == model.Target && steps > 0 && chance(c.dice, 600) {
			side := model.Inside
			if thrown.missed < 0 {
				side = model.Outside
			}
			for range max(thrown.missed, -thrown.missed) {
				c.say(c.evening.Miss(side))
			}
			continue
		}
		for range steps {
			c.say(c.evening.Lower(a))
		}
	}
}

// words adds what is said of some balls: the hit, the line, the student's own call, a note.
func (c *coach) words(b bowler, r model.Rack, thrown ball) {
	if r.Frame == 0 {
		return
	}
	switch {
	case !r.Full:
	case chance(c.dice, b.lines):
		c.say(c.evening.SetLine(c.read(b, thrown)))
	case chance(c.dice, b.hits):
		c.say(c.evening.Meet(thrown.hit))
	}
	if chance(c.dice, b.ownCalls) {
		c.say(c.evening.SetOwn(c.ownCall(b)))
	}
	if thrown.steps[b.weak] > 1 && chance(c.dice, 350) {
		c.say(c.evening.SetNote(b.note))
	}
}

// ownCall is what the student says of the shot: often right, else a little off. A low one is hard to see from inside.
func (c *coach) ownCall(b bowler) model.ShotGrade {
	grade := model.Grade(c.evening.Call().Letters, b.Chosen().Weights)
	grade += model.ShotGrade(pick(c.dice, []int{550, 250, 80}))
	if chance(c.dice, 200) {
		grade--
	}
	return min(max(grade, model.GradeF), model.GradeA)
}
