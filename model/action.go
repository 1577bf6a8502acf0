package model

// How tells by which key a delivery was recorded, so that taking it back gives the call as it was before that key.
type How uint8

// The ways. NotRecorded is an action that recorded no call.
const (
	NotRecorded How = iota
	// AllDown recorded with every standing pin felled.
	AllDown
	// Counted recorded with a number of pins felled.
	Counted
	// Named recorded what was named before.
	Named
	// DeadBall recorded a ball to be thrown again.
	DeadBall
)

// Change is one record before and after an action; a nil Record means that it is not there.
type Change struct {
	Ref           Ref
	Before, After Record
}

// Action is one thing the coach did, as it can be done, taken back and done again. Its changes are in the order in which
// they are made.
type Action struct {
	// N is the action's place in the evening's list, from 1.
	N int
	// Student is whose it was, "" for the evening's.
	Student ID
	How     How
	// What says what was done where no call was recorded: "cue for Ada".
	What string
	// Call is the call as it was before the recording key. Starting letters that no key touched are left out of it where
	// the ball was not seen.
	Call    Call
	Changes []Change
}

// recorded gives the delivery that the action recorded by a call, and whether it did.
func (a Action) recorded() (Delivery, bool) {
	if a.How == NotRecorded {
		return Delivery{}, false
	}
	for _, c := range a.Changes {
		if d, ok := c.After.(Delivery); ok && c.Before == nil {
			return d, true
		}
	}
	return Delivery{}, false
}

// Inverse gives the changes that take the action back, in order.
func (a Action) Inverse() []Change {
	out := make([]Change, 0, len(a.Changes))
	for i := len(a.Changes) - 1; i >= 0; i-- {
		c := a.Changes[i]
		out = append(out, Change{Ref: c.Ref, Before: c.After, After: c.Before})
	}
	return out
}

// Was is a record as it was before an action; a nil Record means that it was not there.
type Was struct {
	Ref    Ref
	Record Record
}

// Entry is an action as the store remembers it: without the records as they became, since those are what is kept, or
// what the next entry says they were.
type Entry struct {
	N       int
	Student ID
	How     How
	What    string
	// Call is the call as it was before the recording key. It is known only where the delivery does not tell it: pins
	// that were named before all were taken down, letters of a ball that was then not seen.
	Call Optional[Call]
	Was  []Was
}

// Entry gives what is to be remembered of the action.
func (a Action) Entry() Entry {
	e := Entry{N: a.N, Student: a.Student, How: a.How, What: a.What, Was: make([]Was, len(a.Changes))}
	for i, c := range a.Changes {
		e.Was[i] = Was{Ref: c.Ref, Record: c.Before}
	}
	if d, ok := a.recorded(); ok && callBefore(d, a.How) != a.Call {
		e.Call = Known(a.Call)
	}
	return e
}

// Up is who is up: the pair the coach looks at, by its odd lane, and the student up on each pair.
type Up struct {
	Lane   int
	OnPair map[int]ID
}

// Step is what the store has to do for one action, all of it or nothing: make the changes, add the action to the
// evening's list or (Undo) take the list's last one off, and keep the tallies and who is up. A Step whose action has no
// changes keeps who is up only.
type Step struct {
	Session ID
	Action  Action
	Undo    bool
	// Again says that the action was taken back before. It is for who hands the step over: nothing else is kept for it.
	Again bool
	// Changes are the action's, or its inverse.
	Changes []Change
	// Tallies are those of the games that the changes touch and that are still there.
	Tallies map[ID]Tally
	Up      Up
}
