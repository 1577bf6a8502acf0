package model

import (
	"fmt"
	"time"
)

// Pair is two adjacent lanes, the odd one first.
type Pair [2]int

// PairOf gives the pair that a lane belongs to.
func PairOf(lane int) Pair {
	if lane%2 == 0 {
		return Pair{lane - 1, lane}
	}
	return Pair{lane, lane + 1}
}

// Other gives the pair's other lane.
func (p Pair) Other(lane int) int {
	if lane == p[0] {
		return p[1]
	}
	return p[0]
}

// String gives "7/8".
func (p Pair) String() string { return fmt.Sprintf("%d/%d", p[0], p[1]) }

// MaxLane is the highest lane number taken.
const MaxLane = 200

// MaxPairs and MaxStudents are the most pairs of lanes and the most students that an evening takes.
const (
	MaxPairs    = 8
	MaxStudents = 16
)

// Session is one evening's lesson: where, on which pairs, and who is in it.
type Session struct {
	ID    ID
	At    time.Time
	Place string
	// PatternFt is the length of the oil, ArrowsFt the distance of the arrows, both in feet from the foul line.
	PatternFt Optional[float64]
	ArrowsFt  Optional[float64]
	Pairs     []Pair
	// Rotate puts the next student up by itself after a frame.
	Rotate bool
	Roster []Seat
	// Closed is zero while the session is open.
	Closed time.Time
	// Block keeps a student up through a drill rather than changing after each delivery.
	Block bool
	// PatternKind says what oil it is, Before who bowled on it before, both in the coach's words; Oiled is when the lanes were
	// oiled, zero where unknown.
	PatternKind string
	Oiled       time.Time
	Before      string
}

// Seat is a student's place in the evening.
type Seat struct {
	Student ID
	// Lane is the lane of odd frames for a student who alternates, else of every frame.
	Lane int
	// Order is the place in the pair's bowling order, from 1.
	Order     int
	Alternate bool
	Out       bool
	Cue       string
	Focus     string
	Homework  string
	// Next is the date of the next meeting as 2006-01-02, "" for none.
	Next string
	// Aimed are the lines intended on the pair's odd and on its even lane, zero where none was set since the student came
	// to the pair.
	Aimed [2]Line
	// Sentence is what the coach says of the evening on the page that the student takes home.
	Sentence string
	// Watched are the axes that the coach looks at for this student tonight, 0 for the student's own.
	Watched AxisSet
	// Goal is the one that was worked towards when the evening was closed, 0 before that.
	Goal Goal
}

// Pair gives the pair the seat is on.
func (s Seat) Pair() Pair { return PairOf(s.Lane) }

// LaneFor gives the lane on which the student bowls a frame: the seat's lane, for a student who alternates the other
// one in even frames. Frame 0 (a drill or a warm-up) is bowled on the seat's lane.
func (s Seat) LaneFor(frame int) int {
	if s.Alternate && frame > 0 && frame%2 == 0 {
		return s.Pair().Other(s.Lane)
	}
	return s.Lane
}

// Open tells whether the session is still open.
func (s Session) Open() bool { return s.Closed.IsZero() }

// Seat gives the place of a student in the roster, or -1.
func (s Session) Seat(student ID) int {
	for i := range s.Roster {
		if s.Roster[i].Student == student {
			return i
		}
	}
	return -1
}

// clone gives a session whose lists can be changed without changing s.
func (s Session) clone() Session {
	s.Pairs = append([]Pair(nil), s.Pairs...)
	s.Roster = append([]Seat(nil), s.Roster...)
	return s
}

// Validate tells what is wrong with the session's record, or nil.
func (s Session) Validate() error {
	if err := s.ID.Validate(); err != nil {
		return err
	}
	if err := validateTexts(s.Place, s.PatternKind, s.Before); err != nil {
		return err
	}
	switch {
	case len(s.Pairs) > MaxPairs:
		return fmt.Errorf("%d pairs: an evening takes up to %d", len(s.Pairs), MaxPairs)
	case len(s.Roster) > MaxStudents:
		return fmt.Errorf("%d students: an evening takes up to %d", len(s.Roster), MaxStudents)
	}
	seen := map[Pair]bool{}
	for _, p := range s.Pairs {
		if PairOf(p[0]) != p || p[0] < 1 || p[1] > MaxLane {
			return fmt.Errorf("the pair %s: a pair is an odd lane and the next, up to %d", p, MaxLane)
		}
		if seen[p] {
			return fmt.Errorf("the pair %s is there twice", p)
		}
		seen[p] = true
	}
	seated := map[ID]bool{}
	for _, seat := range s.Roster {
		if err := seat.validate(); err != nil {
			return err
		}
		if !seen[seat.Pair()] {
			return fmt.Errorf("student %s is on lane %d, which is on none of the evening's pairs", seat.Student, seat.Lane)
		}
		if seated[seat.Student] {
			return fmt.Errorf("student %s is in the roster twice", seat.Student)
		}
		seated[seat.Student] = true
	}
	return nil
}

func (s Seat) validate() error {
	if err := s.Student.Validate(); err != nil {
		return err
	}
	if s.Order < 1 {
		return fmt.Errorf("place %d in the order: places count from 1", s.Order)
	}
	if s.Next != "" && !dateExists(s.Next) {
		return fmt.Errorf("the next meeting on %q: write a date as 2026-03-11", s.Next)
	}
	if err := s.Goal.validate(); err != nil {
		return err
	}
	if s.Watched&^AllAxes != 0 {
		return fmt.Errorf("the watched axes %d: one of them is none", s.Watched)
	}
	for i, lane := range s.Pair() {
		if err := s.Aimed[i].validate(); err != nil {
			return fmt.Errorf("the line aimed at on lane %d: %w", lane, err)
		}
	}
	return validateTexts(s.Cue, s.Focus, s.Homework, s.Sentence)
}
