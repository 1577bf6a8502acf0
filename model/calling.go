package model

import "errors"

var errNobodyUp = errors.New("nobody is up: add a student with A")

// Call gives the call being made: of the delivery reopened, or else of the next one of the student who is up.
func (e *Evening) Call() Call {
	if e.edit != nil {
		return e.edit.Call
	}
	return e.CallOf(e.UpStudent())
}

// CallOf gives the call begun for a student's next delivery, or a fresh one.
func (e *Evening) CallOf(id ID) Call {
	if c, ok := e.calls[id]; ok {
		return c
	}
	return newCall(e.ChosenFor(id))
}

// Begun tells whether anything was said yet of a student's next delivery.
func (e *Evening) Begun(id ID) bool {
	c, ok := e.calls[id]
	return ok && c != newCall(e.ChosenFor(id))
}

// Speaking gives the student that the keys speak of and what the ball finds or found.
func (e *Evening) Speaking() (ID, Rack) {
	if e.edit != nil {
		return e.edit.Student, e.edit.Rack
	}
	id := e.UpStudent()
	return id, e.Rack(id)
}

// Grading gives what the delivery that the keys speak of is graded with: what is in force for the student, and of a
// delivery reopened the weights, the bar and the level that it keeps.
func (e *Evening) Grading() Chosen {
	id, _ := e.Speaking()
	chosen := e.ChosenFor(id)
	if e.edit != nil {
		s := e.sheets[e.edit.Game]
		d := s.Deliveries[s.Index(e.edit.Delivery)]
		chosen.Weights, chosen.Bar, chosen.Level = d.Weights, d.Bar, d.Level
		chosen.Tolerance = d.Level.Defaults().Tolerance
	}
	return chosen
}

// Say changes the call being made. How is given the call, what the ball finds, and what is in force for the student.
func (e *Evening) Say(how func(Call, Rack, Chosen) (Call, error)) error {
	id, rack := e.Speaking()
	if id == "" {
		return errNobodyUp
	}
	c, err := how(e.Call(), rack, e.Grading())
	if err != nil {
		return err
	}
	if e.edit != nil {
		e.edit.Call = c
		return nil
	}
	e.calls[id] = c
	return nil
}

// Lower lowers an axis's letter of the call being made.
func (e *Evening) Lower(a Axis) error {
	return e.Say(func(c Call, _ Rack, chosen Chosen) (Call, error) { return c.Lower(a, chosen) })
}

// Raise raises an axis's letter of the call being made.
func (e *Evening) Raise(a Axis) error {
	return e.Say(func(c Call, _ Rack, chosen Chosen) (Call, error) { return c.Raise(a, chosen) })
}

// Miss says that the target was missed on a side by one board more.
func (e *Evening) Miss(side Side) error {
	return e.Say(func(c Call, _ Rack, chosen Chosen) (Call, error) { return c.Miss(side, chosen), nil })
}

// Meet says where the ball met the pins: the first of the row, or the one after the word that the call has.
func (e *Evening) Meet(row ...Hit) error {
	return e.Say(func(c Call, _ Rack, _ Chosen) (Call, error) { return c.Meet(row...), nil })
}

// TogglePin names a pin as left standing, or no longer.
func (e *Evening) TogglePin(pin int) error {
	return e.Say(func(c Call, r Rack, _ Chosen) (Call, error) { return c.TogglePin(pin, r) })
}

// NameNoneDown says that no pin fell.
func (e *Evening) NameNoneDown() error {
	return e.Say(func(c Call, _ Rack, _ Chosen) (Call, error) { return c.NameNoneDown(), nil })
}

// ToggleFoul says that the ball was a foul, or that it was none.
func (e *Evening) ToggleFoul() error {
	return e.Say(func(c Call, _ Rack, _ Chosen) (Call, error) { return c.ToggleFoul(), nil })
}

// ToggleUnseen says that the ball was not watched, or that it was.
func (e *Evening) ToggleUnseen() error {
	return e.Say(func(c Call, _ Rack, _ Chosen) (Call, error) { return c.ToggleUnseen(), nil })
}

// SetOwn keeps the student's own grade with the call; Ungraded takes it off.
func (e *Evening) SetOwn(g ShotGrade) error {
	return e.Say(func(c Call, _ Rack, _ Chosen) (Call, error) {
		c.Own = g
		return c, nil
	})
}

// SetNote keeps a note with the call; an empty one takes it off.
func (e *Evening) SetNote(text string) error {
	if err := ValidateText(text); err != nil {
		return err
	}
	return e.Say(func(c Call, _ Rack, _ Chosen) (Call, error) {
		c.Note = text
		return c, nil
	})
}

// Clear drops the call begun for the student who is up and tells whether there was one.
func (e *Evening) Clear() bool {
	id := e.UpStudent()
	begun := e.Begun(id)
	delete(e.calls, id)
	return begun
}
