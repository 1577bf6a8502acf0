package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// readLine decodes what a line command prints with --json, which has to have just the names of into.
func readLine(t *testing.T, into any, args ...string) {
	t.Helper()
	d := json.NewDecoder(strings.NewReader(runIn(t, nil, append(append([]string{"line"}, args...), "--json")...)))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		t.Fatal(err)
	}
}

func nearTo(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.12g, want %.12g", what, got, want)
	}
}

// linePath is the form of a path that programs rely on.
type linePath struct {
	LaunchDeg *float64 `json:"launch_deg"`
	At        []struct {
		Ft, Board float64
	} `json:"at"`
	Breakpoint struct {
		Ft, Board float64
	} `json:"breakpoint"`
	EntryDeg       *float64 `json:"entry_deg"`
	PocketOffset   *float64 `json:"pocket_offset"`
	RollFt         *float64 `json:"roll_ft"`
	SpeedAtPinsMPH *float64 `json:"speed_at_pins_mph"`
	TimeS          *float64 `json:"time_s"`
}

// Source: testdata/published/README.md, path_cases.csv. Each ball goes in by its launch angle, and once more by the board
// at 15 ft that is published for it, which has to give the angle back. The ball that goes straight along its boards is left
// out of the second: its breakpoint lies at either end.
func TestLineGivesThePublishedPaths(t *testing.T) {
	for name, row := range publishedPaths(t) {
		t.Run(name, func(t *testing.T) {
			ball := []string{"--laydown", row["laydown_board"], "--speed-mph", row["speed_mph"], "--rev-rpm", row["rpm"],
				"--axis-rotation-deg", row["axis_rotation_deg"], "--tilt-deg", row["tilt_deg"], "--beta", row["beta"],
				"--oil-ft", row["oil_ft"], "--mu-oil", row["mu_oil"], "--mu-dry", row["mu_dry"]}
			aims := [][]string{{"--launch-deg", row["launch_deg"]}, {"--arrows", row["board_15ft"]}}
			if row["laydown_board"] == row["board_60ft"] {
				aims = aims[:1]
			}
			for _, aim := range aims {
				var got linePath
				readLine(t, &got, append(aim, ball...)...)
				checkPath(t, got, row)
			}
		})
	}
}

func publishedPaths(t *testing.T) map[string]map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "published", "path_cases.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	table, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	paths := map[string]map[string]string{}
	for _, cells := range table[1:] {
		row := map[string]string{}
		for i, column := range table[0] {
			row[column] = cells[i]
		}
		paths[row["case"]] = row
	}
	if len(paths) < 18 {
		t.Fatalf("%d paths, want 18", len(paths))
	}
	return paths
}

