package tenpin

import "errors"

// Frame is one frame of a game, scored.
type Frame struct {
	Balls []Ball
	// Total is the running total, the score up to and with this frame, 0 to
	// 300. It is 0 and means nothing until Known.
	Total int
	Known bool
	// Split is SplitYes if a full rack of the frame left a split, SplitNo if it
	// is known of each that it left none, else SplitUnknown.
	Split Verdict
}

// Card is a game scored as far as it has gone.
type Card struct {
	Frames   []Frame  // those begun, at most 10
	Score    int      // the last known running total, 0 if there is none
	Max      int      // the highest score still possible, 0 to 300
	Complete bool     // all ten frames are bowled
	At       Position // before the next ball
}

// Score scores the balls of one game in order. The first ball that cannot be is
// refused with an [*Error]; there is no card then. The card keeps no hold of
// balls.
func Score(balls []Ball) (Card, error) {
	k := newKeeper(len(balls))
	for _, b := range balls {
		if err := k.add(b); err != nil {
			return Card{}, err
		}
	}
	return k.card(), nil
}

// keeper keeps the score of one game, ball by ball.
type keeper struct {
	at     Position
	balls  []Ball
	frames []Frame
	own    [10]int // each frame's own points, its bonuses as far as they have come
	points int     // all points so far
}

func newKeeper(balls int) *keeper {
	return &keeper{
		balls:  make([]Ball, 0, min(balls, maxBalls)),
		frames: make([]Frame, 0, 10),
	}
}

// maxBalls is the length of the longest game: two balls in each of nine frames,
// three in the tenth.
const maxBalls = 21

// add counts b, or refuses it.
func (k *keeper) add(b Ball) error {
	p := k.at
	next, points, err := p.Next(b)
	if err != nil {
		return numbered(err, len(k.balls))
	}
	k.at = next
	k.points += points
	k.balls = append(k.balls, b)
	if p.ball == 0 {
		k.frames = append(k.frames, Frame{Split: SplitNo})
	}
	f := &k.frames[p.frame]
	f.Balls = k.balls[len(k.balls)-1-int(p.ball) : len(k.balls) : len(k.balls)]
	f.Split = joined(f.Split, p.SplitBy(b))
	// The marks that count a ball are always those of the frames right before
	// its own.
	for i := int(p.frame) - int(p.due); i <= int(p.frame); i++ {
		k.own[i] += b.Pins
	}
	return nil
}

// card is the score so far. The running total of a finished frame is known when
// its mark, if it has one, waits for no more pins.
func (k *keeper) card() Card {
	c := Card{Frames: k.frames, At: k.at, Complete: k.at.Over(), Max: k.points + best(k.at)}
	total := 0
	for i := range int(k.at.frame) - int(k.at.due) {
		total += k.own[i]
		c.Frames[i].Total, c.Frames[i].Known = total, true
		c.Score = total
	}
	return c
}

// numbered gives the refusal of a ball its place: after this many others.
func numbered(err error, after int) error {
	var refused *Error
	if errors.As(err, &refused) {
		refused.Ball = after + 1
	}
	return err
}

// best is the most that can be added from p on: every ball takes all that
// stands.
func best(p Position) int {
	sum := 0
	for !p.Over() {
		next, points, err := p.Next(Ball{Pins: p.StandingCount()})
		if err != nil {
			return sum
		}
		p, sum = next, sum+points
	}
	return sum
}

// joined is what is known of a frame's splits from two of its balls: one split
// is enough, and one unknown leaves it open.
func joined(a, b Verdict) Verdict {
	switch {
	case a == SplitYes || b == SplitYes:
		return SplitYes
	case a == SplitUnknown || b == SplitUnknown:
		return SplitUnknown
	default:
		return SplitNo
	}
}
