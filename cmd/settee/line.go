package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// lineCommand is `settee line`: the path of one ball, and below it what needs no ball.
func lineCommand() *cobra.Command {
	var ask lineAsked
	cmd := &cobra.Command{
		Use: "line --laydown BOARD {--launch-deg DEGREES | --arrows BOARD} --speed-mph MPH --rev-rpm RPM " +
			"--axis-rotation-deg DEGREES --oil-ft FT --mu-oil MU --mu-dry MU [--json]",
		DisableFlagsInUseLine: true,
		Short:                 "Reckon a ball's path, a move, a wish for one, or the rule of 31",
		Long: `Reckon the path of a ball over oil and dry, from how it leaves the hand.
Boards are counted from the student's own side, feet from the foul line, and the
formulas are the same for both hands.

Friction is a guess: compare two lines with each other, and do not trust the
board at the pins of one.`,
		Example: `  settee line --laydown 20.6 --arrows 15 --speed-mph 17.5 --rev-rpm 320 --axis-rotation-deg 50 \
      --oil-ft 41 --mu-oil 0.02 --mu-dry 0.2
  settee line move --feet 2 --target 1
  settee line wish --at 42:0 --at 60:-1
  settee line rule31 --oil-ft 39`,
		Args: noSuchCommand,
		RunE: func(cmd *cobra.Command, _ []string) error { return runLine(cmd, ask) },

		SuggestionsMinimumDistance: 2,
	}
	ask.flags(cmd)
	cmd.AddCommand(lineMoveCommand(), lineWishCommand(), lineRuleCommand())
	return cmd
}

// lineAsked is a ball as the flags give it.
type lineAsked struct {
	release          lane.Release
	oil              lane.Oil
	arrows, arrowsFt float64
	byArrows         bool
	hand             string
	asJSON           bool
}

func (a *lineAsked) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.SortFlags = false
	f.Float64Var(&a.release.Laydown, "laydown", 0, "the `BOARD` on which the ball comes down at the foul line")
	f.Float64Var(&a.release.LaunchDeg, "launch-deg", 0, "its first travel in `DEGREES` to the boards, plus to the own gutter")
	f.Float64Var(&a.arrows, "arrows", 0, "instead of --launch-deg, the `BOARD` it crosses at the arrows")
	arrowsFtFlag(cmd, &a.arrowsFt)
	f.Float64Var(&a.release.SpeedMPH, "speed-mph", 0, "the speed at the foul line in `MPH`")
	f.Float64Var(&a.release.RevRPM, "rev-rpm", 0, "the rev rate in `RPM`")
	f.Float64Var(&a.release.AxisRotationDeg, "axis-rotation-deg", 0,
		"`DEGREES`, 0 end over end, 90 side turn alone, minus for a backup ball")
	f.Float64Var(&a.release.TiltDeg, "tilt-deg", 0, "the axis tilt in `DEGREES`")
	f.Float64Var(&a.release.Beta, "beta", 0.4, "the ball's (RG/R)², as `BETA`; a uniform ball's is 0.4")
	f.Float64Var(&a.oil.Ft, "oil-ft", 0, "where the oil ends, in `FT`")
	f.Float64Var(&a.oil.Mu, "mu-oil", 0, "the friction `MU` in the oil, usually 0.01 to 0.05")
	f.Float64Var(&a.oil.DryMu, "mu-dry", 0, "the friction `MU` on the dry, usually about 0.2")
	handFlag(cmd, &a.hand)
	f.BoolVar(&a.asJSON, "json", false, "print one line of JSON")
}

func arrowsFtFlag(cmd *cobra.Command, to *float64) {
	cmd.Flags().Float64Var(to, "arrows-ft", lane.DefaultArrowsFt, "where the target is looked for, in `FT`")
}

func handFlag(cmd *cobra.Command, to *string) {
	cmd.Flags().StringVar(to, "hand", string(model.RightHand), "`HAND` for the words: right or left")
}

