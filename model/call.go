package model

import (
	"errors"
	"fmt"
	"math"

	"coach.settee/model/tenpin"
)

// Call is a delivery being called: what the coach has said of it so far. A call is compared with ==.
type Call struct {
	Letters Letters
	// Touched tells whether any letter key was pressed.
	Touched bool
	Unseen  bool
	Foul    bool
	Pins    Naming
	Side    Side
	// SideBoards is how many boards the target was missed by, SideSteps by how many steps that has lowered target.
	SideBoards, SideSteps int
	Hit                   Hit
	HitBoards             Optional[float64]
	Line                  Line
	SpeedMPH              Optional[float64]
	Own                   ShotGrade
	Note                  string
}

// Naming is what has been named of the pins.
type Naming struct {
	How NamingKind
	// Left are the pins left standing, where they are named.
	Left tenpin.PinSet
	// Felled is the number of pins that fell, where it is known.
	Felled int
}

// NamingKind tells what a Naming says.
type NamingKind uint8

// The kinds of naming.
const (
	// NothingNamed says nothing of the pins.
	NothingNamed NamingKind = iota
	// NoneDown says that no pin fell.
	NoneDown
	// LeftNamed names the pins left standing.
	LeftNamed
	// FelledCounted gives the number felled, as a delivery reopened may have it.
	FelledCounted
)

// newCall gives a call that nothing was said of yet.
func newCall(c Chosen) Call { return Call{Letters: c.StartLetters()} }

// Lower lowers an axis's letter by one step; an axis that is not watched becomes watched for this delivery, one step
// below its starting letter. At F it is refused, unless it makes an unseen call a seen one.
func (c Call) Lower(a Axis, chosen Chosen) (Call, error) {
	if c.Letters[a] == F && !c.Unseen {
		return c, fmt.Errorf("%s is F already: the lowest letter", a)
	}
	c = c.seen()
	if c.Letters[a] == NoLetter {
		c.Letters[a] = chosen.startLetter(a)
	}
	c.Letters[a] = c.Letters[a].Lower(1)
	c.Touched = true
	return c, nil
}

// Raise raises an axis's letter by one step; an axis that is not watched becomes watched at its starting letter. At A it
// is refused, unless it makes an unseen call a seen one.
func (c Call) Raise(a Axis, chosen Chosen) (Call, error) {
	if c.Letters[a] == A && !c.Unseen {
		return c, fmt.Errorf("%s is A already: the highest letter", a)
	}
	if c.Letters[a] == NoLetter {
		c.Letters[a] = chosen.startLetter(a)
	} else {
		c.Letters[a] = c.Letters[a].Raise()
	}
	c = c.seen()
	c.Touched = true
	return c, nil
}

// Miss says that the target was missed on a side by one board more. Target is lowered by one step at the first board and
// by one more for each further tolerance of the level. The other side begins anew, with what the first had lowered
// given back.
func (c Call) Miss(side Side, chosen Chosen) Call {
	c = c.seen()
	if c.Letters[Target] == NoLetter {
		c.Letters[Target] = chosen.startLetter(Target)
	}
	if c.Side != side {
		for ; c.SideSteps > 0; c.SideSteps-- {
			c.Letters[Target] = c.Letters[Target].Raise()
		}
		c.Side, c.SideBoards = side, 0
	}
	if c.SideBoards%max(chosen.Tolerance, 1) == 0 && c.Letters[Target] > F {
		c.Letters[Target] = c.Letters[Target].Lower(1)
		c.SideSteps++
	}
	c.SideBoards++
	c.Touched = true
	return c
}

// Meet says where the ball met the pins. Repeating it goes on through the row of words that next gives, and back to the
// first. A reading in boards that says the contrary was of something else, and goes.
func (c Call) Meet(row ...Hit) Call {
	next := 0
	for i, h := range row {
		if c.Hit == h {
			next = (i + 1) % len(row)
		}
	}
	c.Hit = row[next]
	if c.contradicts() {
		c.HitBoards = Optional[float64]{}
	}
	return c
}

// contradicts tells whether the hit in a word and the one in boards lie on different sides of the pocket.
func (c Call) contradicts() bool {
	if !c.HitBoards.Known {
		return false
	}
	switch boards := c.HitBoards.Value; c.Hit {
	case Pocket:
		return math.Abs(boards) > 2*PocketBoards
	case High, Nose, Brooklyn:
		return boards < -PocketBoards
	case Light:
		return boards > PocketBoards
	}
	return false
}

// ToggleUnseen says that the delivery was not watched, or that it was after all.
func (c Call) ToggleUnseen() Call {
	c.Unseen = !c.Unseen
	return c
}

// ToggleFoul says that the delivery was a foul, or that it was none.
func (c Call) ToggleFoul() Call {
	c.Foul = !c.Foul
	return c
}

// seen makes an unseen call a seen one, as any letter key does.
func (c Call) seen() Call {
	c.Unseen = false
	return c
}

// TogglePin names a pin as left standing, or no longer. Only a pin that the ball found can be named; where that is not
// known, no more than the pins that are left.
func (c Call) TogglePin(pin int, r Rack) (Call, error) {
	left := tenpin.PinSet(0)
	if c.Pins.How == LeftNamed {
		left = c.Pins.Left
	}
	if r.Standing.Known && !r.Standing.Pins.Has(pin) {
		return c, fmt.Errorf("pin %d was not standing: %s was", pin, r.Standing.Pins)
	}
	left = left.Toggle(pin)
	if left.Count() > r.Count {
		return c, fmt.Errorf("only %s left: take one off before naming another", pinsAre(r.Count))
	}
	c.Pins = Naming{How: LeftNamed, Left: left}
	if left == 0 {
		c.Pins = Naming{}
	}
	return c, nil
}

// NameNoneDown says that no pin fell.
func (c Call) NameNoneDown() Call {
	c.Pins = Naming{How: NoneDown}
	return c
}

func pinsAre(n int) string {
	if n == 1 {
		return "1 pin is"
	}
	return fmt.Sprintf("%d pins are", n)
}

var errNothingNamed = errors.New("x all down, - none, or name the pins")

// pinfall gives what a call says of the pins for a ball that found r: the pins felled, where known, and what stands.
func (c Call) pinfall(r Rack, game bool) (Optional[int], tenpin.Leave, error) {
	switch c.Pins.How {
	case NoneDown:
		return Known(0), r.Standing, nil
	case LeftNamed:
		return Known(r.Count - c.Pins.Left.Count()), tenpin.Standing(c.Pins.Left), nil
	case FelledCounted:
		return Known(c.Pins.Felled), counted(c.Pins.Felled, r), nil
	}
	if game {
		return Optional[int]{}, tenpin.Leave{}, errNothingNamed
	}
	return Optional[int]{}, tenpin.Leave{}, nil
}

// counted gives what stands after a number of felled pins: known only where none or all of what stood fell.
func counted(felled int, r Rack) tenpin.Leave {
	switch felled {
	case 0:
		return r.Standing
	case r.Count:
		return tenpin.Standing(0)
	}
	return tenpin.Leave{}
}
