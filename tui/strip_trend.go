package tui

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// The columns of a trend's picture: names and the values at the left, the value now at the right.
const trendLeft, trendRight = 16, 6

// trend draws the games in w cells, the last on the right: the rate of good shots in about so many lines, a line an axis and
// one of the score, each game in the same columns in all of them; with what it says in words.
func (p stripPicture) trend(w, lines int) []string {
	t := p.report().Trend
	games := len(t.Games)
	if games == 0 {
		return []string{p.theme.quiet.on("  no games yet"), ""}
	}
	step := min(max((w-trendLeft-trendRight)/games, 1), 6)
	first := max(games-max(w-trendLeft-trendRight, 1)/step, 0)
	out := p.rateLines(t, first, step, max((lines-1)|1, 5))
	out = append(out, says(p.theme.quiet, w-1, p.rateLegend(t, first))...)
	var words []string
	for _, s := range []string{t.Words() + "; " + insight.OneEye, t.WordsScore()} {
		words = append(words, says(p.theme.strong, w-1, s)...)
	}
	heights := p.heightLines(t, first, step, w)
	if p.h < roomyHeight {
		// What it comes to is seen before the page is turned.
		heights, words = words, heights
	}
	return append(append(append(out, heights...), words...), "")
}

// rateLines draws the rate of the games from first on, step cells each: a dot a game, the smoothed line in its band, an
// upright where the level changed.
func (p stripPicture) rateLines(t insight.Trend, first, step, lines int) []string {
	grid := newTrendGrid(lines, step*(len(t.Games)-first))
	for i := first; i < len(t.Games); i++ {
		grid.game(t, i, step*(i-first), step)
	}
	labels := map[int]string{0: "good shots 100%", (lines - 1) / 2: "50%", lines - 1: "0%"}
	out := make([]string, lines)
	for y := range out {
		out[y] = p.theme.quiet.on(fitRight(labels[y], trendLeft-1)+" ") + grid.line(y, p.theme)
	}
	return out
}

// rateLegend says what the signs of the picture of the rate are.
func (p stripPicture) rateLegend(t insight.Trend, first int) string {
	games := plural(len(t.Games), "game", "games")
	if first > 0 {
		games = fmt.Sprintf("the last %d of %s", len(t.Games)-first, games)
	}
	words := fmt.Sprintf("%c each of %s, %c smoothed, %c where it may well lie", gameSign, games, lineSign, bandSign)
	if brokenSince(t.Games[first:]) {
		words += fmt.Sprintf(", %c new level", breakSign)
	}
	return words
}

func brokenSince(games []insight.TrendGame) bool {
	return slices.ContainsFunc(games, func(g insight.TrendGame) bool { return g.Break })
}

// heightLines draws the smoothed letters of each axis and the smoothed score, a line each, by signs that rise; nothing where
// too little is known.
func (p stripPicture) heightLines(t insight.Trend, first, step, w int) []string {
	var out, legend []string
	lowest := float64(model.B.Points())
	for _, a := range model.Axes {
		if low, _, ok := reachOf(t.Axes[a][first:]); ok {
			lowest = min(lowest, math.Floor(low))
			legend = []string{fmt.Sprintf("letters from %v to A", letterOf(lowest))}
		}
	}
	for _, a := range model.Axes {
		name := p.theme.key.on(axisKeys[a]) + fit(" "+a.String(), axisNameCells-1)
		line := heightLine{t.Games[first:], t.Axes[a][first:], lowest, float64(model.A.Points()), "%.1f"}
		out = append(out, line.draw(name, step, p.theme)...)
	}
	if low, high, ok := reachOf(t.Score[first:]); ok {
		low, high = 50*math.Floor(low/50), 50*math.Floor(high/50+1)
		line := heightLine{t.Games[first:], t.Score[first:], low, high, "%.0f"}
		out = append(out, line.draw(fit("  score", axisNameCells), step, p.theme)...)
		legend = append(legend, fmt.Sprintf("score from %.0f to %.0f", low, high))
	}
	if len(out) == 0 {
		return nil
	}
	return append(out, says(p.theme.quiet, w-1, string(heightSigns)+" smoothed: "+strings.Join(legend, ", "))...)
}

// axisNameCells is the room for an axis's key and name.
const axisNameCells = 10

// letterOf gives the letter that is worth whole points.
func letterOf(points float64) model.Letter {
	for _, l := range []model.Letter{model.D, model.C, model.B, model.A} {
		if points == float64(l.Points()) {
			return l
		}
	}
	return model.F
}

// reachOf gives the least and the greatest of the points that are known.
func reachOf(points []insight.Smooth) (low, high float64, ok bool) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, s := range points {
		if s.Value.Known {
			low, high, ok = min(low, s.Value.Value), max(high, s.Value.Value), true
		}
	}
	return low, high, ok
}

// heightSigns rise from the lowest to the highest; the terminal of ASCII has others for them.
var heightSigns = []rune("▁▂▃▅▆▇")

// heightLine is a smoothed line drawn in one line of the screen.
type heightLine struct {
	games     []insight.TrendGame
	points    []insight.Smooth
	low, high float64
	format    string
}

// draw gives the line with its first and its last value, blank where a point is unknown; nothing where all are.
func (l heightLine) draw(name string, step int, t *theme) []string {
	cells := []rune(strings.Repeat(" ", step*len(l.points)))
	var from, to string
	for i, s := range l.points {
		if s.Value.Known {
			height := (s.Value.Value - l.low) / (l.high - l.low) * float64(len(heightSigns)-1)
			sign := heightSigns[min(max(int(height+0.5), 0), len(heightSigns)-1)]
			for x := step * i; x < step*(i+1); x++ {
				cells[x] = sign
			}
			to = fmt.Sprintf(l.format, s.Value.Value)
			if from == "" {
				from = to
			}
		}
		if l.games[i].Break {
			cells[step*i] = breakSign
		}
	}
	if from == "" {
		return nil
	}
	inks := map[rune]ink{breakSign: t.alert}
	for _, sign := range heightSigns {
		inks[sign] = t.accent
	}
	return []string{name + t.quiet.on(fitRight(from, trendLeft-axisNameCells-1)+" ") + inked(cells, inks) + " " + t.strong.on(to)}
}

// inked draws signs, each in its ink.
func inked(cells []rune, inks map[rune]ink) string {
	var b strings.Builder
	for _, r := range cells {
		b.WriteString(inks[r].on(string(r)))
	}
	return b.String()
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
	return inked(g.cells[y], map[rune]ink{
		bandSign: t.quiet, lineSign: t.accent, gameSign: t.good, breakSign: t.alert,
	})
}
