package handout

import (
	"math"
	"strings"
)

// printed is how a page stands on a sheet of paper.
type printed struct {
	// Print is the size of a letter, in pixels (96 an inch).
	Print float64
	// Beside tells that the strips stand two in a row, Tight that there is no room for the least size of small letters.
	Beside, Tight bool
}

// The sheet of paper in pixels: what A4, the narrower, leaves between its margins across, and what Letter, the shorter,
// leaves along, with some to spare, because what is on it is only reckoned.
const sheetWidth, sheetHeight = 703, 965

// The sizes of letters in print, in pixels: from largest down to smallest in steps; below roomy the strips stand two in a
// row, and below leastOf no small letters are kept at leastSmall, which is 7 points.
const largest, smallest, step, roomy, leastOf, leastSmall = 16, 5.5, 0.5, 13, 9.5, 9.4

// print gives the largest letters at which all stays on one sheet.
func (p page) print() printed {
	for size := float64(largest); size > smallest; size -= step {
		for _, l := range []printed{{Print: size}, {Print: size, Beside: true}} {
			if l.Beside && (len(p.Strips) < 2 || size >= roomy) {
				continue
			}
			l.Tight = size < leastOf
			if (paper{p, l}).height()*size <= sheetHeight {
				return l
			}
		}
	}
	return printed{Print: smallest, Beside: len(p.Strips) > 1, Tight: true}
}

// paper reckons how high a page is in letters of a size: heights and widths are in sizes of the letter, as in the style
// sheet, whose lines are line high.
type paper struct {
	page
	printed
}

const line = 1.3

func (p paper) height() float64 {
	sections := []float64{p.header(), p.words(), p.large(), p.strips(), p.next(), p.truths(), p.facts(), p.take(), p.footer()}
	total := 0.0
	for _, h := range sections {
		if h > 0 {
			const margin = .6
			total += h + margin
		}
	}
	return total
}

// width is that of the sheet.
func (p paper) width() float64 { return sheetWidth / p.Print }

// small is the size of small letters.
func (p paper) small() float64 { return p.atLeast(.8) }

// atLeast gives the size of letters that are set in a size.
func (p paper) atLeast(size float64) float64 {
	if p.Tight {
		return size
	}
	return max(size, leastSmall/p.Print)
}

// head is the height of a heading.
func (p paper) head() float64 { return p.small()*line + .2 }

func (p paper) header() float64 {
	const border, padding = .4, .4
	name, when := lengthOf(p.Name, 2)*bold, lengthOf(p.When+" · "+p.Place, 1)
	h := 2.2 + border + padding
	if name+1.2+when > p.width() {
		h = 2.2*rows(p.Name, 2*bold, p.width()) + (line+.25)*rows(p.When+" · "+p.Place, 1, p.width()) + border + padding
	}
	if p.Guardian {
		h += .35 + p.atLeast(.9)*line*rows("To , and to the parent or guardian of : please read it together."+p.Name+p.Name, p.atLeast(.9), p.width())
	}
	return h
}

func (p paper) words() (h float64) {
	if p.Lead != "" {
		h += 1.2 * 1.3 * rows(joined(", ", p.Address, p.Lead), 1.2*bold, p.width())
	}
	if p.Sentence != "" {
		h += .8 + 1.05*line*rows(p.Sentence, 1.05, p.width()-1.3)
	}
	return h
}

func (p paper) large() float64 {
	if len(p.Rings) == 0 && p.Moved == nil {
		return 0
	}
	const ring, gap, moved = 4.2, 1, 11
	h := ring + 2*1.25*p.small()
	if free := p.width() - float64(len(p.Rings))*(ring+gap); p.Moved != nil && (free < moved || len(p.Rings) == 0) {
		h += .5 + 3.4 + 3*line
	}
	return p.head() + h
}

func (p paper) strips() float64 {
	n := len(p.Strips)
	if n == 0 {
		return 0
	}
	gap := .6
	if p.Beside {
		n, gap = (n+1)/2, .4
	}
	one := 1.1*1.4 + .2 + .6 + 1.1*p.small() + 1.2 + 1.2*p.atLeast(.85) + 1.25*p.small()
	legend := p.Omitted
	for _, s := range p.Legend {
		legend += s.Mark + s.Words + "   "
	}
	return float64(n)*(one+gap) - gap + .3 + p.small()*line*rows(legend, p.small(), p.width())
}

func (p paper) next() float64 {
	const around = .8 + .2 // paddings and borders
	w := p.Work
	both := p.Keep != "" && (w.What != "" || w.Cue != "")
	room := p.width()
	if both {
		room = (room - .8) / 2
	}
	room -= 2.4
	keep, work := 0.0, 0.0
	if p.Keep != "" {
		keep = around + p.head() + 1.43*rows(p.Keep, 1.1*bold, room)
	}
	switch {
	case w.What != "":
		work = around + p.head() + 1.43*rows(w.What, 1.1*bold, room) + line*rows(w.Why, 1, room)
		if w.Cue != "" {
			work += .3 + line*rows("Say to yourself: “”"+w.Cue, bold, room)
		}
	case w.Cue != "":
		work = around + p.head() + 1.43*rows(w.Cue, 1.1*bold, room)
	}
	return max(keep, work)
}

