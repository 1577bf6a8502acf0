package model

import (
	"fmt"
	"strconv"
	"strings"

	"coach.settee/model/tenpin"
)

// Plan is what a student is to bowl next.
type Plan struct {
	Kind   Kind
	Name   string
	Length int
	Pins   tenpin.PinSet
}

// ParsePlan reads what is to be begun: "" for the same kind again, "g" a game, "w" a warm-up, a number for a drill of
// that many deliveries with an optional name, whose last words may name the pins: "10 corner 10" is ten at the 10 pin
// under the name corner.
func ParsePlan(text string, last Plan) (Plan, error) {
	words := strings.Fields(text)
	if len(words) == 0 {
		return last, nil
	}
	if len(words) == 1 {
		switch strings.ToLower(words[0]) {
		case "g":
			return Plan{Kind: KindGame}, nil
		case "w":
			return Plan{Kind: KindWarmup}, nil
		}
	}
	n, ok := whole(words[0])
	if !ok || n < 1 || n > MaxDrill {
		return Plan{}, fmt.Errorf("%q: g is a game, w a warm-up, 10 a drill of ten (1 to %d)", text, MaxDrill)
	}
	p := Plan{Kind: KindDrill, Length: n}
	words = words[1:]
	for len(words) > 0 {
		pins, ok := pinsIn(words[len(words)-1])
		if !ok {
			break
		}
		p.Pins |= pins
		words = words[:len(words)-1]
	}
	if p.Pins == tenpin.AllPins {
		p.Pins = 0
	}
	p.Name = strings.Join(words, " ")
	return p, ValidateText(p.Name)
}

// pinsIn reads pins joined by hyphens or commas: "10", "3-6-10".
func pinsIn(word string) (tenpin.PinSet, bool) {
	var set tenpin.PinSet
	for _, part := range strings.FieldsFunc(word, func(r rune) bool { return r == '-' || r == ',' }) {
		n, ok := whole(part)
		if !ok || n < 1 || n > 10 {
			return 0, false
		}
		set |= tenpin.Pins(n)
	}
	return set, set != 0
}

// whole reads a number written with digits only.
func whole(word string) (int, bool) {
	if word == "" || strings.Trim(word, "0123456789") != "" {
		return 0, false
	}
	n, err := strconv.Atoi(word)
	return n, err == nil
}

// LastPlan gives what the student who is up bowled last, a game where there is nothing yet.
func (e *Evening) LastPlan() Plan {
	s := e.Sheet(e.UpStudent())
	if s == nil {
		return Plan{Kind: KindGame}
	}
	return Plan{Kind: s.Game.Kind, Name: s.Game.Name, Length: s.Game.Length, Pins: s.Game.Pins}
}
