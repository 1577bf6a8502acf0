package main

import (
	"encoding/json"
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"coach.settee/model/lane"
)

// lineRuleCommand is `settee line rule31`: the board on which the ball should leave the oil, by the trade's rule.
func lineRuleCommand() *cobra.Command {
	var oilFt float64
	var asJSON bool
	cmd := &cobra.Command{
		Use:                   "rule31 --oil-ft FT [--json]",
		DisableFlagsInUseLine: true,
		Short:                 "Tell the board at the oil's end by the rule of 31",
		Example:               "  settee line rule31 --oil-ft 39",
		Args:                  noSuchCommand,
		RunE:                  func(cmd *cobra.Command, _ []string) error { return runLineRule(cmd, oilFt, asJSON) },
	}
	cmd.Flags().Float64Var(&oilFt, "oil-ft", 0, "where the oil ends, in `FT`")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print one line of JSON")
	return cmd
}

func runLineRule(cmd *cobra.Command, oilFt float64, asJSON bool) error {
	if lacking := notGiven(cmd.Flags().Changed, "oil-ft"); len(lacking) > 0 {
		return usageError{cmd, missing(lacking)}
	}
	board := lane.RuleOf31(oilFt)
	if math.IsNaN(board) {
		return fmt.Errorf("the rule of 31 names no board for %g ft of oil: give 32 to %g ft", oilFt, lane.PinsFt)
	}
	if asJSON {
		return json.NewEncoder(cmd.OutOrStdout()).Encode(struct {
			Board float64 `json:"board"`
		}{board})
	}
	var p textPage
	p.flow("", "By the rule of 31 the ball leaves %g ft of oil on board %.1f, counted from the student's own side.",
		oilFt, board)
	p.flow("", "It is the trade's starting point and no more: it knows neither the ball nor the student, and the breakpoint "+
		"lies beyond the oil's end.")
	_, err := fmt.Fprint(cmd.OutOrStdout(), p.String())
	return err
}
