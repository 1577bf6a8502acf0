package lane

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"coach.settee/model"
)

// Moved tells that a lane began to play differently.
type Moved struct {
	// Ball is the number, from 1, of the ball on the lane from which it did, as near as can be told.
	Ball int
	// Higher: it plays higher than before, else lighter.
	Higher bool
	// Shots is how many good shots since then say so.
	Shots int
	// Words say so in a line.
	Words string
}

// k and h of the CUSUM in standard deviations: k is half of the change to be found; with h 5, lanes that do not change raise
// it on the average once in 465 shots (from memory).
const cusumSlack, cusumLimit = 0.5, 5.0

// moved looks for a lasting change of a lane in the good shots of everyone there: a two-sided CUSUM of their deviations from
// the mean of those before of the same student, ball and line, over the student's scatter. The lane has moved from the first
// shot since the sum that passed the limit was last zero. Of several changes the latest is told. It is a sign to look, no more.
//
// The sum is kept here: the statistics of the record build on package model as this package does, and neither knows the other.
func (b *Book) moved(lane int) model.Optional[Moved] {
	var up, down cusum
	var found model.Optional[Moved]
	for _, s := range b.deviations(lane) {
		up.add(s.ball, s.sds-cusumSlack)
		down.add(s.ball, -s.sds-cusumSlack)
		by, higher := down, up.sum > down.sum
		if higher {
			by = up
		}
		if by.sum <= cusumLimit {
			continue
		}
		m := Moved{Ball: by.from, Higher: higher, Shots: by.shots}
		way := "lighter"
		if m.Higher {
			way = "higher"
		}
		m.Words = fmt.Sprintf("lane %d seems to play %s from ball %d on: %s say so", lane, way, m.Ball, counted(m.Shots, "good shot"))
		found = model.Known(m)
	}
	return found
}

// cusum is one side's sum, with the ball and the shots since it was last zero.
type cusum struct {
	sum   float64
	from  int
	shots int
}

func (c *cusum) add(ball int, by float64) {
	if c.sum+by <= 0 {
		*c = cusum{}
		return
	}
	if c.sum == 0 {
		c.from = ball
	}
	c.sum += by
	c.shots++
}

type deviation struct {
	ball int
	sds  float64
}

// deviations gives by how many standard deviations each good shot on a lane was higher than those before.
func (b *Book) deviations(lane int) []deviation {
	var out []deviation
	for _, w := range b.bowlers {
		scatter := map[string]float64{}
		for s := range w.shots() {
			d := s.thrown.Delivery
			if d.Lane != lane || s.before == 0 {
				continue
			}
			if scatter[d.Bowled] == 0 {
				scatter[d.Bowled] = w.shotScatter(d.Bowled)
			}
			hit, _ := HitBoards(d)
			sd := math.Sqrt(scatter[d.Bowled] + Ball{HitSD: hit.SD}.readingNoise())
			out = append(out, deviation{s.thrown.Before + 1, s.deviation / sd})
		}
	}
	slices.SortFunc(out, func(a, b deviation) int { return cmp.Compare(a.ball, b.ball) })
	return out
}
