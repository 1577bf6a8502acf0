package tui

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"coach.settee/model"
)

// start reads what is kept, and resumes the evening that was left open last or asks for the lanes of a new one.
func (a *App) start() error {
	students, err := a.conf.Store.Students()
	if err != nil {
		return fmt.Errorf("the students cannot be read: %w", err)
	}
	for _, s := range students {
		a.students[s.ID] = s
	}
	open, err := a.conf.Store.OpenSessions()
	if err != nil {
		return fmt.Errorf("the evenings cannot be read: %w", err)
	}
	slices.Reverse(open)
	a.open = open
	if len(a.open) == 0 {
		a.say(a.conf.Brought)
		a.askForLanes()
		return a.introduce()
	}
	a.resume(a.open[0].ID)
	if a.conf.Brought != "" {
		a.status.words += "; " + a.conf.Brought
	}
	return nil
}

// resume reads an evening that was left open and puts it on the screen as it was left; the one that was there stays open.
// It is read at once: a key pressed while it was on its way would act on an evening that is about to be replaced.
func (a *App) resume(session model.ID) {
	e, err := a.readEvening(session)
	if err != nil {
		a.refuse(fmt.Errorf("the evening %s cannot be resumed: %w", session, err))
		return
	}
	a.putOnScreen(e)
	a.say(fmt.Sprintf("resumed: %s, %s", a.dateAndPlace(e.Session()), plural(e.Deliveries(), "delivery", "deliveries")))
}

// putOnScreen turns to an evening that was read, and to the board; the one that was there stays open.
func (a *App) putOnScreen(e *model.Evening) {
	left := a.evening
	a.open = slices.DeleteFunc(a.open, func(s model.Session) bool { return s.ID == e.Session().ID })
	if left != nil {
		a.open = append(a.open, left.Session())
	}
	a.turnTo(e)
	a.show(a.board)
}

func (a *App) readEvening(session model.ID) (*model.Evening, error) {
	kept, err := a.conf.Store.Evening(session)
	if err != nil {
		return nil, err
	}
	return model.Resume(kept)
}

// turnTo makes an evening the one on the screen, nil for none.
func (a *App) turnTo(e *model.Evening) {
	a.evening, a.closed = e, nil
	a.paces = newPaces()
	a.board.counting = false
	a.session.marked, a.session.lefts, a.session.earlier = "", newLefts(), nil
	a.strip.forget(a.ledger.settled())
}

func (a *App) date(s model.Session) string {
	return s.At.In(a.conf.Now().Location()).Format("2 January 2006")
}

// dateAndPlace names an evening.
func (a *App) dateAndPlace(s model.Session) string {
	words := a.date(s)
	if s.Place != "" {
		words += ", " + s.Place
	}
	return words
}

// askForLanes begins a new evening: the lanes, then the students pair by pair.
func (a *App) askForLanes() {
	a.ask("lanes tonight (7 is the pair 7/8; 7 9 11 three pairs)", func(text string) error {
		pairs, err := model.ParseLanes(text)
		if err != nil {
			return err
		}
		return a.beginOn(pairs)
	})
}

// beginOn begins a new evening on pairs, where the last one was unless the coach has a place for all.
func (a *App) beginOn(pairs []model.Pair) error {
	usual := a.conf.Beginning
	place, words := usual.Place, ""
	if place == "" {
		earlier, err := a.everyEvening()
		if err != nil {
			return err
		}
		if last, ok := lastWithPlace(earlier); ok {
			place, words = last.Place, fmt.Sprintf("at %s, as on %s: p on the Evening screen changes it", last.Place, a.dayOf(last))
		}
	}
	e, step, err := model.NewEvening(model.Session{
		ID: a.conf.NewID(), At: a.conf.Now().UTC().Truncate(time.Second), Pairs: pairs,
		Place: place, ArrowsFt: usual.ArrowsFt, Rotate: !usual.ByHand, Block: usual.Block,
	})
	if err != nil {
		return err
	}
	a.turnTo(e)
	a.keep(step)
	a.say(words)
	a.askForRoster(pairs, a.board)
	return nil
}

// lastWithPlace gives the latest of evenings, the oldest first, that has a place.
func lastWithPlace(earlier []model.Session) (model.Session, bool) {
	for _, s := range slices.Backward(earlier) {
		if s.Place != "" {
			return s, true
		}
	}
	return model.Session{}, false
}

// askForRoster asks for the students of pairs, one line each, an empty line for the next pair; then it shows a screen.
func (a *App) askForRoster(pairs []model.Pair, then screen) {
	label := fmt.Sprintf("student on %s (empty: done): name, average, l left-handed", pairs[0])
	a.askAmong(label, a.suggestNewcomers, func(text string) error {
		switch {
		case text != "":
			if err := a.seat(text, pairs[0]); err != nil {
				return err
			}
			a.askForRoster(pairs, then)
		case len(pairs) > 1:
			a.askForRoster(pairs[1:], then)
		default:
			a.show(then)
		}
		return nil
	})
}

// shutIfClosed takes an evening that is closed off the screen; backspace opens it again as long as no other is begun.
func (a *App) shutIfClosed() {
	if a.evening.Session().Open() {
		return
	}
	closed := a.evening
	a.turnTo(nil)
	a.closed = closed
	a.show(a.session)
	words := fmt.Sprintf("the evening is closed, %s: backspace opens it again", plural(closed.Deliveries(), "delivery", "deliveries"))
	a.packUp(closed, words)
}

// reopenClosed opens the evening again that was closed last.
func (a *App) reopenClosed() {
	if a.closed == nil {
		a.refuse(errors.New("nothing to take back: no evening is open"))
		return
	}
	closed := a.closed
	a.turnTo(closed)
	a.undo()
	if !closed.Session().Open() {
		// What was taken back is a correction that was made after the evening was closed.
		a.turnTo(nil)
		a.closed = closed
	}
}

// begun gives the students with a call begun.
func (a *App) begun() []string {
	var names []string
	for _, seat := range a.evening.Seats() {
		if a.evening.Begun(seat.Student) {
			names = append(names, a.evening.Label(seat.Student))
		}
	}
	return names
}
