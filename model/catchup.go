package model

import (
	"errors"
	"fmt"
	"time"

	"coach.settee/model/tenpin"
)

// CatchUp records missed balls of the student who is up as the overhead shows them, from where the game stands, all
// unseen.
func (e *Evening) CatchUp(at time.Time, text string) (Step, error) {
	id := e.UpStudent()
	if err := e.readyForOther(id); err != nil {
		return Step{}, err
	}
	if e.nextKind(id) != KindGame {
		return Step{}, errors.New("catching up is for games: G begins one")
	}
	var from tenpin.Position
	if s := e.Sheet(id); s != nil && !s.Ended() {
		from = s.Card.At
	}
	balls, err := tenpin.ParseFrom(from, text)
	if err != nil {
		return Step{}, err
	}
	if len(balls) == 0 {
		return Step{}, errors.New("nothing typed: write the balls as the overhead shows them, 9/ 43 X")
	}
	return e.recordUnseen(id, at, from, balls)
}

func (e *Evening) recordUnseen(id ID, at time.Time, from tenpin.Position, balls []tenpin.Ball) (Step, error) {
	serial := e.serial
	game, changes := e.currentGame(id)
	seq := 0
	if s := e.sheets[game.ID]; s != nil {
		seq = len(s.Deliveries)
	}
	for i, b := range balls {
		rack := rackAt(from)
		d := e.delivery(id, game, rack, at)
		d.Seq, d.Pins, d.After, d.Foul = seq+i+1, Known(b.Pins), counted(b.Pins, rack), b.Foul
		changes = append(changes, Change{Ref: d.Ref(), After: d})
		next, _, err := from.Next(b)
		if err != nil {
			e.serial = serial
			return Step{}, err
		}
		from = next
	}
	what := fmt.Sprintf("%s caught up: %d balls unseen", e.Label(id), len(balls))
	if len(balls) == 1 {
		what = e.Label(id) + " caught up: 1 ball unseen"
	}
	step, err := e.do(Action{Student: id, What: what, Changes: changes})
	if err != nil {
		e.serial = serial
		return Step{}, err
	}
	e.advance(id)
	step.Up = e.Up()
	return step, nil
}
