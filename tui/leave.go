package tui

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"
)

// question is something asked in the status line. Its keys answer yes; any other key withdraws it and acts as usual.
type question struct {
	words string
	yes   table
}

// table gives the keys that answer; nobody asks where there is no question.
func (q *question) table() table {
	if q == nil {
		return nil
	}
	return q.yes
}

// withdraw takes the question back, and with it the wish to leave.
func (a *App) withdraw(bool) {
	a.question = nil
	a.leaving = false
}

// pose asks a question that the keys answer with yes.
func (a *App) pose(words string, yes ...binding) {
	a.question = &question{words, yes}
	a.say(words)
}

// alwaysKeys act whatever the window's size.
var alwaysKeys = table{
	{
		keys: []string{"q", "ctrl+c"}, group: groupAnywhere,
		help: "leave; asks while an evening is open or something is not kept. A second ctrl+c leaves in any case",
		act:  func(a *App, _ string) { a.leave() },
	},
	{
		keys: []string{"ctrl+l"}, group: groupAnywhere, help: "draw the screen anew",
		act: func(a *App, _ string) { a.do(tea.ClearScreen) },
	},
}

// anywhereKeys act on every screen.
var anywhereKeys = table{
	{
		keys: []string{"?"}, group: groupAnywhere, help: "every key here, / in it finds those of all screens; what the letters mean",
		act: func(a *App, _ string) { a.openHelp() },
	},
	{
		keys: []string{"f1"}, of: "?", group: groupLayout, help: "as ?, on every keyboard without shift",
		act: func(a *App, _ string) { a.openHelp() },
	},
	{
		keys: []string{"K"}, group: groupAnywhere, lines: 1,
		help: "while the disk refuses: write what is not kept to another place, as lines that settee import reads; it stays " +
			"here too and is tried again",
		refused: refusedElsewhere, act: func(a *App, _ string) { a.askElsewhere() },
	},
	{
		keys: []string{"ctrl+z"}, group: groupAnywhere, help: "suspend; fg in the shell comes back",
		refused: func(*App) string {
			if canSuspend() {
				return ""
			}
			return "there is no shell here that could wake settee again"
		},
		act: func(a *App, _ string) { a.do(tea.Suspend) },
	},
}

// leave ends the program, or asks first while an evening is open or something is not kept or not recorded.
func (a *App) leave() {
	if a.intro.turned {
		a.endIntro()
	}
	lost := a.lostOnLeaving()
	if a.evening == nil && a.ledger.settled() && !a.packing.pending() && lost == "" {
		a.leaveKept()
		return
	}
	words := "q leaves"
	if a.evening != nil {
		words += ", " + a.onLeaving("the evening stays open and is resumed")
	}
	if a.packing.pending() {
		words = "the copy and the pages are not written yet: q waits for them, ctrl+c leaves now"
	}
	if n := len(a.ledger.waiting); n > 0 {
		first := ""
		switch {
		case lost != "":
			// The banner says it, and two lines of the narrowest window do not take both.
		case a.ledger.refused() && a.ledger.isAside():
			first = "a copy is elsewhere, "
		case refusedElsewhere(a) == "":
			first = "K keeps it elsewhere first, "
		}
		words = fmt.Sprintf("%s not kept yet: %sq waits for the disk, ctrl+c leaves now", plural(n, "step", "steps"), first)
	}
	if a.prompt != nil {
		words = "ctrl+c again leaves, any other key goes on with the line"
	}
	answers := table{
		{keys: []string{"q", "y"}, act: func(a *App, _ string) { a.leaveKept() }},
		{keys: []string{"ctrl+c"}, act: func(a *App, _ string) { a.do(tea.Quit) }},
	}
	if a.prompt == nil {
		answers = append(answers, declining("settee goes on"))
	}
	a.pose("leave? "+lost+words, answers...)
}

// onLeaving says what becomes of the evening once the program is left: what is said usually, but in the demo.
func (a *App) onLeaving(usually string) string {
	if a.conf.Title != "" {
		return "nothing of the " + a.conf.Title + " is kept"
	}
	return usually
}

// lostOnLeaving says which calls and changes are begun and not recorded, "" for none: they are on no disk. A screen turned
// to a student names nobody.
func (a *App) lostOnLeaving() string {
	words := ""
	switch begun := a.begunFor(); {
	case len(begun) == 0:
	case a.shielded():
		words = "a call is begun and is not recorded; "
	case len(begun) == 1:
		words = "a call is begun for " + begun[0] + " and is not recorded; "
	default:
		others := plural(len(begun)-1, "other", "others")
		words = "calls are begun for " + begun[0] + " and " + others + " and are not recorded; "
	}
	if e := a.inHand(); e != nil {
		if edit, open := e.Editing(); open && edit.Changed() {
			words += "a change is not recorded; "
		}
	}
	return words
}

// begunFor names the students of the evening for whom a call is begun, whoever is up.
func (a *App) begunFor() []string {
	const longest = 20
	if a.evening == nil {
		return nil
	}
	var names []string
	for _, seat := range a.evening.Seats() {
		if a.evening.Begun(seat.Student) {
			names = append(names, cut(a.evening.Label(seat.Student), longest))
		}
	}
	return names
}

// leaveKept ends the program once everything is kept.
func (a *App) leaveKept() {
	a.leaving = true
	if a.leaveIfDone() {
		return
	}
	a.say("leaving as soon as everything is kept: any other key stays, ctrl+c leaves now")
}

// leaveIfDone ends the program if that is wanted and everything is on disk, a copy and pages that are being made too.
func (a *App) leaveIfDone() bool {
	if !a.leaving || !a.settled() {
		return false
	}
	a.do(tea.Quit)
	return true
}

// settled tells whether nothing is on its way to the disk.
func (a *App) settled() bool {
	return a.ledger.settled() && !a.packing.pending() && len(a.errands) == 0
}
