package tui

import (
	"errors"
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"coach.settee/model"
	"coach.settee/store"
)

// earlierList is the list of all evenings, the newest first, with one marked.
type earlierList struct {
	sessions []model.Session
	at       int
	// counts are what came about in the evenings that were in view; asked are those whose counts were asked for.
	counts map[model.ID]store.EveningCount
	asked  map[model.ID]bool
}

// countsMsg brings what came about in some evenings.
type countsMsg struct {
	counts []store.EveningCount
	err    error
}

// listEvenings lists the evenings over the screen, with the one that is open marked, else the newest.
func (a *App) listEvenings() {
	sessions, err := a.everyEvening()
	if err != nil {
		a.refuse(err)
		return
	}
	if len(sessions) == 0 {
		a.refuseWith("no evening is kept yet: n begins one")
		return
	}
	slices.SortStableFunc(sessions, func(x, y model.Session) int { return y.At.Compare(x.At) })
	a.session.earlier = &earlierList{
		sessions: sessions, counts: map[model.ID]store.EveningCount{}, asked: map[model.ID]bool{},
	}
	if a.evening != nil {
		here := a.evening.Session().ID
		a.session.earlier.at = max(slices.IndexFunc(sessions, func(s model.Session) bool { return s.ID == here }), 0)
	}
}

// earlierKeys go through the list.
var earlierKeys = withAlternatives(table{
	{
		keys: []string{"up", "down", "pgup", "pgdown", "home", "end"}, shown: "up down pgup pgdn home end", group: groupEvening,
		help: "mark an evening before, after, a page of them on, the newest, the oldest",
		act:  func(a *App, key string) { a.session.earlier.move(key, a.session.earlier.room(a.bodyHeight())) },
	},
	{
		keys: []string{"enter", "ctrl+j"}, shown: "enter", group: groupEvening,
		help:  "turn to the evening marked; one that is closed is opened again, which is asked first",
		hints: map[moment]string{momentEvenings: "turns to it"},
		act:   func(a *App, _ string) { a.turnToMarked() },
	},
	{
		keys: []string{"="}, group: groupEvening, help: "begin an evening like the one marked",
		hints: map[moment]string{momentEvenings: "same again"}, refused: eveningOpen,
		act: func(a *App, _ string) { a.repeat(a.session.earlier.marked()) },
	},
	{
		keys: []string{"esc", "E", "e"}, shown: "esc", group: groupEvening, help: "back to the evening",
		hints: map[moment]string{momentEvenings: "back"},
		act:   func(a *App, _ string) { a.session.earlier = nil },
	},
}, alternative{of: "=", keys: []string{"h"}})

func (l *earlierList) marked() model.Session { return l.sessions[l.at] }

// move moves the mark, a page being some rows.
func (l *earlierList) move(key string, page int) {
	l.at = inList(l.at+walked(key, page), len(l.sessions))
}

// turnToMarked turns to the evening marked, or asks first where it is closed.
func (a *App) turnToMarked() {
	marked := a.session.earlier.marked()
	switch {
	case a.evening != nil && a.evening.Session().ID == marked.ID:
		a.session.earlier = nil
	case notNow(a) != "":
		a.refuseWith(notNow(a))
	case marked.Open():
		a.resume(marked.ID)
	default:
		words := fmt.Sprintf("it was closed on %s: y opens it again", marked.Closed.In(a.zone()).Format("2 January 2006 at 15:04"))
		a.confirm(words, func() { a.openAgain(marked.ID) })
	}
}

// settleEarlier closes the list where another screen was turned to, and asks for the counts of the evenings in view that
// were not asked for yet.
func (a *App) settleEarlier() {
	l := a.session.earlier
	if l == nil {
		return
	}
	if a.screen != screen(a.session) {
		a.session.earlier = nil
		return
	}
	var ids []model.ID
	first, end := inView(l.at, l.at+1, l.room(a.bodyHeight()), len(l.sessions))
	for _, s := range l.sessions[first:end] {
		if !l.asked[s.ID] {
			l.asked[s.ID] = true
			ids = append(ids, s.ID)
		}
	}
	if len(ids) > 0 {
		a.do(a.readCounts(ids))
	}
}

// readCounts reads what came about in some evenings; one that is not on disk yet has no counts.
func (a *App) readCounts(ids []model.ID) tea.Cmd {
	reader := a.conf.Store
	return func() tea.Msg {
		var msg countsMsg
		for _, id := range ids {
			count, err := reader.EveningCount(id)
			switch {
			case err == nil:
				count.Session = id
				msg.counts = append(msg.counts, count)
			case !errors.Is(err, store.ErrNoSession):
				msg.err = err
			}
		}
		return msg
	}
}

// hearCounts takes in what came about in evenings of the list.
func (a *App) hearCounts(msg countsMsg) {
	if msg.err != nil {
		a.refuse(fmt.Errorf("what was bowled cannot be read: %w", msg.err))
	}
	if a.session.earlier == nil {
		return
	}
	for _, count := range msg.counts {
		a.session.earlier.counts[count.Session] = count
	}
}
