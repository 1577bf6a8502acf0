package main

import (
	"github.com/spf13/cobra"

	"coach.settee/tui"
	"coach.settee/tui/probe"
)

// looks are how the board is drawn, and whether it takes clicks.
type looks struct{ dark, ascii, tight, mouse bool }

// addBoardFlags adds what says how the board looks. --light and --dark are read by package probe as well, before
// anything is drawn.
func addBoardFlags(cmd *cobra.Command) {
	cmd.Flags().Bool("light", false, "draw for a light background")
	cmd.Flags().Bool("dark", false, "draw for a dark background")
	cmd.Flags().Bool("ascii", false, "draw with ASCII characters only")
	cmd.Flags().Bool("no-mouse", false, "leave the mouse to the terminal")
}

// looksOf gives the looks that a command's flags, the environment and the settings ask for, in that order.
func looksOf(cmd *cobra.Command, set config) (looks, error) {
	l := looks{dark: probe.Dark(), ascii: set.ascii, tight: set.density == "tight", mouse: set.mouse}
	if probe.Chosen() == "" && set.theme != "auto" {
		l.dark = set.theme == "dark"
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

// beginning gives what the settings say of a new evening.
func (c config) beginning() tui.Beginning {
	return tui.Beginning{Place: c.place, ArrowsFt: c.arrowsFt, ByHand: !c.rotate, Block: c.block}
}
