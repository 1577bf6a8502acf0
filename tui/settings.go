package tui

import (
	"errors"
	"fmt"
	"io"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
)

// settingsScreen is where the coach sets how the program looks and what a new evening begins with. What is set takes effect
// at once and is kept in the settings file.
type settingsScreen struct {
	bindings table
	// values are those in force, by their keys in the file.
	values map[string]string
	// done are the changes that can be taken back, undone those taken back.
	done, undone []settingChange
	// file is where the last one was kept, wrong why it was not.
	file, wrong string
}

// settingChange is a setting made another.
type settingChange struct{ key, was, is string }

// settingChoice is one of the values that a setting takes, with what it means.
type settingChoice struct{ value, means string }

// settingRow is a setting of the screen.
type settingRow struct {
	// letter goes to its next choice, key names it in the file, name on the screen.
	letter, key, name string
	// choices begin with the one that holds where nothing is set.
	choices []settingChoice
}

// settingRows are the settings in the order of the screen.
var settingRows = []settingRow{
	{"t", "theme", "theme", []settingChoice{
		{"auto", "for the background that the terminal tells, else dark"},
		{"light", "for a light background"},
		{"dark", "for a dark background"},
		{"none", "no colours; no meaning hangs on one"},
	}},
	{"d", "density", "density", []settingChoice{
		{"roomy", "the board's rows as high as the window allows"},
		{"tight", "one line a student on the board"},
	}},
	{"a", "ascii", "ASCII only", []settingChoice{
		{"auto", "where the terminal or the locale is known to have no others"},
		{"no", "dots, blocks and lines, which nearly every terminal shows"},
		{"yes", "only characters of ASCII, for a terminal that shows no others"},
	}},
	{"m", "mouse", "mouse", []settingChoice{
		{"yes", "clicks and the wheel act here; shift selects text"},
		{"no", "the mouse is left to the terminal, to select text"},
	}},
	{"r", "rotate", "rotation", []settingChoice{
		{"yes", "in a new evening the next student is put up after a frame"},
		{"no", "in a new evening the coach puts up who is next"},
	}},
}

func newSettings(values map[string]string) *settingsScreen {
	s := &settingsScreen{bindings: settingsTable(), values: map[string]string{}}
	for _, r := range settingRows {
		s.values[r.key] = r.choices[0].value
		if value, ok := values[r.key]; ok {
			s.values[r.key] = value
		}
	}
	return s
}

func (s *settingsScreen) title() string      { return "Settings" }
func (s *settingsScreen) about() string      { return "colours, rows, mouse, new evenings" }
func (s *settingsScreen) letter() string     { return "M" }
func (s *settingsScreen) table() table       { return s.bindings }
func (s *settingsScreen) moment(*App) moment { return momentSettings }

// settingsTable gives the keys: one a setting, and those that take back.
func settingsTable() table {
	var t table
	for _, r := range settingRows {
		t = append(t, binding{
			keys: []string{r.letter}, group: groupSettings, help: r.help(), hints: map[moment]string{momentSettings: r.name},
			act: func(a *App, _ string) { a.settings.turn(a, r) },
		})
	}
	return append(t,
		binding{
			keys: []string{"backspace", "ctrl+h"}, shown: "backspace", group: groupSettings,
			help: "take back the last setting that was made another, again and again", hints: map[moment]string{momentSettings: "undo"},
			act: func(a *App, _ string) { a.settings.undo(a) },
		},
		binding{
			keys: []string{"U"}, group: groupSettings, help: "do again what was taken back",
			act: func(a *App, _ string) { a.settings.redo(a) },
		},
		binding{
			keys: []string{"esc"}, group: groupSettings, help: "back to the board", hints: map[moment]string{momentSettings: "board"},
			act: func(a *App, _ string) { a.show(a.board) },
		})
}

// help lists the choices.
func (r settingRow) help() string {
	words := r.name + ": "
	for i, c := range r.choices {
		if i > 0 {
			words += ", "
		}
		words += c.value
	}
	return words + "; the next of them at each press, at once and for good"
}

// at gives the place of a setting's value among its choices.
func (s *settingsScreen) at(r settingRow) int {
	for i, c := range r.choices {
		if c.value == s.values[r.key] {
			return i
		}
	}
	return 0
}

// turn goes to a setting's next choice.
func (s *settingsScreen) turn(a *App, r settingRow) {
	next := r.choices[(s.at(r)+1)%len(r.choices)].value
	c := settingChange{r.key, s.values[r.key], next}
	s.done, s.undone = append(s.done, c), nil
	s.set(a, r.key, next)
	a.say(fmt.Sprintf("%s: %s, was %s", r.name, next, c.was))
}

func (s *settingsScreen) undo(a *App) {
	n := len(s.done)
	if n == 0 {
		a.refuse(errors.New("nothing to take back: no setting was made another since the start"))
		return
	}
	c := s.done[n-1]
	s.done, s.undone = s.done[:n-1], append(s.undone, c)
	s.set(a, c.key, c.was)
	a.say(fmt.Sprintf("taken back: %s is %s again", nameOfSetting(c.key), c.was))
}

func (s *settingsScreen) redo(a *App) {
	n := len(s.undone)
	if n == 0 {
		a.refuse(errors.New("nothing to do again"))
		return
	}
	c := s.undone[n-1]
	s.undone, s.done = s.undone[:n-1], append(s.done, c)
	s.set(a, c.key, c.is)
	a.say(fmt.Sprintf("done again: %s is %s", nameOfSetting(c.key), c.is))
}

func nameOfSetting(key string) string {
	for _, r := range settingRows {
		if r.key == key {
			return r.name
		}
	}
	return key
}

// set makes a setting hold, and has it kept.
func (s *settingsScreen) set(a *App, key, value string) {
	s.values[key] = value
	a.conf.Overruled = ""
	switch key {
	case "theme":
		a.conf.NoColour = value == "none"
		a.conf.Dark = value == "dark" || value == "auto" && a.conf.AutoDark
	case "density":
		a.conf.Tight = value == "tight"
	case "ascii":
		a.conf.ASCII = value == "yes" || value == "auto" && a.conf.AutoASCII
	case "mouse":
		a.setMouse(value == "yes")
	case "rotate":
		a.conf.Beginning.ByHand = value == "no"
	}
	a.theme = themeOf(a.conf)
	if a.conf.KeepSetting == nil {
		s.wrong = noSettingsFile
		return
	}
	keep, file := a.conf.KeepSetting, ""
	a.sendErrand(errand{
		run: func() (err error) { file, err = keep(key, value); return err },
		done: func(a *App, err error) {
			if s.file, s.wrong = file, ""; err != nil {
				s.wrong = notKeptSetting + err.Error()
			}
		},
	})
}

func (a *App) setMouse(on bool) {
	if a.conf.Mouse = on; on {
		a.do(tea.EnableMouseCellMotion)
		return
	}
	a.do(tea.DisableMouse)
}

// themeOf makes the theme that a configuration asks for.
func themeOf(c Config) *theme {
	r := c.Renderer
	if c.NoColour {
		r = lipgloss.NewRenderer(io.Discard)
		r.SetColorProfile(termenv.Ascii)
	}
	return newTheme(r, c.Dark, c.ASCII)
}
