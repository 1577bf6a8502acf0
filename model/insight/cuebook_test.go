package insight

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"coach.settee/model"
)

func TestCuesOverSeveralStudents(t *testing.T) {
	ada := []model.DatedSheet{
		game(t, 0, 1, slices.Concat(strikes("0010"), cued("soft hand", strikes("110")...))...),
		game(t, 1, 1, slices.Concat(strikes("0"), cued("eyes up", strikes("1")...))...),
		sheet(t, model.Game{Kind: model.KindDrill, Length: 3}, 1, 2, cued("not in a game", times(3, ball(10, "AAAA"))...)...),
	}
	bo := []model.DatedSheet{
		game(t, 0, 1, slices.Concat(strikes("01"), cued("soft hand", strikes("11")...), cued("chin down", strikes("111")...))...),
	}
	want := []CueEffect{
		{Cue: "soft hand", Uses: 2, Evenings: 2, Compared: 2, Before: Part{2, 5}, Since: Part{4, 5}, InForce: 5},
		{Cue: "chin down", Uses: 1, Evenings: 1, Compared: 1, Before: Part{3, 3}, Since: Part{3, 3}, InForce: 3},
		{Cue: "eyes up", Uses: 1, Evenings: 1, Compared: 1, Before: Part{0, 1}, Since: Part{1, 1}, InForce: 1},
	}
	for i := range want {
		want[i].Better = model.Known(Better(want[i].Before, want[i].Since, cuePrior, cuePrior))
	}
	for name, students := range map[string][][]model.DatedSheet{"as they are": {ada, bo}, "the other way": {bo, nil, ada}} {
		t.Run(name, func(t *testing.T) {
			if diff := cmp.Diff(want, CuesOver(students)); diff != "" {
				t.Error(diff)
			}
		})
	}
	if got := CuesOver(nil); got != nil {
		t.Errorf("of nobody %v", got)
	}
}

func TestCuesOverOneAreThoseOfTheReport(t *testing.T) {
	games := []model.DatedSheet{
		game(t, 0, 1, slices.Concat(strikes("0010"), cued("soft hand", strikes("110")...))...),
		game(t, 1, 1, slices.Concat(strikes("0"), cued("soft hand", strikes("1")...))...),
	}
	if diff := cmp.Diff(cuesOf(games), CuesOver([][]model.DatedSheet{games})); diff != "" {
		t.Error(diff)
	}
}
