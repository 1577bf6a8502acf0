package main

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"coach.settee/store"
)

// importCommand is `settee import`: what an export wrote, or a table of new students, taken into the store.
func importCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "import [--json] FILE",
		Short: "Take in what an export wrote, or a table of new students",
		Long: `Take in a file that settee export wrote, or a table of new students as CSV
from a spreadsheet; - is the standard input.

All of the file is taken or nothing. A line that cannot be read, or that says
something else than is kept under its id, is named with the reason. What is kept
already is nothing new, so that a file can be imported twice. The store must not
be open meanwhile.

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
	taken, words, err := importFrom(cmd, args[0], path)
	if err != nil {
		return err
	}
	if asJSON {
		return json.NewEncoder(cmd.OutOrStdout()).Encode(importedJSON(taken))
	}
	_, err = fmt.Fprintln(cmd.OutOrStdout(), words)
	return err
}

// importFrom takes a file, or the standard input, into the store at path, and says what was taken.
func importFrom(cmd *cobra.Command, file, path string) (taken store.Imported, words string, err error) {
	ctx, stop := untilSignal(cmd.Context())
	defer stop()
	cmd.SetContext(ctx)
	in := cmd.InOrStdin()
	if file == "-" {
		in = interruptible(ctx, in)
	} else {
		f, err := os.Open(file)
		if err != nil {
			return taken, "", fmt.Errorf("cannot import: %w", err)
		}
		defer f.Close()
		in = f
	}
	data := bufio.NewReader(watchReader(cmd, in))
	if isTable(file, data) {
		var students store.Rostered
		students, err = store.ImportRoster(path, data, newID)
		taken, words = store.Imported{Students: len(students.Taken), Known: len(students.Known)}, rosteredWords(students)
	} else {
		taken, err = store.Import(path, data)
		words = importedWords(taken)
	}
	if err != nil {
		return store.Imported{}, "", fmt.Errorf("nothing of %s is taken: %w", nameOf(file), err)
	}
	return taken, words, nil
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

type importedJSON struct {
	Cues       int `json:"cues"`
	Students   int `json:"students"`
	Sessions   int `json:"sessions"`
	Games      int `json:"games"`
	Deliveries int `json:"deliveries"`
	Known      int `json:"known"`
}

// importedWords says what was taken in one line.
func importedWords(taken store.Imported) string {
	var parts []string
	for _, p := range []struct {
		n         int
		one, many string
	}{
		{taken.Cues, "cue", "cues"},
		{taken.Students, "student", "students"},
		{taken.Sessions, "session", "sessions"},
		{taken.Games, "game", "games"},
		{taken.Deliveries, "delivery", "deliveries"},
	} {
		switch p.n {
		case 0:
		case 1:
			parts = append(parts, "1 "+p.one)
		default:
			parts = append(parts, fmt.Sprintf("%d %s", p.n, p.many))
		}
	}
	if len(parts) == 0 {
		return "nothing new: all of it was kept already"
	}
	words := "taken: " + strings.Join(parts, ", ")
	if taken.Known > 0 {
		words += fmt.Sprintf("; %d more were kept already", taken.Known)
	}
	return words
}
