package tui

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"
)

// alternative names keys that do what a key of the same table does, for keyboards on which that one needs shift or AltGr. They
// are unshifted letters, or what a keyboard has in the digits' place.
type alternative struct {
	// of is the first key of the binding that they stand for, in the order of its keys.
	of   string
	keys []string
	// shown and help are for the help; "" where they follow from the binding.
	shown, help string
}

// frenchRow is the upper row of a French keyboard without shift, in the order of the pins. Its sixth key gives the sign that
// says that no pin is down, so the 6 has the section sign, which other keyboards of French have there.
var frenchRow = []string{"&", "é", "\"", "'", "(", "§", "è", "_", "ç", "à"}

// onFrenchRow lets the digits of a table be typed without shift on a French keyboard.
var onFrenchRow = alternative{
	of: "1", keys: frenchRow, shown: "& é \" ' ( § è _ ç à",
	help: "as the digits 1 to 0, which need shift on a French keyboard; its 6 is a - without shift: type d f, or shift and 6",
}

// withAlternatives gives a table with alternatives for some of its keys.
func withAlternatives(t table, more ...alternative) table {
	for _, m := range more {
		b, ok := t.find(m.of)
		if !ok {
			continue
		}
		as, act := b.keys, b.act
		b.act = func(a *App, key string) { act(a, as[slices.Index(m.keys, key)]) }
		b.keys, b.shown, b.hints, b.group, b.help, b.of = m.keys, m.shown, nil, groupLayout, m.help, m.of
		if b.help == "" {
			b.help = "as " + m.of
		}
		t = append(t, b)
	}
	return t
}

// digitKeys begin a digit that is typed as a letter.
var digitKeys = table{
	{
		keys: []string{"d"}, group: groupLayout, refused: nobody,
		help: "then a letter: the digit in its place, a for 1 to i for 9, j for 0; any other key drops the d and acts as usual",
		act: func(a *App, _ string) {
			a.board.lettered = true
			a.say("d: a letter from a to j is a digit, a for 1 to i for 9, j for 0")
		},
	},
}

// letterKeys are the letters after d.
func letterKeys() table {
	return table{{
		keys: []string{"a", "b", "c", "d", "e", "f", "g", "h", "i", "j"}, group: groupLayout,
		help: "after d: the digits 1 to 9 and 0",
		act: func(a *App, key string) {
			a.board.lettered = false
			a.act(string("1234567890"[key[0]-'a']))
		},
	}}
}

// isWord tells whether an alternative's letter in keys of one read is one of a pasted word: nothing follows it that it is
// for. These letters are frequent in any text; a read may end after one.
func isWord(key string, rest []tea.KeyMsg) bool {
	if len(rest) == 0 {
		return false
	}
	next := keyName(rest[0])
	switch key {
	case "a":
		return !slices.ContainsFunc(rest, func(k tea.KeyMsg) bool { return slices.Contains([]string{"enter", "ctrl+j", "esc"}, keyName(k)) })
	case "d":
		_, letter := letterKeys().find(next)
		return !letter
	case "u":
		_, digit := countKeys.find(next)
		return !digit && next != "d"
	}
	return false
}
