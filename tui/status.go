package tui

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// status is what the status line says until the next key.
type status struct {
	words string
	// refused marks words that say why something was not done, forStudent those that are shown on a screen turned to a student.
	refused, forStudent bool
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
	right := a.ledger.behind()
	if e := a.inHand(); e != nil {
		right = a.ledger.count(e.Session().ID, e.Deliveries())
	}
	if a.w <= width(right)+1 {
		return fit(right, a.w)
	}
	return a.theme.title.on(fit(strings.Join(left, "  "), a.w-width(right)-1)) + " " + right
}

func (a *App) place() string {
	e := a.inHand()
	if e == nil {
		return ""
	}
	return e.Session().Place
}

// banner gives a line that stays as long as the disk refuses, "" while it does not.
func (a *App) banner() string {
	words := a.ledger.trouble()
	if words == "" {
		return ""
	}
	return a.theme.banner.on(fit(clean(words), a.w))
}

// lastCall names the last action and whose it was in up to w cells, with a sign until it is on disk.
func (a *App) lastCall(w int) string {
	e := a.inHand()
	if e == nil || a.shielded() {
		return ""
	}
	last, ok := e.Last()
	if !ok {
		return ""
	}
	sign := a.ledger.sign(actionOf{e.Session().ID, last.N})
	return cut(cut(clean("last: "+e.Describe(last)), w-width(sign))+sign, w)
}

// foot puts the two lines at the bottom under the picture: the status line, and the hints or the prompt. Words that the
// status line cannot take beside the last call begin in the line above it where that is empty. Where it is not, they take
// the hints' place, but never that of a prompt, nor that of the answers while a question is asked.
func (a *App) foot(picture []string) []string {
	below := a.hintLine()
	if a.prompt != nil {
		below = fit(a.prompt.line(a.theme, a.lastWidth()), a.w)
	}
	words, above := a.statusLines(), len(picture)-1
	switch {
	case len(words) == 1:
		return append(picture, words[0], below)
	case above >= 0 && (a.prompt != nil || a.question != nil || strings.TrimSpace(ansi.Strip(picture[above])) == ""):
		return append(picture[:above], words[0], words[1], below)
	}
	return append(picture, words...)
}

// besideLast are the cells between the words and the last call.
const besideLast = 2

// statusLines gives what the status line says: the words on the left and the last call on the right, in a third of the
// width at least. Words too long for that come in two lines, and without the last call where they fill both.
func (a *App) statusLines() []string {
	words, last := clean(a.said().words), a.lastCall(a.w)
	if a.shielded() && a.question == nil && !a.leaving && !a.status.forStudent {
		words, last = "", ""
	}
	if words == "" {
		return []string{a.theme.quiet.on(fit(last, a.w))}
	}
	room := a.w
	if last != "" {
		room -= min(width(last), a.w/3) + besideLast
	}
	if width(words) <= room {
		return []string{a.wordsAndLast(words)}
	}
	first, rest, _ := strings.Cut(wrapped(words, a.w), "\n")
	rest = strings.ReplaceAll(rest, "\n", " ")
	second := a.inked(fit(rest, a.w))
	switch {
	case rest == "":
		second = a.theme.quiet.on(fit(last, a.w))
	case width(rest) <= room:
		second = a.wordsAndLast(rest)
	}
	return []string{a.inked(fit(first, a.w)), second}
}

// wordsAndLast gives a line with words on the left and on the right the last call, in what room they leave.
func (a *App) wordsAndLast(words string) string {
	last := a.lastCall(max(a.w-width(words)-besideLast, 0))
	return a.inked(fit(words, a.w-width(last))) + a.theme.quiet.on(last)
}

func (a *App) inked(words string) string {
	if a.said().refused {
		return a.theme.alert.on(words)
	}
	return a.theme.strong.on(words)
}
