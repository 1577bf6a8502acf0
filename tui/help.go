package tui

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// helpKeys turn the help's pages and close it; every key that it lists acts from it.
var helpKeys = table{
	{
		keys: []string{"?", "esc"}, group: groupAnywhere, help: "close the help",
		hints: map[moment]string{momentHelp: "close"},
		act:   func(a *App, _ string) { a.over = nothingOver },
	},
	{
		keys: []string{"up", "down", "pgup", "pgdown", "home", "end"}, shown: "arrows pgup pgdn",
		group: groupAnywhere, help: "turn the help's pages",
		hints: map[moment]string{momentHelp: "scroll"},
		act:   func(a *App, key string) { a.turnHelp(key) },
	},
}

func (a *App) turnHelp(key string) {
	page := a.bodyHeight() - 1
	switch key {
	case "up":
		a.helpTop--
	case "down":
		a.helpTop++
	case "pgup":
		a.helpTop -= page
	case "pgdown":
		a.helpTop += page
	case "home":
		a.helpTop = 0
	case "end":
		a.helpTop = len(a.helpLines(a.w))
	}
	a.helpTop = min(max(a.helpTop, 0), max(len(a.helpLines(a.w))-page, 0))
}

// drawHelp draws the part of the help that is turned to, and where that is.
func (a *App) drawHelp(w, h int) string {
	lines := a.helpLines(w)
	page := max(h-1, 0)
	top := min(a.helpTop, max(len(lines)-page, 0))
	shown := lines[top:min(top+page, len(lines))]
	where := a.theme.quiet.on(cut(fmt.Sprintf("lines %d to %d of %d", top+1, top+len(shown), len(lines)), w))
	return strings.Join(append(append([]string(nil), shown...), where), "\n")
}

// helpLines writes down every key that acts on the screen, then what the letters mean, then the cautions.
func (a *App) helpLines(w int) []string {
	keys := append(table(nil), alwaysKeys...)
	keys = append(append(keys, anywhereKeys...), screenKeys(a.screens)...)
	keys = append(append(keys, a.screen.table()...), promptKeys...)
	if a.screen == screen(a.board) || a.screen == screen(a.strip) {
		keys = append(keys, countKeys...)
	}
	var lines []string
	for _, g := range groups {
		section := a.helpGroup(g, keys, w)
		if len(section) > 0 {
			lines = append(append(lines, section...), "")
		}
	}
	lines = append(lines, a.helpLetters(w)...)
	lines = append(lines, "", a.theme.title.on("The first ten minutes"))
	for _, fact := range sizingUp {
		lines = append(lines, hanging("- ", fact, w)...)
	}
	lines = append(lines, "", a.theme.title.on("Cautions"))
	for _, c := range cautions {
		lines = append(lines, hanging("- ", c, w)...)
	}
	return lines
}

// helpColumn is the width of the keys' column.
const helpColumn = 16

func (a *App) helpGroup(g group, keys table, w int) []string {
	var lines []string
	for _, b := range keys {
		if b.group != g {
			continue
		}
		label := b.label()
		if width(label) >= helpColumn {
			lines = append(lines, a.theme.key.on(cut("  "+label, w)))
			label = ""
		}
		rows := hanging(blanks(helpColumn+2), b.help, w)
		rows[0] = "  " + a.theme.key.on(fit(label, helpColumn)) + rows[0][helpColumn+2:]
		lines = append(lines, rows...)
	}
	if len(lines) == 0 {
		return nil
	}
	return append([]string{a.theme.title.on(string(g))}, lines...)
}

func (a *App) helpLetters(w int) []string {
	lines := []string{a.theme.title.on("What the letters mean")}
	lines = append(lines, hanging("", lettersInGeneral, w)...)
	for _, axis := range axisHelp {
		lines = append(lines, "")
		lines = append(lines, hanging("", axis.name+": "+axis.sees, w)...)
		for _, l := range axis.letters {
			lines = append(lines, hanging("  "+l.letter.String()+"  ", l.words, w)...)
		}
	}
	return lines
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
