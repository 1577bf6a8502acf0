package model

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"coach.settee/model/tenpin"
)

// HandOver gives the open delivery to another student of the evening, where it takes its place, by the order in which it
// was bowled, in what that student was bowling then. In a game the whole frame goes, since a frame is one student's. It is
// graded with what is in force for the other student, and refused where what either bowled would become impossible or, with
// something begun after it, unfinished. Who
// is up on their pairs is settled anew.
func (e *Evening) HandOver(to ID) (Step, error) {
	if e.edit == nil {
		return Step{}, errors.New("no delivery is open: , opens the last one")
	}
	edit := *e.edit
	if edit.Changed() {
		return Step{}, errChanged
	}
	if _, ok := e.SeatOf(to); !ok {
		return Step{}, errNotSeated
	}
	if to == edit.Student {
		return Step{}, fmt.Errorf("it is %s's already", e.Label(to))
	}
	from := e.sheets[edit.Game]
	moving, staying := from.frameOf(edit.Delivery)
	what := fmt.Sprintf("frame %d of %s handed to %s", moving[0].Frame, e.Label(edit.Student), e.Label(to))
	if moving[0].Frame == 0 {
		what = fmt.Sprintf("a delivery of %s handed to %s", e.Label(edit.Student), e.Label(to))
	}
	serial := e.serial
	changes, err := e.handed(from, moving, staying, to)
	if err != nil {
		e.serial = serial
		return Step{}, err
	}
	before := e.lastBalls(edit.Student, to)
	step, err := e.correct(Action{Student: to, What: what, Changes: changes})
	if err != nil {
		e.serial = serial
		return Step{}, err
	}
	e.edit = nil
	if e.lastBalls(edit.Student, to) != before {
		e.takeTurns(edit.Student, to)
	}
	step.Up = e.Up()
	return step, nil
}

// lastBalls gives the last balls of two students.
func (e *Evening) lastBalls(a, b ID) [2]bowled { return [2]bowled{e.bowled[a], e.bowled[b]} }

// handed gives the changes by which deliveries leave a game and come to a student.
func (e *Evening) handed(from *Sheet, moving, staying []Delivery, to ID) ([]Change, error) {
	leaving, err := e.handedFrom(from, staying)
	if err != nil {
		return nil, err
	}
	coming, err := e.handedTo(to, from.Game, moving)
	if err != nil {
		return nil, err
	}
	return joinMoves(leaving, coming), nil
}

// frameOf parts a sheet's deliveries into those of the frame that a delivery is in, and the others; outside games a
// delivery stands alone.
func (s *Sheet) frameOf(delivery ID) (frame, others []Delivery) {
	at := s.Deliveries[s.Index(delivery)]
	for _, d := range s.Deliveries {
		if d.ID == delivery || at.Frame > 0 && d.Frame == at.Frame {
			frame = append(frame, d)
			continue
		}
		others = append(others, d)
	}
	return frame, others
}

func (e *Evening) handedFrom(s *Sheet, staying []Delivery) ([]Change, error) {
	changes, err := e.replaced(s, staying)
	if err != nil {
		return nil, fmt.Errorf("%s's later balls would be impossible without it (%w)", e.Label(s.Game.Student), err)
	}
	if len(staying) == 0 && e.beganByItself(s.Game) {
		changes = append(changes, Change{Ref: s.Game.Ref(), Before: s.Game})
	}
	return changes, nil
}

// beganByItself tells whether a game is one that the first call of it would begin again: a drill or a warm-up that the
// coach began stays, though nothing is left in it.
func (e *Evening) beganByItself(g Game) bool {
	like := Game{Kind: KindGame}
	for _, s := range e.Sheets(g.Student) {
		if s.Game.Number < g.Number {
			like = s.Game
		}
	}
	last := e.Sheet(g.Student).Game.ID == g.ID
	return !last || g.Kind == like.Kind && g.Name == like.Name && g.Length == like.Length && g.Pins == like.Pins
}

