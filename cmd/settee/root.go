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
	addGroup(root, "lanes", "At the lanes:", demoCommand(), handoutCommand(), lineCommand(), scoreCommand(), statsCommand())
	addGroup(root, "store", "What is kept:", backupCommand(), checkCommand(), eraseCommand(), exportCommand(),
		importCommand(), restoreCommand())
	addGroup(root, "program", "The program:", completionCommand(), configCommand(), manCommand(), versionCommand())
	root.SetHelpCommand(helpCommand())
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error { return usageError{cmd, inWords(err)} })
	root.CompletionOptions.DisableDefaultCmd = true
	completeArguments(root)
	checkArguments(root)
	return root
}

// addGroup adds commands that the help lists under a title.
func addGroup(root *cobra.Command, id, title string, commands ...*cobra.Command) {
	root.AddGroup(&cobra.Group{ID: id, Title: title})
	for _, cmd := range commands {
		cmd.GroupID = id
	}
	root.AddCommand(commands...)
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
	return store.OpenToRead(path)
}
