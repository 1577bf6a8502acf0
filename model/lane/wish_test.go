package lane_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// By hand, target at 15 ft: the shift is -1.8 feet + 2.8 target at 42 ft and -3 feet + 4 target at 60.
func TestFitMoves(t *testing.T) {
	tests := []struct {
		name   string
		wishes []lane.Wish
		want   lane.Move
		over   []float64
	}{
		{"breakpoint stays, a board right at the pins", []lane.Wish{{42, 0}, {60, -1}}, lane.Move{Feet: 3, Target: 2}, []float64{.2, 0}},
		{"exactly", []lane.Wish{{40, 0}, {45, -1}}, lane.Move{Feet: 8, Target: 5}, []float64{0, 0}},
		{"in the other order", []lane.Wish{{45, -1}, {40, 0}}, lane.Move{Feet: 8, Target: 5}, []float64{0, 0}},
		{"one wish takes the smallest move", []lane.Wish{{60, -3}}, lane.Move{Feet: 1}, []float64{0}},
		{"feet before target", []lane.Wish{{30, -1.5}}, lane.Move{Feet: 1}, []float64{.5}},
		{"equal but for the last digit", []lane.Wish{{31, -3.1}}, lane.Move{Feet: 1, Target: -1}, []float64{-1. / 30}},
		{"nothing to do", []lane.Wish{{42, 0}, {60, 0}}, lane.Move{}, []float64{0, 0}},
		{"less than half a board", []lane.Wish{{60, .4}}, lane.Move{}, []float64{-.4}},
		{"beyond what is reckoned", []lane.Wish{{15, 20}}, lane.Move{Target: 8}, []float64{-12}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := lane.FitMoves(tt.wishes, 15)
			if err != nil || len(got) != 3 || got[0].Move != tt.want {
				t.Fatalf("%+v, %v", got, err)
			}
			for i, want := range tt.over {
				if o := got[0].Over[i]; o.Ft != tt.wishes[i].Ft || math.Abs(o.Boards-want) > 1e-9 {
					t.Errorf("left over %+v, want %v", got[0].Over, tt.over)
				}
			}
		})
	}
}

func TestFitMovesAreTheNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		arrows := rapid.Float64Range(12, 17).Draw(t, "target at")
		first := lane.Wish{Ft: rapid.Float64Range(30, 45).Draw(t, "ft"), Boards: rapid.Float64Range(-6, 6).Draw(t, "boards")}
		second := lane.Wish{Ft: 60, Boards: rapid.Float64Range(-8, 8).Draw(t, "at the pins")}
		got, err := lane.FitMoves([]lane.Wish{first, second}, arrows)
		if err != nil {
			t.Fatal(err)
		}
		far := func(m lane.Move) float64 {
			a, b := m.ShiftAt(first.Ft, arrows)-first.Boards, m.ShiftAt(60, arrows)-second.Boards
			return a*a + b*b
		}
		nearer := 0
		for feet := -8; feet <= 8; feet++ {
			for target := -8; target <= 8; target++ {
				if far(lane.Move{Feet: feet, Target: target}) < far(got[2].Move)-1e-8 {
					nearer++
				}
			}
		}
		if nearer > 2 || far(got[0].Move) > far(got[1].Move)+1e-8 || far(got[1].Move) > far(got[2].Move)+1e-8 {
			t.Fatalf("%d moves are nearer than the third of %+v", nearer, got)
		}
	})
}

func TestFitMovesInWords(t *testing.T) {
	got, err := lane.FitMoves([]lane.Wish{{60, -1}, {42, 0}}, 15)
	if err != nil {
		t.Fatal(err)
	}
	for hand, want := range map[model.Hand]string{
		model.RightHand: "feet 3 left, target 2 left: as wished at 60 ft, 0.2 left of it at 42 ft",
		model.LeftHand:  "feet 3 right, target 2 right: as wished at 60 ft, 0.2 right of it at 42 ft",
	} {
		if words := got[0].Words(hand); words != want {
			t.Errorf("%q, want %q", words, want)
		}
	}
	short, err := lane.FitMoves([]lane.Wish{{60, .4}}, 15)
	if words := short[0].Words(model.RightHand); err != nil || words != "stay: 0.4 right of it at 60 ft" {
		t.Errorf("%q, %v", words, err)
	}
}

func TestFitMovesRefused(t *testing.T) {
	for words, wishes := range map[string][]lane.Wish{
		"nothing is wished for":     nil,
		"3 wishes":                  {{40, 0}, {45, 0}, {60, 0}},
		"a wish at -1 ft":           {{-1, 0}},
		"a wish at 64 ft":           {{64, 0}},
		"a wish at NaN ft":          {{math.NaN(), 0}},
		"a wish for 40 boards":      {{60, 40}},
		"a wish for NaN boards":     {{60, math.NaN()}},
		"two wishes at 60 ft: wish": {{60, 1}, {60, 2}},
	} {
		if got, err := lane.FitMoves(wishes, 15); err == nil || !strings.Contains(err.Error(), words) || got != nil {
			t.Errorf("%v: %v, %v", wishes, got, err)
		}
	}
}
