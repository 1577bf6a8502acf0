package main

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"time"

	"github.com/spf13/cobra"

	"coach.settee/store"
)

// importCommand is `settee import`: what an export wrote, or a table of new students, taken into the store.
func importCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "import [--json] [--keep-mine | --newer] FILE",
		Short: "Take in what an export wrote, or a table of new students",
		Long: `Take in a file that settee export wrote, or a table of new students as CSV
from a spreadsheet; - is the standard input.

All of the file is taken or nothing. A line that cannot be read, or that says
something else than is kept under its id, is named with the reason. What is kept
already is nothing new, so that a file can be imported twice. The store must not
be open meanwhile.

Two laptops that have the same students are merged by importing the export of
each into the other. Where a student's record or a cue was changed on one of
them, the line is refused, and says what differs: with --keep-mine this store
keeps its own of it, takes the rest and lists what it kept. A session, a game or
a delivery that differs is refused all the same.

What the disk refused, and the board wrote to another place, is newer than the
store: with --newer the file's takes the place of what is kept of a student, a
cue, a session, a game or a delivery, and what was taken back goes. A copy of the
store is made before, and what was replaced is counted. A ball never takes the
place of another ball, and what was changed here since the board wrote the file
is not put back: the file is refused then, by its line.

A table begins with a line that names its columns: name, hand and average, and
any of ` + foldedColumns() + `.
Cells are parted by commas, semicolons or tabs, and hold what the Student screen
takes: right or left as the hand, whole pins as the average, yes or no for a
minor, balls with commas between them. Students who are kept already, by name
and average, are said and left as they are. Two of one name need averages that
differ.`,
		Example: "  settee import evening.jsonl\n  settee import students.csv",
		Args:    oneFile,
		RunE:    runImport,
	}
	cmd.Flags().Bool("json", false, "print one line of JSON")
	cmd.Flags().Bool("keep-mine", false, "where a student or a cue differs, keep what this store has")
	cmd.Flags().Bool("newer", false, "where anything differs, take what the file says")
	return cmd
}

func oneFile(_ *cobra.Command, args []string) error {
	if len(args) != 1 {
		return fmt.Errorf("%d files are named: import takes one, - for the standard input", len(args))
	}
	return nil
}

func runImport(cmd *cobra.Command, args []string) error {
	asJSON, err := cmd.Flags().GetBool("json")
	if err != nil {
		return err
	}
	path, err := storePath(cmd)
	if err != nil {
		return err
	}
	keepPrivate(cmd, path)
	got, err := importFrom(cmd, args[0], path)
	if err != nil {
		return err
	}
	if asJSON {
		return json.NewEncoder(cmd.OutOrStdout()).Encode(got.json())
	}
	_, err = fmt.Fprintln(cmd.OutOrStdout(), got.words)
	return err
}

// imported is what became of a file, and how that is said.
type imported struct {
	taken store.Imported
	mine  []store.Differing
	// renewed is what a newer file replaced, nil where none was asked for.
	renewed *store.Renewed
	words   string
}

// importFrom takes a file, or the standard input, into the store at path, and says what was taken.
func importFrom(cmd *cobra.Command, file, path string) (got imported, err error) {
	keepMine, newer, err := whoseIsTaken(cmd)
	if err != nil {
		return got, err
	}
	ctx, stop := untilSignal(cmd.Context())
	defer stop()
	cmd.SetContext(ctx)
	in := cmd.InOrStdin()
	if file == "-" {
		in = interruptible(ctx, in)
	} else {
		f, err := openToRead(file)
		if err != nil {
			return got, fmt.Errorf("cannot import: %w", err)
		}
		defer f.Close()
		in = f
	}
	data := bufio.NewReader(watchReader(cmd, in))
	if begun, _ := data.Peek(80); store.BeginsAsStore(begun) {
		return got, fmt.Errorf("%[1]s is a store and no export: settee restore %[2]s puts it in the place of this one, settee export "+
			"--store %[2]s writes what import takes", nameOf(file), shellWord(nameOf(file)))
	}
	switch table := isTable(file, data); {
	case table && (keepMine || newer):
		flag := map[bool]string{true: "--keep-mine", false: "--newer"}[keepMine]
		return got, usageError{cmd, fmt.Errorf("%s goes with an export, %s is a table of students", flag, nameOf(file))}
	case table:
		var students store.Rostered
		students, err = store.ImportRoster(path, data, newID)
		err = refusedRows(cmd.ErrOrStderr(), err)
		got.taken = store.Imported{Students: len(students.Taken), Known: len(students.Known)}
		got.words = rosteredWords(students)
	case keepMine:
		got.taken, got.mine, err = store.ImportKeepingMine(path, data)
		got.words = importedWords(got.taken)
		if len(got.mine) > 0 {
			got.words = mineWords(got)
		}
	case newer:
		var renewed store.Renewed
		renewed, err = store.ImportNewer(path, data, time.Now())
		got.taken, got.renewed, got.words = renewed.Taken, &renewed, renewedWords(renewed)
	default:
		got.taken, err = store.Import(path, data)
		got.words = importedWords(got.taken)
	}
	if err != nil {
		return got, fmt.Errorf("nothing of %s is taken: %w", nameOf(file), err)
	}
	return got, nil
}

// whoseIsTaken tells whose is taken where a file and the store differ: the store's, the file's, or else nobody's.
func whoseIsTaken(cmd *cobra.Command) (keepMine, newer bool, err error) {
	if keepMine, err = cmd.Flags().GetBool("keep-mine"); err != nil {
		return false, false, err
	}
	if newer, err = cmd.Flags().GetBool("newer"); err == nil && keepMine && newer {
		err = usageError{cmd, errors.New("--keep-mine takes the store's own and --newer the file's: choose one")}
	}
	return keepMine, newer, err
}

// interruptible gives a reader of r that a context ends even while r has nothing to give.
func interruptible(ctx context.Context, r io.Reader) io.Reader {
	out, in := io.Pipe()
	go func() {
		_, err := io.Copy(in, r)
		in.CloseWithError(err)
	}()
	context.AfterFunc(ctx, func() { in.CloseWithError(context.Cause(ctx)) })
	return out
}

func nameOf(file string) string {
	if file == "-" {
		return "the standard input"
	}
	return file
}
