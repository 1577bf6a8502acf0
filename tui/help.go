package tui

import (
	"slices"
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// helpKeys turn the help's pages, find in it and close it; every other key that it lists acts from it.
var helpKeys = table{
	{
		keys: []string{"?", "esc", "f1"}, shown: "? esc", group: groupAnywhere, help: "close the help",
		hints: map[moment]string{momentHelp: "close"},
		act:   func(a *App, key string) { a.closeHelp(key) },
	},
	{
		keys: []string{"/", "ctrl+f"}, shown: "/", group: groupAnywhere, lines: 1,
		help:  "find by words, or a key by itself, in the help of all screens (ctrl+f too)",
		hints: map[moment]string{momentHelp: "find"},
		act:   func(a *App, _ string) { a.findInHelp() },
	},
	{
		keys: []string{"up", "down", "pgup", "pgdown", "home", "end"}, shown: "arrows pgup pgdn",
		group: groupAnywhere, help: "turn the help's pages",
		hints: map[moment]string{momentHelp: "scroll"},
		act:   func(a *App, key string) { a.turnHelp(key) },
	},
}

// openHelp shows all of the help from its beginning.
func (a *App) openHelp() {
	a.over = helpOver
	a.narrowHelp("")
}

// closeHelp closes the help; esc first shows all of one that is narrowed to what was looked for.
func (a *App) closeHelp(key string) {
	if key == "esc" && a.helpWords != "" {
		a.narrowHelp("")
		return
	}
	a.over = nothingOver
	if a.intro.behind != nil {
		a.prompt, a.intro.behind = a.intro.behind, nil
	}
}

// narrowHelp shows what has some words, from the beginning.
func (a *App) narrowHelp(words string) { a.helpWords, a.helpTop = words, 0 }

func (a *App) turnHelp(key string) {
	a.helpTop = turned(a.helpTop, key, a.bodyHeight()-1, len(a.helpLines(a.w)))
}

// drawHelp draws the part of the help that is turned to, and where that is.
func (a *App) drawHelp(w, h int) string {
	shown, where := pageFrom(a.helpLines(w), a.helpTop, max(h-1, 0))
	switch {
	case a.helpWords != "" && a.prompt == nil:
		where += ", narrowed to " + clean(a.helpWords) + ": esc shows all"
	case a.prompt != nil:
		where += ": enter keeps them, esc shows all"
	}
	return strings.Join(append(shown, a.theme.quiet.on(cut(where, w))), "\n")
}

// helpSection is what stands under a heading of the help, helpEntry what is found there as one.
type helpSection struct {
	title   string
	entries []helpEntry
}

type helpEntry struct {
	keys, lines []string
}

// helpLines writes down every key that acts on the screen, then what the letters mean, then the cautions: all of it, or
// what has the words that are looked for.
func (a *App) helpLines(w int) []string {
	var lines []string
	for _, s := range a.helpSections(w) {
		var found []string
		for _, e := range s.entries {
			if e.has(s.title, a.helpWords) {
				found = append(found, e.lines...)
			}
		}
		if len(found) == 0 {
			continue
		}
		if len(lines) > 0 {
			lines = append(lines, "")
		}
		lines = append(append(lines, a.theme.title.on(s.title)), found...)
	}
	if len(lines) == 0 {
		return hanging("", "Nothing in the help has "+clean(a.helpWords)+": another word, or esc shows all of it.", w)
	}
	return lines
}

// helpScreen gives the screen whose keys come first in the help: from the introduction that is the board.
func (a *App) helpScreen() screen {
	if a.intro.behind != nil {
		return a.board
	}
	return a.screen
}

func (a *App) helpSections(w int) []helpSection {
	here := a.helpScreen()
	own := here.table()
	keys := slices.Concat(alwaysKeys, anywhereKeys, lettersBelow(own, a.screens), own, promptKeys)
	if slices.Contains([]screen{a.board, a.strip, a.glance}, here) {
		// What follows the = is said with it.
		keys = append(keys, slices.DeleteFunc(slices.Clone(countKeys), func(b binding) bool { return b.group != groupLayout })...)
	}
	var sections []helpSection
	for _, g := range groups {
		sections = append(sections, helpSection{string(g), a.helpGroup(g, keys, w)})
	}
	if a.helpWords != "" {
		sections = append(sections, a.helpElsewhere(keys, w)...)
	}
	return append(sections, helpSection{"What is kept", helpFacts(keptFacts, w)}, helpSection{"What the letters mean", helpLetters(w)},
		helpSection{"The first ten minutes", helpFacts(sizingUp, w)}, helpSection{"Cautions", helpFacts(cautions, w)})
}

// helpColumn is the width of the keys' column.
const helpColumn = 16

func (a *App) helpGroup(g group, keys table, w int) []helpEntry {
	var entries []helpEntry
	for _, b := range keys {
		if b.group != g {
			continue
		}
		var lines []string
		label := b.label()
		if width(label) >= helpColumn {
			lines = append(lines, a.theme.key.on(cut("  "+label, w)))
			label = ""
		}
		rows := hanging(blanks(helpColumn+2), b.help, w)
		rows[0] = "  " + a.theme.key.on(fit(label, helpColumn)) + rows[0][helpColumn+2:]
		entries = append(entries, helpEntry{b.keys, append(lines, rows...)})
	}
	return entries
}

func helpLetters(w int) []helpEntry {
	entries := []helpEntry{{lines: hanging("", lettersInGeneral, w)}}
	for _, axis := range axisHelp {
		lines := append([]string{""}, hanging("", axis.name+": "+axis.sees, w)...)
		for _, l := range axis.letters {
			lines = append(lines, hanging("  "+l.letter.String()+"  ", l.words, w)...)
		}
		entries = append(entries, helpEntry{lines: lines})
	}
	return entries
}

func helpFacts(facts []string, w int) []helpEntry {
	var entries []helpEntry
	for _, fact := range facts {
		entries = append(entries, helpEntry{lines: hanging("- ", fact, w)})
	}
	return entries
}

// hanging gives words after a head, wrapped to w cells, with the lines after the first as far in as the head is wide.
func hanging(head, words string, w int) []string {
	in := width(head)
	lines := strings.Split(ansi.Wordwrap(words, max(w-in, 10), ""), "\n")
	for i := range lines {
		if i == 0 {
			lines[i] = head + lines[i]
			continue
		}
		lines[i] = blanks(in) + lines[i]
	}
	return lines
}
