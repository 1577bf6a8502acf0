package tui

import (
	"fmt"
	"strings"

	"coach.settee/model"
	"coach.settee/model/insight"
	"coach.settee/model/tenpin"
)

// listWidths are the cells of the list's columns; what has none is not shown there.
type listWidths struct {
	pins, side, hit, own, cue, note int
	// all is the cells of a row.
	all int
}

// listFixed is the cells of what every row has: the mark, frame and ball, letters, grade and sign.
const listFixed = 1 + 5 + 4 + 5 + 4

// listColumns shares out the list's part of w cells. Narrow windows have the list alone.
func listColumns(w int) listWidths {
	c := listWidths{pins: 19, side: 6, hit: 7, own: 4}
	switch {
	case w >= wideWidth:
		c.pins, c.hit, c.cue, c.note = 26, 18, 20, 20
	case w >= roomyWidth:
		c.hit = 12
	case w >= besideWidth:
		c.pins, c.own = 13, 3
	default:
		c.pins, c.hit, c.all = 16, 14, w
		return c
	}
	c.all = listFixed + c.pins + c.side + c.hit + c.own + c.cue + c.note
	return c
}

// list draws the deliveries in some lines, with the one selected in view.
func (p stripPicture) list(x *model.Sheet, c listWidths, lines int) []string {
	var out []string
	head, first, last := p.listed(x, lines)
	if head > 0 {
		out = append(out, p.listHead(x, c))
	}
	for i := first; i < last; i++ {
		out = append(out, p.row(x, i, c))
	}
	for len(out) < lines {
		out = append(out, "")
	}
	return out
}

// listed gives the lines of a list's head, and which deliveries are shown in some lines.
func (p stripPicture) listed(x *model.Sheet, lines int) (head, first, last int) {
	if lines > 5 {
		head = 1
	}
	first, last = inView(p.at, p.at+1, lines-head, len(x.Deliveries))
	return head, first, last
}

// listPlace gives the line that the list begins with, and how many it has.
func (p stripPicture) listPlace(x *model.Sheet) (top, room int) {
	top = 1 + len(p.frames(x))
	return top, max(p.h-top-len(p.foot()), 1)
}

// panelKeyAt gives the key of what lies at a cell of the panel of the delivery that is open.
func (p stripPicture) panelKeyAt(x, line int) (panelKey, bool) {
	sheet := p.sheet()
	if _, open := p.evening.Editing(); !open || sheet == nil || p.shielded || p.page != pageStrip || p.numbers {
		return panelKey{}, false
	}
	top, room := p.listPlace(sheet)
	return p.board.panelKeyAt(p.w, smallPanel, x, line-top-room)
}

// deliveryAt gives the place of the delivery in whose row a line of the strip lies, counted from 0.
func (p stripPicture) deliveryAt(line int) (int, bool) {
	x := p.sheet()
	if x == nil || p.shielded || p.page != pageStrip || p.numbers {
		return 0, false
	}
	top, room := p.listPlace(x)
	head, first, last := p.listed(x, room)
	i := first + line - top - head
	return i, i >= first && i < last
}

func (p stripPicture) listHead(x *model.Sheet, c listWidths) string {
	l := newLine(c.all)
	ball := "frame"
	if x.Game.Kind != model.KindGame {
		ball = "ball"
	}
	l.put(p.theme.quiet, ball, 6)
	l.put(p.theme.quiet, "pins", c.pins)
	l.put(p.theme.quiet, "btrf", 5)
	l.put(p.theme.quiet, "grade", 8)
	l.put(p.theme.quiet, "side", c.side)
	l.put(p.theme.quiet, "hit", c.hit)
	l.put(p.theme.quiet, "own", c.own)
	l.put(p.theme.quiet, " cue", c.cue)
	l.put(p.theme.quiet, " note", c.note)
	return l.String()
}

// row draws a delivery.
func (p stripPicture) row(x *model.Sheet, i int, c listWidths) string {
	d, r := x.Deliveries[i], x.Racks[i]
	l := newLine(c.all)
	mark, with := " ", ink{}
	if !r.Full && x.Game.Kind == model.KindGame {
		with = p.theme.quiet
	}
	edit, _ := p.evening.Editing()
	switch {
	case d.ID == edit.Delivery:
		mark, with = "◀", p.theme.alert
	case i == p.at:
		mark, with = "▶", p.theme.accent
	}
	l.add(with, mark)
	l.put(with, ballName(d), 5)
	l.put(with, pinCell(x, d, r, c.pins-1), c.pins)
	p.graded(l, d, with)
	l.put(p.theme.cost, sideWords(d), c.side)
	l.put(ink{}, shortHit(d, c.hit-1), c.hit)
	l.put(ink{}, d.Own.String(), c.own)
	for _, text := range []struct {
		words string
		cells int
	}{{d.Cue, c.cue}, {d.Note, c.note}} {
		l.put(p.theme.quiet, textCell(text.words, text.cells), text.cells)
	}
	return l.String()
}

