package tui

import (
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"coach.settee/model"
)

// prompt asks for one line of text. It keeps keys from everything else until enter takes the line or esc drops it.
type prompt struct {
	// label says what is asked for.
	label string
	input textinput.Model
	// done takes the line; with an error the prompt stays open as it is.
	done func(text string) error
	// changed hears of the text whenever it has become another; it may be nil. keys come before those of every prompt.
	changed func(text string)
	keys    table
	// suggest gives lines that the text typed may become, the likeliest first; nil where nothing is proposed. offered are
	// those for the text as it is, next the one that tab takes.
	suggest func(text string) []string
	offered []string
	next    int
	// doubted is the line that was refused once: entered again it is taken.
	doubted string
}

// ask opens a prompt.
func (a *App) ask(label string, done func(text string) error) { a.askWith(label, "", done) }

// askWith opens a prompt that begins with a text, the cursor behind it.
func (a *App) askWith(label, text string, done func(text string) error) {
	input := textinput.New()
	input.CharLimit = model.MaxText
	// Pasting comes from the terminal; the library would start a program for it.
	input.KeyMap.Paste = key.NewBinding(key.WithDisabled())
	input.SetValue(text)
	input.Focus()
	a.prompt = &prompt{label: label, input: input, done: done}
}

// askUpTo opens a prompt that takes up to a number of characters: what is longer has no room where it goes.
func (a *App) askUpTo(most int, label string, done func(text string) error) {
	a.ask(label, done)
	a.prompt.input.CharLimit = most
}

// askAmong opens a prompt that proposes lines while one is typed.
func (a *App) askAmong(label string, suggest func(text string) []string, done func(text string) error) {
	a.ask(label, done)
	a.prompt.suggest = suggest
	a.prompt.propose()
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
		keys: []string{"tab"}, group: groupPrompt, help: "take what is proposed behind the line; again the next of it",
		act: func(a *App, _ string) {
			if len(a.prompt.offered) == 0 {
				a.say("nothing is proposed for this line")
			}
			a.prompt.takeOffered()
		},
	},
	{
		keys: []string{"ctrl+u", "ctrl+w"}, group: groupPrompt, help: "take off all, or the word, before the cursor",
	},
}

// promptKey gives a key to the prompt that is open.
func (a *App) promptKey(k tea.KeyMsg) {
	b, ok := a.prompt.keys.find(keyName(k))
	if !ok {
		b, ok = promptKeys.find(keyName(k))
	}
	switch {
	case ok && b.act != nil:
		b.act(a, keyName(k))
	case ok:
		a.editLine(k)
	case isText(k):
		a.insertText(string(k.Runes))
	default:
		a.refuseWith(keyName(k) + " does nothing while a line is typed: enter takes it, esc drops it")
	}
}

// editLine gives a key to the line, and says so where there is nothing for it to do.
func (a *App) editLine(k tea.KeyMsg) {
	p := a.prompt
	text, at := p.input.Value(), p.input.Position()
	p.edit(k)
	if p.input.Value() == text && p.input.Position() == at && a.status.words == "" {
		a.say("the line has nothing there")
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

// doubt refuses a line of the prompt that is open once, with words: nil where the same line is entered again.
func (a *App) doubt(text, words string) error {
	if a.prompt.doubted == text {
		return nil
	}
	a.prompt.doubted = text
	return errors.New(words)
}

// insertText puts text into the prompt that is open, and says so where the line cannot take all of it.
func (a *App) insertText(text string) {
	if !a.prompt.insert(text) {
		a.refuseWith(fmt.Sprintf("the line is full: it takes up to %d characters, what is over is left out", a.prompt.input.CharLimit))
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
func (p *prompt) edit(k tea.KeyMsg) {
	was := p.input.Value()
	p.input, _ = p.input.Update(k)
	p.propose()
	if now := p.input.Value(); now != was && p.changed != nil {
		p.changed(now)
	}
}

// propose looks up what is proposed for the text as it is.
func (p *prompt) propose() {
	p.offered, p.next = nil, 0
	if p.suggest == nil {
		return
	}
	text := p.input.Value()
	for _, line := range p.suggest(text) {
		if line != text {
			p.offered = append(p.offered, line)
		}
	}
}

// takeOffered makes the line what is proposed, at each call the next of it.
func (p *prompt) takeOffered() {
	if len(p.offered) == 0 {
		return
	}
	p.input.SetValue(inOneLine(p.offered[p.next]))
	p.input.CursorEnd()
	p.next = (p.next + 1) % len(p.offered)
}

// proposed says in up to w cells what tab takes next, and what after it.
func (p *prompt) proposed(w int) string {
	var lines []string
	for i := range p.offered {
		if line := p.offered[(p.next+i)%len(p.offered)]; line != p.input.Value() {
			lines = append(lines, clean(line))
		}
	}
	if len(lines) == 0 || w < leastProposed {
		return ""
	}
	return "  " + cut("(tab: "+strings.Join(lines, ", "), w-3) + ")"
}

// leastProposed is the cells from which on it is worth saying what tab takes.
const leastProposed = 16

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
	most := max(w/2, w-len(text)-3)
	if proposed := p.proposed(w); proposed != "" {
		most = max(w/2, most-width(proposed))
	}
	label := cut(clean(p.label), most) + ": "
	left := p.left()
	room := max(w-width(label)-width(left), 0)
	before, after := clean(string(text[:at]))+"│", clean(string(text[at:]))
	typed := cutLeft(before, room) + after
	proposed := p.proposed(room - width(typed))
	return t.prompt.on(cut(label, w)) + fit(typed, max(room-width(proposed), 0)) + t.quiet.on(proposed+left)
}

// left says how many characters the line has room for where they are few, "" before.
func (p *prompt) left() string {
	const few = 40
	n := p.input.CharLimit - utf8.RuneCountInString(p.input.Value())
	if n > few {
		return ""
	}
	return fmt.Sprintf("  %d left", max(n, 0))
}
