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
		words = append(words, fmt.Sprintf("frame %d", d.Frame))
	}
	words = append(words, pinWords(d))
	switch {
	case d.Dead:
	case !d.Seen:
		words = append(words, "unseen")
	case d.Grade() != Ungraded:
		words = append(words, d.Grade().String())
	}
	return strings.Join(words, " ")
}

func pinWords(d Delivery) string {
	switch {
	case d.Dead:
		return "dead ball"
	case d.Foul:
		return "foul"
	case !d.Pins.Known:
		return "ball"
	case d.After.Known && d.After.Pins == 0 && d.Ball == 1:
		return "strike"
	case d.After.Known && d.After.Pins == 0:
		return "all down"
	case d.After.Known && d.Pins.Value > 0:
		return fmt.Sprintf("%d, left %s", d.Pins.Value, d.After.Pins)
	}
	return fmt.Sprintf("%d", d.Pins.Value)
}
