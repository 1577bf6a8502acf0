package tui

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// framesPart is what a row shows right of the count: a game's ten frames, or the words and the deliveries of something
// else.
type framesPart struct {
	theme   *theme
	columns boardColumns
	frames  [10]frameCell
	// other is set where it is no game.
	other      string
	deliveries []frameCell
	// cursor is the ink of the place of the next ball.
	cursor ink
}

// frameCell is one frame, or one delivery outside games.
type frameCell struct {
	// marks are the balls as the score sheet shows them, with _ for the next one.
	marks string
	// sign is a dot for a good full rack, or what cost it; letter its shot grade; total the running total.
	sign, letter, total string
	ink                 ink
	// unkept is the sign of a ball that is not on disk yet; next tells that the next ball is of this frame, open that a
	// ball of it is reopened.
	unkept     string
	next, open bool
}

func (p boardPicture) framesOf(r boardRow, c boardColumns) framesPart {
	f := framesPart{theme: p.Theme, columns: c, cursor: p.Theme.quiet}
	if r.speaking || r.up {
		f.cursor = p.Theme.accent
	}
	edit, _ := p.Evening.Editing()
	if r.sheet != nil && r.sheet.Game.Kind != model.KindGame {
		f.other = p.otherWords(r)
		for _, d := range r.sheet.Deliveries {
			f.deliveries = append(f.deliveries, p.deliveryCell(r.sheet, d, edit.Delivery))
		}
		return f
	}
	if r.sheet != nil {
		p.gameFrames(&f, r.sheet, edit.Delivery)
	}
	if r.sheet == nil || !r.sheet.Ended() {
		next := &f.frames[max(r.rack.Frame, 1)-1]
		next.next = true
	}
	return f
}

// gameFrames fills in the frames of a game.
func (p boardPicture) gameFrames(f *framesPart, s *model.Sheet, reopened model.ID) {
	for i, frame := range s.Card.Frames {
		f.frames[i].marks = strings.Join(frame.Marks(), "")
		if frame.Known {
			f.frames[i].total = strconv.Itoa(frame.Total)
		}
	}
	for i, d := range s.Deliveries {
		cell := &f.frames[d.Frame-1]
		if s.Racks[i].Full && !d.Dead && cell.sign == "" {
			cell.sign, cell.ink = p.signOf(d)
			cell.letter = d.Grade().String()
		}
		cell.unkept = cmp.Or(cell.unkept, p.unkept(d.ID))
		cell.open = cell.open || d.ID == reopened
	}
}

// signOf gives the sign under a delivery: a dot for a good one, a dash for one that was not seen, or what cost it.
func (p boardPicture) signOf(d model.Delivery) (string, ink) {
	switch {
	case d.Dead:
		return "x", p.Theme.quiet
	case !d.Seen:
		return "–", p.Theme.quiet
	case d.Good():
		return "●", p.Theme.good
	case d.Grade() == model.Ungraded:
		return "·", p.Theme.quiet
	}
	return costOf(d.Letters, d.Side), p.Theme.cost
}

// costOf names what cost a shot: the axis with the lowest letter, the earlier of two; of target the side, where it is
// known.
func costOf(letters model.Letters, side model.Side) string {
	lowest, worst := model.Balance, model.NoLetter
	for _, a := range model.Axes {
		if l := letters[a]; l != model.NoLetter && (worst == model.NoLetter || l < worst) {
			lowest, worst = a, l
		}
	}
	if lowest == model.Target && side != "" {
		return string(side)
	}
	return axisKeys[lowest]
}

// deliveryCell gives a delivery of a drill or a warm-up.
func (p boardPicture) deliveryCell(s *model.Sheet, d model.Delivery, reopened model.ID) frameCell {
	c := frameCell{marks: ".", unkept: p.unkept(d.ID), open: d.ID == reopened}
	switch {
	case d.Dead:
		c.marks = "x"
	case d.Foul:
		c.marks = "F"
	case d.Pins.Known && d.Pins.Value == tenpin.AllPins.Count():
		c.marks = "X"
	case d.Pins.Known && d.Pins.Value == s.Game.Rack().Count():
		c.marks = "/"
	case d.Pins.Known && d.Pins.Value == 0:
		c.marks = "-"
	case d.Pins.Known:
		c.marks = strconv.Itoa(d.Pins.Value)
	}
	c.sign, c.ink = p.signOf(d)
	return c
}

