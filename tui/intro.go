package tui

import "strings"

// intro is the introduction above the first prompt of a store in which nothing is kept yet.
type intro uint8

const (
	introOver intro = iota
	introFirst
	introSecond
)

// introKeys turn the introduction's pages while nothing is typed yet.
var introKeys = table{
	{
		keys: []string{"tab", "f1"}, group: groupPrompt, help: "the other page of the introduction",
		act: func(a *App, _ string) {
			switch {
			case a.intro == introFirst:
				a.intro = introSecond
			case a.intro == introSecond:
				a.intro = introFirst
			default:
				a.refuseWith("the introduction is over: esc, then ? shows every key")
			}
		},
	},
	{
		keys: []string{"esc"}, group: groupPrompt, help: "skip the introduction and drop the line",
		act: func(a *App, _ string) {
			a.prompt, a.intro = nil, introOver
			a.say("dropped: n asks for the lanes again, ? shows every key")
		},
	},
}

// introduce begins with the introduction where neither a student nor an evening is kept. It is over with the first
// character of the lanes, and never comes again.
func (a *App) introduce() error {
	if len(a.students) > 0 {
		// Reading every evening of many years would be felt at the start.
		return nil
	}
	evenings, err := a.everyEvening()
	if err != nil || len(evenings) > 0 {
		return err
	}
	a.intro = introFirst
	a.prompt.keys = introKeys
	a.prompt.changed = func(string) { a.intro = introOver }
	return nil
}

// introduced gives the page of the introduction that is shown, nothing once it is over. A page is as high as the smallest
// window takes.
func (a *App) introduced() []string {
	var lines []string
	switch {
	case a.prompt == nil:
		return nil
	case a.intro == introFirst:
		lines = introPages[0]
	case a.intro == introSecond:
		lines = introPages[1]
	default:
		return nil
	}
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

// introPages are the two pages: a title, then lines of up to 56 cells, what stands before a bar being keys.
var introPages = [2][]string{
	{
		"Welcome to Settee",
		"You watch the approach and call each ball by how it was",
		"thrown. Settee counts the good ones and remembers.",
		"",
		"x          | all pins down: a strike, or the spare",
		"b t r f    | lower balance, target, release, finish",
		"backspace  | takes back, again and again",
		"",
		"Type the lane and press enter: that skips this page.",
		"7 enter    | the pair 7/8; then a student: Ada 120",
		"tab        | page 2 of 2: a ball, the screens",
		"esc q      | leaves; settee demo in the shell shows an",
		"           | invented evening that nothing is kept of",
	},
	{
		"A ball, and where to find the rest",
		"Every ball begins with A A A A. One key lowers one letter,",
		"one key says what fell, and the next student is up.",
		"",
		"b 7 enter  | balance a B, the 7 pin left",
		"x          | and the spare is made",
		"z x        | you missed it: scored, never graded",
		"1-0 -      | pins left standing, or none down; enter",
		"",
		"?          | every key; / there finds one",
		"esc        | the menu: Evening, Strip, Line, Student, Cues",
		"tab        | page 1 of 2",
		"7 enter    | or the lane tonight: that begins",
	},
}
