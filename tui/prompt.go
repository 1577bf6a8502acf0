package tui

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"coach.settee/model"
)

// prompt asks for one line of text. It keeps keys from everything else until enter takes the line or esc drops it.
type prompt struct {
	// label says what is asked for.
	label string
	input textinput.Model
	// done takes the line; with an error the prompt stays open as it is.
	done func(text string) error
}

// ask opens a prompt.
func (a *App) ask(label string, done func(text string) error) {
	input := textinput.New()
	input.CharLimit = model.MaxText
	// Pasting comes from the terminal; the library would start a program for it.
	input.KeyMap.Paste = key.NewBinding(key.WithDisabled())
	input.Focus()
	a.prompt = &prompt{label: label, input: input, done: done}
}

// promptKeys are the keys that a line of text does not take as text. Those without an act edit the line.
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
	},
	{
		keys: []string{"left", "right", "home", "end", "ctrl+a", "ctrl+e"}, shown: "left right home end", group: groupPrompt,
		help: "move the cursor",
	},
	{
		keys: []string{"ctrl+u", "ctrl+w"}, group: groupPrompt, help: "take off all, or the word, before the cursor",
	},
}

// promptKey gives a key to the prompt that is open.
func (a *App) promptKey(k tea.KeyMsg) {
	switch b, ok := promptKeys.find(keyName(k)); {
	case ok && b.act != nil:
		b.act(a, keyName(k))
	case ok:
		a.prompt.edit(k)
	case isText(k):
		a.insertText(string(k.Runes))
	}
}

// takeLine hands the line over and closes the prompt, unless it was refused or has led to the next prompt.
func (a *App) takeLine() {
	p := a.prompt
	text := model.CleanText(p.input.Value())
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
	text = inOneLine(text)
	before := utf8.RuneCountInString(p.input.Value())
	p.edit(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text)})
	return utf8.RuneCountInString(p.input.Value()) == before+utf8.RuneCountInString(text)
}

// edit gives a key to the line. What the library would run beside is the blinking of its cursor, which is not drawn.
func (p *prompt) edit(k tea.KeyMsg) { p.input, _ = p.input.Update(k) }

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

// line draws the prompt in w cells, with the place around the cursor in view.
func (p *prompt) line(t *theme, w int) string {
	text, at := []rune(p.input.Value()), p.input.Position()
	label := cut(clean(p.label), max(w/2, w-len(text)-3)) + ": "
	room := w - width(label)
	before, after := clean(string(text[:at]))+"│", clean(string(text[at:]))
	if over := width(before) - room; over > 0 {
		before = ansi.TruncateLeft(before, over+1, "…")
	}
	return t.prompt.on(cut(label, w)) + fit(before+after, max(room, 0))
}
