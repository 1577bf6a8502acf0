package tui

import (
	"fmt"
	"strings"

	"coach.settee/model/insight"
)

// trend draws the rate of good shots of the games in some lines of w cells: a dot a game, the smoothed line in its band,
// an upright where the level changed; below it what it says in words.
func (p stripPicture) trend(w, lines int) []string {
	t := p.report().Trend
	const scale = 6
	games := len(t.Games)
	if games == 0 {
		return []string{p.theme.quiet.on("  no games yet"), ""}
	}
	step := min(max((w-scale-1)/games, 1), 6)
	first := max(games-(w-scale-1)/step, 0)
	grid := newTrendGrid(lines, step*(games-first))
	for i := first; i < games; i++ {
		grid.game(t, i, step*(i-first), step)
	}
	out := []string{}
	for y := range lines {
		label := ""
		switch y {
		case 0:
			label = "100%"
		case lines - 1:
			label = "0%"
		case (lines - 1) / 2:
			if lines%2 == 1 {
				label = "50%"
			}
		}
		out = append(out, p.theme.quiet.on(fitRight(label, scale-1)+" ")+grid.line(y, p.theme))
	}
	words := fmt.Sprintf("good shots, %s, the last on the right", plural(games-first, "game", "games"))
	if first > 0 {
		words += fmt.Sprintf(" of %d", games)
	}
	out = append(out, p.theme.quiet.on(cut(blanks(scale)+words, w)))
	for _, s := range []string{t.Words() + "; " + insight.OneEye, t.WordsScore()} {
		out = append(out, says(p.theme.strong, w-1, s)...)
	}
	return append(out, "")
}

// trendGrid is the picture of a trend, a sign a cell.
type trendGrid struct{ cells [][]rune }

func newTrendGrid(lines, w int) trendGrid {
	g := trendGrid{make([][]rune, lines)}
	for y := range g.cells {
		g.cells[y] = []rune(strings.Repeat(" ", w))
	}
	return g
}

// The signs of a trend's picture.
const (
	bandSign, lineSign, gameSign, breakSign = '·', '─', '●', '│'
)

// game puts a game at a column: the band and the line over all its cells, its own rate in the first.
func (g trendGrid) game(t insight.Trend, i, x, step int) {
	if i < len(t.Rate) {
		for c := x; c < x+step; c++ {
			g.smooth(t.Rate[i], c)
		}
	}
	if t.Games[i].Break {
		for y := range g.cells {
			g.cells[y][x] = breakSign
		}
		if step > 1 {
			x++
		}
	}
	if rate := t.Games[i].Good.Rate(); rate.Known {
		g.cells[g.row(rate.Value)][x] = gameSign
	}
}

func (g trendGrid) smooth(s insight.Smooth, x int) {
	if s.Band.Known {
		for y := g.row(s.Band.Value.High); y <= g.row(s.Band.Value.Low); y++ {
			g.cells[y][x] = bandSign
		}
	}
	if s.Value.Known {
		g.cells[g.row(s.Value.Value)][x] = lineSign
	}
}

// row gives the line of a rate, 0 the highest.
func (g trendGrid) row(rate float64) int {
	last := len(g.cells) - 1
	return min(max(int((1-rate)*float64(last)+0.5), 0), last)
}

// line draws a line of the picture.
func (g trendGrid) line(y int, t *theme) string {
	var b strings.Builder
	inks := map[rune]ink{bandSign: t.quiet, lineSign: t.accent, gameSign: t.good, breakSign: t.alert}
	for _, r := range g.cells[y] {
		b.WriteString(inks[r].on(string(r)))
	}
	return b.String()
}