func checkPath(t *testing.T, got linePath, row map[string]string) {
	t.Helper()
	// The published boards have ten digits, and through them the angle is as good as that.
	const within = 1e-7
	column := func(name string) float64 {
		v, err := strconv.ParseFloat(row[name], 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	if len(got.At) != 3 || got.At[0].Ft != 15 || got.At[1].Ft != 45 || got.At[2].Ft != 60 {
		t.Fatalf("told at %v, want 15, 45 and 60 ft", got.At)
	}
	nearTo(t, "board at 15 ft", got.At[0].Board, column("board_15ft"), within)
	nearTo(t, "board at 45 ft", got.At[1].Board, column("board_45ft"), within)
	nearTo(t, "board at 60 ft", got.At[2].Board, column("board_60ft"), within)
	nearTo(t, "breakpoint in feet", got.Breakpoint.Ft, column("breakpoint_ft"), within)
	nearTo(t, "breakpoint's board", got.Breakpoint.Board, column("breakpoint_board"), within)
	for name, figure := range map[string]struct {
		got  *float64
		want float64
	}{
		"launch_deg": {got.LaunchDeg, column("launch_deg")}, "entry_deg": {got.EntryDeg, column("entry_deg")},
		"pocket_offset": {got.PocketOffset, column("board_60ft") - 17.5}, "roll_ft": {got.RollFt, column("roll_starts_ft")},
		"speed_at_pins_mph": {got.SpeedAtPinsMPH, column("speed_at_pins_mph")}, "time_s": {got.TimeS, column("time_to_pins_s")},
	} {
		if figure.got == nil {
			t.Fatalf("no %s", name)
		}
		nearTo(t, name, *figure.got, figure.want, within)
	}
}

// Feet 8 and target 5 for one degree is common practice, no source; all figures are geometry, worked by hand: a board of
// 41.5/39 inches, three of them over 180 inches.
func TestLineMove(t *testing.T) {
	tests := []struct {
		name  string
		args  []string
		shift [4]float64
		deg   float64
		pivot *float64
	}{
		{"feet 8, target 5", []string{"--feet", "8", "--target", "5"}, [4]float64{5, 0, -1, -4}, 1.016037, pivot(40.0)},
		{"to the outside", []string{"--feet", "-8", "--target", "-5"}, [4]float64{-5, 0, 1, 4}, -1.016037, pivot(40.0)},
		{"parallel", []string{"--feet", "2", "--target", "2"}, [4]float64{2, 2, 2, 2}, 0, nil},
		{"the target alone", []string{"--feet", "0", "--target", "1"}, [4]float64{1, 8. / 3, 3, 4}, -.338710, pivot(0.0)},
		{"the target at 12 ft", []string{"--feet", "2", "--target", "1", "--arrows-ft", "12"},
			[4]float64{.75, -4. / 3, -1.75, -3}, .423385, pivot(24.0)},
		// The words alone know the hand.
		{"a left-hander", []string{"--feet", "8", "--target", "5", "--hand", "left"}, [4]float64{5, 0, -1, -4}, 1.016037,
			pivot(40.0)},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var got struct {
				Shift []struct {
					Ft, Boards float64
				} `json:"shift"`
				AngleDeg float64  `json:"angle_deg"`
				PivotFt  *float64 `json:"pivot_ft"`
			}
			readLine(t, &got, append([]string{"move"}, test.args...)...)
			if len(got.Shift) != 4 {
				t.Fatalf("shift %v", got.Shift)
			}
			for i, ft := range []float64{15, 40, 45, 60} {
				nearTo(t, "feet", got.Shift[i].Ft, ft, 0)
				nearTo(t, "shift", got.Shift[i].Boards, test.shift[i], 1e-12)
			}
			nearTo(t, "angle", got.AngleDeg, test.deg, 5e-7)
			switch {
			case (got.PivotFt == nil) != (test.pivot == nil):
				t.Errorf("pivot %v, want %v", got.PivotFt, test.pivot)
			case test.pivot != nil:
				nearTo(t, "pivot", *got.PivotFt, *test.pivot, 1e-12)
			}
		})
	}
}

func pivot(ft float64) *float64 { return &ft }

// The rule is the trade's: the pattern's length in feet less 31.
func TestLineRuleOf31(t *testing.T) {
	for oil, board := range map[string]float64{"35": 4, "39": 8, "43": 12, "39.5": 8.5} {
		var got struct {
			Board float64 `json:"board"`
		}
		readLine(t, &got, "rule31", "--oil-ft", oil)
		nearTo(t, "oil of "+oil+" ft", got.Board, board, 0)
	}
}

// tweener is a ball without its aim.
const tweener = "line --laydown 20.6 --speed-mph 17.5 --rev-rpm 320 --axis-rotation-deg 50 " +
	"--oil-ft 41 --mu-oil 0.02 --mu-dry 0.2"

