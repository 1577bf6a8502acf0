package model

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// measure is a field that is a number with a unit. Its range lies within what the exchange format takes.
type measure struct {
	name, hint, unit string
	// low and high are what may be typed.
	low, high float64
	// also are other ways to write the unit.
	also []string
	at   func(*Student) *Optional[float64]
}

var (
	ballSpeed = measure{
		name: "ball speed", hint: "miles an hour, 1 to 40", unit: "mph", low: 1, high: 40,
		at: func(s *Student) *Optional[float64] { return &s.SpeedMPH },
	}
	revRate = measure{
		name: "rev rate", hint: "turns a minute, 0 to 1000", unit: "rpm", high: 1000,
		at: func(s *Student) *Optional[float64] { return &s.RevRPM },
	}
	axisRotation = measure{
		name: "axis rotation", hint: "degrees, 0 to 180", unit: "degrees", high: 180, also: []string{"°", "deg"},
		at: func(s *Student) *Optional[float64] { return &s.AxisRotation },
	}
	slideOffset = measure{
		name: "slide offset", hint: "boards from the slide to the laydown board, -40 to 40", unit: "boards",
		low: -40, high: 40, at: func(s *Student) *Optional[float64] { return &s.SlideOffset },
	}
)

func numberField(m measure) ProfileField {
	text := func(s Student) string {
		if v := *m.at(&s); v.Known {
			return strconv.FormatFloat(v.Value, 'f', -1, 64)
		}
		return ""
	}
	return ProfileField{
		Name: m.name, Hint: m.hint, Text: text,
		Shown: func(s Student) string {
			if text(s) == "" {
				return ""
			}
			return text(s) + " " + m.unit
		},
		Set: func(s Student, typed string) (Student, error) {
			if typed == "" {
				*m.at(&s) = Optional[float64]{}
				return s, nil
			}
			v, ok := m.read(typed)
			if !ok || v < m.low || v > m.high {
				return s, fmt.Errorf("%q is no %s: it is in %s", typed, m.name, m.hint)
			}
			*m.at(&s) = Known(v)
			return s, nil
		},
	}
}

// read reads a number that may have its unit with it, and a sign.
func (m measure) read(typed string) (float64, bool) {
	typed = strings.ToLower(typed)
	for _, unit := range append([]string{m.unit}, m.also...) {
		typed = strings.TrimSpace(strings.TrimSuffix(typed, unit))
	}
	digits, minus := strings.CutPrefix(typed, "-")
	if !minus {
		digits = strings.TrimPrefix(digits, "+")
	}
	v, ok := decimal(pointed(digits))
	if minus && v != 0 {
		v = -v
	}
	return v, ok
}

// maxBalls is how many balls a student carries at most.
const maxBalls = 200

func ballsField() ProfileField {
	return ProfileField{
		Name: "balls carried", Hint: "with commas between them",
		Text: func(s Student) string { return strings.Join(s.Balls, ", ") },
		Set: func(s Student, text string) (Student, error) {
			var balls []string
			for _, ball := range strings.Split(text, ",") {
				ball = strings.TrimSpace(ball)
				switch {
				case ball == "":
					continue
				case slices.Contains(balls, ball):
					return s, fmt.Errorf("the ball %q is named twice: tell the two apart", ball)
				}
				balls = append(balls, ball)
			}
			if len(balls) > maxBalls {
				return s, fmt.Errorf("%d balls: name up to %d", len(balls), maxBalls)
			}
			s.Balls = balls
			if !slices.Contains(balls, s.BallUp) {
				s.BallUp = ""
			}
			return s, nil
		},
	}
}

func ballUpField() ProfileField {
	return ProfileField{
		Name: "ball up", Hint: "one of the balls carried, or its number among them",
		Text: func(s Student) string { return s.BallUp },
		Set: func(s Student, text string) (Student, error) {
			ball, err := s.ballLike(text)
			s.BallUp = ball
			return s, err
		},
	}
}

