package tui

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"coach.settee/model"
)

// The columns of the checklist: a student's name takes what is left of the widest there is, within these.
// Below unseenBeside cells there is no column of what was not seen.
const leastClosingName, mostClosingName, unseenBeside = 10, 28, 72

// draw gives a line a student with the one marked in view, and below them what is kept of that one.
func (s *closingScreen) draw(a *App, w, h int) string {
	students := closingLines(a.evening.Closing())
	if len(students) == 0 {
		return "\n" + cut("  Nobody is here: x closes the evening, esc goes back to it.", w)
	}
	at := s.place(students)
	notes := s.notes(a, students[at], w)
	room := closingRoom(h, len(notes), len(students))
	lines := append([]string{""}, s.rows(a, students, at, room, w)...)
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

// rows gives the head of the table and as many students as there is room for; in a narrow window what was not seen is told
// among what is missing only.
func (s *closingScreen) rows(a *App, students closingLines, at, room, w int) []string {
	name, totals, unseen := leastClosingName, len("totals"), w >= unseenBeside
	for _, l := range students {
		name = max(name, width(clean(a.evening.Label(l.Student))))
		totals = max(totals, width(totalsOf(l)))
	}
	name, totals = min(name, mostClosingName, w/5), min(totals, w/5)
	figures := func(balls, good, goal, missed, scores string) string {
		words := fmt.Sprintf(" %5s %6s %4s ", balls, good, goal)
		if unseen {
			words += fmt.Sprintf("%6s ", missed)
		}
		return words + " " + fit(scores, totals) + "  "
	}
	head := "  " + fit("student", name) + figures("balls", "good", "goal", "unseen", "totals") + "missing"
	lines := []string{a.theme.quiet.on(cut(head, w))}
	first, end := inView(at, at+1, room, len(students))
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

// notes tell what is kept of the student marked, and how the overhead's totals compare: a line each, and of what is missing
// as many as it takes.
func (s *closingScreen) notes(a *App, l model.ClosingLine, w int) []string {
	lines := []string{a.theme.quiet.on(fit("", min(w, 2)) + strings.Repeat("─", max(min(w, 100)-4, 0)))}
	say := func(name, words, none string) {
		if words = clean(words); words == "" {
			lines = append(lines, a.theme.quiet.on(cut("  "+fit(name, 10)+none, w)))
			return
		}
		lines = append(lines, cut("  "+a.theme.quiet.on(fit(name, 10))+words, w))
	}
	const column = 12
	if asks := s.asks(l); asks != "" {
		missing := hanging(blanks(column), asks, w)
		missing[0] = "  " + a.theme.quiet.on(fit("missing", column-2)) + missing[0][column:]
		lines = append(lines, missing...)
	} else {
		say("missing", "", "nothing")
	}
	say("words", l.Seat.Sentence, "none for the page: w")
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
