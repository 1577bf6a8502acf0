package tenpin

import "math/big"

// CountGames counts, for each score 0 to 300, the games that have it. Games
// differ by the number of pins that each ball fells; fouls and the pins' names
// make no difference. There are 66^9 x 241 in all (OEIS A060853).
func CountGames() [301]*big.Int {
	waiting := map[Position]*tally{{}: startTally()}
	var over tally
	for frame := 1; frame <= 10; frame++ {
		for ball := 1; ball <= 3; ball++ {
			for p, t := range waiting {
				if p.Frame() == frame && p.BallInFrame() == ball {
					delete(waiting, p)
					t.push(p, waiting, &over)
				}
			}
		}
	}
	var counts [301]*big.Int
	for score := range counts {
		counts[score] = &over[score]
	}
	return counts
}

// tally counts the ways to a position by the points that they bring.
type tally [301]big.Int

// startTally has the one way to the start of a game: no ball, no points.
func startTally() *tally {
	var t tally
	t[0].SetInt64(1)
	return &t
}

// push bowls every number of pins that can fall at p and adds the ways to what
// comes after.
func (t *tally) push(p Position, waiting map[Position]*tally, over *tally) {
	for pins := 0; pins <= p.StandingCount(); pins++ {
		next, points, err := p.Next(Ball{Pins: pins})
		if err != nil {
			continue
		}
		to := over
		if !next.Over() {
			if waiting[next] == nil {
				waiting[next] = new(tally)
			}
			to = waiting[next]
		}
		to.add(t, points)
	}
}

// add adds the ways of t, each with these points more.
func (t *tally) add(ways *tally, points int) {
	for score := range ways {
		if ways[score].Sign() > 0 {
			t[score+points].Add(&t[score+points], &ways[score])
		}
	}
}
