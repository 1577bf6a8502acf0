package model

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
)

// HandOver gives the open delivery to another student of the evening, where it takes its place by the order in which it
// was bowled. In a game the whole frame goes, since a frame is one student's. It is graded with what is in force for the
// other student, and refused where either game would become impossible.
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
	changes, err := e.handedFrom(from, staying)
	if err != nil {
		return Step{}, err
	}
	serial := e.serial
	more, err := e.handedTo(to, from.Game, moving)
	if err != nil {
		e.serial = serial
		return Step{}, err
	}
	what := fmt.Sprintf("frame %d of %s handed to %s", moving[0].Frame, e.Label(edit.Student), e.Label(to))
	if moving[0].Frame == 0 {
		what = fmt.Sprintf("a delivery of %s handed to %s", e.Label(edit.Student), e.Label(to))
	}
	step, err := e.do(Action{Student: to, What: what, Changes: joinMoves(changes, more)})
	if err != nil {
		e.serial = serial
		return Step{}, err
	}
	e.edit = nil
	step.Up = e.Up()
	return step, nil
}

// frameOf parts a sheet's deliveries into those of the frame that a delivery is in, and the others; outside games a
// delivery stands alone.
func (s *Sheet) frameOf(delivery ID) (frame, others []Delivery) {
	at := s.Deliveries[s.index(delivery)]
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
		return nil, fmt.Errorf("%s: %w", e.Label(s.Game.Student), err)
	}
	if len(staying) == 0 {
		changes = append(changes, Change{Ref: s.Game.Ref(), Before: s.Game})
	}
	return changes, nil
}

func (e *Evening) handedTo(to ID, like Game, moving []Delivery) ([]Change, error) {
	sheet := e.Sheet(to)
	var changes []Change
	if sheet == nil || sheet.Ended() || sheet.Game.Kind != like.Kind {
		g := e.newGame(to, like)
		sheet = &Sheet{Game: g}
		changes = append(changes, Change{Ref: g.Ref(), After: g})
	}
	deliveries := sheet.deliveries()
	for _, d := range moving {
		deliveries = append(deliveries, e.regraded(d, to, sheet))
	}
	slices.SortStableFunc(deliveries, func(a, b Delivery) int { return cmp.Compare(e.order[a.ID], e.order[b.ID]) })
	more, err := e.replaced(sheet, deliveries)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", e.Label(to), err)
	}
	return append(changes, more...), nil
}

// regraded gives a delivery as the other student's: letters as they were called, but with that student's weights, bar,
// level, cue and lane.
func (e *Evening) regraded(d Delivery, to ID, sheet *Sheet) Delivery {
	chosen := e.students[to].Chosen()
	seat, _ := e.SeatOf(to)
	d.Game, d.Weights, d.Bar, d.Level, d.Cue = sheet.Game.ID, chosen.Weights, chosen.Bar, chosen.Level, seat.Cue
	d.Lane = seat.LaneFor(sheet.Next().Frame)
	d.Aimed, d.Bowled = e.inForce(to, d.Lane)
	return d
}

// joinMoves makes one change of a delivery's going and its coming.
func joinMoves(from, to []Change) []Change {
	going := map[Ref]Record{}
	for _, c := range from {
		if c.After == nil && c.Ref.Kind == DeliveryRecord {
			going[c.Ref] = c.Before
		}
	}
	out := slices.DeleteFunc(from, func(c Change) bool { return c.After == nil && c.Ref.Kind == DeliveryRecord })
	var games []Change
	out = slices.DeleteFunc(out, func(c Change) bool {
		gone := c.After == nil
		if gone {
			games = append(games, c)
		}
		return gone
	})
	for _, c := range to {
		if was := going[c.Ref]; was != nil {
			c.Before = was
		}
		out = append(out, c)
	}
	return append(out, games...)
}
