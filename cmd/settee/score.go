package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"coach.settee/model/tenpin"
)

// scoreCommand is `settee score`: a game in the usual notation, printed frame by
// frame. Signs such as -- and -1 are pins here and not options, so the command
// tells options from notation by itself.
func scoreCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "score [--json] GAME...",
		Short: "Score a game written as on the score sheet",
		Long: `Score a game written as on the score sheet, finished or not.

X is a strike, / a spare, 1 to 9 a count, - no pin, F a foul; the count of a
split may stand in parentheses. Spaces are free. Put the game in quotes:
parentheses mean something to the shell.`,
		Example:            `  settee score 'X X X 72 (8)/ F9 X 7/ 9- XX8'`,
		DisableFlagParsing: true,
		RunE:               runScore,
	}
	cmd.Flags().Bool("json", false, "print one line of JSON")
	return cmd
}

func runScore(cmd *cobra.Command, args []string) error {
	game, err := takeFlags(cmd.Flags(), args)
	if err != nil {
		return cmd.FlagErrorFunc()(cmd, err)
	}
	if cmd.Flags().Changed("help") {
		return cmd.Help()
	}
	if err := checkGame(game); err != nil {
		return cmd.FlagErrorFunc()(cmd, err)
	}
	asJSON, err := cmd.Flags().GetBool("json")
	if err != nil {
		return err
	}
	notation := strings.Join(game, " ")
	card, err := tenpin.Parse(notation)
	if err != nil {
		return fmt.Errorf("cannot score %q: %w; correct it and try again", notation, err)
	}
	if asJSON {
		return writeScoreJSON(cmd.OutOrStdout(), card)
	}
	return writeScoreTable(cmd.OutOrStdout(), card)
}

// takeFlags sets the flags that are among the arguments and gives back the rest,
// the game. A -- before a single quoted game ends the flags as usual.
func takeFlags(flags *pflag.FlagSet, args []string) (game []string, err error) {
	for i := 0; i < len(args); i++ {
		if rest := args[i:]; len(game) == 0 && len(rest) == 2 && rest[0] == "--" && strings.Contains(rest[1], " ") {
			return rest[1:], nil
		}
		name, value, hasValue := flagIn(args[i])
		flag := flags.Lookup(name)
		switch {
		case name == "":
			game = append(game, args[i])
			continue
		case flag == nil:
			return nil, fmt.Errorf("unknown flag: --%s", name)
		case !hasValue && flag.NoOptDefVal != "":
			value = flag.NoOptDefVal
		case !hasValue && i+1 == len(args):
			return nil, fmt.Errorf("flag needs an argument: --%s", name)
		case !hasValue:
			i++
			value = args[i]
		}
		if err := flags.Set(name, value); err != nil {
			return nil, err
		}
	}
	return game, nil
}

// flagIn is the name of the flag in an argument, "" if the argument is notation,
// and the value after a = in it.
func flagIn(arg string) (name, value string, hasValue bool) {
	if arg == "-h" {
		return "help", "", false
	}
	word, isLong := strings.CutPrefix(arg, "--")
	name, value, hasValue = strings.Cut(word, "=")
	isWord := name != "" && name[0] >= 'a' && name[0] <= 'z' && !strings.Contains(name, " ")
	isNotation := strings.Trim(name, "-/()123456789XxFfGg") == ""
	if !isLong || !isWord || isNotation {
		return "", "", false
	}
	return name, value, hasValue
}

// checkGame refuses arguments that may not be the game that was meant.
func checkGame(game []string) error {
	switch {
	case len(game) == 0:
		return errors.New("no game to score: give it in quotes, such as 'X 7/ 9-'")
	case game[0] == "--":
		return errors.New("a -- first may be two gutter balls or the end of the flags: " +
			"put the whole game in one pair of quotes, and two gutter balls alone as '- -'")
	default:
		return nil
	}
}

type scoreJSON struct {
	Frames   []frameJSON `json:"frames"`
	Score    int         `json:"score"`
	Max      int         `json:"max"`
	Complete bool        `json:"complete"`
}

type frameJSON struct {
	Balls []string `json:"balls"`
	Total *int     `json:"total"`
	Split *bool    `json:"split"`
}

func writeScoreJSON(w io.Writer, card tenpin.Card) error {
	out := scoreJSON{
		Frames:   make([]frameJSON, 0, len(card.Frames)),
		Score:    card.Score,
		Max:      card.Max,
		Complete: card.Complete,
	}
	for _, f := range card.Frames {
		row := frameJSON{Balls: f.Marks()}
		if f.Known {
			row.Total = &f.Total
		}
		if f.Split != tenpin.SplitUnknown {
			split := f.Split == tenpin.SplitYes
			row.Split = &split
		}
		out.Frames = append(out.Frames, row)
	}
	return json.NewEncoder(w).Encode(out)
}

func writeScoreTable(w io.Writer, card tenpin.Card) error {
	var b strings.Builder
	b.WriteString("frame  balls    total\n")
	for i, f := range card.Frames {
		total := "."
		if f.Known {
			total = fmt.Sprint(f.Total)
		}
		fmt.Fprintf(&b, "%5d  %-7s  %5s\n", i+1, f.Notation(), total)
	}
	if card.Complete {
		fmt.Fprintf(&b, "\nscore %d\n", card.Score)
	} else {
		fmt.Fprintf(&b, "\nscore so far %d, still possible %d\n", card.Score, card.Max)
	}
	_, err := io.WriteString(w, b.String())
	return err
}
