package lane

import "math"

// Rule tells what a suggestion comes from.
type Rule uint8

// Learned is the learner's own; TwoClean the rule of two clean misses on the same side, which gives no chances.
const (
	Learned Rule = iota
	TwoClean
)

// Suggestion is what to do with a student's next ball.
type Suggestion struct {
	// Move is the zero move to stay.
	Move Move
	Rule Rule
	// Stay and After are the chances of a hit within a board of the pocket as the line is and after the move, 0 to 1; equal
	// where the suggestion is to stay, 0 with TwoClean.
	Stay, After float64
	// Balls is how many balls it rests on, OnLane how many of them were on the lane of the next ball.
	Balls, OnLane int
	// Silent: too little is known to say anything. Tentative: so few balls that it is a first guess.
	Silent, Tentative bool
}

const (
	// maxReach is the most boards that feet or target move at once.
	maxReach = 6
	// maxShift is the most boards that the straight line moves at shiftFt.
	maxShift = 2.0
	shiftFt  = 45.0
	// rounding keeps a shift of just maxShift within it.
	rounding = 1e-9
	// moveCost is taken off the chance for every board of feet and target; leastGain is what a move has to be worth.
	moveCost  = 0.002
	leastGain = 0.02
	// fewestBalls is when a suggestion stops being tentative.
	fewestBalls = 4
)

// Suggest gives the move of feet and target, in whole boards, for the next ball on a lane on which thrown balls were
// thrown, from the line a that is in force there. Staying is a normal answer. It is tentative before four balls, and silent
// before one on each lane: before two for a student who keeps to one lane, before one where the pair's difference was told.
//
// Of the moves of up to six boards that shift the straight line at 45 ft by two boards at most, it is the one with the best
// chance less 0.002 a board moved, if that is better than staying by 0.02. Where no board of any line was read it is the
// rule of two clean misses. With hits read in words and the boards read badly the learner still speaks: on simulated house
// lanes it does better than that rule, on flat ones neither better nor worse. Of the chances that it states from 0.2 to 0.4,
// those on house lanes are right within 0.01, with hits in words some 0.03 too high; on flat lanes they are too high however
// sharply the hits are read: 0.06 below 0.3 and 0.14 above it, with hits in words 0.09 and 0.16 (TestSimulatedEvenings).
func (l *Learner) Suggest(right bool, thrown int, a Aim) Suggestion {
	n := len(l.balls)
	s := Suggestion{Balls: n, OnLane: l.perLane[laneIndex(right)], Tentative: n < fewestBalls, Silent: !l.speaks()}
	if s.Silent {
		return s
	}
	if l.read == 0 {
		s.Rule, s.Move = TwoClean, TwoCleanMisses(l.balls, right, a)
		return s
	}
	f := l.fit()
	s.Stay = f.chance(l.aimed(right, thrown, a))
	s.After = s.Stay
	best := s.Stay + leastGain
	for _, m := range l.moves(a) {
		chance := f.chance(l.aimed(right, thrown, a.moved(m)))
		boards := math.Abs(float64(m.Feet)) + math.Abs(float64(m.Target))
		if worth := chance - moveCost*boards; worth > best {
			best, s.Move, s.After = worth, m, chance
		}
	}
	return s
}

func (l *Learner) speaks() bool {
	switch {
	case l.pairTold:
		return len(l.balls) > 0
	case l.oneLane:
		return len(l.balls) > 1
	}
	return l.perLane[0] > 0 && l.perLane[1] > 0
}

// moves gives the moves that are searched from a line: the lane's boards bound them.
func (l *Learner) moves(a Aim) []Move {
	var out []Move
	for feet := -maxReach; feet <= maxReach; feet++ {
		for target := -maxReach; target <= maxReach; target++ {
			m := Move{Feet: feet, Target: target}
			near := math.Abs(m.ShiftAt(shiftFt, l.arrowsFt)) <= maxShift+rounding
			if to := a.moved(m); m != (Move{}) && near && hasBoard(to.Target) && hasBoard(to.Laydown) {
				out = append(out, m)
			}
		}
	}
	return out
}

func (a Aim) moved(m Move) Aim {
	return Aim{a.Laydown + float64(m.Feet), a.Target + float64(m.Target)}
}
