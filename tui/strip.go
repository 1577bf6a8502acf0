package tui

import (
	"errors"
	"fmt"
	"slices"

	"coach.settee/model"
	"coach.settee/store"
)

// stripPage is what the strip's screen shows.
type stripPage uint8

const (
	// pageStrip is the strip with the game's figures beside it, the next three are the figures alone.
	pageStrip stripPage = iota
	pageGame
	pageEvening
	pageLast
	pageCount
)

// stripScreen goes over a game, a drill or a warm-up delivery by delivery, of tonight or of an evening before. What each
// key does to a delivery, and what the figures are, is the model's to say.
type stripScreen struct {
	bindings table
	// evening is the one in hand, not always tonight's; student, game and delivery are what is selected in it, at the place
	// of the delivery in its game.
	evening                 *model.Evening
	student, game, delivery model.ID
	at                      int
	page                    stripPage
	// numbers adds what only a statistician reads, top is the first line shown of a page that is turned, topBefore that of
	// the page before the numbers.
	numbers        bool
	top, topBefore int
	// shielded is the student's view, before the screen that it was turned from, nil for the strip.
	shielded bool
	before   screen
	// past are evenings read from the store, so that what is corrected in them is there again.
	past    map[model.ID]*model.Evening
	figures stripFigures
}

func newStrip() *stripScreen {
	return &stripScreen{bindings: stripTable(), past: map[model.ID]*model.Evening{}, figures: stripFigures{n: lastGames}}
}

// title says whose strip it is and which, where the student sees nothing else that does.
func (s *stripScreen) title() string {
	x := s.evening
	if !s.shielded || x == nil || s.sheet() == nil {
		return "Strip"
	}
	return "Strip of " + firstWord(x.Student(s.student).Name) + ", " + x.TitleOf(s.sheet().Game)
}

func (s *stripScreen) about() string {
	return "go over a game, its figures; correct it"
}
func (s *stripScreen) letter() string { return "g" }

func (s *stripScreen) table() table {
	if s.shielded {
		return studentKeys
	}
	return s.bindings
}

func (s *stripScreen) moment(a *App) moment {
	_, open := s.evening.Editing()
	switch {
	case a.board.counting:
		return momentCount
	case s.shielded:
		return momentStudent
	case open:
		return momentStripOpen
	case s.numbers:
		return momentNumbers
	case s.page != pageStrip:
		return momentFigures
	}
	return momentStrip
}

// inHand gives the evening that the keys speak of: the strip's while the strip is shown, else the one that is open.
func (a *App) inHand() *model.Evening {
	if a.screen == screen(a.strip) {
		return a.strip.evening
	}
	return a.evening
}

// shielded tells whether the screen is turned to a student, who is to see nothing of anyone else.
func (a *App) shielded() bool {
	return a.screen == screen(a.strip) && a.strip.shielded && a.over == nothingOver
}

// unshield turns the screen back to the coach, to where it was turned from.
func (s *stripScreen) unshield(a *App) {
	s.shielded, s.top = false, 0
	if before := s.before; before != nil {
		s.before = nil
		a.show(before)
	}
}

// open turns to the student that the screen before speaks of, at the last game and its last delivery, or at the delivery
// that is reopened; without an evening to the last one that is kept. It tells whether there was something to turn to.
func (s *stripScreen) open(a *App) bool {
	if !a.leaveStrip() {
		return false
	}
	e := a.evening
	if e == nil {
		last, err := a.lastEvening()
		if err != nil {
			a.refuse(err)
			return false
		}
		e = last
	}
	s.evening, s.page, s.numbers, s.top, s.shielded, s.before = e, pageStrip, false, 0, false, nil
	id, _ := e.Speaking()
	if a.screen == screen(a.session) && a.evening != nil {
		id = a.session.student(a)
	}
	if edit, open := e.Editing(); open {
		s.student, s.game, s.delivery = edit.Student, edit.Game, edit.Delivery
		return true
	}
	if a.evening == nil || id == "" {
		id = firstWhoBowled(e, id)
	}
	s.turnToStudent(id)
	return true
}

// firstWhoBowled gives the first student of an evening with deliveries, otherwise the one given.
func firstWhoBowled(e *model.Evening, otherwise model.ID) model.ID {
	for _, seat := range e.Seats() {
		if e.Load(seat.Student) > 0 {
			return seat.Student
		}
	}
	return otherwise
}

// forget lets go of evenings that were read, once all that was changed in them is kept.
func (s *stripScreen) forget(settled bool) {
	if settled {
		clear(s.past)
	}
}

