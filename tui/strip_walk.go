package tui

import (
	"cmp"
	"fmt"
	"slices"

	"coach.settee/model"
	"coach.settee/store"
)

// walkKeys go from delivery to delivery, game to game, student to student.
var walkKeys = withAlternatives(table{
	{
		keys: []string{"up", "down", "pgup", "pgdown", "home", "end"}, shown: "up down pgup pgdn", group: groupStrip,
		help:  "the delivery before, after; of figures that do not fit the next lines (home and end too)",
		hints: map[moment]string{momentFigures: "turn", momentNumbers: "turn"},
		act:   func(a *App, key string) { a.strip.walk(a, key) },
	},
	{
		keys: []string{"left", "right"}, group: groupStrip,
		help:  "the game, drill or warm-up before, after; beyond the first the student's evening before, beyond the last the one after",
		hints: map[moment]string{momentStrip: "games", momentFigures: "game", momentNumbers: "game"},
		act: func(a *App, key string) {
			if key == "left" {
				a.strip.turn(a, -1)
				return
			}
			a.strip.turn(a, 1)
		},
	},
	{
		keys: []string{"tab", "shift+tab"}, group: groupStrip, help: "the next, the previous student",
		act: func(a *App, key string) {
			if key == "tab" {
				a.strip.turnBeside(a, 1)
				return
			}
			a.strip.turnBeside(a, -1)
		},
	},
	{
		keys: []string{"@"}, group: groupStrip,
		help: "anyone who is kept, by a few letters of the name; with a delivery open: hand it to that student", lines: 1,
		act: func(a *App, _ string) { a.strip.askForStudent(a) },
	},
}, alternative{of: "@", keys: []string{"a"}})

// walk selects another delivery, or turns the lines of a page of figures.
func (s *stripScreen) walk(a *App, key string) {
	by := walked(key, pageLines)
	h := a.bodyHeight()
	switch {
	case s.shielded && (key == "pgup" || key == "pgdown"):
		s.top = min(max(s.top+by, 0), lastTop(len(s.picture(a, a.w, h).studentLines()), h))
		return
	case !s.shielded && (s.page != pageStrip || s.numbers):
		s.top = min(max(s.top+by, 0), lastTop(len(s.pageLines(a, a.w, h)), s.room(h)))
		return
	}
	if s.sheet() == nil || !s.mayGo(a) {
		return
	}
	at := s.at + by
	for s.shielded && at >= 0 && at < len(s.sheet().Deliveries) && dotOf(s.sheet().Deliveries[at], s.sheet().Racks[at]) == "" {
		at += by
	}
	s.choose(at)
	switch x := s.sheet(); {
	case at < 0 && key == "up":
		a.say(fmt.Sprintf("this is the first delivery of %s", s.evening.TitleOf(x.Game)))
	case at >= len(x.Deliveries) && key == "down":
		a.say(fmt.Sprintf("this is the last delivery of %s", s.evening.TitleOf(x.Game)))
	}
}

// mayGo leaves a delivery that is open, and refuses where it is changed.
func (s *stripScreen) mayGo(a *App) bool {
	if _, open := s.evening.Editing(); !open {
		return true
	}
	if err := s.evening.ReopenDelivery(s.game, s.delivery); err != nil {
		a.refuse(err)
		return false
	}
	s.evening.Leave()
	return true
}

// turn turns to the game before or after, over the ends of the evening too.
func (s *stripScreen) turn(a *App, by int) {
	if !s.mayGo(a) {
		return
	}
	sheets := s.sheets()
	at := slices.IndexFunc(sheets, func(x *model.Sheet) bool { return x.Game.ID == s.game }) + by
	if at >= 0 && at < len(sheets) {
		s.turnToSheet(sheets[at])
		return
	}
	e, err := a.eveningBeside(s.evening, s.student, by)
	switch {
	case err != nil:
		a.refuse(err)
		return
	case e == nil && by < 0:
		a.say("nothing earlier is kept of " + s.evening.Label(s.student))
		return
	case e == nil:
		a.say("nothing later is kept of " + s.evening.Label(s.student))
		return
	}
	s.evening, s.game, s.delivery = e, "", ""
	if sheets = s.sheets(); by > 0 && len(sheets) > 0 {
		s.turnToSheet(sheets[0])
	}
	s.settle()
	if e == a.evening {
		a.say("tonight again")
		return
	}
	a.say("another evening: " + a.dateAndPlace(e.Session()))
}

