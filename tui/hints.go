package tui

import "strings"

// hint is a key and what it does, in a word or two.
type hint struct{ keys, words string }

// helpHint is there at every moment but in the help itself.
var helpHint = hint{"?", "keys"}

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

// hintsFor collects a moment's hints from the tables in force, the most needed first; a key that is refused now is none.
func (a *App) hintsFor(m moment) []hint {
	var hints []hint
	for _, l := range a.layers() {
		for _, b := range l.table {
			if words := b.hints[m]; words != "" && b.refusal(a) == "" {
				hints = append(hints, hint{b.label(), words})
			}
		}
	}
	return hints
}

// hintLine draws the keys that matter at this moment, as many as the width takes, and the one for the help at the end.
func (a *App) hintLine() string {
	m := a.moment()
	hints, last := a.hintsFor(m), a.inkedHint(helpHint)
	if m == momentHelp || m == momentStudent {
		last = ""
	}
	const gap = 2
	room := a.w - width(last)
	var line strings.Builder
	for _, h := range hints {
		drawn := a.inkedHint(h)
		if need := width(drawn) + gap; need <= room {
			room -= need
			line.WriteString(drawn + blanks(gap))
		}
	}
	return fit(line.String()+last, a.w)
}

func (a *App) inkedHint(h hint) string {
	return a.theme.key.on(h.keys) + " " + a.theme.quiet.on(h.words)
}
