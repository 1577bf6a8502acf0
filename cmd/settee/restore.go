package main

import (
	"errors"
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

Without a FILE the automatic copies are listed, newest first, and it is said
which are not whole.`,
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
		return listBackups(cmd.OutOrStdout(), path, time.Now())
	}
	// A signal ends nothing half way.
	_, stop := untilSignal(cmd.Context())
	defer stop()
	p := newProgress(cmd, "copied")
	defer p.watch()()
	keepPrivate(cmd, path)
	done, err := store.Restore(path, args[0], time.Now(), p.told)
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

// listBackups writes a line for each automatic copy, newest first, with what is wrong with it.
func listBackups(out io.Writer, path string, now time.Time) error {
	made, err := store.Backups(path)
	if err != nil {
		return err
	}
	if len(made) == 0 {
		_, err := fmt.Fprintf(out, "there are no automatic copies of %s yet: the board makes one when an evening is closed, "+
			"when the newest is an hour old, and when it is left without one\n", path)
		return err
	}
	for _, b := range made {
		_, err := fmt.Fprintf(out, "%-17s  %8s  %s%s\n", localTime(b.Time), megabytes(b.Size), b.Path, copyMark(b, now))
		if err != nil {
			return err
		}
	}
	return nil
}

// copyMark says what is wrong with an automatic copy, "" where nothing is.
func copyMark(b store.Backup, now time.Time) string {
	switch err := store.Check(b.Path); {
	case errors.Is(err, store.ErrDamaged), errors.Is(err, store.ErrNotOurs):
		return "  (not whole)"
	case errors.Is(err, store.ErrNewer):
		return "  (by a newer Settee)"
	case b.Time.After(now):
		return "  (dated later than now: by a clock that was wrong)"
	}
	return ""
}

func megabytes(n int64) string { return fmt.Sprintf("%.1f MB", float64(n)/1e6) }