func TestLineRefuses(t *testing.T) {
	tests := []struct {
		name, line string
		code       int
		says       string
	}{
		{"nothing given", "line", exitUsage, "still missing: --laydown, --launch-deg or --arrows, --speed-mph, --rev-rpm, " +
			"--axis-rotation-deg, --oil-ft, --mu-oil, --mu-dry (settee line --help"},
		{"no aim", tweener, exitUsage, "still missing: --launch-deg or --arrows ("},
		{"two aims", tweener + " --launch-deg 2 --arrows 15", exitUsage, "--launch-deg and --arrows together: give one"},
		{"arrows without a board", tweener + " --launch-deg 2 --arrows-ft 13", exitUsage, "--arrows-ft goes with --arrows"},
		{"no number", tweener + " --launch-deg two", exitUsage, `--launch-deg cannot be "two": it is a number`},
		{"no hand", tweener + " --launch-deg 2 --hand both", exitUsage, "--hand both: it is right or left"},
		{"no such command", "line mvoe", exitUsage, `no command "mvoe": is it move?`},
		{"a board of 60", tweener + " --launch-deg 2 --laydown 60", exitFailed, "the laydown board cannot be 60: give 0 to 40"},
		{"negative friction", tweener + " --launch-deg 2 --mu-oil -0.1", exitFailed, "the friction in the oil cannot be -0.1"},
		{"no friction at all", tweener + " --launch-deg 2 --mu-dry NaN", exitFailed, "the friction on the dry cannot be NaN"},
		{"no inertia", tweener + " --launch-deg 2 --beta 0", exitFailed, "beta cannot be 0: leave out --beta"},
		{"never arrives", tweener + " --launch-deg 2 --speed-mph 1 --rev-rpm 1000 --axis-rotation-deg 120", exitFailed,
			"never gets to the pins"},
		{"out of reach", tweener + " --arrows 40 --arrows-ft 5 --laydown 1", exitFailed, "no launch up to 20 degrees crosses"},
		{"half a move", "line move --feet 2", exitUsage, "still missing: --target; 0 stays"},
		{"half a board", "line move --feet 2 --target 1.5", exitUsage, "--target 1.5: a move is in whole boards"},
		{"no board", "line move --feet NaN --target 1", exitUsage, "--feet NaN: a move is in whole boards"},
		{"off the lane", "line move --feet -40 --target 1", exitFailed, "the feet cannot move by -40 boards: a lane has 39"},
		{"endless", "line move --feet 2 --target Inf", exitFailed, "the target cannot move by +Inf boards"},
		{"arrows at the foul line", "line move --feet 2 --target 1 --arrows-ft 0", exitFailed, "cannot be 0 ft: give 5 to 30 ft"},
		{"a move's hand", "line move --feet 2 --target 1 --hand Left", exitUsage, "--hand Left: it is right or left"},
		{"no wish", "line wish", exitUsage, "still missing: --at"},
		{"a wish without boards", "line wish --at 42", exitUsage, "--at 42: it is feet and boards, as 42:0 or 60:-1"},
		{"a wish of words", "line wish --at 42:left", exitUsage, "--at 42:left: it is feet and boards"},
		{"a wish's hand", "line wish --at 42:0 --hand both", exitUsage, "--hand both: it is right or left"},
		{"three wishes", "line wish --at 42:0 --at 45:1 --at 60:-1", exitFailed, "a move of feet and target can follow two at most"},
		{"a wish twice", "line wish --at 42:0 --at 42:1", exitFailed, "two wishes at 42 ft: wish for one there"},
		{"a wish behind the pins", "line wish --at 70:0", exitFailed, "a wish at 70 ft: the lane goes from 0 to 63"},
		{"a wish off the lane", "line wish --at 42:NaN", exitFailed, "a wish for NaN boards: the lane has 39"},
		{"a wish and arrows at the foul line", "line wish --at 42:0 --arrows-ft 0", exitFailed, "cannot be 0 ft: give 5 to 30 ft"},
		{"a move and a word", "line move left", exitUsage, `no command "left"`},
		{"no oil", "line rule31", exitUsage, "still missing: --oil-ft"},
		{"too little oil", "line rule31 --oil-ft 31", exitFailed, "names no board for 31 ft of oil: give 32 to 60 ft"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			for _, more := range []string{"", " --json"} {
				var out, errOut bytes.Buffer
				code := run(t.Context(), strings.Fields(test.line+more), nil, &out, &errOut)
				if code != test.code || !strings.Contains(errOut.String(), test.says) {
					t.Errorf("ended with %d, not %d: %q, want %q in it", code, test.code, errOut.String(), test.says)
				}
				if out.Len() > 0 {
					t.Errorf("printed %q", &out)
				}
			}
		})
	}
}

