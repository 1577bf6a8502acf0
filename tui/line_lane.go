package tui

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// lanePicture is a lane drawn standing, the pins above: to scale, but for the pin deck, which is drawn higher. It is the
// lane as it lies there: a left-hander's boards are counted from the left, a right-hander's from the right.
type lanePicture struct {
	theme *theme
	hand  model.Hand
	// scale is the cells of a board.
	scale float64
	// deck is the lines of the pins, long those from the pins to the foul line.
	deck, long int
	cells      [][]laneCell
}

type laneCell struct {
	sign rune
	ink  ink
}

// feetCells stand before the lane, with distances and lanes in them.
const feetCells = 4

// The signs of the lines on the lane. Each differs from the others also where there is no more than ASCII.
const (
	aimedSign, movedSign, bothSign, thrownSign, computedSign = '●', '+', '#', '·', ':'
	arrowSign, oilSign, edgeSign, foulSign                   = '^', '─', '│', '━'
)

// laneScale gives the cells of a board in a window of w cells.
func laneScale(w int) float64 {
	switch {
	case w >= 140:
		return 2
	case w >= 76:
		return 1
	}
	return 0.5
}

// laneWidth gives the cells of a lane with the distances before it.
func laneWidth(scale float64) int { return feetCells + int(40*scale) + 1 }

// Below the foul line stand the boards and a line for each lane of the pair.
const belowFoul, roomyDeckFrom = 4, 30

// laneLines draws what is known of the lane in h lines.
func (p linePicture) laneLines(h int) []string {
	l := lanePicture{theme: p.theme, hand: p.k.by.Hand, scale: laneScale(p.w), deck: 2}
	if h >= roomyDeckFrom {
		l.deck = 4
	}
	l.long = max(h-l.deck-belowFoul, 1)
	l.cells = make([][]laneCell, l.deck+l.long)
	for i := range l.cells {
		l.cells[i] = make([]laneCell, laneWidth(l.scale)-feetCells)
	}
	l.surface(p.k)
	for _, thrown := range p.k.drawn.Thrown {
		l.line(thrown, thrownSign, p.theme.quiet)
	}
	l.line(p.k.drawn.Computed, computedSign, ink{})
	l.line(p.k.drawn.Aimed, aimedSign, p.theme.accent)
	l.line(p.k.drawn.Moved, movedSign, p.theme.alert)
	return append(l.lines(p.k), l.below(p.k)...)
}

// column gives the cell of a board that is counted from the student's own side.
func (l lanePicture) column(board float64) int {
	at := int(math.Round(board * l.scale))
	if l.hand != model.LeftHand {
		at = int(40*l.scale) - at
	}
	return at
}

// fromRight gives the cell of a board that is counted from the lane's right edge.
func (l lanePicture) fromRight(board float64) int {
	return int(40*l.scale) - int(math.Round(board*l.scale))
}

// row gives the line of a distance, 0 to 60 feet.
func (l lanePicture) row(ft float64) int {
	up := min(max(int(ft/lane.PinsFt*float64(l.long)), 0), l.long-1)
	return l.deck + l.long - 1 - up
}

func (l lanePicture) put(row, column int, sign rune, with ink) {
	if column < 0 || column >= len(l.cells[row]) {
		return
	}
	l.cells[row][column] = laneCell{sign, with}
}

// arrowFt gives the distance at which the picture shows the arrow on a board: a V of about 12 to 16 feet (from memory,
// sources differ). The target's own distance is the evening's.
func arrowFt(board float64) float64 { return 16 - 1.2*math.Abs(board-20)/5 }

// surface draws edges, arrows, the oil's end and the pins.
func (l lanePicture) surface(k lineKnown) {
	t := l.theme
	for row := range l.cells {
		l.put(row, 0, edgeSign, t.quiet)
		l.put(row, len(l.cells[row])-1, edgeSign, t.quiet)
	}
	if oil := k.session.PatternFt; oil.Known {
		for c := 1; c < len(l.cells[0])-1; c++ {
			l.put(l.row(oil.Value), c, oilSign, t.quiet)
		}
	}
	for board := 5.0; board <= 35; board += 5 {
		l.put(l.row(arrowFt(board)), l.column(board), arrowSign, t.strong)
	}
	for pin := 1; pin <= 10; pin++ {
		board, _ := lane.PinAt(pin)
		at := l.fromRight(board)
		for i, digit := range strconv.Itoa(pin) {
			l.put(l.pinRow(pin), at+i, digit, t.strong)
		}
	}
}

