package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// lineWishCommand is `settee line wish`: the moves that come nearest to what the line should do.
func lineWishCommand() *cobra.Command {
	var ask wishAsked
	cmd := &cobra.Command{
		Use:                   "wish --at FT:BOARDS [--at FT:BOARDS] [--arrows-ft FT] [--hand HAND] [--json]",
		DisableFlagsInUseLine: true,
		Short:                 "Find the moves that come nearest to what the line should do",
		Long: `Find the three moves of feet and target, in whole boards, that come nearest to
what the line should do at one or two distances, with what is left over there.
A wish is a distance in feet and the boards that the line should move there,
plus to the bowler's inside, left for a right-hander; 0 keeps the place.`,
		Example: `  settee line wish --at 42:0 --at 60:-1
  settee line wish --at 45:2 --hand left`,
		Args: noSuchCommand,
		RunE: func(cmd *cobra.Command, _ []string) error { return runLineWish(cmd, ask) },
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.StringArrayVar(&ask.at, "at", nil, "`FT:BOARDS`, the boards to move at that distance; given once or twice")
	arrowsFtFlag(cmd, &ask.arrowsFt)
	handFlag(cmd, &ask.hand)
	f.BoolVar(&ask.asJSON, "json", false, "print one line of JSON")
	return cmd
}

// wishAsked is what the line should do as the flags give it.
type wishAsked struct {
	at       []string
	arrowsFt float64
	hand     string
	asJSON   bool
}

func runLineWish(cmd *cobra.Command, ask wishAsked) error {
	wishes, err := ask.wishes()
	if err != nil {
		return usageError{cmd, err}
	}
	if err := lane.CheckArrowsFt(ask.arrowsFt); err != nil {
		return err
	}
	moves, err := lane.FitMoves(wishes, ask.arrowsFt)
	if err != nil {
		return err
	}
	if ask.asJSON {
		return writeWishJSON(cmd.OutOrStdout(), moves)
	}
	return writeWishPage(cmd.OutOrStdout(), ask, wishes, moves)
}

// wishes reads what is typed. Which distances and boards make sense is the model's to judge.
func (a wishAsked) wishes() ([]lane.Wish, error) {
	if len(a.at) == 0 {
		return nil, missing([]string{"--at"})
	}
	var out []lane.Wish
	for _, text := range a.at {
		ft, boards, both := strings.Cut(text, ":")
		at, errFt := strconv.ParseFloat(ft, 64)
		by, errBoards := strconv.ParseFloat(boards, 64)
		if !both || errFt != nil || errBoards != nil {
			return nil, fmt.Errorf("--at %s: it is feet and boards, as 42:0 or 60:-1", text)
		}
		out = append(out, lane.Wish{Ft: at, Boards: by})
	}
	return out, checkHand(a.hand)
}

// fittedJSON is a move with what is left over, plus where the line lies further inside than was wished.
type fittedJSON struct {
	Feet     int         `json:"feet"`
	Target   int         `json:"target"`
	LeftOver []shiftJSON `json:"left_over"`
}

func writeWishJSON(w io.Writer, moves []lane.Fitted) error {
	var out struct {
		Moves []fittedJSON `json:"moves"`
	}
	for _, m := range moves {
		f := fittedJSON{Feet: m.Move.Feet, Target: m.Move.Target}
		for _, o := range m.Over {
			f.LeftOver = append(f.LeftOver, shiftJSON{o.Ft, o.Boards})
		}
		out.Moves = append(out.Moves, f)
	}
	return json.NewEncoder(w).Encode(out)
}

func writeWishPage(w io.Writer, ask wishAsked, wishes []lane.Wish, moves []lane.Fitted) error {
	hand := model.Hand(ask.hand)
	var wished []string
	for _, x := range wishes {
		wished = append(wished, wishWords(x, hand))
	}
	var p textPage
	p.flow("", "A %s-hander, target at %g ft. The line is to %s.", hand, ask.arrowsFt, strings.Join(wished, " and to "))
	p.WriteString("\n")
	for _, m := range moves {
		p.flow("  ", "%s", m.Words(hand))
	}
	p.WriteString("\n")
	p.flow("", "The nearest comes first. %s", moveIsGeometry)
	_, err := io.WriteString(w, p.String())
	return err
}

// wishWords tells a wish as it was typed: "stay at 42 ft", "go 1 board right at 60 ft".
func wishWords(w lane.Wish, hand model.Hand) string {
	side, outside := lane.Sides(hand)
	size, things := math.Abs(w.Boards), "boards"
	if w.Boards < 0 {
		side = outside
	}
	switch size {
	case 0:
		return fmt.Sprintf("stay at %g ft", w.Ft)
	case 1:
		things = "board"
	}
	return fmt.Sprintf("go %g %s %s at %g ft", size, things, side, w.Ft)
}
