package model

import (
	"errors"
	"fmt"
	"strings"
)

// Unfinished tells whether the student who is up has a game that is begun and not over, which beginning another stops.
func (e *Evening) Unfinished() bool { return e.unfinished(e.UpStudent()) }

func (e *Evening) unfinished(id ID) bool {
	s := e.Sheet(id)
	return s != nil && s.Game.Kind == KindGame && !s.Ended() && len(s.Deliveries) > 0
}

// Begin begins what is planned for the student who is up. An unfinished game is stopped for the reason given, and is
// then in no average; without a reason it is in the way.
func (e *Evening) Begin(p Plan, reason string) (Step, error) {
	id := e.UpStudent()
	if err := e.readyForOther(id); err != nil {
		return Step{}, err
	}
	if err := ValidateText(reason); err != nil {
		return Step{}, err
	}
	if e.Unfinished() && reason == "" {
		return Step{}, errors.New("the game is unfinished: say why it is stopped")
	}
	serial := e.serial
	g, changes := e.beginning(id, p, reason)
	what := fmt.Sprintf("%s begins %s", e.Label(id), e.TitleOf(g))
	return e.startGames(serial, Action{Student: id, What: what, Changes: changes})
}

// beginning gives what a student begins, and the changes by which it takes the place of what was begun before.
func (e *Evening) beginning(id ID, p Plan, reason string) (Game, []Change) {
	var changes []Change
	if last := e.Sheet(id); last != nil && !last.Ended() {
		changes = append(changes, e.ended(last, reason))
	}
	g := e.newGame(id, Game{Kind: p.Kind, Name: p.Name, Length: p.Length, Pins: p.Pins})
	if len(changes) > 0 && changes[0].After == nil {
		g.Number--
	}
	return g, append(changes, Change{Ref: g.Ref(), After: g})
}

// startGames does an action that begins games, whose ids were given from a serial on: they are free again where it is
// refused.
func (e *Evening) startGames(serial int, a Action) (Step, error) {
	for _, c := range a.Changes {
		if c.After == nil {
			continue
		}
		if err := c.After.Validate(); err != nil {
			e.serial = serial
			return Step{}, err
		}
	}
	step, err := e.do(a)
	if err != nil {
		e.serial = serial
		return Step{}, err
	}
	step.Up = e.Up()
	return step, nil
}

// ended gives the change by which what was begun and is not finished is left: without deliveries it goes, else it is
// stopped.
func (e *Evening) ended(last *Sheet, reason string) Change {
	if len(last.Deliveries) == 0 {
		return Change{Ref: last.Game.Ref(), Before: last.Game}
	}
	stopped := last.Game
	stopped.Stopped = reason
	if reason == "" {
		stopped.Stopped = "done"
	}
	return Change{Ref: last.Game.Ref(), Before: last.Game, After: stopped}
}

var errClosed = errors.New("the evening is closed: backspace takes that back")

// ready tells why a student cannot bowl now, or nil.
func (e *Evening) ready(id ID) error {
	if id == "" {
		return errNobodyUp
	}
	if !e.session.Open() {
		return errClosed
	}
	if seat, _ := e.SeatOf(id); seat.Out {
		return fmt.Errorf("%s is out: V brings back in", e.Label(id))
	}
	return nil
}

// readyForOther tells why a student cannot go on with something else than the next call now, or nil.
func (e *Evening) readyForOther(id ID) error {
	if err := e.ready(id); err != nil {
		return err
	}
	if e.edit != nil {
		return errors.New("this speaks of what comes next, and a delivery is open: enter or esc first")
	}
	return e.NoneBegun(id)
}

// NoneBegun tells for which of the students a call is begun, in whose way something else would be, or nil.
func (e *Evening) NoneBegun(students ...ID) error {
	var begun []string
	for _, id := range students {
		if e.Begun(id) {
			begun = append(begun, e.Label(id))
		}
	}
	if len(begun) == 0 {
		return nil
	}
	return fmt.Errorf("a call is begun for %s: record it or clear it with esc first", strings.Join(begun, ", "))
}
