package tui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"coach.settee/model"
)

// finding is the list of students that fit what is being typed.
type finding struct {
	prompt  *prompt
	matches []model.Student
	// archived looks among archived students too; of tells how many are looked through.
	archived bool
	of       int
	// at is the one chosen.
	at int
}

// isFinding tells whether a student is being looked for.
func (s *studentScreen) isFinding(a *App) bool { return a.prompt != nil && a.prompt == s.found.prompt }

// find asks for a student, with those who fit listed as the letters are typed, archived ones only after tab.
func (s *studentScreen) find(a *App) {
	a.ask("find", func(string) error {
		if len(s.found.matches) == 0 {
			return errNobodyChosen
		}
		s.turnTo(s.found.matches[s.found.at].ID)
		return nil
	})
	a.prompt.changed = func(text string) { s.match(a, text) }
	a.prompt.keys = findKeys
	s.found = finding{prompt: a.prompt}
	s.match(a, "")
	s.found.at = max(slices.IndexFunc(s.found.matches, func(m model.Student) bool { return m.ID == s.student }), 0)
}

// match lists who fits a text.
func (s *studentScreen) match(a *App, text string) {
	f := &s.found
	f.matches, f.at = model.FindStudents(a.everyone(), text, f.archived), 0
	f.of = len(a.students)
	if !f.archived {
		f.of = len(a.activeStudents())
	}
}

// findKeys choose among those who fit while the letters are typed.
var findKeys = table{
	{
		keys: []string{"up", "down", "pgup", "pgdown"},
		act: func(a *App, key string) {
			f := &a.student.found
			f.at = inList(f.at+walked(key, pageLines), len(f.matches))
		},
	},
	{
		keys: []string{"tab"},
		act: func(a *App, _ string) {
			a.student.found.archived = !a.student.found.archived
			a.student.match(a, a.prompt.input.Value())
		},
	},
}

// drawFound draws those who fit, the one chosen in view.
func (s *studentScreen) drawFound(a *App, w, h int) string {
	t, f := a.theme, s.found
	also := "tab: archived too"
	if f.archived {
		also = "archived too, tab: not"
	}
	head := newLine(w)
	head.add(t.title, fmt.Sprintf("  %d of %d", len(f.matches), f.of))
	head.add(t.quiet, "  up down choose, enter turns there; "+also)
	lines := []string{head.String(), ""}
	first, end := inView(f.at, f.at+1, max(h-len(lines), 1), len(f.matches))
	everyone := a.everyone()
	for i := first; i < end; i++ {
		lines = append(lines, a.foundLine(f.matches[i], everyone, i == f.at, w))
	}
	if len(f.matches) == 0 {
		lines = append(lines, "  nobody fits")
	}
	return strings.Join(lines, "\n")
}

// foundNameCells is the most room for a name in the list.
const foundNameCells = 44

func (a *App) foundLine(m model.Student, everyone []model.Student, chosen bool, w int) string {
	t, l := a.theme, newLine(w)
	mark, ink := "  ", t.strong
	if chosen {
		mark, ink = "▶ ", t.accent
	}
	// What tells two of one name apart is not cut off with the end of the name.
	room, tell := min(foundNameCells, w*2/5), clean(strings.TrimPrefix(model.LabelAmong(m, everyone), m.Name))
	l.add(ink, mark)
	l.put(ink, cut(clean(m.Name), room-width(tell))+tell, room)
	average := ""
	if m.Average.Known {
		average = strconv.Itoa(m.Average.Value)
	}
	l.add(t.quiet, fmt.Sprintf("  %3s  %-10s %-6s", average, m.Chosen().Level, m.Hand))
	words := ""
	if a.evening != nil {
		if seat, here := a.evening.SeatOf(m.ID); here {
			words += "  on " + seat.Pair().String()
		}
	}
	if m.Minor {
		words += "  minor"
	}
	if m.Archived {
		words += "  archived"
	}
	l.add(t.alert, words)
	return l.String()
}
