package insight

import (
	"slices"

	"coach.settee/model"
)

// EarlierGames is how many finished games from before an evening its figures are held against.
const EarlierGames = 10

// LastGames gives the last n games of what was bowled, in order, without drills, warm-ups and games without a ball.
func LastGames(bowled []model.DatedSheet, n int) []model.DatedSheet {
	return lastOf(bowled, n, isBegun)
}

// LastFinished gives the last EarlierGames finished games of what was bowled, in order.
func LastFinished(bowled []model.DatedSheet) []model.DatedSheet {
	return lastOf(bowled, EarlierGames, func(g model.DatedSheet) bool { return g.Game.Kind == model.KindGame && g.Finished() })
}

// BeforeLastEvening gives LastFinished of what was bowled, in order, before the last evening with a game.
func BeforeLastEvening(bowled []model.DatedSheet) []model.DatedSheet {
	for _, g := range slices.Backward(bowled) {
		if isBegun(g) {
			return LastFinished(without(bowled, func(b model.DatedSheet) bool { return b.Game.Session == g.Game.Session }))
		}
	}
	return nil
}

// FirstEvening gives what was bowled, of what is in order, on the first evening with a game.
func FirstEvening(bowled []model.DatedSheet) []model.DatedSheet {
	for _, g := range bowled {
		if isBegun(g) {
			return without(bowled, func(b model.DatedSheet) bool { return b.Game.Session != g.Game.Session })
		}
	}
	return nil
}

func isBegun(g model.DatedSheet) bool { return g.Game.Kind == model.KindGame && len(g.Deliveries) > 0 }

func lastOf(bowled []model.DatedSheet, n int, counts func(model.DatedSheet) bool) []model.DatedSheet {
	games := without(bowled, func(g model.DatedSheet) bool { return !counts(g) })
	return games[max(len(games)-n, 0):]
}

// without gives a copy of what was bowled that leaves out what is not wanted.
func without(bowled []model.DatedSheet, unwanted func(model.DatedSheet) bool) []model.DatedSheet {
	return slices.DeleteFunc(slices.Clone(bowled), unwanted)
}
