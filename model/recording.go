package model

import (
	"errors"
	"fmt"
	"time"

	"coach.settee/model/tenpin"
)

// RecordAllDown records the call with every standing pin felled: a strike on a full rack, otherwise a spare. Of a
// delivery reopened it keeps the change.
func (e *Evening) RecordAllDown(at time.Time) (Step, error) {
	return e.record(at, AllDown, func(_ Call, r Rack, _ bool) (Optional[int], tenpin.Leave, error) {
		return Known(r.Count), tenpin.Standing(0), nil
	})
}

// RecordSpare is RecordAllDown on a spare shot only; on a full rack it is refused.
func (e *Evening) RecordSpare(at time.Time) (Step, error) {
	if id, r := e.Speaking(); id != "" && r.Full {
		return Step{}, errors.New("/ is for a spare shot: on a full rack x is a strike")
	}
	return e.RecordAllDown(at)
}

// RecordCount records the call with a number of pins felled that are not named: at most what stands and never all of it.
func (e *Evening) RecordCount(at time.Time, felled int) (Step, error) {
	return e.record(at, Counted, func(_ Call, r Rack, _ bool) (Optional[int], tenpin.Leave, error) {
		if felled < 0 || felled >= r.Count {
			return Optional[int]{}, tenpin.Leave{}, fmt.Errorf("%s standing: = takes fewer than that, x is all of them", pinsAre(r.Count))
		}
		return Known(felled), counted(felled, r), nil
	})
}

// RecordNamed records the call with the pins that it names. With nothing named it is refused in a game, and elsewhere
// records the ball without pins.
func (e *Evening) RecordNamed(at time.Time) (Step, error) {
	return e.record(at, Named, Call.pinfall)
}

// RecordDead records a dead ball or a ball at a short rack: thrown again, it counts for the load only.
func (e *Evening) RecordDead(at time.Time) (Step, error) {
	if e.edit != nil {
		return Step{}, errors.New("a dead ball is called before the next one: enter or esc first")
	}
	return e.record(at, DeadBall, func(_ Call, r Rack, _ bool) (Optional[int], tenpin.Leave, error) {
		return Known(0), r.Standing, nil
	})
}

// pinfall says what fell and what stands by a call, in a game or not.
type pinfall func(c Call, r Rack, game bool) (Optional[int], tenpin.Leave, error)

func (e *Evening) record(at time.Time, how How, fall pinfall) (Step, error) {
	if e.edit != nil {
		return e.keepEdit(fall)
	}
	id := e.UpStudent()
	if err := e.ready(id); err != nil {
		return Step{}, err
	}
	rack, c, serial := e.Rack(id), e.CallOf(id), e.serial
	pins, after, err := c.felled(rack, e.nextKind(id), fall)
	if err != nil {
		return Step{}, err
	}
	game, changes := e.currentGame(id)
	d := e.delivery(id, game, rack, at)
	d.Pins, d.After = pins, after
	d = c.onto(d)
	if how == DeadBall {
		d = dead(d)
	}
	changes = append(changes, Change{Ref: d.Ref(), After: d})
	step, err := e.do(Action{Student: id, How: how, Call: c.asSaid(d), Changes: changes})
	if err != nil {
		e.serial = serial
		return Step{}, err
	}
	delete(e.calls, id)
	e.advance(id)
	step.Up = e.Up()
	return step, nil
}

// felled gives what a call says of the pins by a recording key; a foul fells nothing and leaves the rack as it was.
func (c Call) felled(r Rack, kind Kind, fall pinfall) (Optional[int], tenpin.Leave, error) {
	if c.Foul {
		return Known(0), r.Standing, nil
	}
	return fall(c, r, kind == KindGame)
}

// nextKind gives the kind of what the student's next delivery belongs to.
func (e *Evening) nextKind(id ID) Kind {
	if s := e.Sheet(id); s != nil {
		return s.Game.Kind
	}
	return KindGame
}

// currentGame gives the game that a student's next delivery belongs to, and the change that begins it where the last one
// is over: then it is of the same kind.
func (e *Evening) currentGame(id ID) (Game, []Change) {
	last := e.Sheet(id)
	if last != nil && !last.Ended() {
		return last.Game, nil
	}
	g := Game{Kind: KindGame}
	if last != nil {
		g = last.Game
	}
	g = e.newGame(id, g)
	return g, []Change{{Ref: g.Ref(), After: g}}
}

// newGame gives a game like the pattern, next in number for the student.
func (e *Evening) newGame(id ID, like Game) Game {
	number := 1
	if last := e.Sheet(id); last != nil {
		number = last.Game.Number + 1
	}
	return Game{
		ID: e.newID(), Session: e.session.ID, Student: id, Number: number,
		Kind: like.Kind, Name: like.Name, Length: like.Length, Pins: like.Pins,
	}
}

