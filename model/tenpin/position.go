package tenpin

import "fmt"

// Position is where a game stands before its next ball: the frame, the ball in
// it, what stands, and which marks still wait for pins. Positions can be
// compared; the zero value is the start of a game.
type Position struct {
	frame     uint8  // frames finished, 0 to 10
	ball      uint8  // balls of this frame that are bowled, 0 to 2
	felled    uint8  // pins of this rack that are down, 0 to 9
	down      PinSet // which, unless they are unnamed
	unnamed   bool   // felled pins are not all named
	spareShot bool   // the next ball is at what an earlier one left
	fill      bool   // in the tenth: a strike or spare there earned the third ball
	due       uint8  // marks that count the next ball, 0 to 2
	dueLater  uint8  // marks that count the ball after it, 0 or 1
}

const lastFrame = 9

// Frame is the frame of the next ball, 1 to 10. It is 10 when the game is over.
func (p Position) Frame() int { return min(int(p.frame)+1, 10) }

// BallInFrame is the place of the next ball in its frame, 1 to 3. It is 0 when
// the game is over.
func (p Position) BallInFrame() int {
	if p.Over() {
		return 0
	}
	return int(p.ball) + 1
}

// Over tells whether the game is finished.
func (p Position) Over() bool { return p.frame > lastFrame }

// FullRack tells whether the next ball is a full rack: the first of a frame,
// and in the tenth also one after a strike or a spare there. A second ball at
// ten pins, after a gutter ball or a foul, is a spare shot and none.
func (p Position) FullRack() bool { return !p.Over() && !p.spareShot }

// StandingCount is how many pins the next ball finds, 1 to 10; 0 when the game
// is over.
func (p Position) StandingCount() int {
	if p.Over() {
		return 0
	}
	return 10 - int(p.felled)
}

// Standing is which pins the next ball finds, if they are known. When the game
// is over none are known to stand.
func (p Position) Standing() Leave {
	switch {
	case p.Over():
		return Standing(0)
	case p.unnamed:
		return Leave{}
	default:
		return Standing(AllPins &^ p.down)
	}
}

// Next is the position after b, and the points that b adds to the score: its
// pins, once more for each earlier strike or spare that counts it.
//
// A ball that cannot be is refused with an [*Error]: after the game's end, more
// pins than stand, pins with a foul, a leave that does not fit what stood or
// what fell, a split where none can be. After an unknown leave any pins may be
// named, no more than are left.
func (p Position) Next(b Ball) (Position, int, error) {
	if reason := p.refusal(b); reason != "" {
		return p, 0, p.refuse(reason)
	}
	n := p
	n.due, n.dueLater = p.dueLater, 0
	cleared := b.Pins == p.StandingCount()
	if cleared && p.frame < lastFrame {
		n.due++
		if p.FullRack() {
			n.dueLater = 1
		}
	}
	n.rackAfter(b, cleared)
	n.fill = p.fill || cleared && p.frame == lastFrame
	n.ball++
	if n.frameDone(cleared) {
		n = Position{frame: p.frame + 1, due: n.due, dueLater: n.dueLater}
	}
	return n, b.Pins * (1 + int(p.due)), nil
}

// SplitBy tells whether b, bowled from this position, leaves a split. Only a
// ball at a full rack can. Where the leave is not known the count decides if it
// can (nothing, nine or ten down is never a split), else what b says of it.
func (p Position) SplitBy(b Ball) Verdict {
	switch {
	case !p.FullRack(), b.Foul, b.Pins == 0, b.Pins >= 9:
		return SplitNo
	case !b.After.Known:
		return b.Split
	case b.After.Pins.IsSplit():
		return SplitYes
	default:
		return SplitNo
	}
}

// rackAfter sets what the next ball of the same frame finds. A foul counts no
// pins, so that it leaves the rack as it was.
func (p *Position) rackAfter(b Ball, cleared bool) {
	switch {
	case cleared:
		p.felled, p.down, p.unnamed, p.spareShot = 0, 0, false, false
		return
	case b.After.Known:
		p.down, p.unnamed = AllPins&^b.After.Pins, false
	case b.Pins > 0:
		p.down, p.unnamed = 0, true
	}
	p.felled += uint8(b.Pins)
	p.spareShot = true
}

// frameDone tells whether the frame ends with the ball just counted.
func (p Position) frameDone(cleared bool) bool {
	if p.frame < lastFrame {
		return cleared || p.ball == 2
	}
	return p.ball == 3 || p.ball == 2 && !p.fill
}

// refusal says why b cannot be bowled here, "" if it can.
func (p Position) refusal(b Ball) string {
	standing := p.StandingCount()
	switch {
	case p.Over():
		return "a ball after the game's end"
	case b.Pins < 0:
		return fmt.Sprintf("%d pins cannot fall", b.Pins)
	case b.Pins > standing:
		return fmt.Sprintf("%s cannot fall where %d %s",
			count(b.Pins), standing, verb(standing, "stands", "stand"))
	case b.Foul && b.Pins > 0:
		return "pins that fall with a foul do not count"
	case b.After.Known:
		return p.leaveRefusal(b)
	case b.Split == SplitYes:
		return p.splitRefusal(b)
	default:
		return ""
	}
}

// leaveRefusal says why the known leave of b cannot be, "" if it can.
func (p Position) leaveRefusal(b Ball) string {
	stood := AllPins
	if before := p.Standing(); before.Known {
		stood = before.Pins
	}
	if !b.After.Pins.Within(AllPins) {
		return "the leave names a pin beyond 10"
	}
	if ghosts := b.After.Pins &^ stood; ghosts != 0 {
		return fmt.Sprintf("pin %d was not standing", ghosts.Numbers()[0])
	}
	left, named := p.StandingCount()-b.Pins, b.After.Pins.Count()
	if left != named {
		return fmt.Sprintf("%s fell of %d, which leaves %d standing, and %d %s named",
			count(b.Pins), p.StandingCount(), left, named, verb(named, "is", "are"))
	}
	return ""
}

// splitRefusal says why b cannot have left a split, "" if it can.
func (p Position) splitRefusal(b Ball) string {
	switch {
	case !p.FullRack():
		return "only a ball at a full rack leaves a split"
	case b.Pins == 0:
		return "it is no split while the head pin stands"
	case b.Pins >= 9:
		return "fewer than two pins are no split"
	default:
		return ""
	}
}

func (p Position) refuse(reason string) *Error {
	return &Error{Frame: p.Frame(), InFrame: p.BallInFrame(), Reason: reason}
}

func count(pins int) string {
	return fmt.Sprintf("%d %s", pins, verb(pins, "pin", "pins"))
}

func verb(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}
