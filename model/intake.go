package model

import (
	"errors"
	"fmt"
	"slices"
	"time"
)

// Motion is where the ball's speed comes from; common practice, no source.
type Motion string

// The motions.
const (
	Swing Motion = "swing"
	Mixed Motion = "mixed"
	Throw Motion = "throw"
)

// Direction is where the swing goes, seen from behind.
type Direction string

// The directions.
const (
	Straight Direction = "straight"
	Inward   Direction = "inward"
	Outward  Direction = "outward"
)

// HandAt is where the hand is at the bottom of the swing.
type HandAt string

// The places of the hand.
const (
	Behind HandAt = "behind"
	Beside HandAt = "beside"
	Over   HandAt = "over"
)

// Timing is when the ball comes to the foul line against the sliding foot.
type Timing string

// The timings.
const (
	Early  Timing = "early"
	OnTime Timing = "on time"
	Late   Timing = "late"
)

// Learning is how a student takes things in best.
type Learning string

// The ways of learning.
const (
	Seeing  Learning = "seeing"
	Hearing Learning = "hearing"
	Feeling Learning = "feeling"
)

// Intake is what the coach saw and heard in a student's first ten minutes. Every part but the date is optional, "" where it
// was not looked at.
type Intake struct {
	// On is the date as 2006-01-02.
	On        string
	Motion    Motion
	Direction Direction
	HandAt    HandAt
	Timing    Timing
	Learns    Learning
	// Hurts is what the student said hurts, in words: for the coach's eye only.
	Hurts string
}

// Motions, Directions, HandsAt, Timings and Learnings are the words that an intake takes, in the order in which they are
// asked.
var (
	Motions    = []Motion{Swing, Mixed, Throw}
	Directions = []Direction{Straight, Inward, Outward}
	HandsAt    = []HandAt{Behind, Beside, Over}
	Timings    = []Timing{Early, OnTime, Late}
	Learnings  = []Learning{Seeing, Hearing, Feeling}
)

// WithIntake gives the student with an intake taken on the day of now. What hurts is a limit too where none is kept.
func (s Student) WithIntake(i Intake, now time.Time) Student {
	i.On = now.Format(time.DateOnly)
	s.Intake = i
	if s.Limits == "" {
		s.Limits = i.Hurts
	}
	return s
}

func (i Intake) validate() error {
	switch {
	case i == Intake{}:
		return nil
	case i.On == "":
		return errors.New("an intake without a date")
	case !dateExists(i.On):
		return fmt.Errorf("an intake on %q: write a date as 2026-03-11", i.On)
	}
	return errors.Join(
		oneOf("motion", i.Motion, Motions), oneOf("direction", i.Direction, Directions), oneOf("hand", i.HandAt, HandsAt),
		oneOf("timing", i.Timing, Timings), oneOf("learning", i.Learns, Learnings), ValidateText(i.Hurts))
}

// oneOf tells whether a word is empty or one of those that are taken.
func oneOf[W ~string](what string, word W, words []W) error {
	if word != "" && !slices.Contains(words, word) {
		return fmt.Errorf("the %s %q of an intake: it is one of %q", what, word, words)
	}
	return nil
}

func dateExists(text string) bool {
	_, err := time.Parse(time.DateOnly, text)
	return err == nil
}
