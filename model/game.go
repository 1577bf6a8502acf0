package model

import (
	"errors"
	"fmt"

	"coach.settee/model/tenpin"
)

// Kind is what a series of deliveries is for.
type Kind string

// The kinds.
const (
	KindGame   Kind = "game"
	KindDrill  Kind = "drill"
	KindWarmup Kind = "warmup"
)

// Game is a game, a drill or a warm-up of one student in one evening. Number counts the three kinds together, from 1.
type Game struct {
	ID      ID
	Session ID
	Student ID
	Number  int
	Kind    Kind
	// Name, Length (in deliveries, 0 for open) and Pins (none for a full rack) are a drill's.
	Name   string
	Length int
	Pins   tenpin.PinSet
	// Stopped says why an unfinished game was left, "done" of a drill or a warm-up that was left for something else, "" for
	// what was not stopped.
	Stopped string
	Note    string
}

// Rack gives the pins that a drill's or warm-up's every delivery, or a game's frame, begins with.
func (g Game) Rack() tenpin.PinSet {
	if g.Kind != KindDrill || g.Pins == 0 {
		return tenpin.AllPins
	}
	return g.Pins
}

// Validate tells what is wrong with the game's record, or nil.
func (g Game) Validate() error {
	for _, id := range []ID{g.ID, g.Session, g.Student} {
		if err := id.Validate(); err != nil {
			return err
		}
	}
	if g.Number < 1 {
		return fmt.Errorf("number %d: games count from 1", g.Number)
	}
	switch g.Kind {
	case KindGame, KindWarmup:
		if g.Length != 0 || g.Pins != 0 {
			return fmt.Errorf("a %s has no length and no pins of its own: only a drill has", g.Kind)
		}
	case KindDrill:
		if !g.Pins.Within(tenpin.AllPins) {
			return errors.New("a drill at a pin beyond 10")
		}
		if g.Length < 0 || g.Length > MaxDrill {
			return fmt.Errorf("a drill of %d: drills have 1 to %d deliveries, or are open", g.Length, MaxDrill)
		}
	default:
		return fmt.Errorf("the kind %q: use game, drill or warmup", g.Kind)
	}
	return validateTexts(g.Name, g.Stopped, g.Note)
}

// MaxDrill is the most deliveries that a drill can be set to.
const MaxDrill = 500
