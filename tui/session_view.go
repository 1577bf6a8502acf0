package tui

import (
	"fmt"
	"strconv"
	"strings"

	"coach.settee/model"
)

func (s *sessionScreen) draw(a *App, w, h int) string {
	var lines []string
	if a.evening == nil {
		lines = s.empty(a)
	} else {
		lines = s.evening(a, w, h-len(a.open))
	}
	for i, other := range a.open {
		words := "  also open: " + a.dateAndPlace(other)
		if i == 0 {
			words += " (o turns to it)"
		}
		lines = append(lines, a.theme.quiet.on(cut(clean(words), w)))
	}
	for i := range lines {
		lines[i] = cut(lines[i], w)
	}
	return strings.Join(lines, "\n")
}

// empty says how to begin.
func (s *sessionScreen) empty(a *App) []string {
	lines := []string{"", a.theme.title.on("  No evening is on the board."), ""}
	if a.prompt != nil {
		return append(lines,
			"  Type the lanes below and press enter; then each student with an",
			"  average, and an empty line when all are there: Ada 120", "")
	}
	return append(lines, "  n   begins one: the lanes, then each student with an average",
		"  g   goes over the games of the last evening", "  q   leaves", "")
}

// evening lists what holds for the evening and who is here, with the student marked in view.
func (s *sessionScreen) evening(a *App, w, h int) []string {
	held := a.evening.Session()
	rotate, block := "after a frame", "in turn"
	if !held.Rotate {
		rotate = "by hand"
	}
	if held.Block {
		block = "in blocks"
	}
	oil := "not set"
	if held.PatternFt.Known {
		oil = strconv.FormatFloat(held.PatternFt.Value, 'f', -1, 64) + " ft"
	}
	pairs := make([]string, len(held.Pairs))
	for i, p := range held.Pairs {
		pairs[i] = p.String()
	}
	lines := []string{
		clean("  " + a.dateAndPlace(held)),
		"  pairs " + strings.Join(pairs, "  "),
		fmt.Sprintf("  next up: %s   drills: %s   oil: %s", rotate, block, oil),
		"",
		a.theme.quiet.on("    pair    lane        avg  games  load  " + "student"),
	}
	rows, marked := s.rows(a, w)
	if len(rows) == 0 {
		return append(lines, "    Nobody is here yet: s adds a student.")
	}
	room := max(h-len(lines), 1)
	first := min(max(marked-room+1, 0), max(len(rows)-room, 0))
	return append(lines, rows[first:min(first+room, len(rows))]...)
}

// rows gives a line a student, and which of them is marked.
func (s *sessionScreen) rows(a *App, w int) (rows []string, marked int) {
	for i, seat := range a.evening.Seats() {
		mark, ink := "  ", a.theme.strong
		if seat.Student == s.student(a) {
			mark, marked, ink = "▶ ", i, a.theme.accent
		}
		student := a.evening.Student(seat.Student)
		average := "-"
		if student.Average.Known {
			average = strconv.Itoa(student.Average.Value)
		}
		figures := fmt.Sprintf("  %s%-8s%-12s%3s  %5d  %4d  ", mark, seat.Pair(), lanesOf(seat), average,
			len(a.evening.Sheets(seat.Student)), a.evening.Load(seat.Student))
		rows = append(rows, figures+ink.on(clean(a.evening.Label(seat.Student)))+a.theme.quiet.on(clean(seatWords(seat))))
	}
	return rows, marked
}

// lanesOf gives the lane of odd frames, and the one of even frames for a student who alternates.
func lanesOf(seat model.Seat) string {
	if seat.Alternate {
		return fmt.Sprintf("%d, %d even", seat.Lane, seat.Pair().Other(seat.Lane))
	}
	return strconv.Itoa(seat.Lane)
}

func seatWords(seat model.Seat) string {
	words := ""
	if seat.Out {
		words += "  out"
	}
	if seat.Cue != "" {
		words += "  cue: " + seat.Cue
	}
	return words
}
