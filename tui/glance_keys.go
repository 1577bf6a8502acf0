package tui

import (
	"maps"
	"slices"
)

// glanceKeys are the glance's own keys.
var glanceKeys = table{
	{
		keys: []string{"esc"}, group: groupGlance, help: "leave an open delivery as it was, or clear the call begun, or else the board",
		hints: map[moment]string{momentGlance: "board", momentNamed: "clears", momentEdit: "leaves it"},
		act:   func(a *App, _ string) { a.glance.escape(a) },
	},
	{
		keys: []string{"v"}, group: groupGlance,
		help:    "turn it to the student up: that student alone, in the student's tone; again the counts of all",
		hints:   map[moment]string{momentGlance: "student"},
		refused: nobodyToTurnTo, act: func(a *App, _ string) { a.glance.turn(a) },
	},
}

// glanceTable gives the keys of the glance: its own, and those of the board that grade and say who is up. What would put
// words on a screen that is turned to students is the board's alone, and so is a delivery opened again, which nobody sees here.
func glanceTable(board table) table {
	t := slices.Clone(glanceKeys)
	var refused []string
	for _, b := range board {
		if _, own := glanceKeys.find(b.keys[0]); own {
			continue
		}
		if onGlance(b) {
			t = append(t, glancing(b))
			continue
		}
		refused = append(refused, b.keys...)
	}
	return append(t, binding{
		keys: refused, shown: "O C N L Z A G ,", group: groupGlance, help: "and all that opens a line or a delivery are the board's: esc goes back to it",
		refused: func(*App) string { return "that key is the board's: esc goes back to it" }, act: func(*App, string) {},
	})
}

// onGlance tells whether a key of the board acts on the glance.
func onGlance(b binding) bool {
	switch b.group {
	case groupShot, groupPins, groupBack, groupUp, groupLayout:
		return b.lines == 0 && !slices.Contains([]string{",", "left", "I"}, b.keys[0])
	}
	return false
}

// glancing makes a key of the board act on the glance, where the status line says what the board shows of the call begun.
func glancing(b binding) binding {
	act, refused := b.act, b.refused
	hints := map[moment]string{}
	maps.Copy(hints, b.hints)
	if words := b.hints[momentFree]; words != "" && b.keys[0] != "enter" {
		hints[momentGlance] = words
	}
	b.hints = hints
	b.refused = func(a *App) string {
		if words := openUnseen(a); words != "" || refused == nil {
			return words
		}
		return refused(a)
	}
	b.act = func(a *App, key string) {
		act(a, key)
		if a.evening != nil {
			sayBegun(a)
		}
	}
	return b
}

// openUnseen refuses a key that would speak of an open delivery.
func openUnseen(a *App) string {
	if _, open := a.evening.Editing(); open {
		return "a delivery is open, which only the board shows: esc leaves it as it was"
	}
	return ""
}

// nobodyToTurnTo refuses to turn to the student up where there is none.
func nobodyToTurnTo(a *App) string {
	switch words := openUnseen(a); {
	case words != "":
		return words
	case a.evening.UpStudent() == "":
		return "nobody is up here: space goes to the next pair, esc to the board"
	}
	return ""
}

// sayBegun says in the coach's signs what is begun for the student up.
func sayBegun(a *App) {
	id := a.evening.UpStudent()
	if a.status.words == "" && a.evening.Begun(id) {
		a.say(a.evening.Label(id) + ": " + begunWords(a.evening.CallOf(id), a.evening.ChosenFor(id)))
	}
}
