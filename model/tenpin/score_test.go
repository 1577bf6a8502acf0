package tenpin_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"coach.settee/model/tenpin"
)

// published reads a table of testdata/published without its header.
func published(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "published", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

func number(t *testing.T, s string) int {
	t.Helper()
	n, err := strconv.Atoi(s)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// Sources: testdata/published/README.md, by id.
func TestPublishedGames(t *testing.T) {
	rows := published(t, "games.csv")
	if len(rows) != 44 {
		t.Fatalf("%d games, want 44", len(rows))
	}
	for _, row := range rows {
		id, frames, total, running := row[0], row[1], number(t, row[2]), strings.Fields(row[3])
		t.Run(id, func(t *testing.T) {
			card := parse(t, frames)
			if card.Score != total || card.Max != total || !card.Complete {
				t.Errorf("score %d, max %d, complete %v; want %d", card.Score, card.Max, card.Complete, total)
			}
			if len(card.Frames) != 10 {
				t.Fatalf("%d frames", len(card.Frames))
			}
			for i, f := range card.Frames {
				if want := number(t, running[i]); !f.Known || f.Total != want {
					t.Errorf("frame %d: %d (known %v), want %d", i+1, f.Total, f.Known, want)
				}
			}
			if got := card.Notation(); got != frames {
				t.Errorf("written %q, want %q", got, frames)
			}
		})
	}
}

// Sources: a magazine page on counting (19 and 28), a mathematics article (18
// and 26), a general article on the sport (115); the open ends by hand from the
// Universal Playing Rules 2.1.3 to 2.1.6.
func TestTotalsAsTheyBecomeKnown(t *testing.T) {
	const unknown = -1
	tests := []struct {
		game   string
		totals []int
		score  int
	}{
		{"", nil, 0},
		{"9", []int{unknown}, 0},
		{"9-", []int{9}, 9},
		{"9/", []int{unknown}, 0},
		{"9/ 7", []int{17, unknown}, 17},
		{"X", []int{unknown}, 0},
		{"X 9", []int{unknown, unknown}, 0},
		{"X 9-", []int{19, 28}, 28},
		{"X 71", []int{18, 26}, 26},
		{"X X", []int{unknown, unknown}, 0},
		{"X X 4", []int{24, unknown, unknown}, 24},
		{"X X X", []int{30, unknown, unknown}, 30},
		{"X F", []int{unknown, unknown}, 0},
		{"X F/", []int{20, unknown}, 20},
		{"F/ F", []int{10, unknown}, 10},
		{"9- 9- 9- 9- 9- 9- 9- 9- X X", []int{9, 18, 27, 36, 45, 54, 63, 72, unknown, unknown}, 72},
		{"9- 9- 9- 9- 9- 9- 9- 9- X XX", []int{9, 18, 27, 36, 45, 54, 63, 72, 102, unknown}, 102},
		{"9- 9- 9- 9- 9- 9- 9- 9- X XX4", []int{9, 18, 27, 36, 45, 54, 63, 72, 102, 126}, 126},
		{"9- 9- 9- 9- 9- 9- 9- 9- 9/ 8/", []int{9, 18, 27, 36, 45, 54, 63, 72, 90, unknown}, 90},
		{"X 5/ 8- X 9- X 9/ 5", []int{20, 38, 46, 65, 74, 94, 109, unknown}, 109},
	}
	for _, test := range tests {
		t.Run(test.game, func(t *testing.T) {
			card := parse(t, test.game)
			if card.Score != test.score || len(card.Frames) != len(test.totals) {
				t.Fatalf("score %d in %d frames, want %d in %d",
					card.Score, len(card.Frames), test.score, len(test.totals))
			}
			for i, want := range test.totals {
				f := card.Frames[i]
				if f.Known != (want != unknown) || f.Known && f.Total != want {
					t.Errorf("frame %d: %d (known %v), want %d", i+1, f.Total, f.Known, want)
				}
			}
		})
	}
}

// By hand from the rule that a full rack of the frame decides, and that no
// notation says of an unmarked count whether it was a split.
func TestFrameSplit(t *testing.T) {
	tests := []struct {
		game string
		want tenpin.Verdict
	}{
		{"X", tenpin.SplitNo},
		{"9", tenpin.SplitNo},
		{"-", tenpin.SplitNo},
		{"F", tenpin.SplitNo},
		{"F8", tenpin.SplitNo},
		{"8", tenpin.SplitUnknown},
		{"8/", tenpin.SplitUnknown},
		{"1-", tenpin.SplitUnknown},
		{"(8)/", tenpin.SplitYes},
		{strings.Repeat("X ", 9) + "XX9", tenpin.SplitNo},
		{strings.Repeat("X ", 9) + "X9/", tenpin.SplitNo},
		{strings.Repeat("X ", 9) + "X7/", tenpin.SplitUnknown},
		{strings.Repeat("X ", 9) + "XX7", tenpin.SplitUnknown},
		{strings.Repeat("X ", 9) + "X(7)2", tenpin.SplitYes},
		{strings.Repeat("X ", 9) + "7/(8)", tenpin.SplitYes},
		{strings.Repeat("X ", 9) + "(7)/8", tenpin.SplitYes},
	}
	for _, test := range tests {
		t.Run(test.game, func(t *testing.T) {
			card := parse(t, test.game)
			if got := card.Frames[len(card.Frames)-1].Split; got != test.want {
				t.Errorf("got %v, want %v", got, test.want)
			}
		})
	}
}

func TestKnownLeavesDecideTheSplit(t *testing.T) {
	tests := []struct {
		name string
		ball tenpin.Ball
		want tenpin.Verdict
		mark string
	}{
		{"7-10", tenpin.Ball{Pins: 8, After: tenpin.Standing(tenpin.Pins(7, 10))}, tenpin.SplitYes, "(8)"},
		{"2-8", tenpin.Ball{Pins: 8, After: tenpin.Standing(tenpin.Pins(2, 8))}, tenpin.SplitNo, "8"},
		{"2-8 against the record", tenpin.Ball{Pins: 8, After: tenpin.Standing(tenpin.Pins(2, 8)), Split: tenpin.SplitYes},
			tenpin.SplitNo, "8"},
		{"not known", tenpin.Ball{Pins: 8}, tenpin.SplitUnknown, "8"},
		{"not known, marked", tenpin.Ball{Pins: 8, Split: tenpin.SplitYes}, tenpin.SplitYes, "(8)"},
		{"not known, said to be none", tenpin.Ball{Pins: 8, Split: tenpin.SplitNo}, tenpin.SplitNo, "8"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			card, err := tenpin.Score([]tenpin.Ball{test.ball})
			if err != nil {
				t.Fatal(err)
			}
			if got := card.Frames[0].Split; got != test.want {
				t.Errorf("split %v, want %v", got, test.want)
			}
			if got := card.Notation(); got != test.mark {
				t.Errorf("written %q, want %q", got, test.mark)
			}
		})
	}
}

// A second ball never leaves a split, whatever stands (USBC playing rule 2h).
func TestASecondBallLeavesNoSplit(t *testing.T) {
	card, err := tenpin.Score([]tenpin.Ball{
		{Pins: 0, After: tenpin.Standing(tenpin.AllPins)},
		{Pins: 8, After: tenpin.Standing(tenpin.Pins(7, 10))},
	})
	if err != nil {
		t.Fatal(err)
	}
	if card.Frames[0].Split != tenpin.SplitNo || card.Notation() != "-8" {
		t.Errorf("split %v, written %q", card.Frames[0].Split, card.Notation())
	}
}

func TestScoreKeepsNoHoldOfItsBalls(t *testing.T) {
	balls := []tenpin.Ball{{Pins: 7}, {Pins: 2}}
	card, err := tenpin.Score(balls)
	if err != nil {
		t.Fatal(err)
	}
	balls[0].Pins = 1
	if got := card.Notation(); got != "72" {
		t.Errorf("the card changed to %q", got)
	}
}

// The score is counted anew at every keystroke: one slice for the balls, one for
// the frames.
func TestScoreAllocatesTwice(t *testing.T) {
	balls := slices.Repeat([]tenpin.Ball{{Pins: 9, After: tenpin.Standing(tenpin.Pins(10))}, {Pins: 1}}, 10)
	allocations := testing.AllocsPerRun(100, func() {
		if _, err := tenpin.Score(balls); err != nil {
			t.Fatal(err)
		}
	})
	if allocations > 2 {
		t.Errorf("%v allocations", allocations)
	}
}

func parse(t *testing.T, game string) tenpin.Card {
	t.Helper()
	card, err := tenpin.Parse(game)
	if err != nil {
		t.Fatal(err)
	}
	return card
}

func BenchmarkScore(b *testing.B) {
	card, err := tenpin.Parse("9/ 9/ 9/ 9/ 9/ 9/ 9/ 9/ 9/ 9/9")
	if err != nil {
		b.Fatal(err)
	}
	var balls []tenpin.Ball
	for _, f := range card.Frames {
		balls = append(balls, f.Balls...)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := tenpin.Score(balls); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkScoreFirstBall(b *testing.B) {
	balls := []tenpin.Ball{{Pins: 9, After: tenpin.Standing(tenpin.Pins(10))}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := tenpin.Score(balls); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkParse(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := tenpin.Parse("X X X 72 (8)/ F9 X 7/ 9- XX8"); err != nil {
			b.Fatal(err)
		}
	}
}
