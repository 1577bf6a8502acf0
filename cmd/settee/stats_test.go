package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// twoGames imports the export of the story for stats and gives what the command prints over it, with more arguments.
func twoGames(t *testing.T, args ...string) string {
	t.Helper()
	story, err := os.ReadFile(filepath.Join("..", "..", "testdata", "scripts", "stats.txtar"))
	if err != nil {
		t.Fatal(err)
	}
	_, export, ok := strings.Cut(string(story), "-- games.jsonl --\n")
	if !ok {
		t.Fatal("the story has no games.jsonl")
	}
	path := filepath.Join(t.TempDir(), "lessons.db")
	runIn(t, strings.NewReader(export), "import", "--store", path, "-")
	return runIn(t, nil, append([]string{"stats", "--store", path}, args...)...)
}

// runIn runs the program in this process and gives what it prints.
func runIn(t *testing.T, in io.Reader, args ...string) string {
	t.Helper()
	var out, errOut bytes.Buffer
	if code := run(t.Context(), args, in, &out, &errOut); code != exitDone {
		t.Fatalf("settee %v ended with %d: %s", args, code, errOut.String())
	}
	return out.String()
}

// byHand holds figures of the two games of the story that were worked with pencil and paper from the sheets in it.
var byHand = []struct {
	path string
	want float64
}{
	{"games", 2},
	// Game g1 has 12 full racks (XX in the tenth), all seen, 5 good; g2 has 12, 10 seen, 3 good. All A's in three of them.
	{"counts.racks_seen", 22}, {"counts.good", 8}, {"counts.rate", 8. / 22}, {"counts.untouched", 3},
	{"counts.untouched_good", 3}, {"counts.racks_unseen", 2}, {"counts.fouls", 0},
	// Seven spare shots of g1 and two of nine of g2 were seen; AAAA in four of them.
	{"counts.spare_shots_seen", 9}, {"counts.spare_shots_good", 4}, {"counts.spare_shots_unseen", 7},
	// 40 balls, a dead one, one of the warm-up and one of the drill.
	{"counts.load", 43},
	{"outcome.earned", 3}, {"outcome.unlucky", 5}, {"outcome.lucky", 3}, {"outcome.missed", 11},
	{"outcome.strike_when_good", 3. / 8}, {"outcome.strike_when_poor", 3. / 14}, {"outcome.difference", 9. / 56},
	// Strikes among the good by the hypergeometric distribution of 6 in 22 with 8 good: of C(22,6) = 74613 there are
	// 3003, 16016, 28028, 20384, 6370, 784, 28 for 0 to 6; those no more likely than 3 are all but 2.
	{"outcome.fisher_p", 1 - 28028./74613},
	// Hits were read on eight racks; four words and 0.5 boards are pockets, two of the five struck.
	{"outcome.pocket.hits", 5}, {"outcome.pocket.racks", 8}, {"outcome.pocket.strikes", 2}, {"outcome.carry", .4},
	// With even weights and the bar at A- a shot is good with one B at most. Single axes cost 2, 1, 5, 4 shots; ABBA takes
	// half from target and half from release; CBAB needs balance, and target or finish: 2/3, 1/6, 1/6.
	{"cost.balance", 8. / 3}, {"cost.target", 5. / 3}, {"cost.release", 5.5}, {"cost.finish", 25. / 6}, {"cost.not_good", 14},
	{"cost.side.in", 1}, {"cost.side.in_boards", 1}, {"cost.side.out", 0}, {"cost.pattern.count", 5},
	// The cue was given before g2: the last ten of g1, the ten seen of g2.
	{"cues.0.evenings", 1}, {"cues.0.before.good", 4}, {"cues.0.before.racks", 10}, {"cues.0.since.good", 3},
	{"cues.0.since.racks", 10},
	// The first ten shots have 36.5 points and squares that sum to 0.4 around their mean; 3 sd times sqrt(.2/1.8) is 1 sd.
	{"slipping.points.0", 4}, {"slipping.points.1", 3.5}, {"slipping.target", 3.65}, {"slipping.sd", math.Sqrt(.4 / 9)},
	{"slipping.limits.0", 3.65 - math.Sqrt(.4/9)}, {"slipping.limits.1", 3.65 + math.Sqrt(.4/9)}, {"slipping.load", 43},
	// Own and coach's: A A, A B+, A- A-, A- B+, B B+, A B+. Squares of steps apart 0 4 0 1 1 4, mean 10/6; over all
	// pairings 13/6.
	{"own_call.calls", 6}, {"own_call.kappa", 3. / 13}, {"own_call.mean_difference", .25}, {"own_call.kinder", 3},
	{"own_call.harder", 1},
	// Boards off the mark 0.5, 0, 1; hits 1.5 and 0.5 from the pocket.
	{"consistency.arrows.n", 3}, {"consistency.arrows.bias", .5}, {"consistency.arrows.sd", .5},
	{"consistency.arrows.within_one", 1}, {"consistency.hit.bias", 1}, {"consistency.hit.sd", math.Sqrt(.5)},
	{"consistency.hit.within_one", .5},
	{"spares.single.made", 6}, {"spares.single.tried", 8}, {"spares.multi.made", 3}, {"spares.multi.tried", 6},
	{"spares.split.made", 0}, {"spares.split.tried", 1}, {"spares.unnamed.tried", 1}, {"spares.leaves.0.made", 3},
	{"spares.leaves.0.tried", 5}, {"spares.open_frames", 7}, {"spares.frames", 20},
	// g1 is GNGNNNGNNGNG; g2 is GN, unseen, NNN, unseen, NGGNN: nobody is a neighbour across what was not seen.
	{"streaks.good_after_good.good", 1}, {"streaks.good_after_good.racks", 7}, {"streaks.good_after_poor.good", 5},
	{"streaks.good_after_poor.racks", 11}, {"streaks.runs", 9 + 4}, {"streaks.runs_expected", 1 + 70./12 + 1 + 42./10},
	// The scores are those of `settee score '9/ 72 X 9/ X 62 9- 8/ 7/ XX9'` and '9/ 8/ 9/ 63 9/ 81 81 9/ 9- XX9'.
	{"trend.games.0.score", 167}, {"trend.games.1.score", 155}, {"trend.weeks.0.score", 161}, {"trend.baseline.good", 4},
	{"trend.baseline.seen", 10}, {"trend.games.1.axes.balance", 35. / 10}, {"by_game.0.counts.good", 5},
	{"drills.0.made", 1},
}