// delivery gives a student's next delivery with what is in force for it.
func (e *Evening) delivery(id ID, g Game, r Rack, at time.Time) Delivery {
	seat, _ := e.SeatOf(id)
	chosen := e.ChosenFor(id)
	d := Delivery{
		ID: e.newID(), Game: g.ID, Seq: 1, At: at.UTC().Truncate(time.Second), Frame: r.Frame, Ball: r.Ball,
		Weights: chosen.Weights, Bar: chosen.Bar, Level: chosen.Level, Cue: seat.Cue,
	}
	if s := e.sheets[g.ID]; s != nil {
		d.Seq = len(s.Deliveries) + 1
	}
	e.order[d.ID] = e.nextOrder()
	d.Lane = seat.LaneFor(r.Frame)
	d.Aimed, d.Bowled = e.inForce(seat, d.Lane, e.order[d.ID])
	return d
}

// inForce gives the line aimed at and the ball in use for a delivery on a lane from a seat, by the delivery's place in the
// order of recording: the line set at the seat, the ball that the student has up, and what is not set as when the student
// last bowled on that lane tonight.
func (e *Evening) inForce(seat Seat, lane, order int) (Line, string) {
	var line Line
	var ball string
	e.backwards(seat.Student, func(d Delivery) bool {
		found := d.Lane == lane && e.order[d.ID] < order
		if found {
			line, ball = d.Aimed, d.Bowled
		}
		return !found
	})
	if aimed := seat.aimedOn(lane); !aimed.IsZero() {
		line = aimed
	}
	if up := e.students[seat.Student].BallUp; up != "" {
		ball = up
	}
	return line, ball
}

// backwards goes through a student's deliveries of the evening from the last to the first, as long as on tells so.
func (e *Evening) backwards(id ID, on func(Delivery) bool) {
	sheets := e.Sheets(id)
	for i := len(sheets) - 1; i >= 0; i-- {
		ds := sheets[i].Deliveries
		for j := len(ds) - 1; j >= 0; j-- {
			if !on(ds[j]) {
				return
			}
		}
	}
}

// onto puts what a call says, but for the pins, onto a delivery. Of one that was not seen it keeps no judgement: neither
// letters nor the side of a target that nobody watched.
func (c Call) onto(d Delivery) Delivery {
	d.Seen, d.Letters, d.Touched = !c.Unseen, c.Letters, c.Touched
	d.Foul, d.Side, d.SideBoards = c.Foul, c.Side, c.SideBoards
	if c.Unseen {
		d.Letters, d.Touched, d.Side, d.SideBoards = Letters{}, false, "", 0
	}
	d.Hit, d.HitBoards, d.Line, d.SpeedMPH = c.Hit, c.HitBoards, c.Line, c.SpeedMPH
	d.Own, d.Note = c.Own, c.Note
	return d
}

// dead makes a delivery one that does not count: without judgement and without pins, but with the line it took, its speed,
// the student's own call and the note, since the ball was thrown all the same.
func dead(d Delivery) Delivery {
	d.Dead, d.Seen, d.Letters, d.Touched = true, false, Letters{}, false
	d.Side, d.SideBoards, d.Hit, d.HitBoards = "", 0, "", Optional[float64]{}
	d.Foul, d.Pins, d.After = false, Optional[int]{}, tenpin.Leave{}
	return d
}

// callOf gives the call that a delivery says, without the pins. Letters of one that was not seen are left out.
func callOf(d Delivery) Call {
	c := Call{
		Letters: d.Letters, Touched: d.Touched, Unseen: !d.Seen, Foul: d.Foul, Side: d.Side, SideBoards: d.SideBoards,
		Hit: d.Hit, HitBoards: d.HitBoards, Line: d.Line, SpeedMPH: d.SpeedMPH, Own: d.Own, Note: d.Note,
	}
	if c.SideBoards > 0 && c.Letters[Target] != NoLetter {
		steps := 1 + (c.SideBoards-1)/d.Level.Defaults().Tolerance
		c.SideSteps = min(steps, int(A-c.Letters[Target]))
	}
	return c
}

// callBefore gives the call that a recorded delivery tells of, as it was before the key that recorded it.
func callBefore(d Delivery, how How) Call {
	c := callOf(d)
	switch how {
	case Named:
		c.Pins = naming(d)
	case DeadBall:
		c.Unseen = false
	}
	return c
}

// asSaid gives a call as an action remembers it: letters that no key touched are left out where the delivery has none
// either, since they are the starting letters.
func (c Call) asSaid(d Delivery) Call {
	if !d.Seen && !c.Touched {
		c.Letters = Letters{}
	}
	return c
}

// begun gives a call as an action remembers it the letters that asSaid left out.
func (c Call) begun(chosen Chosen) Call {
	if c.Letters == (Letters{}) {
		c.Letters = chosen.StartLetters()
	}
	return c
}

// naming gives the pins as a delivery names them.
func naming(d Delivery) Naming {
	switch {
	case !d.Pins.Known || d.Foul:
		return Naming{}
	case d.Pins.Value == 0:
		return Naming{How: NoneDown}
	case d.After.Known:
		return Naming{How: LeftNamed, Left: d.After.Pins}
	}
	return Naming{How: FelledCounted, Felled: d.Pins.Value}
}