// leaveStrip leaves a delivery that is open in another evening than tonight's as it was: nobody sees it once the strip
// is gone. One that is changed is in the way of going.
func (a *App) leaveStrip() bool {
	s := a.strip
	if a.screen != screen(s) || s.evening == nil || s.evening == a.evening {
		return true
	}
	if edit, open := s.evening.Editing(); open && edit.Changed() {
		a.refuse(s.evening.ReopenDelivery(s.game, s.delivery))
		return false
	}
	s.evening.Leave()
	return true
}

// lastEvening gives the last evening in which something was bowled: the one just closed, or that of the newest game of all
// students, so that not every evening has to be read for it.
func (a *App) lastEvening() (*model.Evening, error) {
	if a.closed != nil && a.closed.Deliveries() > 0 {
		return a.closed, nil
	}
	var last model.Session
	for id := range a.students {
		played, err := a.conf.Store.Played(id, 1, func(p store.Played) bool { return p.Tally.Load > 0 })
		if err != nil {
			return nil, fmt.Errorf("the evenings cannot be read: %w", err)
		}
		for _, p := range played {
			if s := (model.Session{ID: p.Game.Session, At: p.At}); last.ID == "" || orderOf(s, last) > 0 {
				last = s
			}
		}
	}
	if last.ID == "" {
		return nil, errors.New("nothing is bowled yet: n begins an evening")
	}
	return a.eveningOf(last.ID)
}

// eveningOf gives an evening: the one that is open, the one just closed, or one that is kept.
func (a *App) eveningOf(session model.ID) (*model.Evening, error) {
	for _, e := range []*model.Evening{a.evening, a.closed, a.strip.past[session]} {
		if e != nil && e.Session().ID == session {
			return e, nil
		}
	}
	if !a.ledger.settled() {
		return nil, errNotKept
	}
	e, err := a.readEvening(session)
	if err != nil {
		return nil, fmt.Errorf("the evening %s cannot be read: %w", session, err)
	}
	a.strip.past[session] = e
	return e, nil
}

// sheets gives what the student bowled in the evening, without what was begun only.
func (s *stripScreen) sheets() []*model.Sheet {
	return slices.DeleteFunc(s.evening.Sheets(s.student), func(x *model.Sheet) bool { return len(x.Deliveries) == 0 })
}

// sheet gives what is gone over, nil where the student has bowled nothing.
func (s *stripScreen) sheet() *model.Sheet {
	if x := s.evening.SheetOf(s.game); x != nil && len(x.Deliveries) > 0 {
		return x
	}
	return nil
}

// chosen gives the delivery selected and what it found, false where there is none.
func (s *stripScreen) chosen() (model.Delivery, model.Rack, bool) {
	x := s.sheet()
	if x == nil || s.at >= len(x.Deliveries) {
		return model.Delivery{}, model.Rack{}, false
	}
	return x.Deliveries[s.at], x.Racks[s.at], true
}

// turnToStudent turns to a student's last game.
func (s *stripScreen) turnToStudent(id model.ID) {
	s.student, s.game, s.delivery, s.top = id, "", "", 0
	s.settle()
}

// turnToSheet turns to a game at its last delivery.
func (s *stripScreen) turnToSheet(x *model.Sheet) {
	s.game, s.top = x.Game.ID, 0
	s.choose(len(x.Deliveries) - 1)
}

// choose selects the delivery at a place of the game.
func (s *stripScreen) choose(at int) {
	x := s.sheet()
	s.at = min(max(at, 0), len(x.Deliveries)-1)
	s.delivery = x.Deliveries[s.at].ID
}

// settle keeps what is selected what it was after the evening has changed: the delivery that is open, else the same
// delivery, wherever it went, else the one that has come to its place.
func (s *stripScreen) settle() {
	if edit, open := s.evening.Editing(); open {
		s.student, s.game, s.delivery = edit.Student, edit.Game, edit.Delivery
	}
	if s.find(s.student) {
		return
	}
	for _, seat := range s.evening.Seats() {
		if s.find(seat.Student) {
			return
		}
	}
	if _, here := s.evening.SeatOf(s.student); !here && len(s.evening.Seats()) > 0 {
		s.student = s.evening.Seats()[0].Student
	}
	switch sheets := s.sheets(); {
	case len(sheets) == 0:
		s.game, s.delivery, s.at = "", "", 0
	case s.sheet() == nil || s.sheet().Game.Student != s.student:
		s.turnToSheet(sheets[len(sheets)-1])
	default:
		s.choose(s.at)
	}
}

// find looks for the delivery selected in what a student bowled.
func (s *stripScreen) find(student model.ID) bool {
	if s.delivery == "" {
		return false
	}
	for _, x := range s.evening.Sheets(student) {
		if i := x.Index(s.delivery); i >= 0 {
			s.student, s.game, s.at = student, x.Game.ID, i
			return true
		}
	}
	return false
}
