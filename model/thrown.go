package model

import (
	"cmp"
	"slices"
)

// Thrown is a delivery as it wears the lane that it was thrown on.
type Thrown struct {
	Student  ID
	Delivery Delivery
	// Before counts the balls that anyone threw on the lane earlier in the evening.
	Before int
	// Full tells whether the ball was at a full rack: one that could strike, or any of a warm-up or of a drill at all ten
	// pins.
	Full bool
}

// PairTonight gives all that was thrown on a pair's two lanes in the evening, in the order of recording: every student's
// balls, also of who is on another pair by now, warm-ups, drills and dead balls among them.
func (e *Evening) PairTonight(pair Pair) []Thrown {
	var thrown []Thrown
	for _, s := range e.sheets {
		for i, d := range s.Deliveries {
			if PairOf(d.Lane) == pair {
				full := s.Racks[i].Full || s.Game.Kind == KindWarmup
				thrown = append(thrown, Thrown{Student: s.Game.Student, Delivery: d, Full: full})
			}
		}
	}
	slices.SortFunc(thrown, func(a, b Thrown) int { return cmp.Compare(e.order[a.Delivery.ID], e.order[b.Delivery.ID]) })
	on := map[int]int{}
	for i := range thrown {
		t := &thrown[i]
		t.Before = on[t.Delivery.Lane]
		on[t.Delivery.Lane]++
	}
	return thrown
}
