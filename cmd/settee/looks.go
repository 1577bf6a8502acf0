package main

import (
	"cmp"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"coach.settee/tui"
	"coach.settee/tui/probe"
)

// looks are how the board is drawn, and whether it takes clicks.
type looks struct{ dark, ascii, tight, mouse, noColour bool }

// addBoardFlags adds what says how the board looks. --light and --dark are read by package probe as well, before
// anything is drawn.
func addBoardFlags(cmd *cobra.Command) {
	cmd.Flags().Bool("light", false, "draw for a light background")
	cmd.Flags().Bool("dark", false, "draw for a dark background")
	cmd.Flags().Bool("ascii", false, "draw with ASCII characters only, as by itself where TERM is linux or the locale is\nnot UTF-8; --ascii=false draws all characters there too")
	cmd.Flags().Bool("no-mouse", false, "leave the mouse to the terminal")
}

// looksOf gives the looks that a command's flags, the environment and the settings ask for, in that order.
func looksOf(cmd *cobra.Command, set config) (looks, error) {
	l := looks{dark: probe.Dark(), ascii: set.ascii == "yes", tight: set.density == "tight", mouse: set.mouse}
	if probe.Chosen() == "" && set.theme != "auto" {
		l.dark, l.noColour = set.theme == "dark", set.theme == "none"
	}
	if set.ascii == "auto" {
		l.ascii = hasOnlyASCII(os.Getenv)
	}
	if cmd.Flags().Changed("ascii") {
		ascii, err := cmd.Flags().GetBool("ascii")
		if err != nil {
			return l, err
		}
		l.ascii = ascii
	}
	if cmd.Flags().Changed("no-mouse") {
		noMouse, err := cmd.Flags().GetBool("no-mouse")
		if err != nil {
			return l, err
		}
		l.mouse = !noMouse
	}
	return l, nil
}

// hasOnlyASCII tells whether the terminal is known to lack other characters, or the locale has another encoding than
// UTF-8. Of the variables the first that is not empty says the locale, as POSIX has it (Base Definitions, 8.2); where
// none does, UTF-8 is taken for granted. The console of Linux has 512 glyphs at most (setfont(8), from memory).
func hasOnlyASCII(env func(string) string) bool {
	locale := strings.ToUpper(cmp.Or(env("LC_ALL"), env("LC_CTYPE"), env("LANG")))
	return strings.HasPrefix(env("TERM"), "linux") || locale != "" && !strings.Contains(strings.ReplaceAll(locale, "-", ""), "UTF8")
}

// beginning gives what the settings say of a new evening.
func (c config) beginning() tui.Beginning {
	return tui.Beginning{Place: c.place, ArrowsFt: c.arrowsFt, ByHand: !c.rotate, Block: c.block}
}

// values gives the settings that the board changes, by their keys.
func (c config) values() map[string]string {
	values := map[string]string{}
	for _, s := range settings {
		values[s.key] = s.value(c)
	}
	return values
}

// overruled says what flags and the environment make otherwise than the settings have it, "" for nothing.
func (l looks) overruled(set config) string {
	var other []string
	if chosen := probe.Chosen(); chosen != "" && chosen != set.theme {
		other = append(other, "drawn for "+chosen)
	}
	if l.ascii != (set.ascii == "yes" || set.ascii == "auto" && hasOnlyASCII(os.Getenv)) {
		other = append(other, "ascii "+map[bool]string{true: "yes", false: "no"}[l.ascii])
	}
	if l.mouse != set.mouse {
		other = append(other, "mouse "+map[bool]string{true: "yes", false: "no"}[l.mouse])
	}
	if len(other) == 0 {
		return ""
	}
	return "this start, by a flag or " + probe.Environment + ", until something is chosen here: " + strings.Join(other, ", ")
}
