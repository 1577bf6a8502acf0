package insight

import (
	"testing"

	"coach.settee/model"
)

// finished makes a game of twelve strikes of which so many are good and so many, the last ones, were not seen.
func finished(t *testing.T, number, good, unseen int) model.DatedSheet {
	t.Helper()
	var balls []model.Delivery
	for i := range 12 {
		switch {
		case i >= 12-unseen:
			balls = append(balls, ball(10, ""))
		case i < good:
			balls = append(balls, ball(10, "AAAA"))
		default:
			balls = append(balls, ball(10, "FAAA"))
		}
	}
	return game(t, 0, number, balls...)
}

func TestOfferedGoal(t *testing.T) {
	unfinished := func(number int) model.DatedSheet { return game(t, 0, number, times(5, ball(10, "AAAA"))...) }
	drill := func(number int) model.DatedSheet {
		return sheet(t, model.Game{Kind: model.KindDrill, Length: 3}, 0, number, times(3, ball(10, "AAAA"))...)
	}
	tests := []struct {
		name   string
		bowled []model.DatedSheet
		want   float64
	}{
		{"3 and 4 good", []model.DatedSheet{finished(t, 1, 3, 0), finished(t, 2, 4, 0)}, 4.5},
		{"5 and 5 good", []model.DatedSheet{finished(t, 1, 5, 0), finished(t, 2, 5, 0)}, 6},
		{"none good", []model.DatedSheet{finished(t, 1, 0, 0), finished(t, 2, 0, 0)}, 1},
		{"as high as goals go", []model.DatedSheet{finished(t, 1, 9, 0), finished(t, 2, 9, 0)}, 10},
		{"no higher than that", []model.DatedSheet{finished(t, 1, 12, 0), finished(t, 2, 12, 0)}, 10},
		{"later games do not move it", []model.DatedSheet{finished(t, 1, 3, 0), finished(t, 2, 4, 0), finished(t, 3, 9, 0)}, 4.5},
		{"a game with a rack unseen is passed over",
			[]model.DatedSheet{finished(t, 1, 3, 0), finished(t, 2, 8, 1), finished(t, 3, 4, 0)}, 4.5},
		{"so are drills and games not finished",
			[]model.DatedSheet{drill(1), unfinished(2), finished(t, 3, 3, 0), drill(4), finished(t, 5, 4, 0)}, 4.5},
		{"one game", []model.DatedSheet{finished(t, 1, 3, 0), unfinished(2)}, 0},
		{"nothing", nil, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := OfferedGoal(tt.bowled)
			if got.Known != (tt.want > 0) || got.Value.Shots() != tt.want {
				t.Errorf("%v (%v), want %v", got.Value.Shots(), got.Known, tt.want)
			}
		})
	}
}
