package model_test

import (
	"fmt"
	"maps"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"coach.settee/model"
)

// shelf is what is kept, by steps alone.
type shelf map[model.Ref]model.Record

func (s shelf) keep(step model.Step) {
	for _, c := range step.Changes {
		if c.After == nil {
			delete(s, c.Ref)
			continue
		}
		s[c.Ref] = c.After
	}
}

func (s shelf) kept(ref model.Ref) model.Record { return s[ref] }

func deskStudent(id model.ID, focus string) model.Student {
	return model.Student{ID: id, Name: strings.ToUpper(string(id)), Hand: model.RightHand, Focus: focus, Balls: []string{"blue"}}
}

func TestDeskTakesBackAndDoesAgain(t *testing.T) {
	var d model.Desk
	kept := shelf{}
	change := func(was, now model.Record, what string) {
		t.Helper()
		step, err := d.Change(was, now, what)
		if err != nil || step.Session != "" || step.Undo {
			t.Fatal(err, step)
		}
		kept.keep(step)
	}
	want := func(of func(func(model.Ref) model.Record) (model.Step, string, error), undo bool, what string, ada, cue model.Record) {
		t.Helper()
		step, said, err := of(kept.kept)
		kept.keep(step)
		if err != nil || said != what || step.Undo != undo {
			t.Errorf("%q (%v), undo %v, want %q", said, err, step.Undo, what)
		}
		if now := kept[model.Ref{Kind: model.StudentRecord, ID: "ada"}]; !reflect.DeepEqual(now, ada) {
			t.Errorf("after %s the student is %+v, want %+v", what, now, ada)
		}
		if now := kept[model.Ref{Kind: model.CueRecord, ID: "c"}]; !reflect.DeepEqual(now, cue) {
			t.Errorf("after %s the cue is %+v, want %+v", what, now, cue)
		}
	}
	feet, eyes := deskStudent("ada", "feet"), deskStudent("ada", "eyes")
	soft := model.Cue{ID: "c", Axis: model.Release, Text: "soft hand"}
	change(nil, feet, "ADA is new")
	change(feet, eyes, "focus of ADA: eyes")
	change(nil, soft, "a cue is new")
	change(soft, nil, "a cue is taken off")
	want(d.Undo, true, "a cue is taken off", eyes, soft)
	want(d.Undo, true, "a cue is new", eyes, nil)
	want(d.Undo, true, "focus of ADA: eyes", feet, nil)
	want(d.Redo, false, "focus of ADA: eyes", eyes, nil)
	want(d.Undo, true, "focus of ADA: eyes", feet, nil)
	want(d.Undo, true, "ADA is new", nil, nil)
	if _, _, err := d.Undo(kept.kept); err == nil || !strings.Contains(err.Error(), "nothing to take back") {
		t.Error(err)
	}
	want(d.Redo, false, "ADA is new", feet, nil)
	change(feet, eyes, "another")
	if _, _, err := d.Redo(kept.kept); err == nil || !strings.Contains(err.Error(), "nothing to do again") {
		t.Error(err)
	}
}

func TestDeskLeavesWhatHasChangedSince(t *testing.T) {
	feet, eyes := deskStudent("ada", "feet"), deskStudent("ada", "eyes")
	ref := eyes.Ref()
	later := eyes
	later.Balls = []string{"blue", "red"}
	for name, now := range map[string]model.Record{"changed": later, "gone": nil} {
		t.Run(name, func(t *testing.T) {
			var d model.Desk
			if _, err := d.Change(feet, eyes, "focus"); err != nil {
				t.Fatal(err)
			}
			kept := shelf{}
			if now != nil {
				kept[ref] = now
			}
			step, _, err := d.Undo(kept.kept)
			if err == nil || err.Error() != "ADA has changed since: put it right by hand" || len(step.Changes) > 0 {
				t.Errorf("%v, %+v", err, step)
			}
			// As it was left, it can be taken back after all; and then not done again once it is another.
			if _, _, err := d.Undo(shelf{ref: eyes}.kept); err != nil {
				t.Error(err)
			}
			if _, _, err := d.Redo(kept.kept); err == nil || !strings.Contains(err.Error(), "has changed since") {
				t.Error(err)
			}
			if _, _, err := d.Redo(shelf{ref: feet}.kept); err != nil {
				t.Error(err)
			}
		})
	}
}

func TestDeskComparesAsItIsKept(t *testing.T) {
	var d model.Desk
	was := deskStudent("ada", "feet")
	now := was
	now.Balls, now.SpareLines = []string{}, []model.SpareLine{}
	if _, err := d.Change(was, now, "balls"); err != nil {
		t.Fatal(err)
	}
	now.Balls, now.SpareLines = nil, nil
	if _, _, err := d.Undo(shelf{now.Ref(): now}.kept); err != nil {
		t.Error(err)
	}
}

func TestDeskRefusals(t *testing.T) {
	var d model.Desk
	good, ill := deskStudent("ada", "feet"), deskStudent("bo", "")
	ill.Name = ""
	step, err := d.ChangeAll([]model.Change{{Ref: good.Ref(), After: good}, {Ref: ill.Ref(), After: ill}}, "two")
	if err == nil || len(step.Changes) > 0 {
		t.Errorf("%v, %+v", err, step)
	}
	same, err := d.Change(good, deskStudent("ada", "feet"), "the same")
	if err != nil || len(same.Changes) > 0 {
		t.Errorf("%v, %+v", err, same)
	}
	if _, err := d.Change(nil, nil, "nothing"); err != nil {
		t.Error(err)
	}
	if _, _, err := d.Undo(shelf{}.kept); err == nil {
		t.Error("what was refused was taken back")
	}
}

func TestDeskTakesBackToTheStart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var d model.Desk
		kept := shelf{}
		states := []shelf{maps.Clone(kept)}
		for i := range rapid.IntRange(1, 12).Draw(t, "actions") {
			var changes []model.Change
			draft := maps.Clone(kept)
			for range rapid.IntRange(1, 3).Draw(t, "changes") {
				s := deskStudent(rapid.SampledFrom([]model.ID{"ada", "bo"}).Draw(t, "whose"), fmt.Sprint("focus ", i, len(changes)))
				c := model.Change{Ref: s.Ref(), Before: draft[s.Ref()], After: s}
				if c.Before != nil && rapid.Bool().Draw(t, "goes") {
					c.After = nil
				}
				changes = append(changes, c)
				draft.keep(model.Step{Changes: []model.Change{c}})
			}
			step, err := d.ChangeAll(changes, "some")
			if err != nil {
				t.Fatal(err)
			}
			kept.keep(step)
			states = append(states, maps.Clone(kept))
		}
		walk := func(of func(func(model.Ref) model.Record) (model.Step, string, error), want shelf) {
			step, _, err := of(kept.kept)
			if kept.keep(step); err != nil || !reflect.DeepEqual(kept, want) {
				t.Fatalf("%v: %v, want %v", err, kept, want)
			}
		}
		for i := len(states) - 2; i >= 0; i-- {
			walk(d.Undo, states[i])
		}
		for _, want := range states[1:] {
			walk(d.Redo, want)
		}
	})
}
