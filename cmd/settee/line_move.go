package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"

	"github.com/spf13/cobra"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// lineMoveCommand is `settee line move`: what a move of feet and target does to the line.
func lineMoveCommand() *cobra.Command {
	var ask moveAsked
	cmd := &cobra.Command{
		Use:                   "move --feet BOARDS --target BOARDS [--arrows-ft FT] [--hand HAND] [--json]",
		DisableFlagsInUseLine: true,
		Short:                 "Tell what a move of feet and target does to the line",
		Long: `Tell by how many boards a move of feet and target shifts the line at each
distance, by how much it opens the launch angle, and where the line stays.
Boards are whole, plus to the bowler's inside: left for a right-hander.`,
		Example: `  settee line move --feet 8 --target 5
  settee line move --feet -2 --target -1 --hand left`,
		Args: noSuchCommand,
		RunE: func(cmd *cobra.Command, _ []string) error { return runLineMove(cmd, ask) },
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.Float64Var(&ask.feet, "feet", 0, "`BOARDS` by which the feet move, plus to the inside")
	f.Float64Var(&ask.target, "target", 0, "`BOARDS` by which the target moves, plus to the inside")
	arrowsFtFlag(cmd, &ask.arrowsFt)
	handFlag(cmd, &ask.hand)
	f.BoolVar(&ask.asJSON, "json", false, "print one line of JSON")
	return cmd
}

// moveAsked is a move as the flags give it.
type moveAsked struct {
	feet, target, arrowsFt float64
	hand                   string
	asJSON                 bool
}

func runLineMove(cmd *cobra.Command, ask moveAsked) error {
	if err := ask.check(cmd.Flags().Changed); err != nil {
		return usageError{cmd, err}
	}
	move, err := ask.move()
	if err != nil {
		return err
	}
	if ask.asJSON {
		return writeMoveJSON(cmd.OutOrStdout(), move, ask.arrowsFt)
	}
	return writeMovePage(cmd.OutOrStdout(), move, ask.arrowsFt, model.Hand(ask.hand))
}

func (a moveAsked) check(given func(flag string) bool) error {
	if lacking := notGiven(given, "feet", "target"); len(lacking) > 0 {
		return fmt.Errorf("%w; 0 stays", missing(lacking))
	}
	for _, v := range []struct {
		flag   string
		boards float64
	}{{"feet", a.feet}, {"target", a.target}} {
		if v.boards != math.Trunc(v.boards) {
			return fmt.Errorf("--%s %g: a move is in whole boards", v.flag, v.boards)
		}
	}
	return checkHand(a.hand)
}

// move refuses what no lane has room for.
func (a moveAsked) move() (lane.Move, error) {
	for _, v := range []struct {
		of     string
		boards float64
	}{{"feet", a.feet}, {"target", a.target}} {
		if math.Abs(v.boards) > lane.Boards {
			return lane.Move{}, fmt.Errorf("the %s cannot move by %g boards: a lane has %d", v.of, v.boards, lane.Boards)
		}
	}
	if err := lane.CheckArrowsFt(a.arrowsFt); err != nil {
		return lane.Move{}, err
	}
	return lane.Move{Feet: int(a.feet), Target: int(a.target)}, nil
}

// moveFt are the distances at which a shift is told: usual arrows, the oil's end and a breakpoint, the pins.
var moveFt = [...]float64{15, 40, 45, lane.PinsFt}

type moveJSON struct {
	Shift    []shiftJSON `json:"shift"`
	AngleDeg float64     `json:"angle_deg"`
	PivotFt  *float64    `json:"pivot_ft"`
}

type shiftJSON struct {
	Ft     float64 `json:"ft"`
	Boards float64 `json:"boards"`
}

func writeMoveJSON(w io.Writer, m lane.Move, arrowsFt float64) error {
	out := moveJSON{AngleDeg: m.AngleDeg(arrowsFt), PivotFt: number(m.PivotFt(arrowsFt))}
	for _, ft := range moveFt {
		out.Shift = append(out.Shift, shiftJSON{ft, m.ShiftAt(ft, arrowsFt)})
	}
	return json.NewEncoder(w).Encode(out)
}

func writeMovePage(w io.Writer, m lane.Move, arrowsFt float64, hand model.Hand) error {
	inside, outside := lane.Sides(hand)
	var p textPage
	p.flow("", "A %s-hander, target at %g ft: %s.", hand, arrowsFt, m.Words(hand))
	p.WriteString("\n")
	for _, ft := range moveFt {
		fmt.Fprintf(&p, "  at %g ft   %s\n", ft, shiftWords(m.ShiftAt(ft, arrowsFt), inside, outside))
	}
	p.WriteString("\n")
	p.flow("", "%s", turnWords(m, arrowsFt))
	p.flow("", "%s", moveIsGeometry)
	_, err := io.WriteString(w, p.String())
	return err
}

// moveIsGeometry says what a move is told without.
const moveIsGeometry = "This is geometry: the lane is taken to be the same across, and the ball to leave the hand alike. " +
	"Then it holds for a ball that hooks too. Other oil where the ball now goes is not in it."

// shiftWords tells a shift to a tenth of a board.
func shiftWords(boards float64, inside, outside string) string {
	size, side := fmt.Sprintf("%.1f", math.Abs(boards)), inside
	if boards < 0 {
		side = outside
	}
	switch size {
	case "0.0":
		return "stays"
	case "1.0":
		return size + " board " + side
	}
	return size + " boards " + side
}

// turnWords tells how the launch turns, and where the line stays.
func turnWords(m lane.Move, arrowsFt float64) string {
	deg, pivot := m.AngleDeg(arrowsFt), m.PivotFt(arrowsFt)
	turn := "The launch opens by "
	if deg < 0 {
		turn = "The launch closes by "
	}
	turn += degreesWords(deg) + ". "
	switch {
	case m == lane.Move{}:
		return "Nothing moves."
	case !pivot.Known:
		return "The launch angle stays, and the whole line moves alike."
	case pivot.Value == 0:
		return turn + "The line turns around the laydown."
	case pivot.Value < 0 || pivot.Value > lane.PinsFt:
		return turn + "The line goes to the same side all the way to the pins."
	}
	return turn + fmt.Sprintf("The line keeps its board at about %.0f ft.", pivot.Value)
}
