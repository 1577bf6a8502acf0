package model

import (
	"fmt"
	"strings"
	"time"
	"unicode/utf8"
)

// maxState is the longest word on the lanes that fits beside the others on a line, in characters.
const maxState = 60

// SetPatternKind says what oil it is, in a few words ("house", "sport 2"), up to 60 characters; an empty text takes it off.
func (e *Evening) SetPatternKind(text string) (Step, error) {
	return e.setState("kind of pattern", text, func(s *Session) *string { return &s.PatternKind })
}

// SetBefore says who bowled on the lanes before, in up to 60 characters; an empty text takes it off.
func (e *Evening) SetBefore(text string) (Step, error) {
	return e.setState("bowled before", text, func(s *Session) *string { return &s.Before })
}

// setState sets a short text on the lanes.
func (e *Evening) setState(name, text string, of func(*Session) *string) (Step, error) {
	text = strings.TrimSpace(text)
	if n := utf8.RuneCountInString(text); n > maxState {
		return Step{}, fmt.Errorf("%s: %d characters are too many, up to %d", name, n, maxState)
	}
	session := e.session
	if *of(&session) == text {
		return e.upStep(), nil
	}
	what := fmt.Sprintf("%s: %s", name, text)
	if text == "" {
		what = name + " taken off"
	}
	return e.Arrange(what, func(s *Session) { *of(s) = text })
}

// SetOiled says when the lanes were oiled, as ParseClock reads it before the evening's beginning or its last delivery; an
// empty text takes it off.
func (e *Evening) SetOiled(text string, zone *time.Location) (Step, error) {
	if strings.TrimSpace(text) == "" {
		return e.Arrange("when it was oiled taken off", func(s *Session) { s.Oiled = time.Time{} })
	}
	oiled, err := ParseClock(text, e.lastMoment().In(zone))
	if err != nil {
		return Step{}, err
	}
	what := "oiled on " + oiled.In(zone).Format("2006-01-02 at 15:04")
	return e.Arrange(what, func(s *Session) { s.Oiled = oiled })
}

// lastMoment gives the latest time of the evening that is known.
func (e *Evening) lastMoment() time.Time {
	last := e.session.At
	for _, s := range e.sheets {
		for _, d := range s.Deliveries {
			if d.At.After(last) {
				last = d.At
			}
		}
	}
	return last
}

// The nearest and the farthest distance that the arrows of a lane are taken to have, in feet; sources differ, 12 to 17.
const minArrowsFt, maxArrowsFt = 12, 18

// SetArrows sets the distance of the arrows from a text in feet; an empty one takes it off.
func (e *Evening) SetArrows(text string) (Step, error) {
	arrows, err := ParseArrows(text)
	switch {
	case err != nil:
		return Step{}, err
	case !arrows.Known:
		return e.Arrange("distance of the arrows taken off", func(s *Session) { s.ArrowsFt = arrows })
	}
	return e.Arrange(fmt.Sprintf("arrows at %v feet", arrows.Value), func(s *Session) { s.ArrowsFt = arrows })
}

// ParseArrows reads the distance of the arrows from the foul line in feet; an empty text is none.
func ParseArrows(text string) (Optional[float64], error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return Optional[float64]{}, nil
	}
	ft, ok := decimal(text)
	if !ok || ft < minArrowsFt || ft > maxArrowsFt {
		return Optional[float64]{}, fmt.Errorf("%q is no distance of the arrows: %d to %d feet", text, minArrowsFt, maxArrowsFt)
	}
	return Known(ft), nil
}
