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
}

func newSession() *sessionScreen {
	return &sessionScreen{bindings: slices.Concat(eveningKeys, markedKeys)}
}

func (s *sessionScreen) title() string { return "Evening" }
func (s *sessionScreen) about() string {
	return "who is here and where; begin, close"
}
func (s *sessionScreen) letter() string { return "e" }
func (s *sessionScreen) table() table   { return s.bindings }

func (s *sessionScreen) moment(a *App) moment {
	if a.evening == nil {
		return momentNone
	}
	return momentSession
}

// student gives the student who is marked, the first where the mark is gone, "" where nobody is here.
func (s *sessionScreen) student(a *App) model.ID {
	if a.evening == nil {
		return ""
	}
	if _, ok := a.evening.SeatOf(s.marked); ok {
		return s.marked
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
	s.marked = seats[min(max(at+by, 0), len(seats)-1)].Student
}

// noEvening refuses a key that needs an evening.
func noEvening(a *App) string {
	if a.evening == nil {
		return errNoEvening.Error()
	}
	return ""
}

// nobodyHere refuses a key that needs a student of the evening.
func nobodyHere(a *App) string {
	if words := noEvening(a); words != "" {
		return words
	}
	if len(a.evening.Seats()) == 0 {
		return "nobody is here yet: s adds a student"
	}
	return ""
}

// rosterLines is the most lines that seat everyone: the lanes, the students, an empty line a pair.
const rosterLines = 1 + model.MaxStudents + model.MaxPairs

// eveningKeys set what holds for the evening.
var eveningKeys = table{
	{
		keys: []string{"n"}, group: groupEvening, help: "begin a new evening: the lanes, then the students",
		hints: map[moment]string{momentNone: "new evening"}, lines: rosterLines,
		refused: func(a *App) string {
			if a.evening != nil {
				return "an evening is open: x closes it first"
			}
			return ""
		},
		act: func(a *App, _ string) { a.askForLanes() },
	},
	{
		keys: []string{"s"}, group: groupEvening, help: "add students to the pair of the one marked, and to pairs that have none",
		hints: map[moment]string{momentSession: "student"}, lines: rosterLines, refused: noEvening,
		act: func(a *App, _ string) { a.askForRoster(a.session.pairsToFill(a), a.session) },
	},
	{
		keys: []string{"l"}, group: groupEvening, help: "add lanes, and the students there",
		hints: map[moment]string{momentSession: "lanes"}, lines: rosterLines, refused: noEvening,
		act: func(a *App, _ string) { a.askForMoreLanes() },
	},
	{
		keys: []string{"p"}, group: groupEvening, help: "name the place; empty takes the name off",
		hints: map[moment]string{momentSession: "place"}, lines: 1, refused: noEvening,
		act: func(a *App, _ string) {
			a.ask("place"+now(a.place()), func(text string) error { return a.done(a.evening.SetPlace(text)) })
		},
	},
	{
		keys: []string{"i"}, group: groupEvening, help: "how long the oil is, in feet; empty takes it off",
		lines: 1, refused: noEvening,
		act: func(a *App, _ string) {
			a.ask("length of the oil in feet", func(text string) error { return a.done(a.evening.SetPattern(text)) })
		},
	},
	{
		keys: []string{"r"}, group: groupEvening, help: "put the next student up after a frame, or change by hand only",
		refused: noEvening, act: func(a *App, _ string) { a.tell(a.evening.ToggleRotate()) },
	},
	{
		keys: []string{"b"}, group: groupEvening, help: "drills in blocks, or in turn after each delivery",
		refused: noEvening, act: func(a *App, _ string) { a.tell(a.evening.ToggleBlock()) },
	},
	{
		keys: []string{"x"}, group: groupEvening, help: "close the evening; asks first",
		hints: map[moment]string{momentSession: "close"}, refused: noEvening,
		act: func(a *App, _ string) { a.askToClose() },
	},
	{
		keys: []string{"o"}, group: groupEvening, help: "turn to the next evening that was left open",
		hints: map[moment]string{momentNone: "resume"}, refused: noOther,
		act: func(a *App, _ string) { a.resume(a.open[0].ID) },
	},
	{
		keys: []string{"backspace", "ctrl+h"}, shown: "backspace", group: groupEvening, help: "take back the last action, as on the board",
		act: func(a *App, _ string) {
			if a.evening == nil {
				a.reopenClosed()
				return
			}
			a.undo()
		},
	},
	{
		keys: []string{"U"}, group: groupEvening, help: "do again what was taken back",
		refused: noEvening, act: func(a *App, _ string) { a.redo() },
	},
	{
		keys: []string{"esc"}, group: groupEvening, help: "back to the board",
		hints: map[moment]string{momentSession: "board"}, refused: noEvening,
		act: func(a *App, _ string) { a.show(a.board) },
	},
}

// noOther refuses to turn to another evening where there is none, or where that would lose something.
func noOther(a *App) string {
	switch {
	case len(a.open) == 0:
		return "no other evening is open"
	case !a.ledger.settled():
		return "not everything is kept yet: try again in a moment"
	case a.evening != nil && len(a.begun()) > 0:
		return fmt.Sprintf("a call is begun for %s: record it or clear it first", strings.Join(a.begun(), ", "))
	}
	return ""
}

// markedKeys speak of the student who is marked.
var markedKeys = table{
	{
		keys: []string{"up", "down"}, group: groupStudent, help: "mark the student before, after",
		hints: map[moment]string{momentSession: "mark"}, refused: nobodyHere,
		act: func(a *App, key string) {
			if key == "up" {
				a.session.mark(a, -1)
				return
			}
			a.session.mark(a, 1)
		},
	},
	{
		keys: []string{"enter", "ctrl+j"}, shown: "enter", group: groupStudent, help: "put the student up, on the board",
		refused: nobodyHere,
		act: func(a *App, _ string) {
			if a.tell(a.evening.PutUp(a.session.student(a))) {
				a.show(a.board)
			}
		},
	},
	{
		keys: []string{"u", "d"}, group: groupStudent, help: "earlier, later in the order of the pair",
		hints: map[moment]string{momentSession: "order"}, refused: nobodyHere,
		act: func(a *App, key string) {
			a.session.marked = a.session.student(a)
			if key == "u" {
				a.tell(a.evening.MoveInOrder(a.session.marked, -1))
				return
			}
			a.tell(a.evening.MoveInOrder(a.session.marked, 1))
		},
	},
	{
		keys: []string{"a"}, group: groupStudent, help: "even frames on the other lane of the pair, or all on one lane",
		hints: map[moment]string{momentSession: "alternate"}, refused: nobodyHere,
		act: func(a *App, _ string) { a.tell(a.evening.ToggleAlternate(a.session.student(a))) },
	},
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

func (a *App) askToClose() {
	a.pose("close the evening? y closes it, any other key does not", binding{
		keys: []string{"y"},
		act: func(a *App, _ string) {
			a.question = nil
			if a.tell(a.evening.Close(a.conf.Now())) {
				a.shutIfClosed()
			}
		},
	})
}
