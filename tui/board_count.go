package tui

import (
	"strconv"

	"coach.settee/model"
)

// rowCount is the count that a row shows largest, and what it is of.
type rowCount struct {
	n int
	// of is "of 6", "made", "balls"; short is "/6" for a row of one line.
	of, short string
	// made says that it counts what was made, of a drill at some of the pins, not good shots; balls that it counts balls.
	made, balls bool
}

// countOf gives the good count of the student's goal; of a drill at named pins those made of those tried, of a warm-up
// the balls.
func (p boardPicture) countOf(r boardRow) rowCount {
	goal := r.student.Chosen().Goal.Whole()
	if r.sheet == nil {
		return countOf(0, goal)
	}
	tally := r.sheet.Tally
	switch {
	case r.sheet.Game.Kind == model.KindWarmup:
		return rowCount{n: tally.Load, of: "balls", balls: true}
	case r.sheet.Game.Kind == model.KindGame:
		return countOf(tally.Good, goal)
	case !r.rack.Full:
		count := countOf(tally.SpareMade, tally.SpareTried)
		count.made = true
		return count
	}
	if pace, ok := p.Pace[r.student.ID]; ok {
		return countOf(tally.Good, pace.Target)
	}
	return countOf(tally.Good, tally.Seen)
}

func countOf(n, of int) rowCount {
	return rowCount{n: n, of: "of " + strconv.Itoa(of), short: "/" + strconv.Itoa(of)}
}

// counted heads the counts of rows in w cells: what they count, both where they differ.
func (p boardPicture) counted(rows []boardRow, w int) string {
	made, good := false, false
	for _, r := range rows {
		count := p.countOf(r)
		made, good = made || count.made, good || !count.made && !count.balls
	}
	const both = "good/made"
	switch {
	case made && !good:
		return "made"
	case made && w > len(both):
		return both
	}
	return "good"
}

// drawn gives the count in at most h lines of w cells.
func (c rowCount) drawn(w, h int, ascii bool) []string {
	if h > 1 {
		return figure(c.n, w, h, ascii)
	}
	text := strconv.Itoa(c.n) + c.short
	if width(text) > w {
		text = strconv.Itoa(c.n)
	}
	return []string{text}
}
