package model

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"coach.settee/model/tenpin"
)

// Side is the side on which a target was missed, from the bowler's own side.
type Side string

// The sides; the empty Side is none.
const (
	Inside  Side = "in"
	Outside Side = "out"
)

// Hit is where the ball met the pins, in words; the empty Hit is not read.
type Hit string

// The hits.
const (
	Pocket   Hit = "pocket"
	High     Hit = "high"
	Nose     Hit = "nose"
	Brooklyn Hit = "brooklyn"
	Light    Hit = "light"
	Missed   Hit = "missed"
)

// String gives the hit in the words of the lanes.
func (h Hit) String() string {
	switch h {
	case Missed:
		return "missed the head pin"
	case Brooklyn:
		return "Brooklyn"
	}
	return string(h)
}

// Delivery is one ball, seen or not. It keeps the weights, the bar and the level it was graded with.
type Delivery struct {
	ID   ID
	Game ID
	// Seq counts the game's deliveries from 1, dead ones too.
	Seq  int
	At   time.Time
	Lane int
	// Frame (1 to 10) and Ball (1 to 3) are a game's; 0 in a drill or a warm-up.
	Frame, Ball int
	Letters     Letters
	// Touched tells whether any letter key was pressed.
	Touched bool
	Weights Weights
	Bar     ShotGrade
	Level   Level
	Seen    bool
	Dead    bool
	// After is what stands after the ball, as the next finds it; Pins what fell with it and counts.
	After tenpin.Leave
	Pins  Optional[int]
	Foul  bool
	Side  Side
	// SideBoards is by how many boards at the arrows the target was missed.
	SideBoards int
	Hit        Hit
	// HitBoards is the hit in boards from the pocket, high plus, light minus; known only where it was read so.
	HitBoards Optional[float64]
	// Aimed is the line in force for the student on that lane when the ball was thrown, Line the one it took.
	Aimed    Line
	Line     Line
	SpeedMPH Optional[float64]
	// Bowled names the ball in use.
	Bowled string
	// Own is the student's own grade, said before the coach's.
	Own  ShotGrade
	Cue  string
	Note string
}

// Grade gives the delivery's shot grade, Ungraded where it was not seen or no watched axis has a weight.
func (d Delivery) Grade() ShotGrade {
	if !d.Seen {
		return Ungraded
	}
	return Grade(d.Letters, d.Weights)
}

// Good tells whether the delivery is a good shot by the weights and the bar it was graded with.
func (d Delivery) Good() bool {
	return d.Seen && !d.Dead && IsGood(d.Letters, d.Weights, d.Bar)
}

// Scored gives the delivery as the score sees it.
func (d Delivery) Scored() tenpin.Ball {
	return tenpin.Ball{Pins: d.Pins.Value, Foul: d.Foul, After: d.After}
}

// Validate tells what is wrong with the delivery on its own, or nil; whether it fits its game is the score's to say.
func (d Delivery) Validate() error {
	for _, id := range []ID{d.ID, d.Game} {
		if err := id.Validate(); err != nil {
			return err
		}
	}
	switch {
	case d.Seq < 1:
		return fmt.Errorf("seq %d: deliveries count from 1", d.Seq)
	case d.Lane < 1 || d.Lane > MaxLane:
		return fmt.Errorf("lane %d: lanes are 1 to %d", d.Lane, MaxLane)
	case d.Frame < 0 || d.Frame > 10 || d.Ball < 0 || d.Ball > 3 || (d.Frame == 0) != (d.Ball == 0):
		return fmt.Errorf("frame %d, ball %d: a game's frames are 1 to 10, their balls 1 to 3", d.Frame, d.Ball)
	case !d.After.Pins.Within(tenpin.AllPins):
		return errors.New("a pin beyond 10 stands after the ball")
	case d.Pins.Known && (d.Pins.Value < 0 || d.Pins.Value > 10):
		return fmt.Errorf("%d pins: a ball fells 0 to 10", d.Pins.Value)
	case d.Foul && d.Pins.Value != 0:
		return errors.New("a foul with pins: the pins of a foul do not count")
	case d.Dead && (d.Seen || d.Pins.Known || d.Foul || d.After != tenpin.Leave{}):
		return errors.New("a dead ball that was graded or has pins: it is thrown again and counts for nothing")
	case !d.Seen && d.Side != "":
		return errors.New("a side on a delivery that was not seen")
	case !d.Seen && (d.Letters != Letters{} || d.Touched):
		return errors.New("letters on a delivery that was not seen")
	case d.Bar == Ungraded || d.Bar > GradeA:
		return errors.New("a delivery without a bar")
	case d.Own > GradeA || slices.Max(d.Letters[:]) > A:
		return fmt.Errorf("own call %d, letters %d: one of them is none", d.Own, d.Letters)
	case d.SideBoards < 0 || d.Side == "" && d.SideBoards != 0:
		return fmt.Errorf("%d boards of a side that is not given", d.SideBoards)
	}
	return d.validateWords()
}

func (d Delivery) validateWords() error {
	if err := d.Weights.Validate(); err != nil {
		return err
	}
	if _, err := ParseLevel(string(d.Level)); err != nil {
		return err
	}
	if _, err := ParseSide(string(d.Side)); err != nil {
		return err
	}
	if _, err := ParseHit(string(d.Hit)); err != nil {
		return err
	}
	return validateTexts(d.Bowled, d.Cue, d.Note)
}

// ParseSide reads "in", "out" or "".
func ParseSide(s string) (Side, error) {
	switch side := Side(s); side {
	case "", Inside, Outside:
		return side, nil
	}
	return "", fmt.Errorf("%q is no side: use in or out", s)
}

// ParseHit reads "pocket", "high", "nose", "brooklyn", "light", "missed" or "".
func ParseHit(s string) (Hit, error) {
	switch h := Hit(s); h {
	case "", Pocket, High, Nose, Brooklyn, Light, Missed:
		return h, nil
	}
	return "", fmt.Errorf("%q is no hit: use pocket, high, nose, brooklyn, light or missed", s)
}