func runLine(cmd *cobra.Command, ask lineAsked) error {
	ask.byArrows = cmd.Flags().Changed("arrows")
	if err := ask.check(cmd.Flags().Changed); err != nil {
		return usageError{cmd, err}
	}
	release, path, err := ask.roll()
	if err != nil {
		return err
	}
	if ask.asJSON {
		return writeLineJSON(cmd.OutOrStdout(), release, path)
	}
	return ask.writePage(cmd.OutOrStdout(), release, path)
}

// check tells what the flags leave out or say twice. Their values are the model's to judge.
func (a lineAsked) check(given func(flag string) bool) error {
	byLaunch, byArrows := given("launch-deg"), given("arrows")
	switch {
	case byLaunch && byArrows:
		return errors.New("--launch-deg and --arrows together: give one of them")
	case byLaunch && given("arrows-ft"):
		return errors.New("--arrows-ft goes with --arrows, not with --launch-deg")
	}
	var lacking []string
	if !given("laydown") {
		lacking = append(lacking, "--laydown")
	}
	if !byLaunch && !byArrows {
		lacking = append(lacking, "--launch-deg or --arrows")
	}
	lacking = append(lacking, notGiven(given, "speed-mph", "rev-rpm", "axis-rotation-deg", "oil-ft", "mu-oil", "mu-dry")...)
	if len(lacking) > 0 {
		return missing(lacking)
	}
	return checkHand(a.hand)
}

func notGiven(given func(flag string) bool, flags ...string) []string {
	var not []string
	for _, flag := range flags {
		if !given(flag) {
			not = append(not, "--"+flag)
		}
	}
	return not
}

func missing(flags []string) error {
	return fmt.Errorf("still missing: %s", strings.Join(flags, ", "))
}

func checkHand(hand string) error {
	if hand != string(model.RightHand) && hand != string(model.LeftHand) {
		return fmt.Errorf("--hand %s: it is right or left", hand)
	}
	return nil
}

func (a lineAsked) roll() (lane.Release, lane.Path, error) {
	release := a.release
	if release.Beta == 0 {
		return release, lane.Path{}, errors.New("beta cannot be 0: leave out --beta for a uniform ball's 0.4")
	}
	if a.byArrows {
		var err error
		if release, err = lane.Through(release, a.oil, a.arrows, a.arrowsFt); err != nil {
			return release, lane.Path{}, err
		}
	}
	path, err := lane.Roll(release, a.oil)
	return release, path, err
}

// lineFt are the distances at which a path is told: usual arrows, a usual breakpoint, the pins.
var lineFt = [...]float64{15, 45, lane.PinsFt}

// lineJSON is a path as a machine reads it, numbers as they were reckoned.
type lineJSON struct {
	LaunchDeg      float64     `json:"launch_deg"`
	At             []placeJSON `json:"at"`
	Breakpoint     placeJSON   `json:"breakpoint"`
	EntryDeg       float64     `json:"entry_deg"`
	PocketOffset   float64     `json:"pocket_offset"`
	RollFt         float64     `json:"roll_ft"`
	SpeedAtPinsMPH float64     `json:"speed_at_pins_mph"`
	TimeInSeconds  float64     `json:"time_s"`
}

type placeJSON struct {
	Ft    float64 `json:"ft"`
	Board float64 `json:"board"`
}

func writeLineJSON(w io.Writer, r lane.Release, p lane.Path) error {
	out := lineJSON{
		LaunchDeg: r.LaunchDeg, EntryDeg: p.EntryDeg(), PocketOffset: p.PocketOffset(), RollFt: p.RollFt(),
		SpeedAtPinsMPH: p.SpeedAtPinsMPH(), TimeInSeconds: p.Seconds(),
	}
	for _, ft := range lineFt {
		out.At = append(out.At, placeJSON{ft, p.BoardAt(ft)})
	}
	out.Breakpoint.Ft, out.Breakpoint.Board = p.Breakpoint()
	return json.NewEncoder(w).Encode(out)
}
