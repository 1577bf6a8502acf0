package model

import (
	"errors"
	"fmt"
	"reflect"
)

// Desk is what is changed outside of an evening, students and the book of cues, with what can be taken back since the
// program began.
type Desk struct {
	done, undone []Action
}

// Change keeps a record as it is now; was is nil for a new one, and now is nil for one that goes. The step is the store's;
// it is the zero Step where nothing was changed.
func (d *Desk) Change(was, now Record, what string) (Step, error) {
	c := Change{Before: was, After: now}
	switch {
	case now != nil:
		c.Ref = now.Ref()
	case was != nil:
		c.Ref = was.Ref()
	}
	return d.ChangeAll([]Change{c}, what)
}

// ChangeAll is Change for several records as one action. Where one is refused none is changed.
func (d *Desk) ChangeAll(changes []Change, what string) (Step, error) {
	a := Action{What: what}
	for _, c := range changes {
		if sameRecord(c.Before, c.After) {
			continue
		}
		if c.After != nil {
			if err := c.After.Validate(); err != nil {
				return Step{}, err
			}
		}
		a.Changes = append(a.Changes, c)
	}
	if len(a.Changes) == 0 {
		return Step{}, nil
	}
	d.done = append(d.done, a)
	d.undone = nil
	return Step{Action: a, Changes: a.Changes}, nil
}

// Undo takes back the last change, unless the record is no longer what it became: kept gives what is kept now, nil for
// nothing. What says what was taken back.
func (d *Desk) Undo(kept func(Ref) Record) (step Step, what string, err error) {
	last := len(d.done) - 1
	if last < 0 {
		return Step{}, "", errors.New("nothing to take back: nothing was changed here since settee began")
	}
	a := d.done[last]
	back := a.Inverse()
	if err := unchangedSince(back, kept); err != nil {
		return Step{}, "", err
	}
	d.done, d.undone = d.done[:last], append(d.undone, a)
	return Step{Action: a, Undo: true, Changes: back}, a.What, nil
}

// Redo does again what was taken back last, with the same condition.
func (d *Desk) Redo(kept func(Ref) Record) (step Step, what string, err error) {
	last := len(d.undone) - 1
	if last < 0 {
		return Step{}, "", ErrNothingToRedo
	}
	a := d.undone[last]
	if err := unchangedSince(a.Changes, kept); err != nil {
		return Step{}, "", err
	}
	d.undone, d.done = d.undone[:last], append(d.done, a)
	return Step{Action: a, Again: true, Changes: a.Changes}, a.What, nil
}

// ForgetUndone lets go of what was taken back, since something was recorded elsewhere: Redo has nothing to do then.
func (d *Desk) ForgetUndone() { d.undone = nil }

// unchangedSince tells which record is no longer as the changes in their order find it, or nil.
func unchangedSince(changes []Change, kept func(Ref) Record) error {
	made := map[Ref]bool{}
	for _, c := range changes {
		if made[c.Ref] {
			continue
		}
		made[c.Ref] = true
		if now := kept(c.Ref); !sameRecord(now, c.Before) {
			return fmt.Errorf("%s has changed since: put it right by hand", nameOfRecord(now, c.Before, c.After))
		}
	}
	return nil
}

// sameRecord tells whether two records, nil for none, hold the same. A list without entries is none, as it is once kept.
func sameRecord(a, b Record) bool {
	return reflect.DeepEqual(withoutEmptyLists(a), withoutEmptyLists(b))
}

func withoutEmptyLists(r Record) Record {
	s, ok := r.(Student)
	if !ok {
		return r
	}
	if len(s.Balls) == 0 {
		s.Balls = nil
	}
	if len(s.SpareLines) == 0 {
		s.SpareLines = nil
	}
	return s
}

// nameOfRecord gives the name of the first record that is there.
func nameOfRecord(records ...Record) string {
	for _, r := range records {
		switch r := r.(type) {
		case Student:
			return r.Name
		case Cue:
			return fmt.Sprintf("the cue %q", r.Text)
		}
	}
	return "what was changed"
}