func TestLinePageSaysWhatIsSo(t *testing.T) {
	tests := []struct {
		name, line string
		want       []string
	}{
		{"by the launch", tweener + " --launch-deg 2", []string{"about 2 degrees to the right\n", "about 5 degrees to the left\n",
			"hit          the pocket\n", "board 8.5, at 44 ft\n", "from about 58 ft\n"}},
		{"of a left-hander", tweener + " --launch-deg 2 --hand left", []string{"counted from the left",
			"about 2 degrees to the left\n",
			"about 5 degrees to the right\n", "at 45 ft     board 8.6\n"}},
		{"by the arrows", tweener + " --arrows 15 --arrows-ft 13", []string{
			", over board 15.0 at 13 ft\n", "boards light of the pocket\n"}},
		{"high", tweener + " --launch-deg 1.5", []string{"boards high of the pocket\n"}},
		{"straight", tweener + " --launch-deg 0 --rev-rpm 0 --mu-dry 0.02", []string{"launch       along the boards\n",
			"none, the ball is furthest out at the foul line", "entry        along the boards\n", "not yet at the pins"}},
		{"straight, by the arrows", tweener + " --arrows 20.6 --rev-rpm 0", []string{
			"launch       along the boards, over board 20.6"}},
		{"across", tweener + " --launch-deg 1 --axis-rotation-deg 0", []string{"none, the ball is furthest out at the pins\n",
			"entry        about 1 degree to the right\n"}},
		{"a little", tweener + " --launch-deg 0.3", []string{"less than half a degree to the right\n"}},
		{"off the lane", tweener + " --launch-deg 4 --laydown 8", []string{", off the lane, at ",
			"hit          none, off the lane\n", "is the gutter"}},
		{"off the lane and back", tweener + " --launch-deg 1.5 --laydown 7", []string{", off the lane, at ",
			"boards light of", "is the gutter"}},
		{"a backup ball off the far side and back", tweener + " --launch-deg -2 --laydown 33 --axis-rotation-deg -60",
			[]string{"at 45 ft     board 44.9, off the lane\n", "boards high of", "is the gutter"}},
		{"rule of 31", "line rule31 --oil-ft 39.5", []string{"39.5 ft of oil on board 8.5", "starting point"}},
		{"opened", "line move --feet 8 --target 5", []string{"feet 8 left, target 5 left", "at 45 ft   1.0 board right\n",
			"opens by about 1 degree.", "keeps its board at about 40 ft"}},
		{"of a left-hander, closed", "line move --feet -2 --target -1 --hand left", []string{"feet 2 left, target 1 left",
			"at 45 ft   1.0 board right\n", "closes by less than half a degree.", "at about 30 ft"}},
		{"parallel", "line move --feet 2 --target 2", []string{"The launch angle stays, and the whole line moves alike."}},
		{"nothing", "line move --feet 0 --target 0", []string{": stay.", "Nothing moves."}},
		{"the target alone", "line move --feet 0 --target 2", []string{"feet stay, target 2 left", "turns around the laydown"}},
		{"a pivot behind the foul line", "line move --feet 1 --target 2", []string{"to the same side all the way"}},
		{"a pivot behind the pins", "line move --feet 5 --target 4", []string{"to the same side all the way"}},
	}
	tooFine := regexp.MustCompile(`[0-9]\.[0-9]+ degree|[0-9]\.[0-9]{2}`)
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			page := runIn(t, nil, strings.Fields(test.line)...)
			for _, want := range test.want {
				if !strings.Contains(page, want) && !strings.Contains(unwrapped(page), want) {
					t.Errorf("no %q in\n%s", want, page)
				}
			}
			if found := tooFine.FindString(page); found != "" {
				t.Errorf("%q is finer than anyone knows, in\n%s", found, page)
			}
			if off := strings.Contains(page, "is the gutter"); off != strings.Contains(page, "off the lane") {
				t.Errorf("the gutter is told without a reason, or the other way round:\n%s", page)
			}
		})
	}
}

// Boards are the student's own, so that the two hands differ by the names of the sides and of nothing else.
func TestLinePagesMirror(t *testing.T) {
	swap := strings.NewReplacer("left", "right", "right", "left")
	for _, line := range []string{tweener + " --launch-deg 2", tweener + " --arrows 15", "line move --feet 3 --target -1",
		"line wish --at 42:0 --at 60:-1"} {
		right := runIn(t, nil, strings.Fields(line)...)
		left := runIn(t, nil, strings.Fields(line+" --hand left")...)
		if unwrapped(swap.Replace(right)) != unwrapped(left) {
			t.Errorf("a right-hander reads\n%sand a left-hander\n%s", right, left)
		}
	}
}

// unwrapped gives a page as one line of words.
func unwrapped(page string) string { return strings.Join(strings.Fields(page), " ") }
