package tui

import (
	"strconv"
	"strings"

	"coach.settee/model"
)

// frames draws the strip itself: a game's frames with what is selected marked, the deliveries' signs of anything else.
func (p stripPicture) frames(x *model.Sheet) []string {
	if x.Game.Kind != model.KindGame {
		return p.signs(x)
	}
	c := p.frameColumns()
	return append([]string{p.frameNumbers(c)}, p.frameLines(x, c, p.h >= smallStrip)...)
}

// frameColumns shares out the window among ten frames.
func (p stripPicture) frameColumns() boardColumns {
	c := boardColumns{cell: 5, tenth: 8, stats: 1}
	for c.cell < 8 && 9*(c.cell+1)+c.tenth+1 <= p.w-2 {
		c.cell++
		c.tenth++
	}
	c.all = c.frames()
	return c
}

// frameLines gives what stands below the numbers of the frames: pins, signs with grades, and totals where they are wanted.
func (p stripPicture) frameLines(x *model.Sheet, c boardColumns, totals bool) []string {
	parts := p.board.framesOf(boardRow{sheet: x, rack: x.Next()}, c)
	rows := []int{0, 1, 3}
	if !totals {
		rows = rows[:2]
	}
	var lines []string
	for _, i := range rows {
		l := newLine(p.w)
		l.add(ink{}, " ")
		// Two lines a row is how letters stand beside the signs.
		parts.line(l, i, 2)
		lines = append(lines, l.String())
	}
	return lines
}

// smallStrip is the height of the screen below which the strip leaves out what the title and the list say too.
const smallStrip = 18

func (p stripPicture) frameNumbers(c boardColumns) string {
	d, _, _ := p.chosen()
	l := newLine(p.w)
	l.add(ink{}, " ")
	for n := 1; n <= 10; n++ {
		cells := c.cell
		if n == 10 {
			cells = c.tenth
		}
		if n == d.Frame {
			l.put(p.theme.accent, "▶"+strconv.Itoa(n), cells)
			continue
		}
		l.put(p.theme.quiet, " "+strconv.Itoa(n), cells)
	}
	return l.String()
}

// signs draws a drill's or a warm-up's deliveries: what fell, and below it the signs, with the one selected in view.
func (p stripPicture) signs(x *model.Sheet) []string {
	const cells = 4
	fits := max((p.w-2)/cells, 1)
	first, end := inView(p.at, p.at+1, fits, len(x.Deliveries))
	head, marks, signs := newLine(p.w), newLine(p.w), newLine(p.w)
	for i, d := range x.Deliveries[first:end] {
		c := p.board.deliveryCell(x, d, "")
		mark, with := " ", p.theme.quiet
		if first+i == p.at {
			mark, with = "▶", p.theme.accent
		}
		head.put(with, mark+strconv.Itoa(d.Seq), cells)
		marks.put(ink{}, " "+c.marks, cells)
		signs.put(c.ink, " "+c.sign+c.unkept, cells)
	}
	words := clean(p.board.otherWords(boardRow{sheet: x, rack: x.Next()}))
	return []string{p.theme.quiet.on(cut(" "+words, p.w)), head.String(), marks.String(), signs.String()}
}

// dots gives the game's dots: a good shot, one that was not, one not seen.
func dots(x *model.Sheet) string {
	var b strings.Builder
	for i, d := range x.Deliveries {
		if x.Racks[i].Full {
			b.WriteString(dotOf(d, x.Racks[i]))
		}
	}
	return b.String()
}

// dotOf gives the dot of a full rack, or of any ball of a drill; "" for what has none.
func dotOf(d model.Delivery, r model.Rack) string {
	switch {
	case d.Dead || r.Frame > 0 && !r.Full:
		return ""
	case !d.Seen:
		return "–"
	case d.Good():
		return "●"
	}
	return "·"
}