func (e *Evening) handedTo(to ID, like Game, moving []Delivery) ([]Change, error) {
	sheet := e.sheetAt(to, e.order[moving[0].ID])
	var changes []Change
	if sheet == nil {
		if last := e.Sheet(to); last != nil {
			like = last.Game
		}
		g := e.newGame(to, like)
		sheet = &Sheet{Game: g}
		changes = append(changes, Change{Ref: g.Ref(), After: g})
	}
	deliveries, err := e.placed(to, sheet, moving)
	if err != nil {
		return nil, fmt.Errorf("it does not fit into what %s bowled (%w)", e.Label(to), err)
	}
	more, err := e.replaced(sheet, deliveries)
	if err != nil {
		return nil, fmt.Errorf("it does not fit into what %s bowled (%w)", e.Label(to), err)
	}
	return append(changes, more...), nil
}

// sheetAt gives what a student was bowling at a place in the order of recording: nil where nothing was begun or what was
// begun was over by then. What was begun next goes before nothing.
func (e *Evening) sheetAt(id ID, order int) *Sheet {
	var at *Sheet
	for _, s := range e.Sheets(id) {
		over := at == nil || at.Ended() && e.lastOrder(at) < order
		if len(s.Deliveries) == 0 || e.order[s.Deliveries[0].ID] > order {
			if over {
				return s
			}
			return at
		}
		at = s
	}
	if at != nil && at.Ended() && e.lastOrder(at) < order {
		return nil
	}
	return at
}

func (e *Evening) lastOrder(s *Sheet) int {
	last := 0
	for _, d := range s.Deliveries {
		last = max(last, e.order[d.ID])
	}
	return last
}

// placed gives a sheet's deliveries with those of another student among them by the order in which they were recorded.
func (e *Evening) placed(to ID, sheet *Sheet, moving []Delivery) ([]Delivery, error) {
	come := map[ID]bool{}
	deliveries := sheet.deliveries()
	for _, d := range moving {
		come[d.ID] = true
		deliveries = append(deliveries, e.regraded(d, to, sheet))
	}
	slices.SortStableFunc(deliveries, func(a, b Delivery) int { return cmp.Compare(e.order[a.ID], e.order[b.ID]) })
	next, err := NewSheet(sheet.Game, deliveries)
	if err != nil {
		return nil, err
	}
	seat, _ := e.SeatOf(to)
	for i := range next.Deliveries {
		if d := &next.Deliveries[i]; come[d.ID] {
			d.Lane = seat.LaneFor(d.Frame)
			d.Aimed, d.Bowled = e.inForce(e.seatWhen(to, d.Ref()), d.Lane, e.order[d.ID])
		}
	}
	return next.Deliveries, nil
}

// regraded gives a delivery as the other student's: letters as they were called, but with that student's weights, bar,
// level and cue. Outside games pins that do not fit are left out, since there they need not be known.
func (e *Evening) regraded(d Delivery, to ID, sheet *Sheet) Delivery {
	chosen := e.ChosenFor(to)
	seat, _ := e.SeatOf(to)
	d.Game, d.Weights, d.Bar, d.Level, d.Cue = sheet.Game.ID, chosen.Weights, chosen.Bar, chosen.Level, seat.Cue
	if sheet.Game.Kind != KindGame && !d.Dead && fits(d, sheet.rack()) != nil {
		d.Pins, d.After = Optional[int]{}, tenpin.Leave{}
	}
	return d
}

// joinMoves makes one change of a delivery's going and its coming. What is begun comes first and what is left empty goes
// last, so that every delivery has its game at each moment.
func joinMoves(from, to []Change) []Change {
	was := map[Ref]Record{}
	var out, gone []Change
	for _, c := range from {
		switch {
		case c.After != nil:
			out = append(out, c)
		case c.Ref.Kind == DeliveryRecord:
			was[c.Ref] = c.Before
		default:
			gone = append(gone, c)
		}
	}
	for _, c := range to {
		if before, moved := was[c.Ref]; moved {
			c.Before = before
		}
		out = append(out, c)
	}
	return append(out, gone...)
}

// giver gives the student who had the deliveries that an action handed over and that was taken back, "" where it handed
// none over.
func (e *Evening) giver(a Action) ID {
	for _, c := range a.Changes {
		was, isBall := c.Before.(Delivery)
		now, stays := c.After.(Delivery)
		if !isBall || !stays || was.Game == now.Game {
			continue
		}
		if s := e.sheets[was.Game]; s != nil && s.Game.Student != a.Student {
			return s.Game.Student
		}
	}
	return ""
}
