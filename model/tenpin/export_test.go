package tenpin

import "math/big"

// CountGames counts, for each score 0 to 300, the games that have it. Games
// differ by the number of pins that each ball fells; fouls and the pins' names
// make no difference. There are 66^9 x 241 in all (OEIS A060853). It sums whole
// numbers by the sweep from which ScoreChances and ExpectedScore have theirs,
// so that a published table checks the walk through a game.
func CountGames() [301]*big.Int {
	var start [301]big.Int
	start[0].SetInt64(1)
	over := sweep(start, func(_ Position, _, points int, from, to *[301]big.Int) {
		for score := range from {
			if from[score].Sign() > 0 {
				to[score+points].Add(&to[score+points], &from[score])
			}
		}
	})
	var counts [301]*big.Int
	for score := range counts {
		counts[score] = &over[score]
	}
	return counts
}
