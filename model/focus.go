package model

import "fmt"

// SetFocus sets what a student works on next, as the coach has chosen it; an empty text leaves it to the figures again. It
// is of the student's record and holds beyond the evening. A focus set for tonight only goes, since what is chosen last
// holds.
func (e *Evening) SetFocus(id ID, text string) (Step, error) {
	was, ok := e.students[id]
	if !ok {
		return Step{}, errNotSeated
	}
	if err := ValidateText(text); err != nil {
		return Step{}, err
	}
	now := was
	now.Focus = text
	what := fmt.Sprintf("%s works on: %s", e.Label(id), text)
	if text == "" {
		what = fmt.Sprintf("what %s works on is left to the figures", e.Label(id))
	}
	return e.changeStudent(was, now, what, true)
}
