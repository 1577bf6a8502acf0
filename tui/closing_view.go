package tui

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"coach.settee/model"
)

// The columns of the checklist: a student's name takes as much as the widest there is, within these. Below roomyClosing
// cells names and counts are closer together.
const leastClosingName, mostClosingName, roomyClosing = 10, 28, 72

// draw gives a line a student with the one marked in view, and below them what is kept of that one.
func (s *closingScreen) draw(a *App, w, h int) string {
	students := closingLines(a.evening.Closing())
	if len(students) == 0 {
		return "\n" + cut("  Nobody is here: x closes the evening, esc goes back to it.", w)
	}
	at := s.place(students)
	notes := s.notes(a, students[at], w)
	first, end := inView(at, at+1, closingRoom(h, len(notes), len(students)), len(students))
	notes[0] = a.theme.quiet.on(closingRule(first, len(students)-end, w))
	lines := append([]string{""}, s.rows(a, students, at, first, end, w)...)
	lines = append(lines, notes...)
	for i := range lines {
		lines[i] = cut(lines[i], w)
	}
	return strings.Join(lines, "\n")
}

// closingHead is the lines above the rows of the checklist: an empty one and the table's head.
const closingHead = 2

// closingRoom gives how many students the table has room for in h lines.
func closingRoom(h, notes, students int) int { return max(h-closingHead-notes, min(students, 3)) }

// closingRule parts the table from what is kept of the student marked, and says how many students are out of view.
func closingRule(above, below, w int) string {
	var more []string
	if above > 0 {
		more = append(more, fmt.Sprintf("%d more above", above))
	}
	if below > 0 {
		more = append(more, fmt.Sprintf("%d more below", below))
	}
	rule := fit("", min(w, 2)) + strings.Repeat("─", max(min(w, 100)-4, 0))
	if len(more) == 0 {
		return rule
	}
	const before = 4
	words := "  " + strings.Repeat("─", before) + " " + strings.Join(more, ", ") + " "
	return cut(words+strings.Repeat("─", max(width(rule)-width(words), 0)), w)
}

// rows gives the head of the table and the students in view.
func (s *closingScreen) rows(a *App, students closingLines, at, first, end, w int) []string {
	name, totals, share, good := leastClosingName, len("totals"), 5, 6
	if w < roomyClosing {
		share, good = 6, 5
	}
	for _, l := range students {
		name = max(name, width(clean(a.evening.Label(l.Student))))
		totals = max(totals, width(totalsOf(l)))
	}
	name, totals = min(name, mostClosingName, w/share), min(totals, w/5)
	figures := func(balls, count, goal, missed, scores string) string {
		return fmt.Sprintf(" %5s %*s %4s %6s  ", balls, good, count, goal, missed) + fit(scores, totals) + "  "
	}
	head := "  " + fit("student", name) + figures("balls", "good", "goal", "unseen", "totals") + "missing"
	lines := []string{a.theme.quiet.on(cut(head, w))}
	for i := first; i < end; i++ {
		l := students[i]
		mark, ink := "  ", a.theme.strong
		if i == at {
			mark, ink = "▶ ", a.theme.accent
		}
		row := mark + ink.on(fit(clean(a.evening.Label(l.Student)), name)) + figures(strconv.Itoa(l.Load),
			fmt.Sprintf("%d/%d", l.Good, l.Seen), number(l.Goal.Shots()), strconv.Itoa(l.Unseen), totalsOf(l))
		missing := a.theme.good.on("-")
		if asks := s.asks(l); asks != "" {
			missing = a.theme.cost.on(cut(asks, w-width(row)))
		}
		lines = append(lines, row+missing)
	}
	return lines
}

// notes tell below a line for the rule what is kept of the student marked, and how the overhead's totals compare: a line
// each, and of what is missing as many as it takes, with the keys that put it right.
func (s *closingScreen) notes(a *App, l model.ClosingLine, w int) []string {
	lines := []string{""}
	say := func(name, words, none string) {
		if words = clean(words); words == "" {
			lines = append(lines, a.theme.quiet.on(cut("  "+fit(name, 10)+none, w)))
			return
		}
		lines = append(lines, cut("  "+a.theme.quiet.on(fit(name, 10))+words, w))
	}
	const column = 12
	if asks := s.asksWithKeys(l); asks != "" {
		missing := hanging(blanks(column), asks, w)
		missing[0] = "  " + a.theme.quiet.on(fit("missing", column-2)) + missing[0][column:]
		lines = append(lines, missing...)
	} else {
		say("missing", "", "nothing")
	}
	say("sentence", l.Seat.Sentence, "none for the page: w")
	say("homework", l.Seat.Homework, "none: h")
	say("next", a.dayWords(l.Seat.Next), "no day yet: d, or D for all without one")
	overhead := ""
	if typed := s.overhead[l.Student]; typed != "" {
		// Typed before a correction it may name more games than there are now.
		words, _, err := l.Against(typed)
		if err != nil {
			words = err.Error()
		}
		overhead = typed + ": " + words
	}
	say("overhead", overhead, "not compared: t")
	return lines
}

// dayWords says a date that is kept, with the day of the week.
func (a *App) dayWords(date string) string {
	if date == "" {
		return ""
	}
	at, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return date
	}
	return at.Format("Monday 2 January 2006")
}

func totalsOf(l model.ClosingLine) string {
	totals := make([]string, len(l.Games))
	for i, g := range l.Games {
		switch {
		case !g.Total.Known:
			totals[i] = "?"
		case !g.Finished:
			totals[i] = "(" + strconv.Itoa(g.Total.Value) + ")"
		default:
			totals[i] = strconv.Itoa(g.Total.Value)
		}
	}
	if len(totals) == 0 {
		return "-"
	}
	return strings.Join(totals, " ")
}
