package tui

import "strings"

// drawnLine is a line of the screen being put together from left to right. It never grows wider than its room.
type drawnLine struct {
	b    strings.Builder
	used int
	// room is the cells that are left.
	room int
}

func newLine(w int) *drawnLine { return &drawnLine{room: max(w, 0)} }

// add puts a text, cut to the room that is left.
func (l *drawnLine) add(i ink, s string) {
	s = cut(s, l.room)
	l.grow(width(s))
	l.b.WriteString(i.on(s))
}

// put puts a text in exactly w cells, or in the room that is left.
func (l *drawnLine) put(i ink, s string, w int) {
	w = min(w, l.room)
	l.grow(w)
	l.b.WriteString(i.on(fit(s, w)))
}

// to puts blanks up to a column, counted from 0.
func (l *drawnLine) to(column int) {
	n := min(column-l.used, l.room)
	if n > 0 {
		l.grow(n)
		l.b.WriteString(blanks(n))
	}
}

func (l *drawnLine) grow(cells int) {
	l.used += cells
	l.room -= cells
}

// String gives the line as far as it was put together.
func (l *drawnLine) String() string { return l.b.String() }