// otherWords says how far a drill or a warm-up is.
func (p boardPicture) otherWords(r boardRow) string {
	g, t := r.sheet.Game, r.sheet.Tally
	words := clean(p.Evening.TitleOf(g))
	if g.Kind == model.KindWarmup {
		return words + ", " + plural(t.Load, "ball", "balls")
	}
	if g.Pins != 0 {
		words += " at " + g.Pins.String()
	}
	thrown := r.sheet.Live()
	if g.Length > 0 {
		words += ", " + strconv.Itoa(thrown) + " of " + strconv.Itoa(g.Length)
	} else {
		words += ", " + plural(thrown, "ball", "balls")
	}
	if !r.rack.Full {
		words += fmt.Sprintf(", %d made, %d good", t.SpareMade, t.SpareGood)
	}
	return words
}

// line puts line i of a row of some lines.
func (f framesPart) line(l *drawnLine, i, rows int) {
	if f.other != "" {
		f.otherLine(l, i, rows)
		return
	}
	for n := range f.frames {
		cells := f.columns.cell
		if n == 9 {
			cells = f.columns.tenth
		}
		f.frame(l, f.frames[n], cells, i, rows)
	}
}

func (f framesPart) frame(l *drawnLine, c frameCell, cells, i, rows int) {
	end := l.used + cells
	switch i {
	case 0:
		f.marks(l, c, cells, rows)
	case 1:
		l.add(ink{}, " ")
		sign := c.sign + c.unkept
		l.add(c.ink, cut(sign, cells-1))
		if rows == 2 && f.columns.stats > 0 && cells-1 >= width(sign)+1+2 {
			l.add(f.theme.quiet, " "+c.letter)
		}
	case 2:
		if f.columns.stats > 0 {
			l.add(f.theme.quiet, " "+cut(c.letter, cells-1))
		}
	case 3:
		l.add(ink{}, " "+cut(c.total, cells-1))
	}
	l.to(end)
}

// marks puts a frame's balls. A row of one line has the sign behind them.
func (f framesPart) marks(l *drawnLine, c frameCell, cells, rows int) {
	before, with := " ", ink{}
	if c.open {
		before, with = "[", f.theme.cost
	}
	sign := ""
	if rows == 1 {
		sign = c.short(cells - 1 - len(c.marks))
	}
	room := cells - 1 - width(sign)
	marks := marksIn(c.marks, room)
	l.add(with, before+marks)
	if c.next && len(marks) < room {
		l.add(f.cursor, "_")
	}
	l.add(c.ink, sign)
	if c.open && len(marks) < room {
		l.add(with, "]")
	}
}

// marksIn gives the balls of a frame in w cells: where they are too many the parentheses of splits are only opened, or
// go.
func marksIn(marks string, w int) string {
	for _, less := range []string{")", "("} {
		if len(marks) > w {
			marks = strings.ReplaceAll(marks, less, "")
		}
	}
	return marks[:min(len(marks), max(w, 0))]
}

// short gives the sign in a row of one line: in full where it fits into the cells that are over, else by its first
// letter; while a ball is not on disk that is said in its place.
func (c frameCell) short(over int) string {
	switch {
	case c.unkept != "":
		return c.unkept
	case width(c.sign) > max(over, 1):
		return c.sign[:1]
	}
	return c.sign
}

// otherLine puts a line of a drill or a warm-up: the words, the last deliveries' signs, their pins.
func (f framesPart) otherLine(l *drawnLine, i, rows int) {
	end := f.columns.left() + f.columns.frames()
	l.add(ink{}, " ")
	if i == 0 {
		l.add(ink{}, cut(f.other, end-l.used-1))
		if rows > 1 {
			return
		}
		l.add(ink{}, " ")
	}
	const cells = 4
	fits := max((end-l.used)/cells, 0)
	shown := f.deliveries[max(len(f.deliveries)-fits, 0):]
	for _, d := range shown {
		switch {
		case i == 2:
			l.put(f.theme.quiet, d.marks, cells)
		case i < 2:
			sign := d.sign + d.unkept
			if d.open {
				sign = "[" + sign + "]"
			}
			l.put(d.ink, cut(sign, cells), cells)
		}
	}
}
