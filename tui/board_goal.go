package tui

import (
	"fmt"
	"slices"

	"coach.settee/model"
)

// goalNews says that the ball just recorded has brought a student's good shots to the goal of the game, "" where it has not.
// The goal is the one that the student is shown, a whole number.
func (a *App) goalNews(step model.Step) string {
	id := step.Action.Student
	sheet, goal := a.evening.Sheet(id), a.evening.Student(id).Chosen().Goal.Whole()
	if sheet == nil || sheet.Game.Kind != model.KindGame || sheet.Tally.Good != goal {
		return ""
	}
	for i, d := range sheet.Deliveries {
		if d.Good() && sheet.Racks[i].Full && isNew(step, d) {
			return fmt.Sprintf("%s: goal of %d reached", a.evening.Label(id), goal)
		}
	}
	return ""
}

// isNew tells whether a step has recorded a delivery.
func isNew(step model.Step, d model.Delivery) bool {
	return slices.ContainsFunc(step.Changes, func(c model.Change) bool { return c.Ref == d.Ref() && c.Before == nil })
}
