package model

import (
	"cmp"
	"slices"
)

// nextOrder gives the place of the next delivery in the order of recording.
func (e *Evening) nextOrder() int {
	e.recorded++
	return e.recorded
}

// placeBehind gives balls that a correction has added to a frame their places in the order of recording: behind the ball
// before them in their game, as if they had been recorded then.
func (e *Evening) placeBehind(added []Delivery) {
	if len(added) == 0 {
		return
	}
	s := e.sheets[added[0].Game]
	at := e.order[s.Deliveries[s.Index(added[0].ID)-1].ID]
	for id, n := range e.order {
		if n > at {
			e.order[id] = n + len(added)
		}
	}
	for i, d := range added {
		e.order[d.ID] = at + 1 + i
	}
	e.recorded += len(added)
	for id := range e.games {
		e.findLastBall(id)
	}
}

// ordered gives an evening's deliveries in the order of recording, with those that the actions can bring back. What a
// correction has added to a frame has the time of the ball before it there and goes behind it, whatever its number.
func (k Kept) ordered() []Delivery {
	all := slices.Clone(k.Deliveries)
	for _, d := range k.takenOut() {
		i := slices.IndexFunc(all, func(other Delivery) bool { return k.recordedBefore(d, other) })
		if i < 0 {
			i = len(all)
		}
		all = slices.Insert(all, i, d)
	}
	type turn struct {
		game  ID
		frame int
		at    int64
	}
	place := map[turn]int{}
	first := make([]int, len(all))
	for i, d := range all {
		t := turn{d.Game, d.Frame, d.At.Unix()}
		at, begun := place[t]
		if d.Frame == 0 || !begun {
			at = i
			place[t] = i
		}
		first[i] = at
	}
	places := make([]int, len(all))
	for i := range places {
		places[i] = i
	}
	slices.SortStableFunc(places, func(a, b int) int { return cmp.Compare(first[a], first[b]) })
	ordered := make([]Delivery, len(all))
	for i, at := range places {
		ordered[i] = all[at]
	}
	return ordered
}

// takenOut gives the deliveries that are no longer there but that an action can bring back, as they were last.
func (k Kept) takenOut() []Delivery {
	known := map[ID]bool{}
	for _, d := range k.Deliveries {
		known[d.ID] = true
	}
	var out []Delivery
	for _, en := range slices.Backward(k.Log) {
		for _, w := range en.Was {
			if d, ok := w.Record.(Delivery); ok && !known[d.ID] {
				known[d.ID] = true
				out = append(out, d)
			}
		}
	}
	return out
}

// recordedBefore tells whether a delivery was recorded before another: by the numbers of ids of the session's own, else by
// the time; ids from elsewhere come first.
func (k Kept) recordedBefore(d, other Delivery) bool {
	n, own := Serial(k.Session.ID, d.ID)
	m, othersOwn := Serial(k.Session.ID, other.ID)
	switch {
	case own && othersOwn:
		return n < m
	case own != othersOwn:
		return othersOwn
	}
	return d.At.Before(other.At)
}