// eveningBeside gives the evening before (by is negative) or after one in which a student bowled, nil for none.
func (a *App) eveningBeside(e *model.Evening, student model.ID, by int) (*model.Evening, error) {
	here := e.Session()
	wanted := func(s model.Session) bool { return by*orderOf(s, here) > 0 }
	beside := model.Session{}
	take := func(s model.Session) {
		if s.ID != here.ID && wanted(s) && (beside.ID == "" || by*orderOf(s, beside) < 0) {
			beside = s
		}
	}
	for _, known := range []*model.Evening{a.evening, a.closed} {
		if known != nil && known.Student(student).ID == student {
			take(known.Session())
		}
	}
	played, err := a.playedBeside(student, by, func(p store.Played) bool {
		return p.Game.Session != here.ID && wanted(model.Session{ID: p.Game.Session, At: p.At})
	})
	if err != nil {
		return nil, fmt.Errorf("the evenings of %s cannot be read: %w", e.Label(student), err)
	}
	for _, p := range played {
		if p.Tally.Load > 0 {
			take(model.Session{ID: p.Game.Session, At: p.At})
		}
	}
	if beside.ID == "" {
		return nil, nil
	}
	return a.eveningOf(beside.ID)
}

// playedBeside gives the last game that is beyond an evening before it, or all that are after it. The history is read from
// its end and no further than to that evening.
func (a *App) playedBeside(student model.ID, by int, beyond func(store.Played) bool) ([]store.Played, error) {
	if by < 0 {
		return a.conf.Store.Played(student, 1, func(p store.Played) bool { return p.Tally.Load > 0 && beyond(p) })
	}
	for n := 16; ; n *= 4 {
		played, err := a.conf.Store.Played(student, n, nil)
		if err != nil {
			return nil, err
		}
		if last := slices.IndexFunc(played, func(p store.Played) bool { return !beyond(p) }); last >= 0 {
			return played[:last], nil
		}
		if len(played) < n {
			return played, nil
		}
	}
}

// orderOf compares evenings by time.
func orderOf(s, t model.Session) int { return cmp.Or(s.At.Compare(t.At), cmp.Compare(s.ID, t.ID)) }

// turnBeside turns to the student a number of places after the one gone over, in screen order and around its end.
func (s *stripScreen) turnBeside(a *App, by int) {
	seats := s.evening.Seats()
	if len(seats) == 0 || !s.mayGo(a) {
		return
	}
	at := slices.IndexFunc(seats, func(x model.Seat) bool { return x.Student == s.student })
	n := len(seats)
	s.turnToStudent(seats[((max(at, 0)+by)%n+n)%n].Student)
}

// askForStudent asks whom to turn to, or to whom to hand the delivery that is open.
func (s *stripScreen) askForStudent(a *App) {
	if _, open := s.evening.Editing(); open {
		a.askForStudent()
		return
	}
	a.ask("go over the games of, by a few letters of the name", func(text string) error {
		id, err := s.byName(a, text)
		if err != nil || !s.mayGo(a) {
			return err
		}
		if _, here := s.evening.SeatOf(id); here {
			s.turnToStudent(id)
			return nil
		}
		return s.turnToLastEvening(a, id)
	})
}

// turnToLastEvening turns to the last evening in which a student bowled.
func (s *stripScreen) turnToLastEvening(a *App, id model.ID) error {
	e, err := a.lastEveningOf(id)
	if err != nil {
		return err
	}
	s.evening = e
	s.turnToStudent(id)
	if e == a.evening {
		a.say("tonight again")
		return nil
	}
	a.say("another evening: " + a.dateAndPlace(e.Session()))
	return nil
}

func (a *App) lastEveningOf(id model.ID) (*model.Evening, error) {
	name := clean(a.students[id].Name)
	played, err := a.conf.Store.Played(id, 1, func(p store.Played) bool { return p.Tally.Load > 0 })
	if err != nil {
		return nil, fmt.Errorf("the evenings of %s cannot be read: %w", name, err)
	}
	last := model.Session{}
	for _, p := range played {
		last = model.Session{ID: p.Game.Session, At: p.At}
	}
	for _, e := range []*model.Evening{a.evening, a.closed} {
		if e != nil && e.Load(id) > 0 && (last.ID == "" || orderOf(e.Session(), last) > 0) {
			last = e.Session()
		}
	}
	if last.ID == "" {
		return nil, fmt.Errorf("nothing is kept of %s yet", name)
	}
	return a.eveningOf(last.ID)
}
