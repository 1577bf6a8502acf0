package tui

import (
	"time"

	"coach.settee/model"
)

// rosterLines is the most lines that seat everyone: the lanes, the students, an empty line a pair.
const rosterLines = 1 + model.MaxStudents + model.MaxPairs

// eveningKeys set what holds for the evening.
var eveningKeys = withAlternatives(table{
	{
		keys: []string{"n"}, group: groupEvening, help: "begin a new evening: the lanes, then the students",
		hints: map[moment]string{momentNone: "new evening"}, lines: rosterLines, refused: eveningOpen,
		act: func(a *App, _ string) { a.askForLanes() },
	},
	{
		keys: []string{"="}, group: groupEvening,
		help:  "begin an evening like an earlier one, which is asked first; like another one from the list: E",
		hints: map[moment]string{momentNone: "same again"}, refused: eveningOpen,
		act: func(a *App, _ string) { a.askToRepeat() },
	},
	{
		keys: []string{"a"}, group: groupEvening, help: "add students to the pair of the one marked, and to pairs that have none",
		hints: map[moment]string{momentSession: "students"}, lines: rosterLines, refused: noEvening,
		act: func(a *App, _ string) { a.askForRoster(a.session.pairsToFill(a), a.session) },
	},
	{
		keys: []string{"x"}, group: groupEvening, help: "close the evening: what is missing first",
		hints: map[moment]string{momentSession: "close"}, refused: noEvening,
		act: func(a *App, _ string) { a.askToClose() },
	},
	{
		keys: []string{"esc"}, group: groupEvening, help: "back to the board",
		hints: map[moment]string{momentSession: "board"}, refused: noEvening,
		act: func(a *App, _ string) { a.show(a.board) },
	},
	{
		keys: []string{"l"}, group: groupEvening, help: "add lanes, and the students there",
		hints: map[moment]string{momentSession: "lanes"}, lines: rosterLines, refused: noEvening,
		act: func(a *App, _ string) { a.askForMoreLanes() },
	},
	{
		keys: []string{"G"}, group: groupEvening,
		help:  "begin for everyone who is not out: g game, w warm-up, 10 a drill of ten with a name and pins (10 corner 10)",
		hints: map[moment]string{momentSession: "begin for all"}, lines: 1, refused: nobodyHere,
		act: func(a *App, _ string) { a.askForPlanOfAll() },
	},
	{
		keys: []string{"E"}, group: groupEvening,
		help:  "the list of all evenings: to turn to one, to open a closed one again, to begin one like it",
		hints: map[moment]string{momentNone: "earlier"},
		act:   func(a *App, _ string) { a.listEvenings() },
	},
	{
		keys: []string{"o"}, group: groupEvening, help: "turn to the next evening that was left open",
		hints: map[moment]string{momentNone: "resume"}, refused: noOther,
		act: func(a *App, _ string) { a.resume(a.open[0].ID) },
	},
	{
		keys: []string{"backspace", "ctrl+h"}, shown: "backspace", group: groupEvening,
		help: "take back the last action, as on the board",
		act: func(a *App, _ string) {
			if a.evening == nil {
				a.reopenClosed()
				return
			}
			a.undo()
		},
	},
	{
		keys: []string{"U"}, group: groupEvening, help: "do again what was taken back",
		refused: noEvening, act: func(a *App, _ string) { a.redo() },
	},
}, alternative{of: "=", keys: []string{"h"}})

// lanesKeys say how the lanes are and in what order they are bowled on.
var lanesKeys = table{
	{
		keys: []string{"p"}, group: groupEvening, help: "name the place; empty takes the name off",
		lines: 1, refused: noEvening,
		act: func(a *App, _ string) {
			a.askOfLanes("place", a.place(), (*model.Evening).SetPlace)
		},
	},
	{
		keys: []string{"i"}, group: groupEvening, help: "how long the oil is, in feet; empty takes it off",
		lines: 1, refused: noEvening,
		act: func(a *App, _ string) {
			a.askOfLanes("length of the oil in feet", feet(a.evening.Session().PatternFt), (*model.Evening).SetPattern)
		},
	},
	{
		keys: []string{"k"}, group: groupEvening, help: "what kind of oil it is, in a word or two (house); empty takes it off",
		lines: 1, refused: noEvening,
		act: func(a *App, _ string) {
			a.askOfLanes("kind of pattern", a.evening.Session().PatternKind, (*model.Evening).SetPatternKind)
		},
	},
	{
		keys: []string{"m"}, group: groupEvening,
		help:  "when the lanes were oiled: 17:30, or with the date 2026-03-04 17:30; empty takes it off",
		lines: 1, refused: noEvening,
		act: func(a *App, _ string) {
			a.askOfLanes("oiled at (17:30)", a.oiled(), func(e *model.Evening, text string) (model.Step, error) {
				return e.SetOiled(text, a.zone())
			})
		},
	},
	{
		keys: []string{"j"}, group: groupEvening, help: "who bowled on the lanes before; empty takes it off",
		lines: 1, refused: noEvening,
		act: func(a *App, _ string) {
			a.askOfLanes("who bowled before", a.evening.Session().Before, (*model.Evening).SetBefore)
		},
	},
	{
		keys: []string{"J"}, group: groupEvening, help: "how far the arrows are from the foul line, in feet; empty takes it off",
		lines: 1, refused: noEvening,
		act: func(a *App, _ string) {
			a.askOfLanes("distance of the arrows in feet", feet(a.evening.Session().ArrowsFt), (*model.Evening).SetArrows)
		},
	},
	{
		keys: []string{"r"}, group: groupEvening, help: "put the next student up after a frame, or change by hand only",
		refused: noEvening, act: func(a *App, _ string) { a.tell(a.evening.ToggleRotate()) },
	},
	{
		keys: []string{"b"}, group: groupEvening, help: "drills in blocks, or in turn after each delivery",
		refused: noEvening, act: func(a *App, _ string) { a.tell(a.evening.ToggleBlock()) },
	},
}

// eveningOpen refuses a key that begins an evening.
func eveningOpen(a *App) string {
	if a.evening != nil {
		return "an evening is open: x closes it first"
	}
	return ""
}

// askOfLanes asks for a text that holds for the evening.
func (a *App) askOfLanes(label, was string, set func(*model.Evening, string) (model.Step, error)) {
	a.ask(label+now(was), func(text string) error { return a.done(set(a.evening, text)) })
}

// feet writes a distance, "" for one that is not known.
func feet(ft model.Optional[float64]) string {
	if !ft.Known {
		return ""
	}
	return number(ft.Value)
}

// zone is the one in which the coach reads the clock.
func (a *App) zone() *time.Location { return a.conf.Now().Location() }

// oiled writes when the lanes were oiled, with the day where it is not the evening's; "" where it is not known.
func (a *App) oiled() string {
	held := a.evening.Session()
	if held.Oiled.IsZero() {
		return ""
	}
	at := held.Oiled.In(a.zone())
	if at.Format(time.DateOnly) == held.At.In(a.zone()).Format(time.DateOnly) {
		return at.Format("15:04")
	}
	return at.Format("2 January 15:04")
}

// askForPlanOfAll asks what everyone begins.
func (a *App) askForPlanOfAll() {
	last := a.evening.LastPlan()
	a.ask("begin for everyone: g game, w warm-up, 10 a drill of ten", func(text string) error {
		plan, err := model.ParsePlan(text, last)
		if err != nil {
			return err
		}
		return a.done(a.evening.BeginForAll(plan))
	})
}
