package model

import (
	"cmp"
	"errors"
)

// undone is an action taken back, with the call that was begun for its student then and who was up.
type undone struct {
	action Action
	begun  Call
	had    bool
	up     Up
}

// ErrNothingToUndo says that the evening's list of actions is at its start.
var ErrNothingToUndo = errors.New("nothing to take back: this is the start of the evening")

// ErrNothingToRedo says that nothing was taken back since the last action.
var ErrNothingToRedo = errors.New("nothing to do again: nothing was taken back since")

// Undo takes back the last action, whoever's it was, puts that student up, or whose balls they are again after a hand-over,
// and gives a recorded call as it was before the recording key. A delivery reopened and changed is in the way of it.
func (e *Evening) Undo() (Step, error) {
	switch {
	case e.edit != nil && e.edit.Changed():
		return Step{}, errChanged
	case len(e.log) == 0:
		return Step{}, ErrNothingToUndo
	}
	a, up := e.log[len(e.log)-1], e.Up()
	step, err := e.take(a, a.Inverse())
	if err != nil {
		return Step{}, err
	}
	e.edit = nil
	e.log = e.log[:len(e.log)-1]
	u := undone{action: a, up: up}
	if a.How != NotRecorded {
		u.begun, u.had = e.calls[a.Student]
		e.calls[a.Student] = a.Call.begun(e.ChosenFor(a.Student))
	}
	e.undone = append(e.undone, u)
	e.settleUp()
	e.putUp(cmp.Or(e.giver(a), a.Student))
	step.Undo, step.Up = true, e.Up()
	return step, nil
}

// Redo does again what was taken back last, and puts up who was up then. A delivery reopened and changed is in the way
// of it.
func (e *Evening) Redo() (Step, error) {
	switch {
	case e.edit != nil && e.edit.Changed():
		return Step{}, errChanged
	case len(e.undone) == 0:
		return Step{}, ErrNothingToRedo
	}
	u := e.undone[len(e.undone)-1]
	step, err := e.take(u.action, u.action.Changes)
	if err != nil {
		return Step{}, err
	}
	e.edit = nil
	e.undone = e.undone[:len(e.undone)-1]
	e.log = append(e.log, u.action)
	if u.action.How != NotRecorded {
		delete(e.calls, u.action.Student)
		if u.had {
			e.calls[u.action.Student] = u.begun
		}
	}
	e.up = u.up
	e.settleUp()
	step.Again, step.Up = true, e.Up()
	return step, nil
}

// ForgetUndone lets go of what was taken back, since something was recorded elsewhere: Redo has nothing to do then.
func (e *Evening) ForgetUndone() { e.undone = nil }

// Last gives the last action that was done and not taken back.
func (e *Evening) Last() (Action, bool) {
	if len(e.log) == 0 {
		return Action{}, false
	}
	return e.log[len(e.log)-1], true
}

// Undone gives the action that was taken back last and can be done again.
func (e *Evening) Undone() (Action, bool) {
	if len(e.undone) == 0 {
		return Action{}, false
	}
	return e.undone[len(e.undone)-1].action, true
}

// OfRecord tells whether the action changed a student's record or place and nothing that was bowled.
func (a Action) OfRecord() bool {
	for _, c := range a.Changes {
		switch c.Ref.Kind {
		case StudentRecord:
		case SessionRecord:
			if a.Student == "" {
				return false
			}
		default:
			return false
		}
	}
	return a.How == NotRecorded && len(a.Changes) > 0
}

// actions gives the list's entries their records as they became: what is there now, or what a later entry says it was.
func (e *Evening) actions(entries []Entry) []Action {
	now := e.records()
	out := make([]Action, len(entries))
	for i := len(entries) - 1; i >= 0; i-- {
		en := entries[i]
		a := Action{N: en.N, Student: en.Student, How: en.How, What: en.What, Changes: make([]Change, len(en.Was))}
		for j := len(en.Was) - 1; j >= 0; j-- {
			w := en.Was[j]
			a.Changes[j] = Change{Ref: w.Ref, Before: w.Record, After: now[w.Ref]}
			now[w.Ref] = w.Record
		}
		if d, ok := a.recorded(); en.Call.Known {
			a.Call = en.Call.Value
		} else if ok {
			a.Call = callBefore(d, en.How)
		}
		out[i] = a
	}
	return out
}

// records gives every record of the evening by its name.
func (e *Evening) records() map[Ref]Record {
	now := map[Ref]Record{e.session.Ref(): e.session}
	for _, s := range e.students {
		now[s.Ref()] = s
	}
	for _, s := range e.sheets {
		now[s.Game.Ref()] = s.Game
		for _, d := range s.Deliveries {
			now[d.Ref()] = d
		}
	}
	return now
}
