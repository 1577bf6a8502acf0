package tui

import (
	"fmt"

	"coach.settee/model"
)

// nobodyKept refuses a key that speaks of a student where none is kept.
func nobodyKept(a *App) string {
	switch _, ok := a.student.shown(a); {
	case ok:
		return ""
	case len(a.students) > 0:
		return "every student is archived: v lists them too"
	}
	return "no student is kept yet: n takes one in"
}

// profileKeys speak of the field marked and of the student shown, and turn to others.
var profileKeys = table{
	{
		keys: []string{"up", "down", "pgup", "pgdown", "home", "end"}, shown: "up down", group: groupProfile,
		help:  "mark the field before, after (pgup and pgdn ten further, home and end too)",
		hints: map[moment]string{momentProfile: "mark"}, refused: nobodyKept,
		act: func(a *App, key string) {
			a.student.mark(walked(key, pageLines))
		},
	},
	{
		keys: []string{"enter", "ctrl+j"}, shown: "enter", group: groupProfile,
		help:  "type the field marked anew, from what it is; empty takes it off. On the intake: ask it",
		hints: map[moment]string{momentProfile: "change"}, lines: 1, refused: nobodyKept,
		act: func(a *App, _ string) { a.student.edit(a) },
	},
	{
		keys: []string{"/", "f", "@"}, shown: "/", group: groupProfile,
		help:  "find a student by a few letters: up and down choose, enter turns there, tab lists archived ones too (f and @ too)",
		hints: map[moment]string{momentProfile: "find"}, lines: 1, refused: nobodyKept,
		act: func(a *App, _ string) { a.student.find(a) },
	},
	{
		keys: []string{"left", "right", "tab", "shift+tab"}, shown: "left right", group: groupProfile,
		help:  "the student before, after: of the evening, or else by name (tab too)",
		hints: map[moment]string{momentProfile: "student"}, refused: nobodyKept,
		act: func(a *App, key string) {
			if key == "left" || key == "shift+tab" {
				a.student.turnBeside(a, -1)
				return
			}
			a.student.turnBeside(a, 1)
		},
	},
	{
		keys: []string{"O"}, group: groupProfile, help: "take the goal that is offered after the first two games",
		hints: map[moment]string{momentProfile: "goal"}, refused: noOffer,
		act: func(a *App, _ string) { a.student.takeOffer(a) },
	},
	{
		keys: []string{"i"}, group: groupProfile,
		help:  "the first ten minutes: a question after the other, a key each, then what hurts; enter skips one, esc drops all",
		hints: map[moment]string{momentProfile: "intake"}, lines: 1, refused: nobodyKept,
		act: func(a *App, _ string) { a.student.askIntake(a) },
	},
	{
		keys: []string{"I"}, group: groupProfile, help: "limits, notes and what hurts in words, until the next key: others read the screen",
		hints: map[moment]string{momentProfile: "private"}, refused: nobodyKept,
		act: func(a *App, _ string) { a.student.bared = true },
	},
	openHandout,
	{
		keys: []string{"backspace", "ctrl+h"}, shown: "backspace", group: groupProfile,
		help: "take back the last change of a record; for a student who is here only where nothing else was done since, such as " +
			"a call",
		act: func(a *App, _ string) { a.student.undo(a) },
	},
	{
		keys: []string{"U"}, group: groupProfile, help: "do again what was taken back",
		act: func(a *App, _ string) { a.student.redo(a) },
	},
	{
		keys: []string{"esc"}, group: groupProfile, help: "back to the board",
		hints: map[moment]string{momentProfile: "board"},
		act:   func(a *App, _ string) { a.show(a.board) },
	},
}

// peopleKeys take students in and put them away.
var peopleKeys = table{
	{
		keys: []string{"n"}, group: groupProfile, help: "take a new student in: name, average, l for left-handed",
		hints: map[moment]string{momentProfile: "new"}, lines: 1,
		act: func(a *App, _ string) { a.student.askForNew(a) },
	},
	{
		keys: []string{"A"}, group: groupProfile, help: "archive the student, who is kept but listed no more; or bring back",
		refused: busy, act: func(a *App, _ string) { a.student.toggleArchived(a) },
	},
	{
		keys: []string{"v"}, group: groupProfile, help: "list archived students too, or not",
		act: func(a *App, _ string) {
			a.student.archived = !a.student.archived
			if a.student.archived {
				a.say("archived students are listed too")
				return
			}
			a.say("archived students are not listed")
		},
	},
}

// busy refuses to archive a student who is in an evening that is open.
func busy(a *App) string {
	s := a.student
	switch student, ok := s.shown(a); {
	case !ok:
		return nobodyKept(a)
	case student.Archived:
		return ""
	case s.seated(a):
		return fmt.Sprintf("%s is here tonight: close the evening first", a.labelOf(s.student))
	}
	for _, other := range a.open {
		if other.Seat(s.student) >= 0 {
			return fmt.Sprintf("%s is in the evening of %s, which is open: close it first", a.labelOf(s.student), a.date(other))
		}
	}
	return ""
}

// noOffer refuses to take a goal where none is offered.
func noOffer(a *App) string {
	student, ok := a.student.shown(a)
	offer := a.student.facts.offered
	switch {
	case !ok:
		return nobodyKept(a)
	case !a.student.facts.read:
		return "the games are not read yet: try again in a moment"
	case !offer.Known:
		return "a goal is offered after the first two games of which every full rack was seen"
	case student.Goal != 0:
		return fmt.Sprintf("the goal was chosen, %v; after the first two games it would be %v", student.Goal.Shots(), offer.Value.Shots())
	}
	return ""
}

// takeOffer makes the goal that is offered the student's.
func (s *studentScreen) takeOffer(a *App) {
	now, _ := s.shown(a)
	now.Goal = s.facts.offered.Value
	if err := a.keepStudent(now, fmt.Sprintf("%s: goal %v", a.labelOf(now.ID), now.Goal.Shots())); err != nil {
		a.refuse(err)
	}
}

// undo takes back the last change: of the evening for a student of it, else the last one made at the desk.
func (s *studentScreen) undo(a *App) {
	if a.inEvening(s.student) {
		if last, ok := a.evening.Last(); ok && !last.OfRecord() {
			a.refuseWith("the last action is " + a.actionWords(last) + ": backspace on the board takes it back")
			return
		}
		a.undo()
		return
	}
	s.follow(a.deskUndo())
}

// redo does again what was taken back last, in the evening or at the desk, whoever is shown.
func (s *studentScreen) redo(a *App) {
	if !a.backInEvening() {
		s.follow(a.deskRedo())
		return
	}
	next, ok := a.evening.Undone()
	if ok && !next.OfRecord() {
		a.refuseWith("what was taken back last is " + a.actionWords(next) + ": U on the board does it again")
		return
	}
	evening := a.evening
	a.redo()
	if last, _ := evening.Last(); last.N == next.N {
		s.follow(model.Step{Changes: next.Changes})
	}
}

// actionWords says in short what an action is.
func (a *App) actionWords(x model.Action) string {
	if x.How != model.NotRecorded {
		return "a call"
	}
	return fmt.Sprintf("%q", a.evening.Describe(x))
}

// follow turns to the student that a step was about, where there is one.
func (s *studentScreen) follow(step model.Step) {
	for _, c := range step.Changes {
		if c.Ref.Kind == model.StudentRecord && c.Ref.ID != s.student {
			s.turnTo(c.Ref.ID)
		}
	}
}
