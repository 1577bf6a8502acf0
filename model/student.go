package model

import (
	"fmt"
	"slices"
)

// Hand is the hand a student bowls with. Boards are counted from that side.
type Hand string

// The hands.
const (
	RightHand Hand = "right"
	LeftHand  Hand = "left"
)

// Style is how the ball is held.
type Style string

// The styles; the empty Style is unknown.
const (
	OneHand Style = "one-hand"
	TwoHand Style = "two-hand"
	NoThumb Style = "no-thumb"
)

// Student is one student's profile. Where a field's zero value is said to mean "not chosen", the level's default holds:
// Chosen gives what is in force.
type Student struct {
	ID    ID
	Name  string
	Hand  Hand
	Style Style
	// Average is the one the student came with, in pins, 0 to 300; AverageOn says on what lanes it was bowled.
	Average   Optional[int]
	AverageOn string
	// Level, Bar, Goal, Weights, Tone, Start and Watched are the coach's choices, zero where not chosen.
	Level   Level
	Bar     ShotGrade
	Goal    Goal
	Weights Weights
	Tone    Tone
	Start   Letters
	Watched AxisSet
	// SlideOffset is in boards from the slide board to the laydown board.
	SlideOffset Optional[float64]
	SpeedMPH    Optional[float64]
	// RevRPM is the rev rate in turns a minute, AxisRotation in degrees.
	RevRPM       Optional[float64]
	AxisRotation Optional[float64]
	// Balls are the balls carried, BallUp the one of them in use, "" where it was not said.
	Balls  []string
	BallUp string
	Focus  string
	// Limits are injuries and other cautions, for the coach's eye only.
	Limits string
	// LoadLimit is in deliveries an evening, 0 for none.
	LoadLimit int
	Minor     bool
	Notes     string
	Archived  bool
	// SpareLines are the student's own lines for single pins, in the order of the pins, each pin once.
	SpareLines []SpareLine
	// Intake is how the coach sized the student up in the first ten minutes, zero where that was not done.
	Intake Intake
}

// Chosen is what is in force for a student: the coach's choices, and the level's defaults where there is none.
type Chosen struct {
	Level   Level
	Weights Weights
	Bar     ShotGrade
	Goal    Goal
	Tone    Tone
	Start   Letters
	Watched AxisSet
	// Tolerance is the level's: by how many boards at the arrows the target is missed for each step that it goes down.
	Tolerance int
}

// Chosen gives what is in force for the student. The level follows the average until the coach chooses one; without an
// average it is New. A minor's tone is never blunt unless the coach chose it.
func (s Student) Chosen() Chosen {
	level := s.Level
	if level == "" {
		level = LevelOf(s.Average.Value)
	}
	d := level.Defaults()
	c := Chosen{
		Level: level, Weights: d.Weights, Bar: GradeAMinus, Goal: d.Goal, Tone: d.Tone,
		Start: Letters{A, A, A, A}, Watched: AllAxes, Tolerance: d.Tolerance,
	}
	if s.Minor && c.Tone == Blunt {
		c.Tone = Plain
	}
	if s.Weights != (Weights{}) {
		c.Weights = s.Weights
	}
	if s.Bar != Ungraded {
		c.Bar = s.Bar
	}
	if s.Goal != 0 {
		c.Goal = s.Goal
	}
	if s.Tone != "" {
		c.Tone = s.Tone
	}
	if s.Start != (Letters{}) {
		c.Start = s.Start
	}
	if s.Watched != 0 {
		c.Watched = s.Watched
	}
	return c
}

// StartLetters gives the letters that a call begins with: the starting letter on each watched axis, none on the others.
func (c Chosen) StartLetters() Letters {
	var l Letters
	for _, a := range Axes {
		if c.Watched.Has(a) {
			l[a] = c.startLetter(a)
		}
	}
	return l
}

func (c Chosen) startLetter(a Axis) Letter {
	if c.Start[a] == NoLetter {
		return A
	}
	return c.Start[a]
}

// Validate tells what is wrong with the student's record, or nil.
func (s Student) Validate() error {
	if err := s.ID.Validate(); err != nil {
		return err
	}
	if err := ValidateName(s.Name); err != nil {
		return err
	}
	if s.Hand != RightHand && s.Hand != LeftHand {
		return fmt.Errorf("the hand %q: use right or left", s.Hand)
	}
	if !slices.Contains([]Style{"", OneHand, TwoHand, NoThumb}, s.Style) {
		return fmt.Errorf("the style %q: use one-hand, two-hand or no-thumb", s.Style)
	}
	if s.Average.Known {
		if err := ValidateAverage(s.Average.Value); err != nil {
			return err
		}
	}
	if s.LoadLimit < 0 {
		return fmt.Errorf("a load limit of %d: it is a number of deliveries from 1", s.LoadLimit)
	}
	return s.validateChoices()
}

func (s Student) validateChoices() error {
	if s.Level != "" {
		if _, err := ParseLevel(string(s.Level)); err != nil {
			return err
		}
	}
	if s.Tone != "" {
		if _, err := ParseTone(string(s.Tone)); err != nil {
			return err
		}
	}
	if s.Weights != (Weights{}) {
		if err := s.Weights.Validate(); err != nil {
			return err
		}
	}
	if err := s.Goal.validate(); err != nil {
		return err
	}
	if s.Bar > GradeA || s.Watched&^AllAxes != 0 || slices.Max(s.Start[:]) > A {
		return fmt.Errorf("bar %d, watched axes %d, starting letters %d: one of them is none", s.Bar, s.Watched, s.Start)
	}
	if err := validateSpareLines(s.SpareLines); err != nil {
		return err
	}
	if s.BallUp != "" && !slices.Contains(s.Balls, s.BallUp) {
		return fmt.Errorf("the ball %q is up, and is none of those carried", s.BallUp)
	}
	if err := s.Intake.validate(); err != nil {
		return err
	}
	return validateTexts(append([]string{s.Focus, s.Limits, s.Notes, s.AverageOn}, s.Balls...)...)
}

// ValidateAverage tells what is wrong with an average in pins, or nil.
func ValidateAverage(average int) error {
	if average < 0 || average > 300 {
		return fmt.Errorf("an average of %d: averages are 0 to 300", average)
	}
	return nil
}
