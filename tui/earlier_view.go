package tui

import (
	"fmt"
	"strconv"

	"coach.settee/model"
)

// earlierHead is the lines above the rows of the list.
const earlierHead = 2

// room gives how many evenings are shown in h lines.
func (l *earlierList) room(h int) int { return max(h-earlierHead, 1) }

func (l *earlierList) draw(a *App, w, h int) []string {
	first, end := inView(l.at, l.at+1, l.room(h), len(l.sessions))
	where := fmt.Sprintf("  %d to %d of %d", first+1, end, len(l.sessions))
	lines := []string{
		a.theme.title.on("  Evenings, the newest first") + a.theme.quiet.on(where),
		a.theme.quiet.on("    date             who games balls  good/seen  place"),
	}
	for i := first; i < end; i++ {
		lines = append(lines, l.row(a, i))
	}
	return lines
}

// row draws an evening: its day, how many are in it, what came about, whether it is open, and its place.
func (l *earlierList) row(a *App, i int) string {
	s := l.sessions[i]
	mark, ink := "  ", a.theme.strong
	if i == l.at {
		mark, ink = "▶ ", a.theme.accent
	}
	games, balls, good := "…", "…", "…"
	if n, ok := l.counts[s.ID]; ok {
		games, balls, good = strconv.Itoa(n.Games), strconv.Itoa(n.Deliveries), fmt.Sprintf("%d/%d", n.Good, n.Seen)
	}
	figures := fmt.Sprintf("  %s%s  %3d %s %s  %s  ", mark, s.At.In(a.zone()).Format("Mon _2 Jan 2006"), len(s.Roster),
		fitRight(games, 5), fitRight(balls, 5), fitRight(good, 9))
	return figures + a.theme.good.on(l.state(a, s)) + ink.on(clean(s.Place))
}

// state says that an evening is the one on the screen or is open otherwise.
func (l *earlierList) state(a *App, s model.Session) string {
	switch {
	case a.evening != nil && a.evening.Session().ID == s.ID:
		return "here "
	case s.Open():
		return "open "
	}
	return ""
}
