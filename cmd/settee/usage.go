package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// usageError is an error in what was typed rather than in what was done.
type usageError struct {
	cmd *cobra.Command
	err error
}

func (e usageError) Error() string {
	return fmt.Sprintf("%v (%s --help says how)", e.err, e.cmd.CommandPath())
}

func (e usageError) Unwrap() error { return e.err }

// inWords gives an error of flags without what the reading of a number says.
func inWords(err error) error {
	var wrong *pflag.InvalidValueError
	if errors.As(err, &wrong) {
		return fmt.Errorf("--%s cannot be %q: it is %s", wrong.GetFlag().Name, wrong.GetValue(), kindOf(wrong.GetFlag()))
	}
	return err
}

// kindOf names what a flag takes.
func kindOf(flag *pflag.Flag) string {
	switch flag.Value.Type() {
	case "bool":
		return "given or not"
	case "string":
		return "a text"
	}
	return "a number"
}

// noSuchCommand refuses an argument that names no command, and tells one that is spelled like it.
func noSuchCommand(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	if close := cmd.SuggestionsFor(args[0]); len(close) > 0 {
		return fmt.Errorf("no command %q: is it %s?", args[0], strings.Join(close, " or "))
	}
	return fmt.Errorf("no command %q", args[0])
}

// checkArguments makes wrong arguments of a command and of all below it wrong usage.
func checkArguments(cmd *cobra.Command) {
	if check := cmd.Args; check != nil {
		cmd.Args = func(cmd *cobra.Command, args []string) error {
			if err := check(cmd, args); err != nil {
				return usageError{cmd, err}
			}
			return nil
		}
	}
	for _, below := range cmd.Commands() {
		checkArguments(below)
	}
}

// helpCommand is `settee help COMMAND`, which refuses a command that is not there.
func helpCommand() *cobra.Command {
	return &cobra.Command{
		Use: "help [COMMAND]", GroupID: "program",
		Short: "Help about any command",
		RunE: func(cmd *cobra.Command, args []string) error {
			about, rest, err := cmd.Root().Find(args)
			if err != nil || len(rest) > 0 {
				return usageError{cmd.Root(), fmt.Errorf("no command %q to help with", strings.Join(args, " "))}
			}
			about.InitDefaultHelpFlag()
			return about.Help()
		},
	}
}