// pinRow gives the line of a pin: one a row of pins, or where there are but two lines the pins behind above the others.
func (l lanePicture) pinRow(pin int) int {
	switch {
	case l.deck > 2 && pin > 6:
		return 0
	case l.deck > 2 && pin > 3:
		return 1
	case l.deck > 2 && pin > 1:
		return 2
	case l.deck > 2:
		return 3
	case pin > 3:
		return 0
	}
	return 1
}

// line draws a line, one sign for each line of the picture that it goes through.
func (l lanePicture) line(along []lane.Place, sign rune, with ink) {
	if len(along) == 0 {
		return
	}
	for row := l.deck; row < l.deck+l.long; row++ {
		from := float64(l.deck+l.long-1-row) * lane.PinsFt / float64(l.long)
		board, ok := boardBetween(along, from, from+lane.PinsFt/float64(l.long))
		if !ok || board < 0 || board > 40 {
			continue
		}
		c, drawn := l.column(board), sign
		if sign == movedSign && l.cells[row][c].sign == aimedSign {
			drawn = bothSign
		}
		l.put(row, c, drawn, with)
	}
}

// boardBetween gives the board of a line in the middle of what it has between two distances, false where it has nothing
// there.
func boardBetween(along []lane.Place, from, to float64) (board float64, ok bool) {
	first, last := along[0].Ft, along[len(along)-1].Ft
	if to <= first && first > 0 || from > last {
		return 0, false
	}
	at := min(max((from+to)/2, first), last)
	for i := 1; i < len(along); i++ {
		a, b := along[i-1], along[i]
		if at >= a.Ft && at <= b.Ft && b.Ft > a.Ft {
			return a.Board + (b.Board-a.Board)*(at-a.Ft)/(b.Ft-a.Ft), true
		}
	}
	return along[0].Board, true
}

// lines gives the lane down to the foul line, with the distances before it.
func (l lanePicture) lines(k lineKnown) []string {
	feet := map[int]string{}
	for _, ft := range []float64{60, 45, 30, k.arrowsFt()} {
		feet[l.row(ft)] = strconv.Itoa(int(math.Round(ft)))
	}
	if oil := k.session.PatternFt; oil.Known {
		feet[l.row(oil.Value)] = "oil"
	}
	out := make([]string, len(l.cells))
	for row, cells := range l.cells {
		out[row] = l.theme.quiet.on(fitRight(feet[row], feetCells-1)+" ") + cellsInked(cells)
	}
	return out
}

// cellsInked draws cells, those of one ink together.
func cellsInked(cells []laneCell) string {
	var b strings.Builder
	for i := 0; i < len(cells); {
		j, text := i, []rune{}
		for j < len(cells) && cells[j].ink == cells[i].ink {
			sign := cells[j].sign
			if sign == 0 {
				sign = ' '
			}
			text = append(text, sign)
			j++
		}
		b.WriteString(cells[i].ink.on(string(text)))
		i = j
	}
	return b.String()
}

// below gives the foul line, the boards as the student counts them, and over which boards balls went on both lanes.
func (l lanePicture) below(k lineKnown) []string {
	t, cells := l.theme, len(l.cells[0])
	out := []string{t.quiet.on(fitRight("0", feetCells-1)+" ") + t.strong.on(strings.Repeat(string(foulSign), cells))}
	boards := make([]laneCell, cells)
	step := 5
	if l.scale < 1 {
		step = 10
	}
	for b := step; b < 40; b += step {
		text := strconv.Itoa(b)
		at := l.column(float64(b)) - (len(text)-1)/2
		for i, digit := range text {
			boards[at+i] = laneCell{digit, t.quiet}
		}
	}
	out = append(out, blanks(feetCells)+cellsInked(boards))
	most := 0
	for _, w := range k.wear {
		most = max(most, slices.Max(l.histogram(w)))
	}
	for _, w := range k.wear {
		with := t.quiet
		if w.Lane == k.lane {
			with = t.accent
		}
		out = append(out, with.on(fitRight(strconv.Itoa(w.Lane), feetCells-1)+" ")+with.on(bars(l.histogram(w), most)))
	}
	return out
}

// histogram gives the balls over each cell of the lane at the arrows.
func (l lanePicture) histogram(w lane.Wear) []int {
	out := make([]int, len(l.cells[0]))
	for board, n := range w.Arrows {
		if c := l.fromRight(float64(board)); c < len(out) {
			out[c] += n
			if l.scale > 1 && c > 0 {
				out[c-1] += n
			}
		}
	}
	return out
}

// bars draws counts as heights, of the most that there is; a blank is none.
func bars(counts []int, most int) string {
	var b strings.Builder
	for _, n := range counts {
		if n == 0 {
			b.WriteByte(' ')
			continue
		}
		b.WriteRune(heightSigns[min((n*len(heightSigns)-1)/most, len(heightSigns)-1)])
	}
	return b.String()
}
