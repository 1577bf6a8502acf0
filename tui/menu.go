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

// drawMenu lists the screens by their letters.
func (a *App) drawMenu(w int) string {
	lines := []string{"", a.theme.title.on("  Menu"), ""}
	row := func(key, title, about string) {
		lines = append(lines, "  "+a.theme.key.on(fit(key, 6))+fit(title, 12)+a.theme.quiet.on(cut(about, max(w-20, 0))))
	}
	for _, s := range a.screens {
		key := s.letter()
		if key == "" {
			key = "esc"
		}
		row(key, s.title(), s.about())
	}
	row("?", "Help", "every key, and what the letters mean")
	row("q", "Leave", "the evening stays open for next time")
	lines = append(lines, "", a.theme.quiet.on(cut("  A key of the board closes the menu and acts.", w)))
	return strings.Join(lines, "\n")
}
