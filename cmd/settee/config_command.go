package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"coach.settee/tui/probe"
)

// configCommand is `settee config`: where the settings file is, and what holds.
func configCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "config",
		Short: "Tell where the settings file is, and what is set",
		Long: `Tell where the settings file is, and for each key what is set and by what: a line
of the file, the environment, or nothing, so that it is as usual.

The file is yours to write, with any editor. The Settings screen of the board (M)
changes the line of what is chosen there, and nothing else of it. It has one
key = value a line. A line that begins with # is a note. What settee config
prints is such a file too, with everything that is set now.

A flag wins over the environment, and that over the file. A file with anything
wrong in it is not used at all: the board says at its start which line is wrong,
and so does settee config, which then ends with 1.

The keys:

` + settingsHelp(),
		Example: `  settee config`,
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			path := configPath()
			c, wrong := readConfig(path)
			_, err := fmt.Fprint(cmd.OutOrStdout(), configPage(path, c, wrong))
			return errors.Join(wrong, err)
		},
	}
}

// settingsHelp lists the keys with what they take.
func settingsHelp() string {
	var p textPage
	for _, s := range settings {
		p.flow("  ", "%s: %s", s.key, s.what)
	}
	return strings.TrimSuffix(p.String(), "\n")
}

// configPage writes what is set, as a settings file.
func configPage(path string, c config, wrong error) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# %s\n", configHead(path, wrong))
	for _, s := range settings {
		value, from := s.value(c), "as usual"
		if line := c.lines[s.key]; line > 0 {
			from = fmt.Sprintf("line %d", line)
		}
		if chosen := probe.Chosen(); s.key == "theme" && chosen != "" {
			value, from = chosen, probe.Environment
		}
		fmt.Fprintf(&b, "\n# %s\n%s\n", from, strings.TrimSpace(s.key+" = "+value))
	}
	return b.String()
}

// configHead says which file it is, in one note or more.
func configHead(path string, wrong error) string {
	if path == "" {
		return "this account has no place for a settings file"
	}
	if wrong != nil {
		return fmt.Sprintf("%s is not used, because something in it is wrong:\n# %s\n"+
			"# What follows are the defaults, which hold until that is mended, and not what the file says.", path, oneLine(wrong))
	}
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return path + " is not there: everything is as usual"
	}
	return path
}
