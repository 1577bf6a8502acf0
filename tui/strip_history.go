package tui

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"coach.settee/model"
	"coach.settee/model/insight"
	"coach.settee/store"
)

// stripFigures are the figures that the strip shows. Earlier games are read once for a student; a report is reckoned anew
// only where something that it hangs on has changed.
type stripFigures struct {
	// n is how many last games there are to be.
	n       int
	history history
	reports [pageCount]reckonedReport
}

// history is what is kept of a student.
type history struct {
	of   historyKey
	read bool
	// last are the last games of all with what else their evenings had, beforeLast the finished games before the last of
	// those evenings, earlier those before the evening in hand, first the first evening.
	last, beforeLast, earlier, first []model.DatedSheet
}

// historyKey is what a history was read for.
type historyKey struct {
	student, session model.ID
	n                int
}

// historyMsg brings what is kept of a student.
type historyMsg struct {
	history
	err error
}

// reckonedReport is a report with what it hangs on.
type reckonedReport struct {
	in     insight.Input
	known  bool
	report insight.Report
}

// settleStrip brings the strip up to date with what a message changed.
func (a *App) settleStrip() {
	s := a.strip
	if a.screen != screen(s) {
		return
	}
	s.settle()
	if want := (historyKey{s.student, s.evening.Session().ID, s.figures.n}); s.figures.history.of != want {
		s.figures.history = history{of: want}
		if s.student != "" {
			a.do(a.readHistory(want))
		}
	}
	page := s.page
	if s.shielded {
		page = pageStrip
	}
	s.figures.reckon(page, a.reportInput(page))
}

// readHistory reads what is kept of a student. An evening of which nothing is on disk yet has no history of its own.
func (a *App) readHistory(of historyKey) tea.Cmd {
	reader := a.conf.Store
	return func() tea.Msg {
		last, err := reader.History(of.student, store.Scope{Last: of.n, Earlier: insight.EarlierGames})
		if err != nil {
			return historyMsg{history{of: of}, err}
		}
		before, err := reader.History(of.student, store.Scope{Session: of.session, Earlier: insight.EarlierGames})
		if errors.Is(err, store.ErrNoSession) {
			before, err = store.History{Earlier: insight.LastFinished(append(slices.Clone(last.Earlier), last.Over...))}, nil
		}
		read := history{of: of, read: true, last: last.Over, beforeLast: last.Earlier, earlier: before.Earlier, first: last.First}
		return historyMsg{read, err}
	}
}

// hearHistory takes in what was read; what is no longer asked for is passed over.
func (a *App) hearHistory(msg historyMsg) {
	switch {
	case a.strip.figures.history.of != msg.of:
	case msg.err != nil:
		a.strip.figures.history.read = true
		a.refuse(fmt.Errorf("earlier games cannot be read, the figures go by this evening: %w", msg.err))
	default:
		a.strip.figures.history = msg.history
	}
}

// reportInput collects what the figures of a page are reckoned from.
func (a *App) reportInput(page stripPage) insight.Input {
	s := a.strip
	h := s.figures.history
	in := insight.Input{
		Student: s.evening.Student(s.student), Earlier: h.earlier, First: insight.FirstEvening(a.inMemory(s.student, h.first)),
	}
	if kept, ok := a.students[s.student]; ok {
		in.Student = kept
	}
	if s.evening == a.evening {
		in.Student.Focus = a.evening.FocusOf(s.student)
	}
	at := s.evening.Session().At
	switch page {
	case pageStrip, pageGame:
		if x := s.sheet(); x != nil {
			in.Over = []model.DatedSheet{{Sheet: x, At: at}}
		}
	case pageEvening:
		in.Over = dated(s.evening, s.student)
	case pageLast:
		in.Over = insight.LastGames(a.inMemory(s.student, h.last), s.figures.n)
		in.Earlier = insight.BeforeLastEvening(a.inMemory(s.student, append(slices.Clone(h.beforeLast), h.last...)))
	}
	return in
}

// inMemory puts what is in memory of a student's evenings in the place of what was read of them.
func (a *App) inMemory(id model.ID, read []model.DatedSheet) []model.DatedSheet {
	fresh := map[model.ID]bool{}
	var out []model.DatedSheet
	for _, e := range append([]*model.Evening{a.evening, a.closed, a.strip.evening}, pastOf(a.strip.past)...) {
		if e == nil || fresh[e.Session().ID] {
			continue
		}
		fresh[e.Session().ID] = true
		out = append(out, dated(e, id)...)
	}
	for _, g := range read {
		if !fresh[g.Game.Session] {
			out = append(out, g)
		}
	}
	slices.SortFunc(out, func(x, y model.DatedSheet) int {
		return cmp.Or(x.At.Compare(y.At), cmp.Compare(x.Game.Session, y.Game.Session), cmp.Compare(x.Game.Number, y.Game.Number))
	})
	return out
}

func pastOf(past map[model.ID]*model.Evening) []*model.Evening {
	var out []*model.Evening
	for _, e := range past {
		out = append(out, e)
	}
	return out
}

// dated gives what a student bowled in an evening.
func dated(e *model.Evening, student model.ID) []model.DatedSheet {
	var out []model.DatedSheet
	for _, x := range e.Sheets(student) {
		out = append(out, model.DatedSheet{Sheet: x, At: e.Session().At})
	}
	return out
}

// reckon makes a page's report, unless nothing has changed that it hangs on.
func (f *stripFigures) reckon(page stripPage, in insight.Input) {
	was := f.reports[page]
	if was.known && was.in.Same(in) {
		return
	}
	f.reports[page] = reckonedReport{in, true, insight.NewReport(in)}
}

// report gives the report of the page in view.
func (s *stripScreen) report() insight.Report {
	if s.shielded {
		return s.figures.reports[pageStrip].report
	}
	return s.figures.reports[s.page].report
}

// reading tells that earlier games are not read yet.
func (s *stripScreen) reading() bool { return s.student != "" && !s.figures.history.read }