// graded puts letters, shot grade and sign of a delivery.
func (p stripPicture) graded(l *drawnLine, d model.Delivery, with ink) {
	if d.Dead || !d.Seen {
		l.put(p.theme.quiet, "–", 9)
	} else {
		for _, a := range model.Axes {
			letter, by := d.Letters[a].String(), with
			switch d.Letters[a] {
			case model.NoLetter:
				letter = "·"
			case model.A:
			default:
				by = p.theme.cost
			}
			l.add(by, letter)
		}
		grade := d.Grade().String()
		if !d.Touched {
			// Nobody pressed a letter: the grade is lightly marked.
			grade += "'"
		}
		l.put(with, " "+grade, 5)
	}
	sign, by := p.board.signOf(d)
	if !d.Seen && !d.Dead {
		sign = " "
	}
	l.put(by, sign+p.board.unkept(d.ID), 4)
}

// ballName says which delivery it is: frame and ball, or its place.
func ballName(d model.Delivery) string {
	if d.Frame == 0 {
		return fmt.Sprintf("%4d", d.Seq)
	}
	return fmt.Sprintf("%2d.%d", d.Frame, d.Ball)
}

// pinCell says what fell and what was left, in w cells.
func pinCell(x *model.Sheet, d model.Delivery, r model.Rack, w int) string {
	words := pinWords(x, d, r)
	if insight.ResultOf(d, r) == insight.Lucky {
		words += " lucky"
	}
	for _, short := range []string{" s", ""} {
		if width(words) > w {
			words = strings.Replace(strings.Replace(words, " split", " s", 1), " s", short, 1)
		}
	}
	return cut(words, w)
}

// pinWords says what fell and what was left: "X", "9 10" and so on as it is written, with the leave and whether it is a split.
func pinWords(x *model.Sheet, d model.Delivery, r model.Rack) string {
	switch {
	case d.Dead:
		return "dead ball"
	case d.Foul:
		return "F"
	case !d.Pins.Known:
		return "."
	case d.Pins.Value == r.Count && r.Count == tenpin.AllPins.Count() && (r.Full || x.Game.Kind != model.KindGame):
		return "X"
	case d.Pins.Value == r.Count:
		return "/"
	case d.Pins.Value == 0:
		return "-"
	}
	words := fmt.Sprint(d.Pins.Value)
	if !d.After.Known {
		return words
	}
	words += " " + d.After.Pins.String()
	if r.Full && x.Game.Kind == model.KindGame && d.After.Pins.IsSplit() {
		words += " split"
	}
	return words
}

func sideWords(d model.Delivery) string {
	if d.Side == "" {
		return ""
	}
	return fmt.Sprintf("%s %d", d.Side, d.SideBoards)
}

// shortHit says where the ball met the pins in w cells: the word with the boards, the word, or the boards.
func shortHit(d model.Delivery, w int) string {
	word, boards := d.Hit.String(), ""
	if d.HitBoards.Known {
		boards = fmt.Sprintf("%+g", d.HitBoards.Value)
	}
	if d.Hit == model.Missed && width(word) > w {
		word = "missed"
	}
	switch both := strings.TrimSpace(word + " " + boards); {
	case width(both) <= w:
		return both
	case word != "":
		return cut(word, w)
	}
	return boards
}

func textCell(text string, w int) string {
	if w == 0 {
		return ""
	}
	return " " + cut(clean(text), w-1)
}

// detail says in words all that is known of the delivery selected.
func (p stripPicture) detail(d model.Delivery, r model.Rack) string {
	x := p.sheet()
	words := []string{fmt.Sprintf("lane %d", d.Lane), pinDetail(x, d, r)}
	switch {
	case d.Dead:
	case !d.Seen:
		words = append(words, "unseen")
	case d.Grade() != model.Ungraded:
		grade := d.Grade().String()
		if d.Good() {
			grade += ", good"
		}
		if !d.Touched {
			grade += ", untouched"
		}
		words = append(words, grade)
	}
	if result := insight.ResultOf(d, r); result != insight.NoResult {
		words = append(words, result.String())
	}
	if d.Side != "" {
		words = append(words, fmt.Sprintf("target missed %sside by %s", d.Side, plural(d.SideBoards, "board", "boards")))
	}
	if ball := ballWords(model.Call{Hit: d.Hit, HitBoards: d.HitBoards, Own: d.Own, Line: d.Line, SpeedMPH: d.SpeedMPH}); ball != "" {
		words = append(words, ball)
	}
	if d.Bowled != "" {
		words = append(words, "ball "+clean(d.Bowled))
	}
	if d.Cue != "" {
		words = append(words, "cue "+clean(d.Cue))
	}
	if d.Note != "" {
		words = append(words, "note "+clean(d.Note))
	}
	return strings.Join(words, "; ")
}

func pinDetail(x *model.Sheet, d model.Delivery, r model.Rack) string {
	switch words := pinWords(x, d, r); words {
	case "X":
		return "all ten down"
	case "/":
		return "all down"
	case "-":
		return "none down"
	case "F":
		return "foul"
	case ".":
		return "pins not told"
	default:
		if d.After.Known && !d.Dead {
			return fmt.Sprintf("%d down, left %s", d.Pins.Value, strings.SplitN(words, " ", 2)[1])
		}
		if !d.Dead {
			return words + " down"
		}
		return words
	}
}
