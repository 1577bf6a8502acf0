package tui

import "slices"

// nobodyShown refuses a key that speaks of the student shown where nobody is here.
func nobodyShown(a *App) string {
	if a.line.student == "" {
		return "nobody is here yet: A on the board adds a student"
	}
	return ""
}

// lineKeys are the keys of the line's screen.
var lineKeys = withAlternatives(table{
	{
		keys: []string{"enter", "ctrl+j"}, shown: "enter", group: groupLine,
		help:    "take the move: it is the student's line from the next ball on that lane; leaving it needs no key",
		hints:   map[moment]string{momentLine: "takes it"},
		refused: noMove, act: func(a *App, _ string) { a.line.accept(a) },
	},
	{
		keys: []string{"c"}, group: groupLine,
		help: "set the line aimed at on that lane by hand: arrows, slide, breakpoint (17 34 8@43), what is . or " +
			"left out stays; on the spare table the student's own line for a pin (10 21 32; 10 alone takes it off)",
		hints: map[moment]string{momentLine: "line", momentLinePage: "line"}, lines: 1,
		refused: nobodyShown, act: func(a *App, _ string) { a.line.askForLine(a) },
	},
	{
		keys: []string{"esc"}, group: groupLine, help: "from a page back to the lane, or else back to the board",
		hints: map[moment]string{momentLine: "board", momentLinePage: "lane"},
		act:   func(a *App, _ string) { a.line.escape(a) },
	},
	{
		keys: []string{"left", "right"}, group: groupLine, help: "look at the other lane of the pair; nobody is moved",
		hints:   map[moment]string{momentLine: "lane"},
		refused: nobodyShown, act: func(a *App, _ string) { a.line.otherLane(a) },
	},
	{
		keys: []string{"tab", "shift+tab"}, group: groupLine, help: "look at the next, the previous student; nobody is put up",
		hints: map[moment]string{momentLine: "student"}, refused: nobodyShown,
		act: func(a *App, key string) {
			if key == "tab" {
				a.line.turnBeside(a, 1)
				return
			}
			a.line.turnBeside(a, -1)
		},
	},
	{
		keys: []string{"@"}, group: groupLine, help: "look at a student by a few letters of the name", lines: 1,
		refused: nobodyShown, act: func(a *App, _ string) { a.line.askForStudent(a) },
	},
	{
		keys: []string{"s"}, group: groupLine,
		help:  "the spare table: feet and target from the strike line for each leave; again the lane",
		hints: map[moment]string{momentLine: "spares", momentLinePage: "spares"},
		act:   func(a *App, _ string) { a.line.turnPage(lineSpares) },
	},
	{
		keys: []string{"m"}, group: groupLine, help: "the moves made tonight and what came of them; again the lane",
		hints: map[moment]string{momentLine: "moves", momentLinePage: "moves"},
		act:   func(a *App, _ string) { a.line.turnPage(lineMoves) },
	},
	{
		keys: []string{"up", "down", "pgup", "pgdown", "home", "end"}, shown: "up down pgup pgdn", group: groupLine,
		help:  "the lines that do not fit (home and end too)",
		hints: map[moment]string{momentLinePage: "turn"},
		act:   func(a *App, key string) { a.line.scroll(a, key) },
	},
	{
		keys: []string{"backspace", "ctrl+h"}, shown: "backspace", group: groupLine, help: "take back the last action, as on the board",
		act: func(a *App, _ string) {
			a.undo()
			a.line.follow(a)
		},
	},
	{
		keys: []string{"U"}, group: groupLine, help: "do again what was taken back",
		act: func(a *App, _ string) {
			a.redo()
			a.line.followRedone(a)
		},
	},
}, alternative{of: "@", keys: []string{"a"}})

// boardsOwn refuses the keys of the board that the line's screen has no use for.
func boardsOwn(board table) binding {
	var keys []string
	for _, b := range board {
		for _, k := range b.keys {
			if _, own := lineKeys.find(k); !own && !slices.Contains(keys, k) {
				keys = append(keys, k)
			}
		}
	}
	return binding{
		keys: keys, shown: "x b t r f 1-0 W", group: groupLine, help: "and all others of the board are the board's: esc goes back to it",
		refused: func(*App) string { return "that key is the board's: esc goes back to it" },
		act:     func(*App, string) {},
	}
}
