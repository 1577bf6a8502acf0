package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"coach.settee/model"
	"coach.settee/store"
)

// exportCommand is `settee export`: everything that is kept, as lines that import reads back or as a table.
func exportCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "export [--csv] [--anonymous] [FILE]",
		Short: "Write everything that is kept as text",
		Long: `Write everything that is kept, as JSON Lines that settee import reads back, or
with --csv as a table of the deliveries for a spreadsheet.

Without a FILE, or with -, it goes to the standard output. A FILE is replaced
only when all of it is written, and can be read by its owner only.

With --anonymous, names, ids, places, cues and balls are replaced by stand-ins
such as "Student 3", notes and other texts are left out, and the calendar is
moved so that the first evening is on 2000-01-03: the days between evenings and
the hours of an evening stay, and so do averages and all that was bowled. The
same store gives the same file, which settee import reads into an empty store.`,
		Example: `  settee export evening.jsonl
  settee export --csv deliveries.csv
  settee export --anonymous for-a-colleague.jsonl`,
		Args: oneAtMost,
		RunE: runExport,
	}
	cmd.Flags().Bool("csv", false, "write a table of the deliveries, one a row")
	cmd.Flags().Bool("anonymous", false, "replace what tells who, where and when by stand-ins")
	return cmd
}

func oneAtMost(_ *cobra.Command, args []string) error {
	if len(args) > 1 {
		return fmt.Errorf("%d files are named: export writes one", len(args))
	}
	return nil
}

func runExport(cmd *cobra.Command, args []string) error {
	asTable, err := cmd.Flags().GetBool("csv")
	if err != nil {
		return err
	}
	anonymous, err := cmd.Flags().GetBool("anonymous")
	if err != nil {
		return err
	}
	s, err := openStore(cmd)
	if err != nil {
		return err
	}
	ctx, stop := untilSignal(cmd.Context())
	defer stop()
	cmd.SetContext(ctx)
	err = exportTo(cmd, args, s.Path(), writerOf(s, asTable, anonymous))
	if err == nil && !anonymous {
		err = warnOfMinors(cmd, s)
	}
	return errors.Join(err, s.Close())
}

// writerOf gives what writes a store in one of the forms.
func writerOf(s *store.Store, asTable, anonymous bool) func(io.Writer) error {
	switch {
	case asTable && anonymous:
		return s.ExportCSVAnonymous
	case asTable:
		return s.ExportCSV
	case anonymous:
		return s.ExportAnonymous
	}
	return s.Export
}

// warnOfMinors says what goes with the data of a minor that was exported.
func warnOfMinors(cmd *cobra.Command, s *store.Store) error {
	students, err := s.Students()
	if err != nil || !slices.ContainsFunc(students, func(s model.Student) bool { return s.Minor }) {
		return err
	}
	_, err = fmt.Fprintln(cmd.ErrOrStderr(), "This export holds a minor's data: "+model.ConsentFirst+
		". --anonymous leaves out who it is.")
	return err
}

// exportTo lets write write to the file that is named, or to the standard output.
func exportTo(cmd *cobra.Command, args []string, storeFile string, write func(io.Writer) error) error {
	if len(args) == 0 || args[0] == "-" {
		if err := write(watchWriter(cmd, cmd.OutOrStdout())); err != nil {
			return fmt.Errorf("cannot export: %w", err)
		}
		return nil
	}
	file := args[0]
	same, err := sameFile(file, storeFile)
	switch {
	case err != nil:
		return fmt.Errorf("cannot export: %w", inFileWords(file, false, err))
	case same:
		return fmt.Errorf("%s is the store itself: name another file for the export", file)
	}
	err = replaceFile(file, func(w io.Writer) error { return write(watchWriter(cmd, w)) })
	if err != nil {
		return fmt.Errorf("cannot export, and nothing was replaced: %w", inFileWords(file, false, err))
	}
	return nil
}

// sameFile tells whether two paths lead to one file; a file that is not there is none.
func sameFile(a, b string) (bool, error) {
	there, err := os.Stat(a)
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	other, err := os.Stat(b)
	return err == nil && os.SameFile(there, other), err
}

// replaceFile writes a file beside the one at path and, when all of it is on the disk, puts it in its place. What is no
// regular file, a pipe or a device, is written to as it is.
func replaceFile(path string, write func(io.Writer) error) error {
	there, err := os.Stat(path)
	switch {
	case err != nil && leadsNowhere(path):
		return err
	case err == nil:
		if !there.Mode().IsRegular() {
			return writeInto(path, write)
		}
		if path, err = filepath.EvalSymlinks(path); err != nil {
			return err
		}
	}
	f, err := os.CreateTemp(filepath.Dir(path), ".settee-*")
	if err != nil {
		return err
	}
	err = write(f)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		return errors.Join(err, os.Remove(f.Name()))
	}
	return nil
}

func writeInto(path string, write func(io.Writer) error) error {
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	return errors.Join(write(f), f.Close())
}
