package lane

import (
	"math"

	"coach.settee/model/tenpin"
)

// Radii in inches: the ball's is half of 8.55, within the rules of the game; the pin's is at its belly, 4.766 across, from
// memory.
const (
	ballRadiusIn = 4.275
	pinRadiusIn  = 2.383
)

// ballReach and pinReach are the boards between the middles of ball and pin, and of two pins, as they touch.
const (
	ballReach = (ballRadiusIn + pinRadiusIn) / BoardIn
	pinReach  = 2 * pinRadiusIn / BoardIn
)

// hitsPin tells whether a ball touches a pin that its middle passes by so many boards, on either side.
func hitsPin(boards float64) bool { return math.Abs(boards) < ballReach }

// deckBall is a ball on the pin deck, going straight: the board on which its middle crosses PinsFt, and the boards that it
// rises for each board that it goes on.
type deckBall struct{ board, slope float64 }

func pocketBall(entryDeg float64) deckBall {
	return deckBall{Pocket, math.Tan(radians(entryDeg))}
}

func (b deckBall) at(ft float64) float64 { return b.board + b.slope*(ft-PinsFt)*12/BoardIn }

// through gives the ball on the same course that crosses a board at a distance.
func (b deckBall) through(board, ft float64) deckBall {
	b.board += board - b.at(ft)
	return b
}

// onLane tells whether the ball's middle is between the gutters where the pins of a leave stand.
func (b deckBall) onLane(leave tenpin.PinSet) bool {
	for n := 1; n <= 10; n++ {
		if leave.Has(n) && !OnLane(b.on(spots[n])) {
			return false
		}
	}
	return true
}

// flight is a pin that was hit and where it goes: a unit vector across and along the lane.
type flight struct {
	from          spot
	across, along float64
}

// spot is a place on the deck in boards, along counted from the head pin.
type spot struct{ across, along float64 }

// spots are where a right-hander's pins stand, by their numbers.
var spots = func() (s [11]spot) {
	for pin := 1; pin <= 10; pin++ {
		board, ft := PinAt(pin)
		s[pin] = spot{board, (ft - PinsFt) * 12 / BoardIn}
	}
	return s
}()

// on gives the board of the ball's middle as far along as a spot.
func (b deckBall) on(s spot) float64 { return b.board + b.slope*s.along }

// takes tells whether a ball clears a leave, in a right-hander's pins, by first contacts alone. The ball goes straight on
// through every pin within its reach; each pin that is hit flies along the line of the middles, and so does the first that
// it hits. Left out are the ball's deflection, the pins' way after they have hit, messengers, and the side walls.
func (b deckBall) takes(leave tenpin.PinSet) bool {
	var flying []flight
	standing := leave
	for n := 1; n <= 10; n++ {
		at := spots[n]
		outside := at.across - b.on(at)
		if !leave.Has(n) || !hitsPin(outside) {
			continue
		}
		standing = standing.Toggle(n)
		flying = append(flying, b.drives(at, outside))
	}
	for ; len(flying) > 0; flying = flying[1:] {
		if n, next := flying[0].first(standing); n > 0 {
			standing = standing.Toggle(n)
			flying = append(flying, next)
		}
	}
	return standing == 0
}

// drives gives the way of a pin that the ball passes by so many boards on the outside.
func (b deckBall) drives(at spot, outside float64) flight {
	cos := 1 / math.Hypot(1, b.slope)
	sin := b.slope * cos
	side := outside * cos / ballReach
	ahead := math.Sqrt(1 - side*side)
	return flight{at, ahead*sin + side*cos, ahead*cos - side*sin}
}

// first gives the first of the standing pins that a flying pin hits, 0 for none, and where that one goes.
func (f flight) first(standing tenpin.PinSet) (pin int, next flight) {
	nearest := math.Inf(1)
	for n := 1; n <= 10; n++ {
		if !standing.Has(n) {
			continue
		}
		at := spots[n]
		dx, dy := at.across-f.from.across, at.along-f.from.along
		ahead, beside := dx*f.across+dy*f.along, dx*f.along-dy*f.across
		if ahead <= 0 || math.Abs(beside) >= pinReach || ahead >= nearest {
			continue
		}
		nearest, pin = ahead, n
		touch := ahead - math.Sqrt(pinReach*pinReach-beside*beside)
		next = flight{at, (dx - touch*f.across) / pinReach, (dy - touch*f.along) / pinReach}
	}
	return pin, next
}

// clearing is a stretch of boards at a leave's key pin over which the ball does what is wanted.
type clearing struct{ from, to float64 }

func (c clearing) middle() float64 { return (c.from + c.to) / 2 }
func (c clearing) room() float64   { return c.to - c.from }

// clearingStep is how finely the boards are tried, in boards, and clearingSteps how many reach from a pin's middle to the last
// ball that touches it.
const (
	clearingStep  = .05
	clearingSteps = 125
)

// leastFit is how many boards wide the fit of a split must be to be preferred; chosen here.
const leastFit = 1.0

// clearing gives the widest stretch of boards at a leave's key pin over which balls on this course hit that pin, clear the
// leave, and stay on the lane; the zero clearing where there is none. In a split the ball itself takes every pin where it can:
// its deflection, which is left out, helps there and hurts where a pin has to be thrown at another.
func (b deckBall) clearing(leave tenpin.PinSet) clearing {
	if leave.IsSplit() {
		if fit := b.stretch(leave, deckBall.reaches); fit.room() >= leastFit {
			return fit
		}
	}
	return b.stretch(leave, deckBall.takes)
}

// stretch gives the widest stretch of boards at the key pin over which balls on this course do something.
func (b deckBall) stretch(leave tenpin.PinSet, does func(deckBall, tenpin.PinSet) bool) clearing {
	board, ft := PinAt(keyPin(leave))
	var best, open clearing
	for i := -clearingSteps; i <= clearingSteps; i++ {
		at := board + float64(i)*clearingStep
		switch ball := b.through(at, ft); {
		case !ball.onLane(leave) || !does(ball, leave):
			open = clearing{}
			continue
		case open == clearing{}:
			open.from = at
		}
		open.to = at
		if open.room() > best.room() {
			best = open
		}
	}
	return best
}

// reaches tells whether the ball itself hits every pin of a leave.
func (b deckBall) reaches(leave tenpin.PinSet) bool {
	for n := 1; n <= 10; n++ {
		if at := spots[n]; leave.Has(n) && !hitsPin(at.across-b.on(at)) {
			return false
		}
	}
	return true
}

// keyPin is the pin of a leave that the ball reaches first, the lowest.
func keyPin(leave tenpin.PinSet) int { return leave.Numbers()[0] }
