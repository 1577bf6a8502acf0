package lane

import (
	"fmt"
	"math"

	"coach.settee/model"
)

// MoveMade is a move that was made, and what came of it.
type MoveMade struct {
	Lane     int
	From, To model.Line
	// Move is the change in whole boards.
	Move Move
	// Ball is the number, from 1, among all of the lane's balls, of the student's first full rack after it; Balls how many
	// full racks the student had thrown there before it.
	Ball, Balls int
	// Before and Since say the hits that were read with the line before and with the new one: "1 of 4 pocket, 3 high".
	Before, Since string
	// Words say all of it in a line: "ball 23: feet 2 left, target 1 left; pocket 1 of 4 before, 3 of 5 since".
	Words string
}

// moves gives a student's moves on a lane: the changes of the line aimed at by a whole board or more.
func (w *bowler) moves(lane int) []MoveMade {
	var made []MoveMade
	var aimed model.Line
	var hits []tally
	racks := 0
	for _, t := range w.thrown {
		d := t.Delivery
		if d.Lane != lane || !t.Full || d.Dead {
			continue
		}
		if hits == nil {
			hits = []tally{{}}
		}
		if m := moveBetween(aimed, d.Aimed); m != (Move{}) {
			made = append(made, MoveMade{Lane: lane, From: aimed, To: d.Aimed, Move: m, Ball: t.Before + 1, Balls: racks})
			hits = append(hits, tally{})
		}
		if !d.Aimed.IsZero() {
			aimed = d.Aimed
		}
		racks++
		if hitRead(t) {
			hits[len(hits)-1].add(d)
		}
	}
	for i := range made {
		made[i].say(w.hand, hits[i], hits[i+1])
	}
	return made
}

func (m *MoveMade) say(hand model.Hand, before, since tally) {
	m.Before, m.Since = before.ofPocket(), since.ofPocket()
	m.Words = within(fmt.Sprintf("ball %d: %s", m.Ball, m.Move.Words(hand)), comeOf(before, since))
}

// comeOf says what came of a move: "; pocket 1 of 4 before, 3 of 5 since".
func comeOf(before, since tally) string {
	return fmt.Sprintf("; pocket %s before, %s since", before.share(), since.share())
}

// moveBetween gives the move from one line to another in whole boards; parts that are not known of both do not move.
func moveBetween(from, to model.Line) Move {
	boards := func(a, b model.Optional[float64]) int {
		if !a.Known || !b.Known {
			return 0
		}
		return int(math.Round(b.Value - a.Value))
	}
	return Move{Feet: boards(from.Slide, to.Slide), Target: boards(from.Arrows, to.Arrows)}
}
