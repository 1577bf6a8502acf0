package model

import (
	"fmt"
	"strings"
)

// Describe says an action in a line for the status: a recorded ball with whose it was, its frame, its pins and its
// grade, or what else was done.
func (e *Evening) Describe(a Action) string {
	if a.How == NotRecorded {
		return a.What
	}
	for _, c := range a.Changes {
		if d, ok := c.After.(Delivery); ok {
			return e.describeDelivery(a.Student, d)
		}
	}
	return a.What
}

func (e *Evening) describeDelivery(id ID, d Delivery) string {
	words := []string{e.Label(id)}
	if d.Frame > 0 {
		words = append(words, fmt.Sprintf("frame %d:", d.Frame))
	}
	words = append(words, pinWords(d, e.foundBy(d)))
	switch {
	case d.Dead:
	case !d.Seen:
		words = append(words, "unseen")
	case d.Grade() != Ungraded:
		words = append(words, d.Grade().String())
	}
	return strings.Join(words, " ")
}

// foundBy gives what a delivery found, also of one that was just taken back.
func (e *Evening) foundBy(d Delivery) Rack {
	s := e.sheets[d.Game]
	switch {
	case s == nil && d.Frame > 0:
		return Rack{Full: d.Ball == 1}
	case s == nil:
		return Rack{}
	}
	if i := s.Index(d.ID); i >= 0 {
		return s.Racks[i]
	}
	return s.Next()
}

func pinWords(d Delivery, found Rack) string {
	switch {
	case d.Dead:
		return "dead ball"
	case d.Foul:
		return "foul"
	case !d.Pins.Known:
		return "ball"
	case d.After.Known && d.After.Pins == 0 && found.Full:
		return "strike"
	case d.After.Known && d.After.Pins == 0 && d.Frame > 0:
		return "spare"
	case d.After.Known && d.After.Pins == 0:
		return "all down"
	case d.Pins.Value == 0:
		return "none down"
	case d.After.Known:
		return fmt.Sprintf("%d, left %s", d.Pins.Value, d.After.Pins)
	}
	return fmt.Sprintf("%d", d.Pins.Value)
}