func (p paper) truths() float64 {
	if len(p.Truths) == 0 {
		return 0
	}
	const column, gap = 17, 1.6
	columns := max(1, math.Floor((p.width()-1.3+gap)/(column+gap)))
	n := 0.0
	for _, t := range p.Truths {
		n += rows(t, p.atLeast(.92), (p.width()-1.3-gap*(columns-1))/columns)
	}
	return p.head() + p.atLeast(.92)*line*math.Ceil(n/columns+(columns-1)/columns)
}

// facts stand in as many columns as there is room for.
func (p paper) facts() float64 {
	const column, gap, between = 12.5, 1.6, .9
	n := 0
	for _, there := range []bool{p.Costs != nil, p.Results != nil, p.Spares != "" || len(p.Drills) > 0, p.Trend != nil} {
		if there {
			n++
		}
	}
	if n == 0 {
		return 0
	}
	columns := min(n, int((p.width()+gap)/(column+gap)))
	heights := p.factHeights((p.width() - gap*float64(n-1)) / float64(n))
	if columns < n {
		heights = p.factHeights((p.width() - gap*float64(columns-1)) / float64(columns))
	}
	total := -between
	for i := 0; i < n; i += columns {
		highest := 0.0
		for _, h := range heights[i:min(i+columns, n)] {
			highest = max(highest, h)
		}
		total += highest + between
	}
	return total
}

// factHeights give how high each of the facts is in a column.
func (p paper) factHeights(room float64) (heights []float64) {
	size := p.atLeast(.92)
	text := func(words string) float64 { return size * line * rows(words, size, room) }
	if c := p.Costs; c != nil {
		h := line*p.small()*rows(strings.ToUpper(c.Head), 1.2*p.small()*bold, room) + .2 + float64(len(c.Bars))*(size*line+.2)
		for _, note := range c.Notes {
			h += text(note)
		}
		heights = append(heights, h)
	}
	if p.Results != nil {
		row := 1.05*line + .3
		if room < 16 {
			row += p.small() * line
		}
		heights = append(heights, p.head()+size*line+2*row)
	}
	if p.Spares != "" || len(p.Drills) > 0 {
		h := p.head() + text(p.Spares)
		for _, d := range p.Drills {
			h += text(d)
		}
		heights = append(heights, h)
	}
	if t := p.Trend; t != nil {
		h := p.head() + text(t.Words)
		if t.Points != nil {
			h += .2 + room*trendHeight/trendWidth + .4 + p.small()*line*rows(trendNote, p.small(), room)
		}
		heights = append(heights, h)
	}
	return heights
}

// take is the card with the homework beside it.
func (p paper) take() float64 {
	room, home := p.width(), 0.0
	if p.Homework != nil || p.Next != "" {
		room, home = (room-1.6)*1.75/2.75, (room-1.6)/2.75
	}
	return max(p.cardHeight(room-2.2), p.homeHeight(home))
}

func (p paper) cardHeight(room float64) float64 {
	const picture, least, most, gap = 7.6, 5.4, 9.0, 1.1
	if p.Card == nil {
		return 0
	}
	n := len(p.Card.Shots)
	inRow := min(n, int((room+gap)/(least+gap)))
	each := min(most, (room+gap)/float64(inRow)-gap)
	high := 0.0
	for _, s := range p.Card.Shots {
		h := picture + line + p.small()*1.25*(rows(s.Where, p.small(), each)+rows(s.Arrow, p.small(), each)+rows(s.From, p.small(), each))
		if s.Out != "" {
			h += p.small() * 1.25 * rows("out to "+s.Out, p.small(), each)
		}
		for _, board := range []string{s.Feet, s.Eyes} {
			h += 1.6 * rows("feet "+board, 1.15, each)
		}
		high = max(high, h+1.25*rows(s.Words, 1, each))
	}
	return .9 + .3 + p.head() + math.Ceil(float64(n)/float64(inRow))*(high+.6) - .6 + .3 + p.small()*line*rows(p.Card.Note, p.small(), room)
}

func (p paper) homeHeight(room float64) (h float64) {
	if home := p.Homework; home != nil {
		h = p.head() + 1.43*rows(home.Text+home.Drill, 1.1*bold, room) + line*rows(joined(" · ", home.Count, home.Days), 1, room)
		box := p.small()*line + .5 + line + .75 + .3
		h += .3 + float64(len(home.Boxes))*(box+.3) + .25 + p.small()*line
	}
	if p.Next != "" {
		h += .3 + 1.05*line*rows("Next time: "+p.Next, 1.05*bold, room)
	}
	return h
}

func (p paper) footer() float64 {
	return .6 + p.small()*line*rows(joined(" ", p.Cautions, p.Consent), p.small(), p.width())
}

// letterWide is the mean width of a letter in a wide type, in sizes of the letter; bold is wider by so much.
const letterWide, bold = .53, 1.15

// rows gives how many rows a text in letters of a size takes in a room.
func rows(text string, size, room float64) float64 {
	return math.Ceil(lengthOf(text, size) / (room * .98))
}

func lengthOf(text string, size float64) float64 { return float64(wide(text)) * letterWide * size }

// wide gives the room that a text takes, in Latin letters: the characters of other scripts may take two.
func wide(text string) int {
	n := 0
	for _, r := range text {
		n++
		if r > 0x2ff {
			n++
		}
	}
	return n
}
