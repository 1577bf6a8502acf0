package tui

import (
	"cmp"
	"errors"
	"fmt"

	"coach.settee/model"
)

// editing is the field that a prompt is open for, with what was refused of it.
type editing struct {
	prompt  *prompt
	refused string
}

// refusedOf gives what was refused of the field whose prompt is open, "" where nothing was.
func (s *studentScreen) refusedOf(a *App) string {
	if a.prompt == nil || s.editing.prompt != a.prompt {
		return ""
	}
	return s.editing.refused
}

// edit asks for the field marked, beginning with what it is.
func (s *studentScreen) edit(a *App) {
	student, _ := s.shown(a)
	if s.marked == s.intakeRow() {
		s.askIntake(a)
		return
	}
	f := s.fields[s.marked]
	a.askWith(f.Name+" of "+a.labelOf(student.ID), f.Text(student), func(text string) error {
		err := a.setField(student, f, text)
		if err != nil {
			s.editing.refused = err.Error()
		}
		return err
	})
	a.prompt.changed = func(string) { s.editing.refused = "" }
	s.editing = editing{prompt: a.prompt}
}

// setField keeps a field as it was typed. What is not for every eye is not said in words either.
func (a *App) setField(student model.Student, f model.ProfileField, text string) error {
	now, err := f.Set(student, text)
	if err != nil {
		return err
	}
	is := f.Text(now)
	what := fmt.Sprintf("%s: %s %s", a.labelOf(student.ID), f.Name, is)
	switch {
	case is == f.Text(student):
		a.say(f.Name + " is as it was")
		return nil
	case is == "":
		what = fmt.Sprintf("%s: %s taken off", a.labelOf(student.ID), f.Name)
	case f.Private:
		what = fmt.Sprintf("%s: %s changed", a.labelOf(student.ID), f.Name)
	}
	return a.keepStudent(now, what)
}

// askForNew asks for a new student.
func (s *studentScreen) askForNew(a *App) {
	a.ask("new student: name, average, l for left-handed", func(text string) error {
		typed, err := model.ParseNewcomer(text)
		if err != nil {
			return err
		}
		if err := cmp.Or(a.numberInName(text, typed), a.mayBeKept(text, typed)); err != nil {
			return err
		}
		typed.ID = a.conf.NewID()
		if err := a.keepStudent(typed, "new student: "+typed.Name); err != nil {
			return err
		}
		s.turnTo(typed.ID)
		return nil
	})
}

// toggleArchived archives the student shown, or brings back.
func (s *studentScreen) toggleArchived(a *App) {
	now, _ := s.shown(a)
	now.Archived = !now.Archived
	words, more := "%s is archived", ": backspace takes it back, v lists it"
	if !now.Archived {
		words, more = "%s is back from the archive", ""
	}
	words = fmt.Sprintf(words, a.labelOf(now.ID))
	if err := a.keepStudent(now, words); err != nil {
		a.refuse(err)
		return
	}
	a.say(words + more)
}

var errNobodyChosen = errors.New("nobody fits: fewer letters, or tab for archived ones too")
