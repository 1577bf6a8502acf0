package model_test

import (
	"errors"
	"testing"

	"coach.settee/model"
)

// A step says whether it does again what was taken back; what was recorded elsewhere leaves nothing to do again, and all
// that was done can be taken back as before.
func TestUndoneIsForgotten(t *testing.T) {
	l := beginLesson(t, "Ada 172").press("x 7⏎ ⌫")
	step, err := l.Redo()
	if err != nil || !step.Again || step.Undo {
		t.Fatalf("done again by %+v (%v)", step, err)
	}
	if step, err = l.Undo(); err != nil || step.Again || !step.Undo {
		t.Fatalf("taken back by %+v (%v)", step, err)
	}
	l.ForgetUndone()
	if _, err := l.Redo(); !errors.Is(err, model.ErrNothingToRedo) {
		t.Error(err)
	}
	if _, err := l.Undo(); err != nil || l.Deliveries() != 0 {
		t.Error("the strike stays:", err)
	}
}

func TestDeskForgetsUndone(t *testing.T) {
	var d model.Desk
	kept := shelf{}
	for _, focus := range []string{"feet", "eyes"} {
		step, err := d.Change(kept.kept(model.Student{ID: "ada"}.Ref()), deskStudent("ada", focus), focus)
		if err != nil || step.Again {
			t.Fatal(step, err)
		}
		kept.keep(step)
	}
	back, _, err := d.Undo(kept.kept)
	kept.keep(back)
	again, _, err2 := d.Redo(kept.kept)
	kept.keep(again)
	if errors.Join(err, err2) != nil || back.Again || !again.Again {
		t.Fatalf("taken back by %+v, done again by %+v (%v, %v)", back, again, err, err2)
	}
	back, _, _ = d.Undo(kept.kept)
	kept.keep(back)
	d.ForgetUndone()
	if _, _, err := d.Redo(kept.kept); !errors.Is(err, model.ErrNothingToRedo) {
		t.Error(err)
	}
	if _, what, err := d.Undo(kept.kept); err != nil || what != "feet" {
		t.Errorf("%q (%v)", what, err)
	}
}
