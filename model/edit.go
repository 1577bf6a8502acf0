package model

import (
	"errors"
	"fmt"
)

// Edit is a delivery reopened: the call it says and what has been changed of it since.
type Edit struct {
	Delivery ID
	Game     ID
	Student  ID
	Rack     Rack
	Call     Call
	// Cue is the cue that was in force for the delivery.
	Cue string
	was struct {
		call Call
		cue  string
	}
}

// Changed tells whether anything was changed since the delivery was reopened.
func (d Edit) Changed() bool { return d.Call != d.was.call || d.Cue != d.was.cue }

// ErrUnchanged says that a delivery reopened was left as it was.
var ErrUnchanged = errors.New("nothing was changed: the delivery is as it was")

var errChanged = errors.New("this delivery is changed: enter keeps it, esc leaves it as it was")

// Editing gives the delivery that is reopened, and whether one is.
func (e *Evening) Editing() (Edit, bool) {
	if e.edit == nil {
		return Edit{}, false
	}
	return *e.edit, true
}

// Reopen opens the last recorded delivery again, or, with one open, the one before it in that student's game.
func (e *Evening) Reopen() error {
	if e.edit != nil {
		return e.ReopenBeside(-1)
	}
	d, ok := e.lastRecorded()
	if !ok {
		return errors.New("nothing is recorded yet")
	}
	e.open(d)
	return nil
}

// ReopenDelivery opens one delivery of a game again.
func (e *Evening) ReopenDelivery(game, delivery ID) error {
	if e.edit != nil && e.edit.Changed() {
		return errChanged
	}
	sheet := e.sheets[game]
	if sheet == nil {
		return errors.New("that game is not of this evening")
	}
	i := sheet.Index(delivery)
	if i < 0 {
		return errors.New("that delivery is not in the game")
	}
	e.open(sheet.Deliveries[i])
	return nil
}

// ReopenBeside opens the delivery a number of places after the open one in that student's game; before it where by is negative.
func (e *Evening) ReopenBeside(by int) error {
	if e.edit == nil {
		return errors.New("no delivery is open: , opens the last one")
	}
	if e.edit.Changed() {
		return errChanged
	}
	sheet := e.sheets[e.edit.Game]
	i := sheet.Index(e.edit.Delivery) + by
	switch {
	case i < 0:
		return fmt.Errorf("this is the first delivery of %s", e.TitleOf(sheet.Game))
	case i >= len(sheet.Deliveries):
		return fmt.Errorf("this is the last delivery of %s", e.TitleOf(sheet.Game))
	}
	e.open(sheet.Deliveries[i])
	return nil
}

// Leave leaves the open delivery as it was and tells whether one was open.
func (e *Evening) Leave() bool {
	was := e.edit != nil
	e.edit = nil
	return was
}

func (e *Evening) open(d Delivery) {
	sheet := e.sheets[d.Game]
	student := sheet.Game.Student
	edit := &Edit{
		Delivery: d.ID, Game: d.Game, Student: student, Rack: sheet.Racks[sheet.Index(d.ID)],
		Call: callOf(d), Cue: d.Cue,
	}
	if !d.Seen {
		edit.Call = edit.Call.begun(e.ChosenFor(student))
	}
	edit.Call.Pins = naming(d)
	edit.was.call, edit.was.cue = edit.Call, edit.Cue
	e.edit = edit
}

// lastRecorded gives the delivery recorded last of all that are there.
func (e *Evening) lastRecorded() (Delivery, bool) {
	var whose ID
	for id, b := range e.bowled {
		if b.order > e.bowled[whose].order {
			whose = id
		}
	}
	var last Delivery
	e.backwards(whose, func(d Delivery) bool {
		found := e.order[d.ID] == e.bowled[whose].order
		if found {
			last = d
		}
		return !found
	})
	return last, last.ID != ""
}

// keepEdit keeps what was changed of the open delivery. In a game the balls of other frames stay what they are: where the
// change is of how many balls the delivery's own frame has, it gives a *Reframing; a ball of the frame that becomes
// impossible refuses it.
func (e *Evening) keepEdit(fall pinfall) (Step, error) {
	changed, err := e.edited(fall)
	if err != nil {
		return Step{}, err
	}
	sheet := e.sheets[e.edit.Game]
	if sheet.Game.Kind != KindGame {
		deliveries := sheet.deliveries()
		deliveries[sheet.Index(changed.ID)] = changed
		return e.keepEdited(changed, deliveries)
	}
	f, err := sheet.reframed(changed)
	if err != nil {
		return Step{}, fmt.Errorf("that would make a later ball impossible (%w): correct that one first", err)
	}
	if r := e.reframing(sheet, f, fall); r != nil {
		return Step{}, r
	}
	return e.keepEdited(changed, f.game(nil))
}

