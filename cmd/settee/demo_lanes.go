package main

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"coach.settee/model"
)

// Where a ball goes is reckoned in whole tenths of a board, seen from the student's own side: no machine rounds it another way.

// plays is how a lane plays for right-handers on the lines that they begin with: by how much higher than the pocket, and by
// how much more after each ten balls on the lane.
type plays struct{ higher, wear int }

// playsOf gives how a lane plays in a week's evening. Tonight lane 8 plays high from the start, and lane 9 hooks more and more
// while lane 10 hardly changes. Left-handers have their side of the lane for themselves: nothing changes there.
func playsOf(week, lane int, hand model.Hand) plays {
	switch {
	case hand == model.LeftHand || !running(week):
		return plays{}
	case lane == 8:
		return plays{22, 1}
	case lane == 9:
		return plays{8, 7}
	case lane == 10:
		return plays{-8, 3}
	}
	return plays{-4, 1}
}

// moved is a line that a student turns to with the first ball on a lane after so many deliveries of a week's evening.
type moved struct {
	week, student, load, lane int
	line                      string
}

// movesOf lists the moves of a week's evening.
func movesOf(week int) []moved {
	moves := []moved{{4, 0, 27, 8, "19 33 9@44"}}
	return slices.DeleteFunc(moves, func(m moved) bool { return m.week != week })
}

// move makes the move that is due for the student who is up.
func (c *coach) move(b bowler) {
	lane := c.evening.LaneOf(b.ID)
	for i, m := range c.moves {
		if c.order[m.student] == b.ID && m.lane == lane && c.evening.Load(b.ID) >= m.load {
			c.moves = slices.Delete(c.moves, i, i+1)
			c.aim(b, lane, m.line)
			return
		}
	}
}

func (c *coach) aim(b bowler, lane int, text string) {
	line, err := model.ParseAim(text, model.Line{})
	c.say(err)
	c.keep(c.evening.Aim(b.ID, lane, line, ""))
}

// aimAll has every student who aims at a line do so on both lanes of the pair.
func (c *coach) aimAll() {
	for _, seat := range c.evening.Seats() {
		if b := c.bowlers[seat.Student]; b.aim != "" {
			pair := seat.Pair()
			c.aim(b, pair[0], b.aim)
			c.aim(b, pair[1], b.aim)
		}
	}
}

// path is where a ball went beside the line aimed at, and where it met the pins: plus is inside, and high.
type path struct{ slide, arrows, hit int }

// roll gives where a ball at a full rack goes. A line one board farther inside hits 0.3 boards higher, one that opens by a
// board less 2.5: the middles of what package lane believes before any ball. What else was off adds to the scatter.
func (b bowler) roll(dice *rand.Rand, thrown ball, on plays, balls int, from, aimed model.Line) path {
	p := path{arrows: around(dice, 5) + 10*thrown.missed}
	p.slide = p.arrows/2 + around(dice, 4)
	inside := p.arrows + tenths(aimed.Arrows) - tenths(from.Arrows)
	closed := inside - p.slide - tenths(aimed.Slide) + tenths(from.Slide)
	p.hit = on.higher + on.wear*balls/10 + (3*inside+25*closed)/10 + around(dice, b.ability.spread)
	for _, a := range []model.Axis{model.Balance, model.Release, model.Finish} {
		p.hit += around(dice, 14*thrown.steps[a])
	}
	return p
}

// around gives so many tenths at most to either side, those near to none more often.
func around(dice *rand.Rand, most int) int { return dice.IntN(most+1) - dice.IntN(most+1) }

// tenths gives a board of an invented line, which is a whole one.
func tenths(board model.Optional[float64]) int { return 10 * int(board.Value) }

// hitOf gives the word for a hit.
func hitOf(tenths int) model.Hit {
	switch {
	case tenths > 40:
		return model.Brooklyn
	case tenths > 22:
		return model.Nose
	case tenths > 10:
		return model.High
	case tenths >= -10:
		return model.Pocket
	case tenths >= -40:
		return model.Light
	}
	return model.Missed
}

// read gives a ball's line and hit in whole boards as the prompt takes them.
func (c *coach) read(b bowler, thrown ball) string {
	aimed, p := c.evening.AimOf(b.ID, c.evening.LaneOf(b.ID)), thrown.path
	// On from the arrows the ball goes as it came: at the breakpoint it is about three times as far off.
	breakpoint := max(1, boards(tenths(aimed.Breakpoint)+3*p.arrows-2*p.slide))
	mph := int(b.SpeedMPH.Value*10) - 4 + c.dice.IntN(8)
	return fmt.Sprintf("%d %d %d@%d %d.%d %+d", boards(tenths(aimed.Arrows)+p.arrows), boards(tenths(aimed.Slide)+p.slide),
		breakpoint, int(aimed.BreakpointFt.Value)-1+c.dice.IntN(3), mph/10, mph%10, boards(p.hit))
}

// boards rounds tenths to whole boards.
func boards(tenths int) int {
	if tenths < 0 {
		return -boards(-tenths)
	}
	return (tenths + 5) / 10
}
