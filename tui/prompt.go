package tui

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"coach.settee/model"
)

// prompt asks for one line of text. It keeps keys from everything else until enter takes the line or esc drops it.
type prompt struct {
	// label says what is asked for.
	label string
	text  []rune
	// at is the place of the cursor in text.
	at int
	// done takes the line; with an error the prompt stays open as it is.
	done func(text string) error
}

// ask opens a prompt.
func (a *App) ask(label string, done func(text string) error) {
	a.prompt = &prompt{label: label, done: done}
}

// promptKeys are the keys that a line of text does not take as text.
var promptKeys = table{
	{
		keys: []string{"enter", "ctrl+j"}, shown: "enter", group: groupPrompt, help: "take the line",
		act: func(a *App, _ string) { a.takeLine() },
	},
	{
		keys: []string{"esc"}, group: groupPrompt, help: "drop the line: nothing is changed",
		act: func(a *App, _ string) {
			a.prompt = nil
			a.say("dropped")
		},
	},
	{
		keys: []string{"backspace", "ctrl+h", "delete"}, shown: "backspace delete", group: groupPrompt,
		help: "take off the character before or under the cursor",
		act:  func(a *App, key string) { a.prompt.remove(key) },
	},
	{
		keys: []string{"left", "right", "home", "end", "ctrl+a", "ctrl+e"}, shown: "left right home end", group: groupPrompt,
		help: "move the cursor",
		act:  func(a *App, key string) { a.prompt.move(key) },
	},
	{
		keys: []string{"ctrl+u", "ctrl+w"}, group: groupPrompt, help: "take off all, or the word, before the cursor",
		act: func(a *App, key string) { a.prompt.removeBack(key == "ctrl+w") },
	},
}

// promptKey gives a key to the prompt that is open.
func (a *App) promptKey(k tea.KeyMsg) {
	if b, ok := promptKeys.find(keyName(k)); ok {
		b.act(a, keyName(k))
		return
	}
	if isText(k) {
		a.insertText(string(k.Runes))
	}
}

// takeLine hands the line over and closes the prompt, unless it was refused or has led to the next prompt.
func (a *App) takeLine() {
	p := a.prompt
	text := model.CleanText(string(p.text))
	if err := p.done(text); err != nil {
		a.refuse(err)
		return
	}
	if a.prompt == p {
		a.prompt = nil
	}
}

// insertText puts text into the prompt that is open, and says so where the line cannot take all of it.
func (a *App) insertText(text string) {
	if !a.prompt.insert(text) {
		a.refuseWith(fmt.Sprintf("the line is full: it takes up to %d characters", model.MaxText))
	}
}

// insert puts text in at the cursor, in one line and without control characters. Blanks at its ends stay: a line that is
// typed may come in pieces. It tells whether the line took all of it.
func (p *prompt) insert(text string) bool {
	runes := []rune(inOneLine(text))
	fits := min(len(runes), model.MaxText-len(p.text))
	p.text = slices.Insert(p.text, p.at, runes[:fits]...)
	p.at += fits
	return fits == len(runes)
}

// inOneLine gives a text without control characters and the like; ends of lines are blanks, none at the end of the text.
func inOneLine(text string) string {
	var line strings.Builder
	for _, r := range strings.TrimRight(strings.ToValidUTF8(text, ""), "\r\n") {
		if unicode.IsSpace(r) {
			r = ' '
		}
		if r == ' ' || model.CleanText(string(r)) != "" {
			line.WriteRune(r)
		}
	}
	return line.String()
}

func (p *prompt) remove(key string) {
	if key != "delete" {
		if p.at == 0 {
			return
		}
		p.at--
	}
	if p.at < len(p.text) {
		p.text = slices.Delete(p.text, p.at, p.at+1)
	}
}

func (p *prompt) removeBack(word bool) {
	from := 0
	if word {
		from = p.at
		for from > 0 && unicode.IsSpace(p.text[from-1]) {
			from--
		}
		for from > 0 && !unicode.IsSpace(p.text[from-1]) {
			from--
		}
	}
	p.text = slices.Delete(p.text, from, p.at)
	p.at = from
}

func (p *prompt) move(key string) {
	switch key {
	case "left":
		p.at = max(p.at-1, 0)
	case "right":
		p.at = min(p.at+1, len(p.text))
	case "home", "ctrl+a":
		p.at = 0
	case "end", "ctrl+e":
		p.at = len(p.text)
	}
}

// line draws the prompt in w cells, with the place around the cursor in view.
func (p *prompt) line(t *theme, w int) string {
	label := cut(clean(p.label), max(w/2, w-len(p.text)-3)) + ": "
	room := w - width(label)
	before, after := clean(string(p.text[:p.at]))+"│", clean(string(p.text[p.at:]))
	if over := width(before) - room; over > 0 {
		before = ansi.TruncateLeft(before, over+1, "…")
	}
	return t.prompt.on(cut(label, w)) + fit(before+after, max(room, 0))
}
