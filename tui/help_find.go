package tui

import (
	"slices"
	"strings"
	"unicode"

	"github.com/charmbracelet/x/ansi"
)

// findInHelp asks for words, and shows what has them while they are typed: of this screen, then of the others.
func (a *App) findInHelp() {
	a.narrowHelp("")
	a.ask("find in the help: words, or a key", func(string) error { return nil })
	a.prompt.changed = a.narrowHelp
	a.prompt.keys = helpFindKeys
}

// helpFindKeys act while words are typed.
var helpFindKeys = table{
	{
		keys: []string{"esc"}, group: groupPrompt, help: "drop the words: all of the help is shown again",
		act: func(a *App, _ string) {
			a.prompt = nil
			a.narrowHelp("")
		},
	},
	{
		keys: []string{"up", "down", "pgup", "pgdown"}, group: groupPrompt, help: "turn the help's pages",
		act: func(a *App, key string) { a.turnHelp(key) },
	},
}

// helpPlace is a screen, or what is reached from one, with its keys and the way there in the title.
type helpPlace struct {
	title string
	keys  table
}

// helpPlaces are the places that have keys of their own.
func (a *App) helpPlaces() []helpPlace {
	return []helpPlace{
		{"Board (esc goes there)", a.board.table()},
		{"Evening (e goes there)", a.session.bindings},
		{"The list of evenings (e, then E)", earlierKeys},
		{"Closing the evening (e, then x)", closingKeys},
		{"Strip (g goes there)", a.strip.bindings},
		{"The student's view (g, then v)", studentKeys},
		{"Line (y goes there)", lineKeys},
		{"Glance (v on the board)", glanceKeys},
		{"Student (s goes there)", a.student.table()},
		{"The page to take home (s, then h)", handoutKeys},
		{"Cues (c goes there)", a.cues.table()},
		{"Settings (M goes there)", a.settings.table()},
	}
}

// helpElsewhere gives the keys of the other screens, each under its name, but for those that are told already.
func (a *App) helpElsewhere(told table, w int) []helpSection {
	told = slices.Clone(told)
	var sections []helpSection
	for _, p := range a.helpPlaces() {
		fresh := slices.DeleteFunc(slices.Clone(p.keys), func(b binding) bool {
			return slices.ContainsFunc(told, func(t binding) bool { return t.keys[0] == b.keys[0] && t.help == b.help })
		})
		section := helpSection{title: p.title}
		for _, g := range groups {
			section.entries = append(section.entries, a.helpGroup(g, fresh, w)...)
		}
		sections, told = append(sections, section), append(told, fresh...)
	}
	return sections
}

// has tells whether an entry has a word that begins with each of some words, whatever their capitals; a single sign is a key,
// or among other words a word.
func (e helpEntry) has(title, words string) bool {
	text := strings.ToLower(ansi.Strip(strings.Join(append([]string{title}, e.lines...), " ")))
	text = wordsOf(strings.Join(strings.Fields(text), " "))
	for _, o := range otherWords {
		if strings.Contains(text, o.said) {
			text += " " + o.also
		}
	}
	has := strings.Fields(text)
	wanted := strings.Fields(words)
	for _, word := range wanted {
		if len([]rune(word)) == 1 {
			if !slices.Contains(e.keys, word) && (len(wanted) == 1 || !slices.Contains(has, strings.ToLower(word))) {
				return false
			}
			continue
		}
		beginning := strings.ToLower(word)
		one := strings.TrimSuffix(beginning, "s")
		if !slices.ContainsFunc(has, func(s string) bool { return strings.HasPrefix(s, beginning) || s == one }) {
			return false
		}
	}
	return true
}

// wordsOf gives a text with nothing but its words.
func wordsOf(text string) string {
	return strings.Join(strings.FieldsFunc(text, func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '+'
	}), " ")
}

// otherWords are what a coach may look for under another name: where the help has the words said, those of also are found too.
var otherWords = []struct{ said, also string }{
	{"take back the last", "undo revert mistake wrong"},
	{"do again what was taken back", "redo"},
	{"leave asks while", "quit exit end stop close program"},
	{"it stays here too", "save rescue"},
	{"no key to save", "keep kept save store disk autosave"},
	{"open the last recorded delivery again", "reopen edit correct fix change"},
	{"correct it", "edit fix reopen change"},
	{"page to take home", "print printer handout report share send message"},
	{"for a browser or the printer", "print paper handout html"},
	{"text of a message", "handout send share clipboard mail"},
	{"all standing pins down", "strike spare mark"},
	{"a spare x on", "mark"},
	{"no pin down enter", "gutter miss zero"},
	{"pin 1 to 9", "leave leaves standing knocked"},
	{"lower balance", "grade letter worse"},
	{"raise it", "grade letter better"},
	{"unseen or seen", "missed unwatched"},
	{"catch up", "missed late behind frames"},
	{"dead ball", "rethrow"},
	{"out of the rotation", "absent pause late gone home left"},
	{"out or back in", "absent pause late gone home left"},
	{"next pair", "lane lanes"},
	{"next the previous student", "turn player bowler"},
	{"add a student", "new player bowler person newcomer"},
	{"add students", "new player bowler person newcomer roster"},
	{"take a new student in", "add player bowler person"},
	{"archive the student", "delete remove"},
	{"field marked anew", "edit rename name average goal level bar"},
	{"cue marked out of the book", "delete remove"},
	{"begin a new evening", "start session night lanes"},
	{"close the evening", "end finish stop session"},
	{"how long the oil", "pattern length"},
	{"kind of oil", "pattern"},
	{"line arrows slide", "speed board boards breakpoint"},
	{"a drill of", "practice practise exercise game"},
	{"draw the screen anew", "refresh redraw repaint garbled"},
	{"theme auto", "colour colours color colors dark light background look preferences options"},
	{"mouse yes", "click touchpad select options preferences"},
	{"density roomy", "rows size small large options preferences"},
	{"ascii only", "characters font symbols options preferences"},
	{"rotation yes", "order next automatic options preferences"},
	{"colours rows mouse", "options preferences configuration config"},
	{"every key", "keyboard shortcuts"},
	{"suspend", "shell background"},
	{"figures of this game", "statistics stats numbers averages"},
	{"every figure", "statistics stats"},
	{"student s view", "turn round show"},
	{"list of all evenings", "history past old previous resume"},
}
