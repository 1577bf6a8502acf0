package tui

import (
	"fmt"
	"strings"

	"coach.settee/model"
)

// stripPicture is what the strip shows at one moment.
type stripPicture struct {
	*stripScreen
	theme *theme
	board boardPicture
	// elsewhere is the date of an evening that is not tonight's.
	elsewhere string
	// by is the student's record as it is now.
	by   model.Student
	w, h int
}

func (s *stripScreen) picture(a *App, w, h int) stripPicture {
	p := stripPicture{stripScreen: s, theme: a.theme, w: w, h: h, by: s.figures.reports[s.shownPage()].in.Student}
	p.board = boardPicture{
		Evening: s.evening, Counting: a.board.counting, Theme: a.theme, Pending: a.ledger.pending(), Refused: a.ledger.refused(),
	}
	if s.evening != a.evening {
		p.elsewhere = a.date(s.evening.Session())
	}
	return p
}

func (s *stripScreen) draw(a *App, w, h int) string {
	p := s.picture(a, w, h)
	switch {
	case s.shielded:
		return p.studentView()
	case s.page == pageStrip && !s.numbers:
		return strings.Join(p.strip(), "\n")
	}
	return strings.Join(append(p.pageHead(), p.shown(s.pageLines(a, w, h), s.room(h))...), "\n")
}

// shown gives the lines of a page in view, the last of them saying how many are below.
func (p stripPicture) shown(all []string, room int) []string {
	return pageAndMore(p.theme, all, p.top, room, "%s more below: pgdn")
}

// pageHeadLines is what stands above a page of figures.
const pageHeadLines = 2

// room gives the lines of a page of figures below its head.
func (s *stripScreen) room(h int) int { return max(h-pageHeadLines, 1) }

// shownPage is the page whose figures are shown.
func (s *stripScreen) shownPage() stripPage {
	if s.shielded {
		return pageStrip
	}
	return s.page
}

// gutter parts columns.
const gutter = 2

// strip draws the strip, the deliveries, and the figures beside them where there is room.
func (p stripPicture) strip() []string {
	x := p.sheet()
	lines := []string{p.title()}
	if x == nil {
		words := []string{
			"  nothing is bowled yet: left the evening before, tab the next student",
			"  esc goes to the board, where the first key begins",
		}
		if p.student == "" {
			words = []string{"  nobody is here yet: esc goes to the board, A there adds a student"}
		}
		lines = append(lines, "")
		for _, line := range words {
			lines = append(lines, p.theme.quiet.on(cut(line, p.w)))
		}
		return lines
	}
	lines = append(lines, p.frames(x)...)
	foot := p.foot()
	room := max(p.h-len(lines)-len(foot), 1)
	left := listColumns(p.w)
	list := p.list(x, left, room)
	if left.all < p.w {
		figures := p.beside(p.w-left.all-gutter, room)
		for i := range list {
			list[i] = fit(list[i], left.all)
			if i < len(figures) {
				list[i] += blanks(gutter) + figures[i]
			}
		}
	}
	return append(append(lines, list...), foot...)
}

// title says whose strip it is, which game, and how it went.
func (p stripPicture) title() string {
	l := p.whose()
	x := p.sheet()
	if x == nil {
		return l.String()
	}
	l.add(p.theme.title, "  "+clean(p.evening.TitleOf(x.Game)))
	if x.Game.Kind == model.KindGame {
		l.add(p.theme.quiet, fmt.Sprintf(" of %d", p.games()))
		l.add(p.theme.strong, fmt.Sprintf("  %d", x.Card.Score))
		l.add(p.theme.good, fmt.Sprintf("  %d of %d good", x.Tally.Good, x.Tally.Seen))
		l.add(p.theme.quiet, fmt.Sprintf(", goal %d", p.by.Chosen().Goal.Whole()))
	}
	if n := x.Tally.Untouched; n > 0 {
		l.add(p.theme.quiet, fmt.Sprintf(", %d untouched", n))
	}
	if n := x.Tally.Racks - x.Tally.Seen; n > 0 {
		l.add(p.theme.quiet, fmt.Sprintf(", %d unseen", n))
	}
	return l.String()
}

// whose begins a line with whose strip it is, and of when where that is not tonight.
func (p stripPicture) whose() *drawnLine {
	l := newLine(p.w)
	if p.student == "" {
		return l
	}
	name := cut(clean(p.evening.Label(p.student)), p.w/3)
	l.add(p.theme.accent, " "+name)
	if p.elsewhere != "" {
		l.add(p.theme.alert, "  "+p.elsewhere)
	}
	return l
}

// games counts the student's games of the evening.
func (p stripPicture) games() int {
	n := 0
	for _, x := range p.evening.Sheets(p.student) {
		if x.Game.Kind == model.KindGame {
			n++
		}
	}
	return n
}

// foot gives what stands below the list: the panel of the delivery that is open, else what is known of the one selected.
func (p stripPicture) foot() []string {
	if _, open := p.evening.Editing(); open {
		return p.board.panel(nil, p.w, smallPanel)
	}
	d, r, ok := p.chosen()
	if !ok {
		return nil
	}
	lines := wrap(p.detail(d, r), p.w-2)
	most := 2
	if p.h >= 24 {
		most = 3
	}
	if len(lines) > most {
		lines = append(lines[:most-1], cut(lines[most-1], p.w-3)+"…")
	}
	for len(lines) < 2 {
		lines = append(lines, "")
	}
	out := []string{p.theme.quiet.on(strings.Repeat("─", p.w))}
	for _, l := range lines {
		out = append(out, " "+l)
	}
	return out
}
