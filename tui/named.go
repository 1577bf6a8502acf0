package tui

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"coach.settee/model"
)

// byName gives the one student of the evening in hand whom a text means.
func (a *App) byName(text string) (model.ID, error) {
	e := a.inHand()
	found := model.FindOne(seated(e), text, true)
	return a.theOne(text, found, "here", func(s model.Student) string { return e.Label(s.ID) })
}

// byName gives the one student whom a text means, of all that are kept: those of the evening in hand go before others whom
// it fits as well.
func (s *stripScreen) byName(a *App, text string) (model.ID, error) {
	here := seated(s.evening)
	isHere := func(x model.Student) bool {
		return slices.ContainsFunc(here, func(h model.Student) bool { return h.ID == x.ID })
	}
	all := slices.Concat(here, slices.DeleteFunc(a.activeStudents(), isHere))
	found := model.FindOne(all, text, true)
	if slices.ContainsFunc(found, isHere) {
		found = slices.DeleteFunc(found, func(x model.Student) bool { return !isHere(x) })
	}
	return a.theOne(text, found, "that is kept", func(x model.Student) string { return model.LabelAmong(x, all) })
}

// seated gives the students of an evening in screen order.
func seated(e *model.Evening) []model.Student {
	var here []model.Student
	for _, seat := range e.Seats() {
		here = append(here, e.Student(seat.Student))
	}
	return here
}

// theOne gives the only one of those whom a text may mean, or says who they are.
func (a *App) theOne(
	text string, found []model.Student, where string, label func(model.Student) string,
) (model.ID, error) {
	switch {
	case text == "":
		return "", errors.New("type a few letters of the name, or esc")
	case len(found) == 0:
		return "", fmt.Errorf("nobody %s is called %q", where, text)
	case len(found) == 1:
		return found[0].ID, nil
	}
	var labels []string
	for _, s := range found {
		labels = append(labels, label(s))
	}
	next := "a letter more"
	if model.SameName(found) {
		next = "add what tells them apart"
		if a.prompt != nil && len(a.prompt.offered) > 0 {
			next += ", or tab"
		}
	}
	return "", fmt.Errorf("%q may be %s: %s", text, strings.Join(labels, " or "), next)
}
