package tui

import (
	"errors"
	"fmt"
	"slices"

	"coach.settee/model"
)

// desk is what was changed outside of an evening, with what can be taken back.
type desk struct {
	model.Desk
	// stale says that a student of the evening just closed was changed since.
	stale bool
	// back tells where what can be done again was taken back, the last at the end: the evening's id, "" for the desk.
	back []model.ID
}

// noteBack takes in where a step took something back or did it again. Whatever else is recorded, what was taken back is
// done again no more, at the desk or in any evening.
func (a *App) noteBack(step model.Step) {
	d := &a.desk
	switch {
	case len(step.Changes) == 0:
	case step.Undo:
		d.back = append(d.back, step.Session)
	case step.Again:
		for i, at := range slices.Backward(d.back) {
			if at == step.Session {
				d.back = slices.Delete(d.back, i, i+1)
				return
			}
		}
	default:
		d.back = nil
		d.ForgetUndone()
		for _, e := range append([]*model.Evening{a.evening, a.closed, a.strip.evening}, pastOf(a.strip.past)...) {
			if e != nil {
				e.ForgetUndone()
			}
		}
	}
}

// backInEvening tells whether what was taken back last, at the desk or in the evening that is open, was the evening's.
func (a *App) backInEvening() bool {
	if a.evening == nil {
		return false
	}
	for _, at := range slices.Backward(a.desk.back) {
		if at == "" {
			return false
		}
		if at == a.evening.Session().ID {
			return true
		}
	}
	return false
}

// inEvening tells whether a student belongs to the evening that is open, whose actions then change the record.
func (a *App) inEvening(id model.ID) bool { return a.evening != nil && a.evening.Student(id).ID == id }

// keepStudent keeps a student's record as it is now, in the open evening for one of its students, else at the desk; what
// says in words what was changed.
func (a *App) keepStudent(now model.Student, what string) error {
	if err := now.Validate(); err != nil {
		return err
	}
	if a.inEvening(now.ID) {
		return a.done(a.evening.ChangeStudent(now, what))
	}
	var was model.Record
	if kept, ok := a.students[now.ID]; ok {
		was = kept
	}
	if err := a.deskChange(was, now, what); err != nil {
		return err
	}
	a.say(what)
	return nil
}

// deskChange keeps a record at the desk as it is now; was is nil for a new one, and now is nil for one that goes.
func (a *App) deskChange(was, now model.Record, what string) error {
	step, err := a.desk.Change(was, now, what)
	if err := a.done(step, err); err != nil {
		return err
	}
	a.laidDown(step)
	return nil
}

// deskUndo takes back the last change made at the desk and says what it was. It gives the step, which is empty where that
// was refused.
func (a *App) deskUndo() model.Step {
	step, what, err := a.desk.Undo(a.keptNow)
	if err == nil {
		if err = a.mayGo(step); err != nil {
			// The desk has it as done again, from what would be kept now: nothing was handed to the recorder.
			_, _, again := a.desk.Redo(func(ref model.Ref) model.Record {
				var now model.Record
				for _, c := range step.Changes {
					if c.Ref == ref {
						now = c.After
					}
				}
				return now
			})
			err = errors.Join(err, again)
		}
	}
	return a.fromDesk(step, "taken back: "+what, err)
}

// deskRedo does again what was taken back at the desk last.
func (a *App) deskRedo() model.Step {
	step, what, err := a.desk.Redo(a.keptNow)
	return a.fromDesk(step, "done again: "+what, err)
}

func (a *App) fromDesk(step model.Step, words string, err error) model.Step {
	if !a.tell(step, err) {
		return model.Step{}
	}
	a.laidDown(step)
	a.say(words)
	return step
}

// keptNow gives a record as it is kept now, nil where it is none of the desk's: a student of the open evening is changed
// in the evening.
func (a *App) keptNow(ref model.Ref) model.Record {
	if i := slices.IndexFunc(a.cues.book, func(c model.Cue) bool { return c.Ref() == ref }); i >= 0 {
		return a.cues.book[i]
	}
	if s, ok := a.students[ref.ID]; ok && !a.inEvening(ref.ID) {
		return s
	}
	return nil
}

// mayGo refuses to take a student away who has been in an evening since.
func (a *App) mayGo(step model.Step) error {
	for _, c := range step.Changes {
		if c.Ref.Kind != model.StudentRecord || c.After != nil {
			continue
		}
		if !a.ledger.settled() {
			return errNotKept
		}
		switch _, been, err := a.conf.Store.Left(c.Ref.ID, ""); {
		case err != nil:
			return fmt.Errorf("the evenings cannot be read, so the student stays: %w", err)
		case been:
			return fmt.Errorf("%s has been in an evening since: A archives instead", clean(a.labelOf(c.Ref.ID)))
		}
	}
	return nil
}

// laidDown lets go of evenings in memory that have a student as was.
func (a *App) laidDown(step model.Step) {
	for _, c := range step.Changes {
		if c.Ref.Kind != model.StudentRecord {
			continue
		}
		for id, e := range a.strip.past {
			if e.Student(c.Ref.ID).ID != "" {
				delete(a.strip.past, id)
			}
		}
		a.desk.stale = a.desk.stale || a.closed != nil && a.closed.Student(c.Ref.ID).ID != ""
	}
}

// freshenClosed reads the evening just closed anew once everything is kept, where a student of it was changed since: it
// may be opened again.
func (a *App) freshenClosed() {
	if !a.desk.stale || !a.ledger.settled() {
		return
	}
	a.desk.stale = false
	if a.closed == nil {
		return
	}
	if e, err := a.readEvening(a.closed.Session().ID); err == nil {
		a.closed = e
	}
}