// edited gives the open delivery as it is changed, with a recording key's pins.
func (e *Evening) edited(fall pinfall) (Delivery, error) {
	edit, sheet := e.edit, e.sheets[e.edit.Game]
	changed := edit.Call.onto(sheet.Deliveries[sheet.Index(edit.Delivery)])
	changed.Cue = edit.Cue
	if changed.Dead {
		return dead(changed), nil
	}
	pins, after, err := edit.Call.felled(edit.Rack, sheet.Game.Kind, fall)
	if err != nil {
		return Delivery{}, err
	}
	changed.Pins, changed.After = pins, after
	return changed, nil
}

// keepEdited keeps the deliveries that the open delivery's change makes of its game; those added, if any, are placed in the
// order of recording behind a ball.
func (e *Evening) keepEdited(changed Delivery, deliveries []Delivery, added ...Delivery) (Step, error) {
	edit, sheet := e.edit, e.sheets[e.edit.Game]
	changes, err := e.replaced(sheet, deliveries)
	if err != nil {
		return Step{}, fmt.Errorf("that would make a later ball impossible (%w): correct that one first", err)
	}
	if len(changes) == 0 {
		e.edit = nil
		return Step{}, ErrUnchanged
	}
	midFrame := e.midFrame(edit.Student)
	a := Action{Student: edit.Student, What: e.changedWords(*sheet, changed), Changes: changes}
	step, err := e.correct(a)
	if err != nil {
		return Step{}, err
	}
	e.placeBehind(added)
	e.edit = nil
	if e.midFrame(edit.Student) != midFrame {
		e.takeTurns(edit.Student)
	}
	step.Up = e.Up()
	return step, nil
}

// correct does an action that changes what was bowled. What was over has to stay so where
// something else was begun after it: no ball could be added to it any more.
func (e *Evening) correct(a Action) (Step, error) {
	sheets, err := e.rebuilt(a.Changes)
	if err != nil {
		return Step{}, err
	}
	for id, s := range sheets {
		was, next := e.sheets[id], e.begunAfter(s.Game)
		if was == nil || !was.Ended() || s.Ended() || next == nil {
			continue
		}
		return Step{}, fmt.Errorf("%s of %s would be unfinished though %s has begun: backspace takes that back first",
			e.TitleOf(s.Game), e.Label(s.Game.Student), e.TitleOf(next.Game))
	}
	return e.do(a)
}

// begunAfter gives what the student began after a game, nil for nothing.
func (e *Evening) begunAfter(g Game) *Sheet {
	for _, s := range e.Sheets(g.Student) {
		if s.Game.Number > g.Number {
			return s
		}
	}
	return nil
}

func (e *Evening) changedWords(s Sheet, d Delivery) string {
	if d.Frame > 0 {
		return fmt.Sprintf("%s, %s, frame %d changed", e.Label(s.Game.Student), e.TitleOf(s.Game), d.Frame)
	}
	return fmt.Sprintf("%s, %s, delivery %d changed", e.Label(s.Game.Student), e.TitleOf(s.Game), d.Seq)
}

// replaced gives the changes by which a sheet's deliveries become others, numbered anew; an error where they are not
// possible in that order.
func (e *Evening) replaced(s *Sheet, deliveries []Delivery) ([]Change, error) {
	next, err := NewSheet(s.Game, deliveries)
	if err != nil {
		return nil, err
	}
	was := map[ID]Delivery{}
	for _, d := range s.Deliveries {
		was[d.ID] = d
	}
	var changes []Change
	for _, d := range next.Deliveries {
		if old, ok := was[d.ID]; ok && old == d {
			delete(was, d.ID)
			continue
		}
		c := Change{Ref: d.Ref(), After: d}
		if old, ok := was[d.ID]; ok {
			c.Before = old
		}
		delete(was, d.ID)
		changes = append(changes, c)
	}
	for _, d := range s.Deliveries {
		if old, gone := was[d.ID]; gone {
			changes = append(changes, Change{Ref: d.Ref(), Before: old})
		}
	}
	return changes, nil
}

// SetCue changes the cue: of the delivery reopened, or else the one in force for the student who is up from the next
// delivery on; an empty one clears it. Of a delivery reopened nothing is kept until enter.
func (e *Evening) SetCue(text string) (Step, error) {
	if err := ValidateText(text); err != nil {
		return Step{}, err
	}
	if e.edit != nil {
		e.edit.Cue = text
		return e.upStep(), nil
	}
	id := e.UpStudent()
	if id == "" {
		return Step{}, errNobodyUp
	}
	what := fmt.Sprintf("cue for %s: %s", e.Label(id), text)
	if text == "" {
		what = fmt.Sprintf("cue for %s cleared", e.Label(id))
	}
	return e.reseat(id, what, func(s *Seat) { s.Cue = text })
}
