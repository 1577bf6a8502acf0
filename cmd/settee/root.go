package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"coach.settee/store"
)

// newRoot gives the whole program: the board, and the other commands below it.
func newRoot() *cobra.Command {
	root := &cobra.Command{
		Use:   "settee",
		Short: "Grade several bowling students' deliveries with single keys",
		Long: `Settee opens the board: put students on pairs of lanes and grade their deliveries
with single keys. Everything is kept as it is called; ? on the board lists the
keys, q leaves.`,
		Example: `  settee demo
  settee --store lessons.db
  settee stats 'Ada Marsh'
  settee export > lessons.jsonl`,
		Args:          noSuchCommand,
		RunE:          runBoard,
		SilenceUsage:  true,
		SilenceErrors: true,

		SuggestionsMinimumDistance: 2,
	}
	root.PersistentFlags().String("store", "",
		"keep everything in `FILE` (else in that of SETTEE_STORE, else in the user's data directory)")
	addBoardFlags(root)
	root.AddCommand(backupCommand(), demoCommand(), exportCommand(), handoutCommand(), importCommand(), lineCommand(),
		restoreCommand(), scoreCommand(), statsCommand(), versionCommand())
	root.SetHelpCommand(helpCommand())
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error { return usageError{cmd, inWords(err)} })
	root.InitDefaultCompletionCmd()
	checkArguments(root)
	return root
}

// addBoardFlags adds what says how the board looks. --light and --dark are read by package probe as well, before
// anything is drawn.
func addBoardFlags(cmd *cobra.Command) {
	cmd.Flags().Bool("light", false, "draw for a light background")
	cmd.Flags().Bool("dark", false, "draw for a dark background")
	cmd.Flags().Bool("ascii", false, "draw with ASCII characters only")
	cmd.Flags().Bool("no-mouse", false, "leave the mouse to the terminal")
}

// storePath gives the file that everything is kept in: of the flag --store, or else where it usually is.
func storePath(cmd *cobra.Command) (string, error) {
	path, err := cmd.Flags().GetString("store")
	if err != nil {
		return "", err
	}
	switch {
	case path != "":
		return path, nil
	case cmd.Flags().Changed("store"):
		return "", usageError{cmd, fmt.Errorf("--store needs the name of a file")}
	}
	return store.DefaultPath()
}

// openStore opens the store that a command reads; there has to be one.
func openStore(cmd *cobra.Command) (*store.Store, error) {
	path, err := storePath(cmd)
	if err != nil {
		return nil, err
	}
	return store.Open(path, store.Options{MustExist: true})
}
