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
The board makes one when an evening is closed and when the newest is an hour
old, and keeps ten.`,
		Example: `  settee backup /media/stick
  settee backup lessons-in-may.db`,
		Args: oneBackup,
		RunE: runBackup,
	}
}

func oneBackup(_ *cobra.Command, args []string) error {
	switch {
	case len(args) != 1:
		return fmt.Errorf("%d files are named: backup writes one", len(args))
	case args[0] == "-":
		return errors.New("a copy is not written to standard output: name a file or a folder, or ./- for a file of that name")
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
	target, err := copyName(args[0], path, time.Now())
	if err != nil {
		return err
	}
	p := newProgress(cmd, "copied")
	defer p.watch()()
	s, err := store.OpenToRead(path)
	if errors.Is(err, store.ErrInUse) {
		return backupOfOpen(cmd, path, target, p.told)
	}
	if err != nil {
		return err
	}
	if err := errors.Join(s.BackupTo(target, p.told), s.Close()); err != nil {
		return err
	}
	_, err = fmt.Fprintf(cmd.OutOrStdout(), "copied: %s holds all that is kept\n", target)
	return err
}

// backupOfOpen copies the newest automatic copy of a store that is open elsewhere.
func backupOfOpen(cmd *cobra.Command, path, target string, told store.Told) error {
	b, err := store.CopyBackup(path, target, told)
	if errors.Is(err, store.ErrNoBackup) {
		return fmt.Errorf("another Settee has this store open, and %w: close it there first, or wait for the copy that it "+
			"makes when an evening is closed and when the newest is an hour old", err)
	}
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(cmd.OutOrStdout(), "copied: another Settee has this store open, so that %s is its automatic copy of %s; "+
		"what was kept since is not in it\n", target, localTime(b.Time))
	return err
}

// copyName gives the file that a copy goes to: what is named, or in a folder that is named one that tells the time. A name
// that ends as a folder's does and is none is refused: the stick is not in, and a file would be where it is looked for.
func copyName(target, path string, now time.Time) (string, error) {
	switch {
	case isFolder(target):
		return filepath.Join(target, store.BackupName(path, now)), nil
	case target != "" && os.IsPathSeparator(target[len(target)-1]):
		return "", fmt.Errorf("there is no folder %s, so that nothing was copied: is the stick in? Make the folder first, or name "+
			"a file", target)
	}
	return target, nil
}

// localTime writes a moment as the clock on the wall tells it.
func localTime(at time.Time) string { return at.Local().Format("2 Jan 2006 15:04") }
