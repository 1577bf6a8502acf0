package model

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// SpareLine is a student's own line for a single pin.
type SpareLine struct {
	// Pin is 1 to 10.
	Pin  int
	Line Line
}

// SpareLine gives the student's own line for a pin, zero where none is kept.
func (s Student) SpareLine(pin int) Line {
	if i, has := s.spareIndex(pin); has {
		return s.SpareLines[i].Line
	}
	return Line{}
}

// spareIndex finds the place of a pin's line.
func (s Student) spareIndex(pin int) (int, bool) {
	return slices.BinarySearchFunc(s.SpareLines, pin, func(l SpareLine, pin int) int { return l.Pin - pin })
}

// ParseSpareLine reads a student's own line for a pin as it is typed, "10 21 32": the pin, then the line as ParseAim reads
// it, with what is in force for that pin in place of "." and of what is left out. The pin alone gives no line.
func ParseSpareLine(text string, inForce func(pin int) Line) (SpareLine, error) {
	words := strings.Fields(text)
	if len(words) == 0 {
		return SpareLine{}, errors.New("no pin is named: 10 21 32 is pin 10, arrows 21, slide 32")
	}
	pin, ok := whole(words[0])
	if !ok || pin < 1 || pin > 10 {
		return SpareLine{}, fmt.Errorf("%q is no pin: the pin, 1 to 10, comes first, then arrows and slide", words[0])
	}
	if len(words) == 1 {
		return SpareLine{Pin: pin}, nil
	}
	line, err := ParseAim(strings.Join(words[1:], " "), inForce(pin))
	if err == nil {
		err = line.validateAim()
	}
	if err != nil {
		return SpareLine{}, err
	}
	return SpareLine{pin, line}, nil
}

// SetSpareLine keeps a student's own line for a single pin, 1 to 10; an empty line takes it off. It is of the student's
// record and holds beyond the evening.
func (e *Evening) SetSpareLine(id ID, pin int, line Line) (Step, error) {
	was, ok := e.students[id]
	if !ok {
		return Step{}, errNotSeated
	}
	if err := validatePin(pin); err != nil {
		return Step{}, err
	}
	now := was.withSpareLine(SpareLine{pin, line})
	if err := validateSpareLines(now.SpareLines); err != nil {
		return Step{}, err
	}
	if was.SpareLine(pin) == line {
		return e.upStep(), nil
	}
	what := fmt.Sprintf("own line of %s for the %d pin: %s", e.Label(id), pin, line.aimWords())
	if line.IsZero() {
		what = fmt.Sprintf("own line of %s for the %d pin taken off", e.Label(id), pin)
	}
	step, err := e.do(Action{Student: id, What: what, Changes: []Change{{Ref: now.Ref(), Before: was, After: now}}})
	if err != nil {
		return Step{}, err
	}
	step.Up = e.Up()
	return step, nil
}

// withSpareLine gives the student with a line put in or, where it is empty, taken off.
func (s Student) withSpareLine(l SpareLine) Student {
	i, has := s.spareIndex(l.Pin)
	before, after := s.SpareLines[:i], s.SpareLines[i:]
	if has {
		after = after[1:]
	}
	var put []SpareLine
	if !l.Line.IsZero() {
		put = []SpareLine{l}
	}
	s.SpareLines = slices.Concat(before, put, after)
	return s
}

// validateSpareLines tells what is wrong with a student's own lines, or nil: each is a pin's, in the order of the pins.
func validateSpareLines(lines []SpareLine) error {
	last := 0
	for _, l := range lines {
		switch {
		case validatePin(l.Pin) != nil:
			return validatePin(l.Pin)
		case l.Pin == last:
			return fmt.Errorf("the %d pin has two own lines: keep one", l.Pin)
		case l.Pin < last:
			return fmt.Errorf("the own line for the %d pin comes after the %d pin's: put them in the order of the pins", l.Pin, last)
		}
		if err := l.Line.validateAim(); err != nil {
			return fmt.Errorf("the own line for the %d pin: %w", l.Pin, err)
		}
		last = l.Pin
	}
	return nil
}

func validatePin(pin int) error {
	if pin < 1 || pin > 10 {
		return fmt.Errorf("an own line for the %d pin: pins are 1 to 10", pin)
	}
	return nil
}
