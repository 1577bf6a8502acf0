package model

import (
	"errors"
	"fmt"
	"strings"
	"time"
)

// ChosenFor is what is in force for a student tonight: the student's own, with the axes that are watched tonight and, once
// the evening was closed, the goal that it had then.
func (e *Evening) ChosenFor(id ID) Chosen {
	c := e.students[id].Chosen()
	if seat, ok := e.SeatOf(id); ok {
		c = c.at(seat)
	}
	return c
}

// ChosenAt is what was in force for the student in an evening in which the student has that place.
func (s Student) ChosenAt(seat Seat) Chosen { return s.Chosen().at(seat) }

func (c Chosen) at(seat Seat) Chosen {
	if seat.Watched != 0 {
		c.Watched = seat.Watched
	}
	if seat.Goal != 0 {
		c.Goal = seat.Goal
	}
	return c
}

// FocusOf gives what a student works on tonight: what was set for the evening, else the student's own focus.
func (e *Evening) FocusOf(id ID) string {
	if seat, ok := e.SeatOf(id); ok && seat.Focus != "" {
		return seat.Focus
	}
	return e.students[id].Focus
}

// SetTonight sets what a student works on tonight; an empty text leaves it to the student's own focus.
func (e *Evening) SetTonight(id ID, text string) (Step, error) {
	return e.setSeat(id, "tonight's focus", text, func(s *Seat) *string { return &s.Focus })
}

// SetHomework sets what a student does until the next meeting; an empty text takes it off.
func (e *Evening) SetHomework(id ID, text string) (Step, error) {
	return e.setSeat(id, "homework", text, func(s *Seat) *string { return &s.Homework })
}

// SetSentence sets what the coach says of the evening on the student's page; an empty text takes it off.
func (e *Evening) SetSentence(id ID, text string) (Step, error) {
	return e.setSeat(id, "sentence", text, func(s *Seat) *string { return &s.Sentence })
}

// manyNames is how many students are still named one by one in a line.
const manyNames = 3

// SetNext sets the date of the next meeting of some students, as 2006-01-02; "" takes it off. ParseDate reads what was typed.
// A day before the evening's is refused.
func (e *Evening) SetNext(date string, students ...ID) (Step, error) {
	if len(students) == 0 {
		return Step{}, errors.New("nobody is here to meet again: add a student first")
	}
	// The evening is kept in UTC, where it may have begun a day later than by the coach's clock.
	if first := e.session.At.UTC().AddDate(0, 0, -1).Format(time.DateOnly); date != "" && dateExists(date) && date < first {
		return Step{}, fmt.Errorf("the next meeting on %s would be before this evening", date)
	}
	session := e.session.clone()
	var names []string
	changed := false
	for _, id := range students {
		i := session.Seat(id)
		if i < 0 {
			return Step{}, errNotSeated
		}
		changed = changed || session.Roster[i].Next != date
		session.Roster[i].Next = date
		names = append(names, e.Label(id))
	}
	if !changed {
		return e.upStep(), nil
	}
	a := Action{Changes: []Change{{Ref: session.Ref(), Before: e.session, After: session}}}
	if len(students) == 1 {
		a.Student = students[0]
	}
	whose := strings.Join(names, ", ")
	if len(names) > manyNames {
		whose = NumberOf(len(names), "student")
	}
	a.What = fmt.Sprintf("next meeting of %s on %s", whose, date)
	if date == "" {
		a.What = fmt.Sprintf("next meeting of %s taken off", whose)
	}
	return e.rearranged(a)
}

// WatchTonight sets the axes that are looked at for a student tonight; none leaves it to the student's own. A call begun
// for the student is in the way, since its letters are of the axes watched before.
func (e *Evening) WatchTonight(id ID, axes AxisSet) (Step, error) {
	seat, ok := e.SeatOf(id)
	switch {
	case !ok:
		return Step{}, errNotSeated
	case seat.Watched == axes:
		return e.upStep(), nil
	}
	if err := e.NoneBegun(id); err != nil {
		return Step{}, err
	}
	what := fmt.Sprintf("%s: watching %s tonight", e.Label(id), axes)
	if axes == 0 {
		what = fmt.Sprintf("%s: watching what is watched otherwise", e.Label(id))
	}
	return e.reseat(id, what, func(s *Seat) { s.Watched = axes })
}

// ChangeStudent keeps the record of a student of the evening as it is now, with the words for what was changed. It holds
// beyond the evening. A call begun for the student is in the way where letters or weights change what it means. What was
// set as the focus for tonight only goes where another focus is chosen, since what is chosen last holds.
func (e *Evening) ChangeStudent(now Student, what string) (Step, error) {
	was, ok := e.students[now.ID]
	if !ok {
		return Step{}, errNotSeated
	}
	if err := now.Validate(); err != nil {
		return Step{}, err
	}
	if was.Chosen() != now.Chosen() {
		if err := e.NoneBegun(now.ID); err != nil {
			return Step{}, err
		}
	}
	return e.changeStudent(was, now, what, was.Focus != now.Focus)
}

// changeStudent keeps a student's record, and takes tonight's focus off where the record's is chosen. A closed evening keeps
// the focus it had.
func (e *Evening) changeStudent(was, now Student, what string, focusChosen bool) (Step, error) {
	var changes []Change
	if !sameRecord(was, now) {
		changes = append(changes, Change{Ref: now.Ref(), Before: was, After: now})
	}
	if seat, ok := e.SeatOf(now.ID); ok && focusChosen && seat.Focus != "" && e.session.Open() {
		session := e.session.clone()
		session.Roster[session.Seat(now.ID)].Focus = ""
		changes = append(changes, Change{Ref: session.Ref(), Before: e.session, After: session})
	}
	if len(changes) == 0 {
		return e.upStep(), nil
	}
	step, err := e.do(Action{Student: now.ID, What: what, Changes: changes})
	if err != nil {
		return Step{}, err
	}
	step.Up = e.Up()
	return step, nil
}

// OpenAgain opens a closed evening again.
func (e *Evening) OpenAgain() (Step, error) {
	if e.session.Open() {
		return Step{}, errors.New("the evening is open already")
	}
	return e.Arrange("evening opened again", func(s *Session) { s.Closed = time.Time{} })
}

// setSeat sets a text of a student's seat.
func (e *Evening) setSeat(id ID, name, text string, of func(*Seat) *string) (Step, error) {
	seat, ok := e.SeatOf(id)
	switch {
	case !ok:
		return Step{}, errNotSeated
	case *of(&seat) == text:
		return e.upStep(), nil
	}
	what := fmt.Sprintf("%s of %s: %s", name, e.Label(id), text)
	if text == "" {
		what = fmt.Sprintf("%s of %s taken off", name, e.Label(id))
	}
	return e.reseat(id, what, func(s *Seat) { *of(s) = text })
}
