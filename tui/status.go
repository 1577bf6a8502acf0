package tui

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// status is what the status line says until the next key.
type status struct {
	words string
	// refused marks words that say why something was not done.
	refused bool
}

// say puts words in the status line.
func (a *App) say(words string) { a.status = status{words: words} }

// refuse says why something was not done.
func (a *App) refuse(err error) { a.status = status{words: err.Error(), refused: true} }

// refuseWith is refuse with words of its own.
func (a *App) refuseWith(words string) { a.status = status{words: words, refused: true} }

// header gives the first line: the place on the left, on the right how much is kept.
func (a *App) header() string {
	var left []string
	for _, part := range []string{"Settee", a.conf.Title, a.screen.title(), a.place()} {
		if part != "" {
			left = append(left, clean(part))
		}
	}
	right := ""
	if a.evening != nil {
		right = a.ledger.count(a.evening.Session().ID, a.evening.Deliveries())
	}
	if a.w <= width(right)+1 {
		return fit(right, a.w)
	}
	return a.theme.title.on(fit(strings.Join(left, "  "), a.w-width(right)-1)) + " " + right
}

func (a *App) place() string {
	if a.evening == nil {
		return ""
	}
	return a.evening.Session().Place
}

// banner gives a line that stays as long as the disk refuses, "" while it does not.
func (a *App) banner() string {
	words := a.ledger.trouble()
	if words == "" {
		return ""
	}
	return a.theme.banner.on(fit(clean(words), a.w))
}

// lastCall names the last action and whose it was, with a sign until it is on disk.
func (a *App) lastCall() string {
	if a.evening == nil {
		return ""
	}
	last, ok := a.evening.Last()
	if !ok {
		return ""
	}
	return clean("last: "+a.evening.Describe(last)) + a.ledger.sign(actionOf{a.evening.Session().ID, last.N})
}

// foot gives the two lines at the bottom: the status line, which names the last call whatever else it says, and the
// hints or the prompt. Words too long for one line take the hints' place.
func (a *App) foot() (line, below string) {
	words, last := clean(a.status.words), a.lastCall()
	below = a.hintLine()
	if a.prompt != nil {
		below = a.prompt.line(a.theme, a.w)
	}
	switch {
	case words == "":
		return a.theme.quiet.on(fit(last, a.w)), below
	case width(words)+width(last)+2 <= a.w:
		return a.inked(fit(words, a.w-width(last))) + a.theme.quiet.on(last), below
	case a.prompt != nil:
		return a.inked(fit(words, a.w)), below
	case width(words) <= a.w:
		return a.inked(fit(words, a.w)), a.theme.quiet.on(fit(last, a.w))
	}
	wrapped := strings.SplitN(ansi.Wordwrap(words, a.w, ""), "\n", 2)
	rest := strings.ReplaceAll(strings.Join(wrapped[1:], ""), "\n", " ")
	return a.inked(fit(wrapped[0], a.w)), a.inked(fit(rest, a.w))
}

func (a *App) inked(words string) string {
	if a.status.refused {
		return a.theme.alert.on(words)
	}
	return a.theme.strong.on(words)
}
