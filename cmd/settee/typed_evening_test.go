//go:build unix

package main

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"testing"

	"coach.settee/model"
	"coach.settee/store"
)

// finds checks that the file holds the evening as it was after one of the steps, whole, and no earlier than the screen
// has shown it to be kept, and gives it.
func (h *hand) finds(path string) model.Kept {
	h.t.Helper()
	found := onlyEvening(h.t, path)
	want, nearest, difference := h.base, -1, ""
	want.Deliveries, want.Games = slices.Clone(want.Deliveries), slices.Clone(want.Games)
	for i := 0; ; i++ {
		if i >= h.certain {
			what, alike := differs(want, found)
			if what == "" {
				return found
			}
			if alike >= nearest {
				nearest, difference = alike, what
			}
		}
		if i == len(h.steps) {
			break
		}
		take(&want, h.steps[i])
	}
	h.t.Fatalf("the file does not hold the evening as it was when the screen showed %d deliveries as kept, nor as it was after "+
		"any later key; it comes nearest in %s", h.moments[h.certain].deliveries, difference)
	return found
}

// onlyEvening opens a store, checks it before and after, and gives its only evening, which can be resumed.
func onlyEvening(t testing.TB, path string) model.Kept {
	t.Helper()
	if err := store.Check(path); err != nil {
		t.Fatal(err)
	}
	s, err := store.Open(path, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	sessions, err := s.OpenSessions()
	if err != nil || len(sessions) != 1 {
		t.Fatalf("%d evenings are open: %v", len(sessions), err)
	}
	k, err := s.Evening(sessions[0].ID)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := model.Resume(k); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if err := store.Check(path); err != nil {
		t.Fatal(err)
	}
	return k
}

// take makes a step's changes to an evening, as a store has to keep it. Of the log it makes the length alone.
func take(k *model.Kept, step model.Step) {
	for _, c := range step.Changes {
		k.Deliveries = changed(k.Deliveries, c, func(d model.Delivery) model.ID { return d.ID })
		k.Games = changed(k.Games, c, func(g model.Game) model.ID { return g.ID })
	}
	if n := step.Action.N; n > 0 {
		if step.Undo {
			n--
		}
		k.Log = slices.Grow(k.Log[:0], n)[:n]
	}
	if step.Up.OnPair != nil {
		k.Up = step.Up
	}
}

// changed makes a change to the records of one kind, which stay in the order of their ids.
func changed[R model.Record](records []R, c model.Change, id func(R) model.ID) []R {
	serial := func(r R) int { return serialOf(string(id(r))) }
	if _, before := c.Before.(R); before {
		records = slices.DeleteFunc(records, func(r R) bool { return id(r) == c.Ref.ID })
	}
	if r, ok := c.After.(R); ok {
		at := len(records)
		for at > 0 && serial(records[at-1]) > serial(r) {
			at--
		}
		records = slices.Insert(records, at, r)
	}
	return records
}

// differs says in what two evenings differ first, "" in nothing, and how many deliveries are alike before that.
func differs(want, found model.Kept) (what string, alike int) {
	both := min(len(want.Deliveries), len(found.Deliveries))
	for alike < both && sameDelivery(want.Deliveries[alike], found.Deliveries[alike]) {
		alike++
	}
	byID := func(a, b model.Game) int { return serialOf(string(a.ID)) - serialOf(string(b.ID)) }
	sorted := func(k model.Kept) []model.Game { return slices.SortedFunc(slices.Values(k.Games), byID) }
	said := func(name string, want, found any) (string, int) {
		return fmt.Sprintf("%s: it holds\n%+v\nexpected is\n%+v", name, found, want), alike
	}
	switch {
	case alike < both:
		return said(fmt.Sprint("delivery ", alike+1), want.Deliveries[alike], found.Deliveries[alike])
	case len(want.Deliveries) != len(found.Deliveries):
		return said("the number of deliveries", len(want.Deliveries), len(found.Deliveries))
	case !slices.Equal(sorted(want), sorted(found)):
		return said("the games", sorted(want), sorted(found))
	case !reflect.DeepEqual(want.Session, found.Session):
		return said("the session", want.Session, found.Session)
	case len(want.Log) != len(found.Log):
		return said("the number of actions", len(want.Log), len(found.Log))
	case want.Up.Lane != found.Up.Lane || !maps.Equal(want.Up.OnPair, found.Up.OnPair):
		return said("who is up", want.Up, found.Up)
	}
	return "", alike
}

// sameDelivery compares all of two deliveries but the time of one that was typed since the file was last read.
func sameDelivery(want, found model.Delivery) bool {
	if want.At.Equal(typedAt) {
		want.At = found.At
	}
	return want == found && !found.At.IsZero()
}
