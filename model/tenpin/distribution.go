package tenpin

// ScoreChances gives the chance of each score 0 to 300 of a game. chance is
// that of felling exactly so many pins with the ball at that position; for each
// position they sum to 1 over 0 to its StandingCount. The positions name no
// pins. It is exact but for the rounding of float64; chances that do not sum to
// 1 are taken as weights.
func ScoreChances(chance func(at Position, pins int) float64) [301]float64 {
	over := sweep([301]float64{1}, func(at Position, pins, points int, from, to *[301]float64) {
		c := chance(at, pins)
		if c == 0 {
			return
		}
		sums := to[points:]
		for score := range sums {
			sums[score] += c * from[score]
		}
	})
	return *over
}

// ExpectedScore gives the mean of ScoreChances without them: a ball's points,
// each as often as it comes about.
func ExpectedScore(chance func(at Position, pins int) float64) float64 {
	mean := 0.0
	sweep(1.0, func(at Position, pins, points int, from, to *float64) {
		if *from == 0 {
			return
		}
		c := *from * chance(at, pins)
		mean += c * float64(points)
		*to += c
	})
	return mean
}

// sweep takes start through all that can fall in a game and gives what has come
// together at its end. It comes to every position once, after all those that
// lead to it and in the same order each time. There hand is called for each
// number of pins, with the points that they bring: it adds what from holds to
// what comes after.
func sweep[T any](start T, hand func(at Position, pins, points int, from, to *T)) *T {
	type place struct {
		at   Position
		held *T
	}
	var balls [3 * 10][]place
	over := new(T)
	held := func(p Position) *T {
		if p.Over() {
			return over
		}
		ball := &balls[3*int(p.frame)+int(p.ball)]
		for _, to := range *ball {
			if to.at == p {
				return to.held
			}
		}
		*ball = append(*ball, place{p, new(T)})
		return (*ball)[len(*ball)-1].held
	}
	*held(Position{}) = start
	for i := range balls {
		for _, from := range balls[i] {
			for pins := range from.at.StandingCount() + 1 {
				next, points, err := from.at.Next(Ball{Pins: pins})
				if err == nil {
					hand(from.at, pins, points, from.held, held(next))
				}
			}
		}
	}
	return over
}
