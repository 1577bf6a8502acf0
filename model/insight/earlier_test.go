package insight

import (
	"slices"
	"testing"

	"coach.settee/model"
)

func TestWhatWasBowledEarlier(t *testing.T) {
	var whole []model.Delivery
	for range 12 {
		whole = append(whole, ball(10, "AAAA"))
	}
	warmup := func(evening int) model.DatedSheet {
		return sheet(t, model.Game{Kind: model.KindWarmup}, evening, 9, ball(0, ""))
	}
	bowled := []model.DatedSheet{
		warmup(0), game(t, 0, 1), game(t, 1, 1, whole...), game(t, 1, 2, ball(10, "AAAA")), warmup(1),
		game(t, 2, 1, whole...), game(t, 2, 2), warmup(3),
	}
	before := slices.Clone(bowled)
	for _, c := range []struct {
		of        string
		got, want []model.DatedSheet
	}{
		{"the first evening", FirstEvening(bowled), bowled[2:5]},
		{"the last two games", LastGames(bowled, 2), []model.DatedSheet{bowled[3], bowled[5]}},
		{"more games than there are", LastGames(bowled, 9), []model.DatedSheet{bowled[2], bowled[3], bowled[5]}},
		{"the finished", LastFinished(bowled), []model.DatedSheet{bowled[2], bowled[5]}},
		{"before the last evening with a game", BeforeLastEvening(bowled), bowled[2:3]},
		{"before the first", BeforeLastEvening(bowled[:5]), nil},
		{"the first evening of none", FirstEvening(bowled[:2]), nil},
		{"before none", BeforeLastEvening(nil), nil},
	} {
		if !slices.Equal(c.got, c.want) {
			t.Errorf("%s: %d sheets, want %d", c.of, len(c.got), len(c.want))
		}
	}
	if !slices.Equal(bowled, before) {
		t.Error("what was bowled is changed")
	}
	many := make([]model.DatedSheet, EarlierGames+3)
	for i := range many {
		many[i] = game(t, i, 1, whole...)
	}
	if got := LastFinished(many); !slices.Equal(got, many[3:]) {
		t.Errorf("%d finished games", len(got))
	}
}
