package insight

import "coach.settee/model"

// OfferedGoal gives the goal that is offered after a student's first two games: their mean good count plus one, to the
// half, at most 10. Games are what was bowled, in order; a game with an unseen full rack has no good count and is passed
// over. It is not known before two finished games of which every full rack was seen. Source: common practice, no source.
func OfferedGoal(bowled []model.DatedSheet) model.Optional[model.Goal] {
	const games, highest = 2, 10
	good, seen := 0, 0
	for _, g := range bowled {
		if g.Game.Kind != model.KindGame || !g.Finished() || g.Tally.Seen != g.Tally.Racks {
			continue
		}
		good += g.Tally.Good
		if seen++; seen == games {
			// The mean of two is a number of halves.
			goal, err := model.GoalOf(min(float64(good)/games+1, highest))
			return model.Optional[model.Goal]{Value: goal, Known: err == nil}
		}
	}
	return model.Optional[model.Goal]{}
}
