package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"coach.settee/store"
)

// backupCommand is `settee backup`: a copy of the store in another place.
func backupCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "backup FILE",
		Short: "Copy the store to another place",
		Long: `Copy the store to FILE, or into the folder that is named instead, under a name
that tells the time. A file that is there is never replaced. The copy gets its
name when all of it is written and was read back, and can be read by its owner
only.

While the board is open its newest automatic copy is copied, and its time told.
The board makes one when an evening is closed and once an hour, and keeps ten.`,
		Example: `  settee backup /media/stick
  settee backup lessons-in-may.db`,
		Args: oneBackup,
		RunE: runBackup,
	}
}

func oneBackup(_ *cobra.Command, args []string) error {
	if len(args) != 1 {
		return fmt.Errorf("%d files are named: backup writes one", len(args))
	}
	return nil
}

func runBackup(cmd *cobra.Command, args []string) error {
	path, err := storePath(cmd)
	if err != nil {
		return err
	}
	// Half a copy is not left behind by a signal: what was begun is ended first.
	_, stop := untilSignal(cmd.Context())
	defer stop()
	target := copyName(args[0], path, time.Now())
	s, err := store.Open(path, store.Options{MustExist: true})
	if errors.Is(err, store.ErrInUse) {
		return backupOfOpen(cmd, path, target)
	}
	if err != nil {
		return err
	}
	if err := errors.Join(s.BackupTo(target), s.Close()); err != nil {
		return err
	}
	_, err = fmt.Fprintf(cmd.OutOrStdout(), "copied: %s holds all that is kept\n", target)
	return err
}

// backupOfOpen copies the newest automatic copy of a store that is open elsewhere.
func backupOfOpen(cmd *cobra.Command, path, target string) error {
	b, err := store.CopyBackup(path, target)
	if errors.Is(err, store.ErrNoBackup) {
		return fmt.Errorf("another Settee has this store open, and %w: close it there first, or wait for the copy that it "+
			"makes when an evening is closed and once an hour", err)
	}
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(cmd.OutOrStdout(), "copied: another Settee has this store open, so that %s is its automatic copy of %s; "+
		"what was kept since is not in it\n", target, localTime(b.Time))
	return err
}

// copyName gives the file that a copy goes to: what is named, or in a folder that is named one that tells the time.
func copyName(target, path string, now time.Time) string {
	if info, err := os.Stat(target); err != nil || !info.IsDir() {
		return target
	}
	return filepath.Join(target, store.BackupName(path, now))
}

// localTime writes a moment as the clock on the wall tells it.
func localTime(at time.Time) string { return at.Local().Format("2 Jan 2006 15:04") }
