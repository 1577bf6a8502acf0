package tui

import (
	"fmt"
	"slices"
	"strings"

	"coach.settee/model"
)

// sessionScreen is the evening's screen: who is here, on which pair, in which order, and what holds for the evening. Without
// an evening it is where one is begun or resumed.
type sessionScreen struct {
	bindings table
	// marked is the student that the student's keys speak of.
	marked model.ID
	lefts  lefts
	// earlier is the list of evenings that lies over the screen, nil for none.
	earlier *earlierList
}

func newSession() *sessionScreen {
	return &sessionScreen{bindings: slices.Concat(eveningKeys, lanesKeys, markedKeys), lefts: newLefts()}
}

func (s *sessionScreen) title() string { return "Evening" }
func (s *sessionScreen) about() string {
	return "who is here and where; begin, close"
}
func (s *sessionScreen) letter() string { return "e" }

func (s *sessionScreen) table() table {
	if s.earlier != nil {
		return earlierKeys
	}
	return s.bindings
}

func (s *sessionScreen) moment(a *App) moment {
	switch {
	case s.earlier != nil:
		return momentEvenings
	case a.evening == nil:
		return momentNone
	}
	return momentSession
}

// student gives the student who is marked; where nobody is, the one who is up or else the first, "" where nobody is here.
func (s *sessionScreen) student(a *App) model.ID {
	if a.evening == nil {
		return ""
	}
	if _, ok := a.evening.SeatOf(s.marked); ok {
		return s.marked
	}
	if up := a.evening.UpStudent(); up != "" {
		return up
	}
	if seats := a.evening.Seats(); len(seats) > 0 {
		return seats[0].Student
	}
	return ""
}

// mark marks the student a number of places after the one marked.
func (s *sessionScreen) mark(a *App, by int) {
	seats := a.evening.Seats()
	at := slices.IndexFunc(seats, func(x model.Seat) bool { return x.Student == s.student(a) })
	s.marked = seats[inList(at+by, len(seats))].Student
}

// noEvening refuses a key that needs an evening.
func noEvening(a *App) string {
	if a.evening == nil {
		return "no evening is open: n begins one"
	}
	return ""
}

// nobodyHere refuses a key that needs a student of the evening.
func nobodyHere(a *App) string {
	if words := noEvening(a); words != "" {
		return words
	}
	if len(a.evening.Seats()) == 0 {
		return "nobody is here yet: a adds a student"
	}
	return ""
}

// noOther refuses to turn to another evening where there is none, or where that would lose something.
func noOther(a *App) string {
	if len(a.open) == 0 {
		return "no other evening is open"
	}
	return notNow(a)
}

// notNow refuses to turn from the evening that is open while that would lose something.
func notNow(a *App) string {
	switch {
	case !a.ledger.settled():
		return errNotKept.Error()
	case a.evening != nil:
		return callBegun(a)
	}
	return ""
}

// callBegun refuses to close the evening or to turn from it while a call is begun.
func callBegun(a *App) string {
	if names := a.begun(); len(names) > 0 {
		return fmt.Sprintf("a call is begun for %s: record it on the board, or clear it there with esc", strings.Join(names, ", "))
	}
	return ""
}

// pairsToFill gives the pair of the student who is marked, then those without students.
func (s *sessionScreen) pairsToFill(a *App) []model.Pair {
	pairs := []model.Pair{a.evening.PairInView()}
	if seat, ok := a.evening.SeatOf(s.student(a)); ok {
		pairs[0] = seat.Pair()
	}
	for _, p := range a.evening.Session().Pairs {
		if a.evening.UpOn(p) == "" && p != pairs[0] {
			pairs = append(pairs, p)
		}
	}
	return pairs
}

func (a *App) askForMoreLanes() {
	a.ask("lanes to add (11, or 11 13)", func(text string) error {
		pairs, err := model.ParseLanes(text)
		if err != nil {
			return err
		}
		had := a.evening.Session().Pairs
		if err := a.done(a.evening.AddPairs(pairs)); err != nil {
			return err
		}
		a.askForRoster(slices.DeleteFunc(pairs, func(p model.Pair) bool { return slices.Contains(had, p) }), a.session)
		return nil
	})
}
