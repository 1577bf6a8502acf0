package model

import "math"

// PocketBoards is how far from the pocket, in boards, a hit is still one in the pocket.
const PocketBoards = 0.5

// InPocket tells whether the ball hit the pocket: by the word, or by the boards, within PocketBoards either way; unknown
// where neither was read.
func (d Delivery) InPocket() Optional[bool] {
	if d.Hit == "" && !d.HitBoards.Known {
		return Optional[bool]{}
	}
	return Known(d.Hit == Pocket || d.HitBoards.Known && math.Abs(d.HitBoards.Value) <= PocketBoards)
}

// HitWord gives the hit in words. One read in boards only is pocket within PocketBoards, else high or light; "" is not read.
func (d Delivery) HitWord() Hit {
	switch {
	case d.Hit != "" || !d.HitBoards.Known:
		return d.Hit
	case d.HitBoards.Value > PocketBoards:
		return High
	case d.HitBoards.Value < -PocketBoards:
		return Light
	}
	return Pocket
}
