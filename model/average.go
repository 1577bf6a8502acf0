package model

// AverageOf gives the average of games from their pins in all: whole pins, the fraction dropped and never rounded up. It is
// not known without a game. Source: American Blind Bowling Association, manual, chapter 11.
func AverageOf(pins, games int) (average int, known bool) {
	if games <= 0 {
		return 0, false
	}
	return pins / games, true
}

// BowledAverage gives the AverageOf the finished games among what was bowled, and over how many it is: 0 over 0 without one.
func BowledAverage(bowled []DatedSheet) (average, games int) {
	pins := 0
	for _, s := range bowled {
		if s.Game.Kind == KindGame && s.Finished() {
			pins += s.Card.Score
			games++
		}
	}
	average, _ = AverageOf(pins, games)
	return average, games
}
