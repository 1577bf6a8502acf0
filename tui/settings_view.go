package tui

import (
	"strings"

	"github.com/muesli/termenv"
)

// settingColumn is the cells of a setting's key and name.
const settingColumn = 18

// What is said where a setting is not kept; the second goes on with why.
const (
	noSettingsFile = "not kept: there is no place here for a settings file"
	notKeptSetting = "not kept, holds until you leave: "
)

// draw lists the settings: the choices with the one that holds in brackets, under it what it means, at the foot where it is
// kept or why it is not.
func (s *settingsScreen) draw(a *App, w, h int) string {
	t := a.theme
	airy := h >= 3*len(settingRows)+len(s.feet(a, w))
	var lines []string
	for _, r := range settingRows {
		if airy {
			lines = append(lines, "")
		}
		head := newLine(w)
		head.add(t.key, "  "+r.letter)
		head.add(ink{}, "  ")
		head.put(t.strong, r.name, settingColumn-5)
		chosen := s.at(r)
		for i, c := range r.choices {
			if i == chosen {
				head.add(t.accent, "["+c.value+"]")
			} else {
				head.add(t.quiet, " "+c.value+" ")
			}
			head.add(ink{}, " ")
		}
		lines = append(lines, head.String(), t.quiet.on(cut(blanks(settingColumn)+s.means(a, r, chosen), w)))
	}
	foot := s.feet(a, w)
	room := max(h-len(foot), 0)
	lines = lines[:min(len(lines), room)]
	if airy {
		foot = append([]string{""}, foot...)
	}
	return strings.Join(append(lines, foot...), "\n")
}

// means says what a choice means here.
func (s *settingsScreen) means(a *App, r settingRow, at int) string {
	words := r.choices[at].means
	if r.key == "theme" && at > 0 && a.conf.Renderer.ColorProfile() == termenv.Ascii {
		return "this terminal has no colours, or NO_COLOR is set: nothing changes"
	}
	return words
}

// feet says what overrules the settings, and where they are kept or why they are not.
func (s *settingsScreen) feet(a *App, w int) []string {
	var lines []string
	say := func(i ink, words string) {
		for _, l := range strings.Split(wrapped(clean(words), w-2), "\n") {
			lines = append(lines, "  "+i.on(l))
		}
	}
	if a.conf.Overruled != "" {
		say(a.theme.quiet, a.conf.Overruled)
	}
	switch {
	case s.wrong != "":
		say(a.theme.alert, s.wrong)
	case len(a.errands) > 0:
		say(a.theme.quiet, "being kept…")
	case s.file != "":
		say(a.theme.quiet, "kept in "+s.file)
	case a.conf.KeepSetting == nil:
		say(a.theme.alert, noSettingsFile)
	case a.conf.SettingsFault != "":
		say(a.theme.alert, notKeptSetting+a.conf.SettingsFault)
	default:
		say(a.theme.quiet, "what is chosen is kept in the settings file; settee config tells where that is")
	}
	return lines
}
