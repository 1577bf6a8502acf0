package tui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"
)

// intro is the introduction above the first prompt of a store in which nothing is kept yet.
type intro struct {
	page introPage
	// turned says that the second page was seen.
	turned bool
	// behind is the prompt that waits while the help is shown from the introduction, nil while it is not.
	behind *prompt
}

type introPage uint8

const (
	introOver introPage = iota
	introFirst
	introSecond
)

// introduce begins with the introduction where neither a student nor an evening is kept and the coach has not been through
// it.
func (a *App) introduce() error {
	if len(a.students) > 0 || a.conf.Introduced {
		// Reading every evening of many years would be felt at the start.
		return nil
	}
	evenings, err := a.everyEvening()
	if err != nil || len(evenings) > 0 {
		return err
	}
	a.intro.page = introFirst
	a.prompt.changed = func(string) { a.endIntro() }
	return nil
}

// endIntro ends the introduction, and has it remembered that the coach has been through it.
func (a *App) endIntro() {
	if a.intro.page == introOver {
		return
	}
	a.intro = intro{}
	if a.prompt != nil {
		a.prompt.changed, a.prompt.keys = nil, introOverKeys
	}
	a.rememberIntro()
}

func (a *App) rememberIntro() {
	if a.conf.RememberIntroduced == nil {
		return
	}
	a.sendErrand(errand{a.conf.RememberIntroduced, func(a *App, err error) {
		if err != nil {
			a.refuseWith("the introduction comes again at the next start: " + err.Error())
		}
	}})
}

// WantsDemo tells whether the program has ended to begin the demo, after which it is to be started again.
func (a *App) WantsDemo() bool { return a.demo }

// introKeys are the keys while the introduction is shown. A digit begins the lane; every other key goes on.
var introKeys = table{
	{
		keys: []string{"tab"}, group: groupPrompt, help: "the other page of the introduction",
		act: func(a *App, _ string) { a.turnIntro() },
	},
	{
		keys: []string{"?", "f1"}, group: groupPrompt, help: "every key, and back to the introduction",
		act: func(a *App, _ string) {
			a.intro.behind, a.prompt = a.prompt, nil
			a.openHelp()
		},
	},
	{
		keys: []string{"d"}, group: groupPrompt, help: "the demo; leaving it comes back to the introduction",
		act: func(a *App, _ string) {
			a.demo = true
			a.do(tea.Quit)
		},
	},
	{
		keys: []string{"esc"}, group: groupPrompt, help: "skip the introduction and drop the line",
		act: func(a *App, _ string) {
			a.endIntro()
			a.prompt = nil
			a.say("dropped: n asks for the lanes again, ? shows every key")
		},
	},
}

// introOverKeys say that what was there before the first character is no more.
var introOverKeys = table{
	{
		keys: []string{"tab", "f1"}, group: groupPrompt, help: "nothing here: the introduction is over",
		act: func(a *App, _ string) { a.refuseWith("the introduction is over: esc, then ? shows every key") },
	},
}

// introKey gives a key to the introduction, and tells whether it was for it and not for the line.
func (a *App) introKey(k tea.KeyMsg) bool {
	if a.intro.page == introOver || a.intro.behind != nil {
		return false
	}
	key := keyName(k)
	b, own := introKeys.find(key)
	switch {
	case own:
		b.act(a, key)
	case isText(k) && strings.ContainsAny(key, "0123456789"):
		return false
	case a.intro.page == introFirst:
		a.turnIntro()
		a.say("the second page; a number is the lane tonight, esc skips")
	default:
		a.endIntro()
		a.say("now the lane tonight: its number, then enter")
	}
	return true
}

func (a *App) turnIntro() {
	if a.intro.page == introSecond {
		a.intro.page = introFirst
		return
	}
	a.intro.page, a.intro.turned = introSecond, true
}

// introduced gives the page of the introduction that is shown, nothing once it is over. A page is as high as the smallest
// window takes.
func (a *App) introduced() []string {
	if a.prompt == nil || a.intro.page == introOver {
		return nil
	}
	lines := introPages[a.intro.page-introFirst]
	out := make([]string, len(lines))
	for i, l := range lines {
		head, rest := a.theme.title, ""
		if i > 0 {
			l, rest, _ = strings.Cut(l, "|")
			head = a.theme.key
		}
		if rest == "" && i > 0 {
			head = ink{}
		}
		out[i] = "  " + head.on(l) + rest
	}
	return out
}

// introPages are the two pages: a title, then lines of up to 58 cells, what stands before a bar being keys.
var introPages = [2][]string{
	{
		"Welcome to Settee",
		"You watch the approach and call each ball by how it was",
		"thrown. Settee counts the good ones and remembers.",
		"",
		"7 enter    | your lane tonight; then a student: Ada 120",
		"d          | the demo: an invented evening, to try the keys",
		"tab        | page 2 of 2: a ball, the screens",
		"? or F1    | every key, and back to here",
		"esc        | skips this for good; then q leaves",
		"",
		"Once a student is up, on the board:",
		"x          | all pins down: a strike, or the spare",
		"backspace  | takes back, again and again",
	},
	{
		"A ball, and where to find the rest",
		"On the board every ball begins with A A A A. A key lowers",
		"a letter, a key says what fell, and the next one is up.",
		"",
		"b 7 enter  | balance a B (or t r f), the 7 pin left",
		"x          | and the spare is made",
		"z x        | you missed it: scored, never graded",
		"1-0 -      | pins left standing, or none down; enter",
		"esc        | the menu: Evening, Strip, Line, Student, Cues",
		"",
		"Here and there:",
		"? or F1    | every key; / in it finds one by words",
		"7 enter    | your lane tonight begins; tab is page 1",
	},
}
