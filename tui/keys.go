package tui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"
)

// binding is one thing that keys do. Help, hints and the dispatch of keys are made from the same records.
type binding struct {
	keys []string
	// shown is how help and hints write the keys; "" where that is as they are named.
	shown string
	// hinted is how hints write them where that is shorter still.
	hinted string
	// help says what the keys do, group under which heading of the help.
	help  string
	group group
	// of is the key that an alternative stands for, "" for what is none.
	of string
	// hints gives the words of the hint line for the moments in which the binding is shown there.
	hints map[moment]string
	// lines is the most lines of text that the prompts opened by the key take, 0 where it opens none.
	lines int
	// refused says why the keys do nothing now, "" where they act; nil where they always act.
	refused func(a *App) string
	act     func(a *App, key string)
}

// group is a heading of the help.
type group string

// The groups, in the order of the help.
const (
	groupShot     group = "The shot"
	groupPins     group = "The pins"
	groupBack     group = "Taking back and correcting"
	groupUp       group = "Who is up"
	groupWords    group = "Words, games, people: a line each"
	groupEvening  group = "The evening"
	groupClosing  group = "Closing the evening"
	groupStudent  group = "The student marked"
	groupStrip    group = "Going over a game"
	groupLine     group = "The line and the move"
	groupGlance   group = "The counts at a glance"
	groupProfile  group = "The student's record"
	groupPage     group = "The page to take home"
	groupCues     group = "The book of cues"
	groupSettings group = "The settings"
	groupAnywhere group = "Anywhere"
	groupLayout   group = "Other keyboards"
	groupPrompt   group = "While a line is typed"
)

var groups = []group{
	groupShot, groupPins, groupBack, groupUp, groupWords, groupEvening, groupClosing, groupStudent, groupStrip, groupLine, groupGlance,
	groupProfile, groupPage, groupCues, groupSettings, groupAnywhere, groupLayout,
	groupPrompt,
}

// moment is what the keys of a screen are about at one time; each has its own hint line.
type moment string

// The moments.
const (
	momentFullRack  moment = "full rack"
	momentSpareShot moment = "spare shot"
	momentFree      moment = "drill or warm-up"
	momentNamed     moment = "pins named"
	momentEdit      moment = "delivery reopened"
	momentCount     moment = "after ="
	momentNobody    moment = "nobody up"
	momentOut       moment = "out of the rotation"
	momentSession   moment = "evening"
	momentNone      moment = "no evening"
	momentStrip     moment = "strip"
	momentStripOpen moment = "strip, delivery open"
	momentFigures   moment = "figures"
	momentNumbers   moment = "figures with numbers"
	momentStudent   moment = "student's view"
	momentLine      moment = "line"
	momentLinePage  moment = "line, page"
	momentGlance    moment = "glance"
	momentProfile   moment = "student's record"
	momentPage      moment = "page to take home"
	momentCues      moment = "book of cues"
	momentEvenings  moment = "earlier evenings"
	momentClosing   moment = "closing"
	momentSettings  moment = "settings"
	momentMenu      moment = "menu"
	momentHelp      moment = "help"
)

// table is what keys do at one place.
type table []binding

// find gives the binding of a key.
func (t table) find(key string) (binding, bool) {
	for _, b := range t {
		for _, k := range b.keys {
			if k == key {
				return b, true
			}
		}
	}
	return binding{}, false
}

// label gives the keys as help and hints write them.
func (b binding) label() string {
	if b.shown != "" {
		return b.shown
	}
	return strings.Join(b.keys, " ")
}

// refusal says why the keys do nothing now, "" where they act.
func (b binding) refusal(a *App) string {
	if b.refused == nil {
		return ""
	}
	return b.refused(a)
}

// hintLabel gives the keys as hints write them.
func (b binding) hintLabel() string {
	if b.hinted != "" {
		return b.hinted
	}
	return b.label()
}

// keyName names a key as bindings do.
func keyName(k tea.KeyMsg) string {
	if k.Type == tea.KeySpace {
		return "space"
	}
	return k.String()
}

// isText tells whether a key is a character that a line of text takes.
func isText(k tea.KeyMsg) bool { return k.Type == tea.KeyRunes || k.Type == tea.KeySpace }

// layer is a table that is asked for a key before those below it.
type layer struct {
	table table
	// passed is called when the table does not have the key, with whether one below has it; it may be nil.
	passed func(found bool)
}

// lookup gives the binding of a key in the first layer that has it, and tells the layers above that they were passed.
func lookup(layers []layer, key string) (binding, bool) {
	var found binding
	var ok bool
	above := layers
	for i, l := range layers {
		if found, ok = l.table.find(key); ok {
			above = layers[:i]
			break
		}
	}
	for _, l := range above {
		if l.passed != nil {
			l.passed(ok)
		}
	}
	return found, ok
}

// isPaste tells whether keys that came in one read are a paste without brackets: four or more characters of which one
// has no meaning here. The line of a prompt that the same read opens is no such character's place, nor is the beginning
// of one: a hand's keys may be cut by a read anywhere.
func (a *App) isPaste(keys []tea.KeyMsg) bool {
	characters := 0
	for _, k := range keys {
		if isText(k) {
			characters++
		}
	}
	if characters < burstFrom || a.prompt != nil {
		return false
	}
	tables := a.layers()
	for i := 0; i < len(keys); i++ {
		b, ok := find(tables, keyName(keys[i]))
		switch {
		case !ok && isText(keys[i]), ok && b.group == groupLayout && isWord(keyName(keys[i]), keys[i+1:]):
			return true
		case ok && b.group == groupLayout && keyName(keys[i]) == "d":
			i++
		case ok && b.lines > 0:
			i += typed(keys[i+1:], b.lines)
		}
	}
	return false
}

// find gives the binding of a key without telling the layers.
func find(layers []layer, key string) (binding, bool) {
	for _, l := range layers {
		if b, ok := l.table.find(key); ok {
			return b, true
		}
	}
	return binding{}, false
}

// typed gives how many of the keys are the lines of a prompt: all of them where the lines do not end yet, but none where
// more came than a hand types.
func typed(keys []tea.KeyMsg, lines int) int {
	for i, k := range keys {
		switch keyName(k) {
		case "esc":
			return i + 1
		case "enter", "ctrl+j":
			if lines--; lines == 0 {
				return i + 1
			}
		}
	}
	if len(keys) > typedLimit {
		return 0
	}
	return len(keys)
}
