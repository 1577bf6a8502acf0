package tui

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"coach.settee/model"
)

// askToRepeat asks whether a new evening is to be like the one that it most likely repeats.
func (a *App) askToRepeat() {
	earlier, err := a.everyEvening()
	if err != nil {
		a.refuse(err)
		return
	}
	like, ok := model.LikeToday(earlier, a.conf.Now())
	if !ok {
		a.refuseWith("no earlier evening is kept: n begins one")
		return
	}
	words := fmt.Sprintf("same as %s? y begins it, E lists the others", a.inFull(like))
	a.confirm(words, func() { a.repeat(like) })
}

// repeat begins a new evening arranged like an earlier one.
func (a *App) repeat(like model.Session) {
	e, step, without, err := model.NewEveningLike(like, a.conf.NewID(), a.conf.Now().UTC().Truncate(time.Second), a.students)
	if err != nil {
		a.refuse(err)
		return
	}
	a.turnTo(e)
	a.keep(step)
	a.show(a.session)
	words := "begun as on " + a.dayOf(like)
	if len(without) > 0 {
		words += fmt.Sprintf(", without %s, no longer among your students: a adds students", strings.Join(without, ", "))
	}
	a.say(words)
}

// everyEvening gives the evenings that are kept or on their way to the disk, the oldest first.
func (a *App) everyEvening() ([]model.Session, error) {
	sessions, err := a.conf.Store.Sessions()
	if err != nil {
		return nil, fmt.Errorf("the evenings cannot be read: %w", err)
	}
	for _, e := range []*model.Evening{a.closed, a.evening} {
		if e == nil {
			continue
		}
		now := e.Session()
		if i := slices.IndexFunc(sessions, func(s model.Session) bool { return s.ID == now.ID }); i >= 0 {
			sessions[i] = now
		} else {
			sessions = append(sessions, now)
		}
	}
	return sessions, nil
}

// dayOf names the day of an evening: "Tuesday 18 November", with the year where it is not this one.
func (a *App) dayOf(s model.Session) string {
	at := s.At.In(a.zone())
	if at.Year() != a.conf.Now().Year() {
		return at.Format("Monday 2 January 2006")
	}
	return at.Format("Monday 2 January")
}

// inFull names an evening by its day, its place and how many are in it.
func (a *App) inFull(s model.Session) string {
	words := a.dayOf(s)
	if s.Place != "" {
		words += ", " + s.Place
	}
	return words + ", " + plural(len(s.Roster), "student", "students")
}

// openAgain opens an evening that was closed and puts it on the screen; the one that was there stays open.
func (a *App) openAgain(session model.ID) {
	if words := notNow(a); words != "" {
		a.refuseWith(words)
		return
	}
	e, err := a.readEvening(session)
	if err != nil {
		a.refuse(fmt.Errorf("the evening cannot be opened again: %w", err))
		return
	}
	step, err := e.OpenAgain()
	if err != nil {
		a.refuse(err)
		return
	}
	a.putOnScreen(e)
	a.keep(step)
	a.say(fmt.Sprintf("opened again: %s, %s", a.dateAndPlace(e.Session()), plural(e.Deliveries(), "delivery", "deliveries")))
}
