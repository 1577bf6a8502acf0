package model_test

import "testing"

func TestSetFocus(t *testing.T) {
	l := beginLesson(t, "Ada 172, Bo")
	ada := l.UpStudent()
	l.press("x")
	l.mustKeep(l.SetFocus(ada, "a slower start"))
	l.check()
	if got := l.Student(ada).Focus; got != "a slower start" {
		t.Errorf("the focus is %q", got)
	}
	if last, _ := l.Last(); last.What != "Ada works on: a slower start" {
		t.Errorf("the last action is %q", last.What)
	}

	step, err := l.SetFocus(ada, "a slower start")
	if err != nil || len(step.Changes) != 0 {
		t.Errorf("the same focus once more gives %v and %v", step, err)
	}
	if _, err := l.SetFocus(ada, "a\nb"); err == nil {
		t.Error("a focus of two lines is taken")
	}
	if _, err := l.SetFocus("nobody", "x"); err == nil {
		t.Error("a focus of nobody is taken")
	}

	l = l.restart()
	l.mustKeep(l.SetFocus(ada, ""))
	l.mustKeep(l.Undo())
	if got := l.Student(ada).Focus; got != "a slower start" {
		t.Errorf("taken back, the focus is %q", got)
	}
	l.mustKeep(l.Undo())
	l.check()
	if got := l.Student(ada).Focus; got != "" {
		t.Errorf("taken back to the start, the focus is %q", got)
	}
}
