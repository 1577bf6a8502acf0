package tui

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"coach.settee/model"
	"coach.settee/model/insight"
	"coach.settee/store"
)

// facts are what a student's evenings say. They are read once for a student; the report is reckoned anew only where
// something that it hangs on has changed.
type facts struct {
	of   factsKey
	read bool
	// last are the last games with what else their evenings had, before the finished games before them, first the first
	// evening.
	last, before, first []model.DatedSheet
	// evenings counts those but tonight's, lastOne is the last of them; left is what was left where hasLeft.
	evenings int
	lastOne  model.Session
	left     model.Left
	hasLeft  bool
	// average is over the finished games of those and of tonight, of which there are games.
	average, games int
	// in is what the report was reckoned from, offered the goal after the first two games.
	in       insight.Input
	reckoned bool
	report   insight.Report
	offered  model.Optional[model.Goal]
}

// factsKey is what facts were read for.
type factsKey struct{ student, tonight model.ID }

// factsMsg brings what the evenings of a student say.
type factsMsg struct {
	facts
	err error
}

// settleStudent brings the student's record up to date with what a message changed.
func (a *App) settleStudent() {
	s := a.student
	if a.screen != screen(s) {
		return
	}
	s.settle(a)
	want := factsKey{student: s.student}
	if a.evening != nil {
		want.tonight = a.evening.Session().ID
	}
	if s.student == "" {
		return
	}
	if s.facts.of != want {
		s.facts = facts{of: want}
		a.do(a.readFacts(want))
	}
	s.facts.reckon(a)
}

// readFacts reads what the evenings of a student say, beside the board.
func (a *App) readFacts(of factsKey) tea.Cmd {
	reader := a.conf.Store
	return func() tea.Msg {
		f := facts{of: of, read: true}
		h, err := reader.History(of.student, store.Scope{Last: lastGames, Earlier: insight.EarlierGames})
		if err != nil {
			return factsMsg{f, err}
		}
		f.last, f.before, f.first = h.Over, h.Earlier, h.First
		sessions, err := reader.Sessions()
		if err != nil {
			return factsMsg{f, err}
		}
		for _, session := range sessions {
			if session.ID != of.tonight && session.Seat(of.student) >= 0 {
				f.evenings++
				f.lastOne = session
			}
		}
		f.left, f.hasLeft, err = reader.Left(of.student, of.tonight)
		return factsMsg{f, err}
	}
}

// hear takes in what was read; what is no longer asked for is passed over.
func (s *studentScreen) hear(a *App, msg factsMsg) {
	if s.facts.of != msg.of {
		return
	}
	s.facts = msg.facts
	if msg.err != nil {
		a.refuse(fmt.Errorf("the evenings of %s cannot be read, the record is as kept: %w", a.labelOf(s.student), msg.err))
	}
}

// reckon makes the report and the offer, unless nothing has changed that they hang on.
func (f *facts) reckon(a *App) {
	student := f.of.student
	all := a.inMemory(student, joined(f.before, f.last))
	f.average, f.games = model.BowledAverage(all)
	in := insight.Input{
		Student: a.students[student], Over: insight.LastGames(all, lastGames), Earlier: insight.BeforeLastEvening(all),
		First: insight.FirstEvening(a.inMemory(student, f.first)),
	}
	// It hangs on games that the report may not be over.
	f.offered = insight.OfferedGoal(a.inMemory(student, joined(f.first, f.before, f.last)))
	if f.reckoned && f.in.Same(in) {
		return
	}
	f.in, f.reckoned, f.report = in, true, insight.NewReport(in)
}

// joined gives what is in lists in the order of time, each sheet once.
func joined(lists ...[]model.DatedSheet) []model.DatedSheet {
	all := slices.Concat(lists...)
	slices.SortStableFunc(all, func(x, y model.DatedSheet) int {
		return cmp.Or(x.At.Compare(y.At), cmp.Compare(x.Game.Session, y.Game.Session), cmp.Compare(x.Game.Number, y.Game.Number))
	})
	return slices.CompactFunc(all, func(x, y model.DatedSheet) bool { return x.Game.ID == y.Game.ID })
}

// said is a line of what the evenings say, with the ink that it is drawn in.
type said struct {
	words string
	ink   ink
}

// factLines gives what the evenings say, the most needed first.
func (s *studentScreen) factLines(a *App, student model.Student) []said {
	t, f := a.theme, s.facts
	if !f.read {
		return []said{{"reading the evenings", t.quiet}}
	}
	var out []said
	if f.offered.Known && student.Goal == 0 {
		out = append(out, said{fmt.Sprintf("goal offered after two games: %v - O takes it", f.offered.Value.Shots()), t.accent})
	}
	trend := f.report.Trend
	if len(trend.Games) == 0 {
		out = append(out, said{"no games yet: the first ten full racks seen are the baseline", t.quiet})
	} else {
		words := trend.Words()
		if trend.Baseline.Of > 0 && !strings.Contains(words, trend.Baseline.String()) {
			words = fmt.Sprintf("%s good at the start; %s", trend.Baseline, words)
		}
		out = append(out, said{"trend: " + words + "; " + insight.OneEye, ink{}})
	}
	if f.games > 0 {
		out = append(out, said{fmt.Sprintf("bowled here: %d over %s", f.average, plural(f.games, "game", "games")), ink{}})
	}
	if words := s.eveningWords(a); words != "" {
		out = append(out, said{words, ink{}})
	}
	if f.hasLeft {
		if words := f.left.Words(student); words != "" {
			out = append(out, said{"from last time: " + words, ink{}})
		}
	}
	for _, c := range f.report.Cues {
		out = append(out, said{c.Words(), t.quiet})
	}
	return out
}

// eveningWords counts the evenings and names the last.
func (s *studentScreen) eveningWords(a *App) string {
	n := s.facts.evenings
	words := ""
	if n > 0 {
		words = fmt.Sprintf("%s before, the last %s", plural(n, "evening", "evenings"), a.dateAndPlace(s.facts.lastOne))
	}
	if !s.seated(a) {
		return words
	}
	if words == "" {
		return "the first evening is tonight"
	}
	return words + "; here tonight"
}
