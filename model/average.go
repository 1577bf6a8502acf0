package model

// AverageOf gives the average of games from their pins in all: whole pins, the fraction dropped and never rounded up. It is
// not known without a game. Source: American Blind Bowling Association, manual, chapter 11.
func AverageOf(pins, games int) (average int, known bool) {
	if games <= 0 {
		return 0, false
	}
	return pins / games, true
}