func TestStatsByHand(t *testing.T) {
	var got any
	if err := json.Unmarshal([]byte(twoGames(t, "ada", "--json")), &got); err != nil {
		t.Fatal(err)
	}
	for _, test := range byHand {
		switch v, ok := at(got, test.path).(float64); {
		case !ok:
			t.Errorf("%s is %v", test.path, at(got, test.path))
		case math.Abs(v-test.want) > 1e-12*max(1, math.Abs(test.want)):
			t.Errorf("%s is %v, want %v", test.path, v, test.want)
		}
	}
	for path, want := range map[string]any{
		"trend.games.0.at": "2026-03-04T18:00:00Z", "spares.leaves.0.leave": "10", "slipping.since": nil,
		"next.what": "release", "trend.games.0.level": "advanced",
	} {
		if v := at(got, path); v != want {
			t.Errorf("%s is %v, want %v", path, v, want)
		}
	}
}

// at gives what is at a path of keys and places of a read JSON value, nil where there is nothing.
func at(v any, path string) any {
	for _, step := range strings.Split(path, ".") {
		switch in := v.(type) {
		case map[string]any:
			v = in[step]
		case []any:
			i, err := strconv.Atoi(step)
			if err != nil || i >= len(in) {
				return nil
			}
			v = in[i]
		default:
			return nil
		}
	}
	return v
}

// The whole of it beside the golden file, in which byHand holds what was not taken from the program. Numbers may differ in
// the last places: machines round them differently.
func TestStatsGolden(t *testing.T) {
	path := filepath.Join("..", "..", "testdata", "exports", "two-games.stats.json")
	var got bytes.Buffer
	if err := json.Indent(&got, []byte(twoGames(t, "ada", "--json", "--reach", "200")), "", "  "); err != nil {
		t.Fatal(err)
	}
	if f := flag.Lookup("update"); f != nil && f.Value.String() == "true" {
		if err := os.WriteFile(path, got.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	g, w := ordered(t, got.Bytes()), ordered(t, want)
	if len(g) != len(w) {
		t.Fatalf("%d keys, ends and values, want %d (-update writes them anew)", len(g), len(w))
	}
	for i := range g {
		a, isNumber := g[i].(float64)
		b, also := w[i].(float64)
		if isNumber && also && math.Abs(a-b) <= 1e-9*max(1, math.Abs(b)) {
			continue
		}
		if g[i] != w[i] {
			t.Fatalf("%v where %v is wanted, after %v (-update writes them anew)", g[i], w[i], w[max(0, i-8):i])
		}
	}
}

// ordered gives the tokens of a JSON text.
func ordered(t *testing.T, text []byte) []json.Token {
	t.Helper()
	var out []json.Token
	for d := json.NewDecoder(bytes.NewReader(text)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return out
		}
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, token)
	}
}
