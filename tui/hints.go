package tui

import "strings"

// helpHint is the hint that is always there.
const helpHint = "? keys"

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

// hintLine gives the keys that matter at this moment, as many as the width takes, the most needed first.
func (a *App) hintLine() string {
	return a.drawHints(a.hintsFor(a.moment()), a.w)
}

// hint is a key and what it does, in a word or two.
type hint struct{ keys, words string }

// hintsFor collects a moment's hints from the tables in force.
func (a *App) hintsFor(m moment) []hint {
	var hints []hint
	for _, l := range a.layers() {
		for _, b := range l.table {
			if words := b.hints[m]; words != "" {
				hints = append(hints, hint{b.label(), words})
			}
		}
	}
	return hints
}

func (a *App) drawHints(hints []hint, w int) string {
	const gap = "  "
	room := w - len(helpHint)
	var line strings.Builder
	for _, h := range hints {
		if need := width(h.keys) + 1 + width(h.words) + len(gap); need <= room {
			room -= need
			line.WriteString(a.theme.key.on(h.keys) + " " + a.theme.quiet.on(h.words) + gap)
		}
	}
	key, words, _ := strings.Cut(helpHint, " ")
	return fit(line.String()+a.theme.key.on(key)+" "+a.theme.quiet.on(words), w)
}
