package tui

import (
	"strings"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// boardPicture is what the board shows at one moment.
type boardPicture struct {
	Evening *model.Evening
	// Pace is that of each student's game or drill, where there is one.
	Pace map[model.ID]insight.Pace
	// Pending holds the deliveries that are not on disk yet.
	Pending map[model.ID]bool
	// Counting says that the next digit is a number of pins felled.
	Counting bool
	Theme    *theme
	// First is the first student in screen order that is shown where they do not all fit; it gives way to who is up.
	First int
}

// draw gives the board in exactly h lines, none wider than w cells.
func (p boardPicture) draw(w, h int) string {
	var lines []string
	for _, seat := range p.Evening.Seats() {
		lines = append(lines, cut(clean(p.Evening.Label(seat.Student)), w))
	}
	for len(lines) < h {
		lines = append(lines, "")
	}
	return p.Theme.finish(strings.Join(lines[:h], "\n"))
}
