package tui

import "strings"

// menuKeys closes the menu; its letters are those of the screens, which are asked for after it.
var menuKeys = table{
	{
		keys: []string{"esc"}, group: groupAnywhere, help: "back to the board",
		hints: map[moment]string{momentMenu: "board"},
		act:   func(a *App, _ string) { a.over = nothingOver },
	},
}

// menuRow is a line of the menu that a key goes to.
type menuRow struct{ key, title, about string }

func (a *App) menuRows() []menuRow {
	var rows []menuRow
	for _, s := range a.screens {
		key := s.letter()
		if key == "" {
			key = "esc"
		}
		rows = append(rows, menuRow{key, s.title(), s.about()})
	}
	return append(rows, menuRow{"?", "Help", "every key; / in it finds one by words"},
		menuRow{"q", "Leave", a.onLeaving("the evening stays open for next time")})
}

// menuTop gives the lines above the rows of a menu of h lines.
func (a *App) menuTop(h int) int {
	const airy = 3
	if len(a.menuRows())+airy+2 > h {
		return 1
	}
	return airy
}

// drawMenu lists the screens by their letters.
func (a *App) drawMenu(w, h int) string {
	title := a.theme.title.on("  Menu")
	lines := []string{title}
	if a.menuTop(h) > 1 {
		lines = []string{"", title, ""}
	}
	for _, r := range a.menuRows() {
		lines = append(lines, "  "+a.theme.key.on(fit(r.key, 6))+fit(r.title, 12)+a.theme.quiet.on(cut(r.about, max(w-20, 0))))
	}
	lines = append(lines, "", a.theme.quiet.on(cut("  A key of the board closes the menu and acts.", w)))
	return strings.Join(lines, "\n")
}

// menuRowAt gives the row of the menu that a line of h lies in, counted from 0.
func (a *App) menuRowAt(line, h int) (menuRow, bool) {
	rows, i := a.menuRows(), line-a.menuTop(h)
	if i < 0 || i >= len(rows) || line >= h {
		return menuRow{}, false
	}
	return rows[i], true
}
