package lane_test

import (
	"math"
	"math/rand/v2"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// reading is how a coach reads: standard deviations in boards before the rounding to whole boards.
type reading struct {
	laydown, target, hit float64
	// words: the hit is read in a word. off is how far one lane's arrows are read off throughout.
	words bool
	off   float64
}

var (
	sharp = reading{laydown: 0.4, target: 0.3, hit: 0.5}
	// coarse is the coach who names hits, reads arrows to a board and a half, and one lane's a board off.
	coarse = reading{laydown: 0.4, target: 1.5, hit: 0.5, words: true, off: 1}
)

// read gives what the coach notes of a ball.
func (c reading) read(b lane.Ball, went lane.Aim, hit float64, r *rand.Rand) lane.Ball {
	off := 0.0
	if b.Right {
		off = c.off
	}
	b.Laydown = model.Known(math.RoundToEven(went.Laydown + c.laydown*r.NormFloat64()))
	b.Target = model.Known(math.RoundToEven(went.Target + off + c.target*r.NormFloat64()))
	b.Clean = math.Abs(went.Laydown-b.Aim.Laydown) <= 1 && math.Abs(went.Target-b.Aim.Target) <= 1
	seen := max(-8, min(8, hit)) + c.hit*r.NormFloat64()
	b.Hit = math.RoundToEven(seen)
	if c.words {
		e, _ := lane.HitInWords(wordFor(seen))
		b.Hit, b.HitSD = e.Mean, e.SD
	}
	return b
}

// wordFor names a hit in boards: the head pin is struck full at 2.5, missed beyond 3.76 on the light side (geometry).
func wordFor(hit float64) model.Hit {
	switch {
	case hit < -3.76:
		return model.Missed
	case hit < -0.75:
		return model.Light
	case hit <= 0.75:
		return model.Pocket
	case hit <= 1.9:
		return model.High
	case hit <= 3.1:
		return model.Nose
	}
	return model.Brooklyn
}
