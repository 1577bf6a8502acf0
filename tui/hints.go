package tui

import (
	"slices"
	"strings"
)

// hint is a key and what it does, in a word or two.
type hint struct{ keys, words string }

// helpHint is there at every moment but in the help itself, menuHint where esc leads to the menu.
var (
	helpHint = hint{"?", "keys"}
	menuHint = hint{"esc", "menu"}
)

// answerHints are all there is to press while a question is asked.
var answerHints = []hint{{"y", "yes"}, {"n", "no"}}

// menuFrom is the width from which on the way to the menu is always there.
const menuFrom = 80

// mostNeeded are keys in the order in which the hint line of a moment has them; the others follow as the tables have them.
var mostNeeded = map[moment][]string{
	momentFullRack:  {"x", "1", "-", "b", "z", "enter", "backspace", "tab", ",", "space", "i", "p", "C", "!", "@", "G"},
	momentSpareShot: {"x", "1", "-", "=", "b", "z", "enter", ",", "backspace", "tab", "i", "p", "C", "!", "@"},
	momentSettings:  {"t", "d", "a", "m", "r", "esc"},
	momentFree:      {"x", "enter", "1", "b", "z", "backspace", "tab"},
	momentOut:       {"V", "tab", "backspace"},
}

// moment tells what the keys are about now.
func (a *App) moment() moment {
	switch a.over {
	case menuOver:
		return momentMenu
	case helpOver:
		return momentHelp
	}
	return a.screen.moment(a)
}

// hintsFor collects a moment's hints from the tables in force, the most needed first; a key that is refused now is none, nor
// is one that has nothing to act on.
func (a *App) hintsFor(m moment) []hint {
	if a.question != nil {
		return answerHints
	}
	var found table
	for _, l := range a.layers() {
		for _, b := range l.table {
			if b.hints[m] != "" && b.refusal(a) == "" && !a.idle(b, m) {
				found = append(found, b)
			}
		}
	}
	order := mostNeeded[m]
	rank := func(b binding) int {
		if i := slices.Index(order, b.keys[0]); i >= 0 {
			return i
		}
		return len(order)
	}
	slices.SortStableFunc(found, func(x, y binding) int { return rank(x) - rank(y) })
	var hints []hint
	for _, b := range found {
		hints = append(hints, hint{b.hintLabel(), b.hints[m]})
	}
	return hints
}

// idle tells whether a key of the board has nothing to act on before the next ball: enter where neither pins nor a foul are
// named, the comma where nothing is recorded.
func (a *App) idle(b binding, m moment) bool {
	if m != momentFullRack && m != momentSpareShot {
		return false
	}
	switch b.keys[0] {
	case "enter":
		return !a.evening.Call().Foul
	case ",":
		return a.evening.Deliveries() == 0
	}
	return false
}

// waysOut gives the hints that are there at every moment: the way to the menu, or to where it is, and the help.
func (a *App) waysOut() []hint {
	switch m := a.moment(); {
	case a.question != nil, m == momentHelp, m == momentStudent:
		return nil
	case a.over != nothingOver || a.screen != screen(a.board):
		return []hint{helpHint}
	case m == momentEdit || m == momentNamed || m == momentCount:
		return []hint{helpHint}
	case a.evening.Begun(a.evening.UpStudent()):
		return []hint{{"esc", "clears"}, helpHint}
	}
	return []hint{menuHint, helpHint}
}

// hintLine draws the keys that matter at this moment, as many as the width takes, and at the end the ways out.
func (a *App) hintLine() string {
	const gap = 2
	hints, ways := a.hintsFor(a.moment()), a.waysOut()
	if a.w < menuFrom && len(ways) > 1 {
		hints, ways = append(hints, ways[:len(ways)-1]...), ways[len(ways)-1:]
	}
	var last []string
	for _, h := range ways {
		last = append(last, a.inkedHint(h))
	}
	end := strings.Join(last, blanks(gap))
	room := a.lastWidth() - width(end)
	var line strings.Builder
	for _, h := range hints {
		drawn := a.inkedHint(h)
		if need := width(drawn) + gap; need <= room {
			room -= need
			line.WriteString(drawn + blanks(gap))
		}
	}
	return fit(line.String()+end, a.w)
}

func (a *App) inkedHint(h hint) string {
	return a.theme.key.on(h.keys) + " " + a.theme.quiet.on(h.words)
}
