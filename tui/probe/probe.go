// Package probe settles whether the terminal's background is dark before anything asks the terminal.
//
// Merely linking bubbletea v1 makes its package initialisation ask for the background colour, for `settee score` too,
// and a terminal that does not answer holds the program for five seconds. A background that is already settled is not
// asked for. Packages that are ready to be initialised are taken in the order of their import paths, and this path
// sorts before github.com/charmbracelet/bubbletea: that is what the module path coach.settee is for.
//
// It must import lipgloss and nothing else that draws, and must be linked into every program that links bubbletea.
package probe

import (
	"os"
	"strconv"
	"strings"

	"github.com/charmbracelet/lipgloss"
)

// Environment is the environment variable that says light or dark.
const Environment = "SETTEE_BACKGROUND"

var (
	chosen = choose(os.Args[1:], os.Getenv)
	dark   = decide(chosen, os.Getenv)
)

func init() {
	lipgloss.SetHasDarkBackground(dark)
}

// Dark says whether the background is dark: by the flag --light or --dark, else the environment variable
// SETTEE_BACKGROUND (light or dark), else COLORFGBG, else yes.
func Dark() bool {
	return dark
}

// Chosen gives what the coach has said of the background, by flag or by SETTEE_BACKGROUND: "light" or "dark", and ""
// where Dark is what the terminal says of itself.
func Chosen() string {
	return chosen
}

// choose takes the last of the two flags, as a command line usually reads; what comes after "--" is no flag.
func choose(args []string, env func(string) string) string {
	choice := env(Environment)
	for _, arg := range args {
		if arg == "--" {
			break
		}
		if arg == "--light" || arg == "--dark" {
			choice = strings.TrimPrefix(arg, "--")
		}
	}
	if choice != "light" && choice != "dark" {
		return ""
	}
	return choice
}

func decide(chosen string, env func(string) string) bool {
	if chosen != "" {
		return chosen == "dark"
	}
	return darkColour(env("COLORFGBG"))
}

// darkColour reads the last field of COLORFGBG ("15;0", or "15;default;0"), the number of the background among the
// sixteen colours: 0 to 6 and 8 are dark, as Vim reads it (":help 'background'"). Anything else is taken for dark.
func darkColour(fgbg string) bool {
	background, err := strconv.Atoi(fgbg[strings.LastIndex(fgbg, ";")+1:])
	return err != nil || background < 7 || background == 8 || background > 15
}