// ballLike gives the ball carried that a text names: by its name, by its number from 1, or by the beginning of one name
// only.
func (s Student) ballLike(text string) (string, error) {
	n, isNumber := whole(text)
	var begun []string
	for _, ball := range s.Balls {
		if strings.HasPrefix(Fold(ball), Fold(text)) {
			begun = append(begun, ball)
		}
	}
	named := slices.IndexFunc(s.Balls, func(ball string) bool { return strings.EqualFold(ball, text) })
	switch {
	case text == "" || slices.Contains(s.Balls, text):
		return text, nil
	case len(s.Balls) == 0:
		return "", errors.New("no balls are kept: name the balls carried first")
	case named >= 0:
		return s.Balls[named], nil
	case isNumber && n >= 1 && n <= len(s.Balls):
		return s.Balls[n-1], nil
	case len(begun) == 1:
		return begun[0], nil
	case len(begun) > 1:
		return "", fmt.Errorf("%d balls begin with %q: use a number, 1 to %d", len(begun), text, len(s.Balls))
	}
	return "", fmt.Errorf("%q is none of the balls carried: %s", text, strings.Join(s.Balls, ", "))
}

// spareField is the field of the student's own line for a pin.
func spareField(pin int) ProfileField {
	return ProfileField{
		Name:  fmt.Sprintf("%d pin", pin),
		Hint:  fmt.Sprintf("own line: arrows, slide, breakpoint, . for unknown: 21 32 8@43; %d first of three numbers is the pin", pin),
		Text:  func(s Student) string { return withPin(pin, s.SpareLine(pin).typed()) },
		Shown: func(s Student) string { return s.SpareLine(pin).aimWords() },
		Set: func(s Student, text string) (Student, error) {
			var line Line
			if text != "" {
				var err error
				if line, err = ParseAim(withoutPin(pin, pointedWords(text)), Line{}); err != nil {
					return s, err
				}
				if err = line.validateAim(); err != nil {
					return s, err
				}
			}
			return s.withSpareLine(SpareLine{pin, line}), nil
		},
	}
}

// withoutPin leaves out the pin before a line, as the table of spares takes it: before two numbers, or before three parts.
func withoutPin(pin int, text string) string {
	words := strings.Fields(text)
	if len(words) != 4 && !looksPinned(pin, words) || words[0] != strconv.Itoa(pin) {
		return text
	}
	return strings.Join(words[1:], " ")
}

// withPin puts the pin before a line whose board at the arrows would be taken for it.
func withPin(pin int, typed string) string {
	if looksPinned(pin, strings.Fields(typed)) {
		return strconv.Itoa(pin) + " " + typed
	}
	return typed
}

// looksPinned tells whether words are three plain numbers, the first of them the pin.
func looksPinned(pin int, words []string) bool {
	if len(words) != 3 || words[0] != strconv.Itoa(pin) {
		return false
	}
	return !slices.ContainsFunc(words, func(word string) bool { _, ok := decimal(word); return !ok })
}

// pointedWords gives numbers with blanks between them with points for decimal commas.
func pointedWords(text string) string {
	words := strings.Fields(text)
	for i, word := range words {
		words[i] = pointed(word)
	}
	return strings.Join(words, " ")
}

// typed gives the line as ParseAim reads it: "17 34 8@43", with "." for what is not known before what is.
func (l Line) typed() string {
	var words []string
	for _, board := range []Optional[float64]{l.Arrows, l.Slide, l.Breakpoint} {
		word := "."
		if board.Known {
			word = strconv.FormatFloat(board.Value, 'f', -1, 64)
		}
		words = append(words, word)
	}
	if l.BreakpointFt.Known {
		words[2] += "@" + strconv.FormatFloat(l.BreakpointFt.Value, 'f', -1, 64)
	}
	for len(words) > 0 && words[len(words)-1] == "." {
		words = words[:len(words)-1]
	}
	return strings.Join(words, " ")
}

func loadField() ProfileField {
	const most = 1000
	return ProfileField{
		Name: "load limit", Hint: fmt.Sprintf("deliveries an evening, 1 to %d; you are warned, nothing is forbidden", most),
		Text: func(s Student) string {
			if s.LoadLimit == 0 {
				return ""
			}
			return strconv.Itoa(s.LoadLimit)
		},
		Set: func(s Student, text string) (Student, error) {
			if text == "" {
				s.LoadLimit = 0
				return s, nil
			}
			n, ok := whole(text)
			if !ok || n < 1 || n > most {
				return s, fmt.Errorf("a load limit of %s: it is a number of deliveries, 1 to %d", text, most)
			}
			s.LoadLimit = n
			return s, nil
		},
	}
}
