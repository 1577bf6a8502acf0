package store

import "coach.settee/model"

// Steps are written for the journal: all that keepStep needs to make them. The changes are those of the action or their
// inverse; taking back needs no records as they were. Who is up is told by the last of a session's steps.

func encodeSteps(e *encoder, steps []model.Step) {
	e.count(len(steps))
	for i := range steps {
		s := &steps[i]
		encodeStep(e, s)
		last := i+1 == len(steps) || steps[i+1].Session != s.Session
		e.bool(last)
		if last {
			encodeUp(e, s.Up)
		}
	}
}

func decodeSteps(d *decoder) []model.Step {
	var steps []model.Step
	for range d.items() {
		s := decodeStep(d)
		if d.bool() {
			s.Up = decodeUp(d)
		}
		steps = append(steps, s)
	}
	return steps
}

func encodeStep(e *encoder, s *model.Step) {
	e.id(s.Session)
	e.bool(s.Undo)
	e.count(s.Action.N)
	e.id(s.Action.Student)
	e.byte(byte(s.Action.How))
	e.text(s.Action.What)
	if s.Action.How != model.NotRecorded {
		encodeCall(e, &s.Action.Call)
	}
	e.count(len(s.Changes))
	for _, c := range s.Changes {
		if !s.Undo {
			encodeWas(e, s.Session, model.Was{Ref: c.Ref, Record: c.Before})
		}
		encodeWas(e, s.Session, model.Was{Ref: c.Ref, Record: c.After})
	}
	e.count(len(s.Tallies))
	for game, t := range s.Tallies {
		e.id(game)
		encodeTally(e, t)
	}
}

func decodeStep(d *decoder) model.Step {
	s := model.Step{Session: d.id(), Undo: d.bool(), Tallies: map[model.ID]model.Tally{}}
	s.Action = model.Action{N: d.count(), Student: d.id(), How: model.How(d.byte()), What: d.text()}
	if s.Action.How != model.NotRecorded {
		s.Action.Call = decodeCall(d)
	}
	for range d.items() {
		var c model.Change
		if !s.Undo {
			c.Before = decodeWas(d, s.Session).Record
		}
		after := decodeWas(d, s.Session)
		c.Ref, c.After = after.Ref, after.Record
		s.Changes = append(s.Changes, c)
	}
	if !s.Undo && s.Action.N != 0 {
		s.Action.Changes = s.Changes
	}
	for range d.items() {
		game := d.id()
		s.Tallies[game] = decodeTally(d)
	}
	return s
}
