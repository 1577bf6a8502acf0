package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"coach.settee/store"
)

// checkCommand is `settee check`: the whole store looked over, and what can be read of a damaged one put into a new file.
func checkCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "check [FILE] [--repair NEWFILE] [--json]",
		Short: "Look the whole store over, or make a new one of what can be read",
		Long: `Read the whole store, or FILE, and say what is in it and what is wrong: every
page, every record and what it refers to, every game's deliveries and what they
add up to. Nothing is changed. The store must not be open meanwhile; a copy of it
can be checked at any time.

With --repair what can be read is put into NEWFILE, which must not be there yet;
the file that is read is never changed. Games keep their deliveries as far as
they are possible, from the first on. What can be read but not kept goes to
NEWFILE.left-out.jsonl, in the form of settee export.`,
		Example: `  settee check
  settee check lessons-in-may.db
  settee check --repair saved.db`,
		Args: oneToCheck,
		RunE: runCheck,
	}
	cmd.Flags().String("repair", "", "make a store at `NEWFILE` of what can be read")
	cmd.Flags().Bool("json", false, "print one line of JSON")
	return cmd
}

func oneToCheck(_ *cobra.Command, args []string) error {
	if len(args) > 1 {
		return fmt.Errorf("%d files are named: check looks at one", len(args))
	}
	return nil
}

func runCheck(cmd *cobra.Command, args []string) error {
	asJSON, err := cmd.Flags().GetBool("json")
	if err != nil {
		return err
	}
	target, err := cmd.Flags().GetString("repair")
	if err != nil {
		return err
	}
	path, err := storePath(cmd)
	if err != nil {
		return err
	}
	if len(args) == 1 {
		path = args[0]
	}
	ctx, stop := untilSignal(cmd.Context())
	defer stop()
	cmd.SetContext(ctx)
	switch {
	case target != "":
		return repairTo(cmd, path, target, asJSON)
	case cmd.Flags().Changed("repair"):
		return usageError{cmd, errors.New("--repair needs the name of a new file")}
	}
	return checkAt(cmd, path, asJSON)
}

// checkAt looks a store over and says what it found; what is wrong makes it fail.
func checkAt(cmd *cobra.Command, path string, asJSON bool) error {
	e, err := store.Examine(path, newProgress(cmd, "read").count)
	if err != nil {
		return err
	}
	if asJSON {
		err = json.NewEncoder(cmd.OutOrStdout()).Encode(examinedJSON(path, e))
	} else {
		err = printExamined(cmd.OutOrStdout(), path, e)
	}
	if err != nil || e.Sound() {
		return err
	}
	return fmt.Errorf("%s is damaged: settee restore lists the copies to put in its place, and settee check --repair NEWFILE "+
		"makes a new file of what can be read", path)
}

func printExamined(out io.Writer, path string, e store.Examined) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s, %s: ", path, megabytes(e.Bytes))
	switch {
	case e.Sound() && e.MayMissLast:
		b.WriteString("nothing is wrong, but for the end of its journal\n")
	case e.Sound():
		b.WriteString("nothing is wrong\n")
	default:
		fmt.Fprintf(&b, "%s\n", amount(len(e.Faults)+e.More, "fault", "faults"))
		for _, f := range e.Faults {
			fmt.Fprintf(&b, "  %s\n", f)
		}
		if e.More > 0 {
			fmt.Fprintf(&b, "  and %d more\n", e.More)
		}
	}
	if words := recordWords(e.Cues, e.Students, e.Sessions, e.Games, e.Deliveries); words != "" {
		fmt.Fprintf(&b, "it holds %s\n", words)
	}
	if e.Open > 0 {
		fmt.Fprintf(&b, "%s not closed\n", amount(e.Open, "session is", "sessions are"))
	}
	if e.Waiting > 0 {
		fmt.Fprintf(&b, "%s in its journal, for the next time it is opened\n", amount(e.Waiting, "step waits", "steps wait"))
	}
	if e.MayMissLast {
		fmt.Fprintf(&b, "%s\n", mayMissLast)
	}
	_, err := io.WriteString(out, b.String())
	return err
}

// amount says a number of things.
func amount(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// recordWords says how many records of each kind there are, in one line.
func recordWords(cues, students, sessions, games, deliveries int) string {
	var parts []string
	for _, p := range []struct {
		n         int
		one, many string
	}{
		{cues, "cue", "cues"}, {students, "student", "students"}, {sessions, "session", "sessions"},
		{games, "game", "games"}, {deliveries, "delivery", "deliveries"},
	} {
		if p.n > 0 {
			parts = append(parts, amount(p.n, p.one, p.many))
		}
	}
	return strings.Join(parts, ", ")
}

type checkJSON struct {
	File       string   `json:"file"`
	Sound      bool     `json:"sound"`
	Bytes      int64    `json:"bytes"`
	Cues       int      `json:"cues"`
	Students   int      `json:"students"`
	Sessions   int      `json:"sessions"`
	Open       int      `json:"open"`
	Games      int      `json:"games"`
	Deliveries int      `json:"deliveries"`
	Waiting    int      `json:"waiting"`
	MayMiss    bool     `json:"last_may_be_missing"`
	Faults     []string `json:"faults"`
	More       int      `json:"more_faults"`
}

func examinedJSON(path string, e store.Examined) checkJSON {
	return checkJSON{
		File: path, Sound: e.Sound(), Bytes: e.Bytes, Cues: e.Cues, Students: e.Students, Sessions: e.Sessions, Open: e.Open,
		Games: e.Games, Deliveries: e.Deliveries, Waiting: e.Waiting, MayMiss: e.MayMissLast, Faults: append([]string{}, e.Faults...), More: e.More,
	}
}
