package tui

import (
	"fmt"

	"coach.settee/model"
	"coach.settee/model/handout"
)

// markedKeys speak of the student who is marked.
var markedKeys = withAlternatives(table{
	{
		keys: []string{"up", "down"}, group: groupStudent, help: "mark the student before, after",
		hints: map[moment]string{momentSession: "mark"}, refused: nobodyHere,
		act: func(a *App, key string) { a.session.mark(a, walked(key, 0)) },
	},
	{
		keys: []string{"@"}, group: groupStudent, help: "mark a student by a few letters of the name",
		lines: 1, refused: nobodyHere, act: func(a *App, _ string) { a.askToMark() },
	},
	{
		keys: []string{"enter", "ctrl+j"}, shown: "enter", group: groupStudent, help: "put the student up, on the board",
		refused: nobodyHere,
		act: func(a *App, _ string) {
			if a.tell(a.evening.PutUp(a.session.student(a))) {
				a.show(a.board)
			}
		},
	},
	{
		keys: []string{"u", "d"}, group: groupStudent, help: "earlier, later in the order of the pair",
		hints: map[moment]string{momentSession: "order"}, refused: nobodyHere,
		act: func(a *App, key string) {
			a.session.marked = a.session.student(a)
			if key == "u" {
				a.tell(a.evening.MoveInOrder(a.session.marked, -1))
				return
			}
			a.tell(a.evening.MoveInOrder(a.session.marked, 1))
		},
	},
	{
		keys: []string{"t"}, group: groupStudent, help: "even frames on the other lane of the pair, or all on one lane",
		hints: map[moment]string{momentSession: "take turns"}, refused: nobodyHere,
		act: func(a *App, _ string) { a.tell(a.evening.ToggleAlternate(a.session.student(a))) },
	},
	{
		keys: []string{"f"}, group: groupStudent,
		help:  "what the student works on tonight; empty leaves it to the student's own focus",
		hints: map[moment]string{momentSession: "focus"}, lines: 1, refused: nobodyHere,
		act: func(a *App, _ string) { a.askForFocus(a.session.student(a)) },
	},
	{
		keys: []string{"w"}, group: groupStudent,
		help:  "which axes you look at tonight: b t r f or their names; empty leaves it as usual",
		lines: 1, refused: nobodyHere,
		act: func(a *App, _ string) { a.askForWatched(a.session.student(a)) },
	},
	{
		keys: []string{"v"}, group: groupStudent, help: "out, or back in: who comes late or leaves early",
		hints: map[moment]string{momentSession: "out"}, refused: nobodyHere,
		act: func(a *App, _ string) {
			if a.putMarkedUp() {
				a.tell(a.evening.ToggleOut())
			}
		},
	},
	{
		keys: []string{"W"}, group: groupStudent, help: "to the other lane of the pair from the next ball on",
		refused: nobodyHere,
		act: func(a *App, _ string) {
			if a.putMarkedUp() {
				a.tell(a.evening.ChangeLane())
			}
		},
	},
	{
		keys: []string{"P"}, group: groupStudent, help: "to another pair: the lane; all and the lane moves everyone of the pair",
		lines: 1, refused: nobodyHere,
		act: func(a *App, _ string) {
			if a.putMarkedUp() {
				a.askForPair()
			}
		},
	},
	{
		keys: []string{"I"}, group: groupStudent,
		help: "what is noted of the student, limits, what hurts, a load reached (the ! at the name), until the next key: others " +
			"read the screen",
		refused: nobodyHere, act: func(a *App, _ string) { a.sayNoted(a.session.student(a)) },
	},
}, alternative{of: "@", keys: []string{"z"}})

// askToMark asks for the student to mark by name.
func (a *App) askToMark() {
	a.askAmong("mark, by a few letters of the name", a.suggestHere, func(text string) error {
		id, err := a.byName(text)
		if err == nil {
			a.session.marked = id
		}
		return err
	})
}

// putMarkedUp puts up the student marked, of whom the evening then speaks, and tells whether that was done. The screen
// stays.
func (a *App) putMarkedUp() bool {
	a.session.marked = a.session.student(a)
	return a.tell(a.evening.PutUp(a.session.marked))
}

func (a *App) askForFocus(id model.ID) {
	label := fmt.Sprintf("focus of %s tonight%s", a.evening.Label(id), now(a.evening.FocusOf(id)))
	a.askUpTo(handout.MaxFocus, label, func(text string) error { return a.done(a.evening.SetTonight(id, text)) })
}

func (a *App) askForWatched(id model.ID) {
	label := fmt.Sprintf("watched tonight of %s: b t r f (now %s)", a.evening.Label(id), a.evening.ChosenFor(id).Watched)
	a.ask(label, func(text string) error {
		axes, err := model.ParseAxes(text)
		if err != nil {
			return err
		}
		return a.done(a.evening.WatchTonight(id, axes))
	})
}
