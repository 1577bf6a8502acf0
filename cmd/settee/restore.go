package main

import (
	"fmt"
	"io"
	"time"

	"github.com/spf13/cobra"

	"coach.settee/store"
)

// restoreCommand is `settee restore`: a copy put in the store's place.
func restoreCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "restore [FILE]",
		Short: "Put a copy of the store in its place, or list the automatic copies",
		Long: `Put a copy of FILE in the place of the store. FILE is read whole first, and
refused where it is damaged. What was in the store's place, damaged or not, is
kept beside it, and its name told. The store must not be open meanwhile.

Without a FILE the automatic copies are listed, newest first.`,
		Example: `  settee restore
  settee restore lessons-in-may.db`,
		Args: oneToRestore,
		RunE: runRestore,
	}
}

func oneToRestore(_ *cobra.Command, args []string) error {
	if len(args) > 1 {
		return fmt.Errorf("%d files are named: restore takes one", len(args))
	}
	return nil
}

func runRestore(cmd *cobra.Command, args []string) error {
	path, err := storePath(cmd)
	if err != nil {
		return err
	}
	if len(args) == 0 {
		return listBackups(cmd.OutOrStdout(), path)
	}
	// A signal ends nothing half way.
	_, stop := untilSignal(cmd.Context())
	defer stop()
	done, err := store.Restore(path, args[0], time.Now())
	if err != nil {
		return err
	}
	words := fmt.Sprintf("restored: %s is what %s holds, %s", path, args[0], deliveries(done.Deliveries))
	if done.Before != "" {
		words += "; what was there before is kept as " + done.Before
	}
	_, err = fmt.Fprintln(cmd.OutOrStdout(), words)
	return err
}

func deliveries(n int) string {
	if n == 1 {
		return "1 delivery"
	}
	return fmt.Sprintf("%d deliveries", n)
}

// listBackups writes a line for each automatic copy, newest first.
func listBackups(out io.Writer, path string) error {
	made, err := store.Backups(path)
	if err != nil {
		return err
	}
	if len(made) == 0 {
		_, err := fmt.Fprintf(out, "there are no automatic copies of %s yet: the board makes one when an evening is closed and "+
			"once an hour\n", path)
		return err
	}
	for _, b := range made {
		if _, err := fmt.Fprintf(out, "%-17s  %8s  %s\n", localTime(b.Time), megabytes(b.Size), b.Path); err != nil {
			return err
		}
	}
	return nil
}

func megabytes(n int64) string { return fmt.Sprintf("%.1f MB", float64(n)/1e6) }
