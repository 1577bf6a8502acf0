package lane

import "math"

const (
	// cleanBoards is how far from what was meant a clean ball may lie at the laydown and at the arrows.
	cleanBoards = 1.0
	// missBoards is the least miss at the pins, in boards, that counts.
	missBoards = 2.0
)

// TwoCleanMisses is the rule of thumb for a coach who reads no boards (common practice, no source): when the last two clean
// balls on a lane with the line a missed the pocket on the same side by two boards or more, feet two and target one toward
// that side; else stay. A ball is clean when what was read of its laydown and target lies within a board of what was meant,
// or, with nothing read, when it is marked so. Of hits read in words every one but the pocket is a miss. The balls are in
// order.
func TwoCleanMisses(balls []Ball, right bool, a Aim) Move {
	miss, seen := 0.0, 0
	for i := len(balls) - 1; i >= 0 && seen < 2; i-- {
		b := balls[i]
		if b.Right != right || b.Aim != a || !b.wasClean() {
			continue
		}
		if !b.missed() || miss*b.Hit < 0 {
			return Move{}
		}
		miss = b.Hit
		seen++
	}
	switch {
	case seen < 2:
		return Move{}
	case miss > 0:
		return Move{Feet: 2, Target: 1}
	}
	return Move{Feet: -2, Target: -1}
}

func (b Ball) wasClean() bool {
	if !b.Laydown.Known && !b.Target.Known {
		return b.Clean
	}
	return (!b.Laydown.Known || math.Abs(b.Laydown.Value-b.Aim.Laydown) <= cleanBoards) &&
		(!b.Target.Known || math.Abs(b.Target.Value-b.Aim.Target) <= cleanBoards)
}

// missed tells whether the ball missed the pocket; a hit read in a word other than pocket lies off zero.
func (b Ball) missed() bool {
	if b.HitSD > 0 {
		return b.Hit != 0
	}
	return math.Abs(b.Hit) >= missBoards
}
