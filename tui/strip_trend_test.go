package tui

import (
	"math"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// smoothed gives points of these values, unknown where one is no number.
func smoothed(values ...float64) []insight.Smooth {
	out := make([]insight.Smooth, len(values))
	for i, v := range values {
		if !math.IsNaN(v) {
			out[i].Value = model.Known(v)
		}
	}
	return out
}

func TestTrendHeights(t *testing.T) {
	no := math.NaN()
	for _, c := range []struct {
		name   string
		points []insight.Smooth
		breaks int
		step   int
		want   []string
	}{
		// From C to A a sign stands for 0.4 of a letter.
		{"every height", smoothed(2, 2.4, 2.8, 3.2, 3.6, 4), 0, 1, []string{"release     2.0 ▁▂▃▅▆▇ 4.0"}},
		{"the nearest height", smoothed(2.19, 2.21, 3.79, 3.81), 0, 1, []string{"release     2.2 ▁▂▆▇ 3.8"}},
		{"down", smoothed(4, 3, 2), 0, 2, []string{"release     4.0 ▇▇▅▅▁▁ 2.0"}},
		{"unknown between", smoothed(3.6, no, 2.8), 0, 2, []string{"release     3.6 ▆▆  ▃▃ 2.8"}},
		{"unknown at the ends", smoothed(no, 3.6, 2.8, no), 0, 1, []string{"release     3.6  ▆▃  2.8"}},
		{"a new level", smoothed(3.6, 3.6, 2.8, 2.8), 2, 2, []string{"release     3.6 ▆▆▆▆│▃▃▃ 2.8"}},
		{"nothing known", smoothed(no, no), 1, 3, nil},
		{"no games", nil, 0, 1, nil},
	} {
		games := make([]insight.TrendGame, len(c.points))
		if c.breaks > 0 {
			games[c.breaks].Break = true
		}
		line := heightLine{games, c.points, 2, 4, "%.1f"}
		got := line.draw(fit("release", axisNameCells), c.step, themeFor(termenv.Ascii, true, false))
		if ansi.Strip(strings.Join(got, "\n")) != strings.Join(c.want, "\n") {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// In ASCII no two heights look alike, nor like the sign of a new level.
func TestTrendHeightsInASCII(t *testing.T) {
	seen := map[string]bool{toASCII(string(breakSign)): true}
	for _, sign := range heightSigns {
		s := toASCII(string(sign))
		if seen[s] || s == "?" || width(s) != 1 {
			t.Errorf("%c is drawn %q", sign, s)
		}
		seen[s] = true
	}
}

// However many games there are the picture fits, and all its lines have the last games in the same columns: the level changed
// before the last but one.
func TestTrendPictureFits(t *testing.T) {
	for _, games := range []int{1, 2, 10, 37, 38, 39, 300} {
		for _, size := range sizes {
			s := &stripScreen{page: pageLast}
			s.figures.reports[pageLast].report = insight.Report{Games: games, Trend: changedTrend(games)}
			p := stripPicture{stripScreen: s, theme: themeFor(termenv.Ascii, true, false), w: size.w, h: size.h}
			lines, at := 0, -1
			for _, line := range p.trend(size.w, 6) {
				if width(line) > size.w {
					t.Errorf("%d games at %d columns: %q", games, size.w, line)
				}
				before, _, ok := strings.Cut(line, string(breakSign))
				if !ok || strings.Contains(line, "smoothed") || strings.Contains(line, "new level") {
					continue
				}
				if x := width(before); at >= 0 && x != at {
					t.Errorf("%d games at %d columns: the level changed in column %d and in %d: %q", games, size.w, at, x, line)
				} else {
					at = x
				}
				lines++
			}
			// The dot of the game hides the sign in one line of the rate where a game has one column.
			if games > 2 && lines < 4+model.AxisCount+1 {
				t.Errorf("%d games at %d columns: %d lines tell that the level changed", games, size.w, lines)
			}
		}
	}
}

// changedTrend is a trend of so many like games, the level changed before the last but one.
func changedTrend(games int) insight.Trend {
	var tr insight.Trend
	for i := range games {
		tr.Games = append(tr.Games, insight.TrendGame{Good: insight.Part{N: 1, Of: 2}, Break: i > 0 && i == games-2})
		tr.Rate = append(tr.Rate, smoothed(.5)...)
		tr.Score = append(tr.Score, smoothed(300)...)
		for _, a := range model.Axes {
			tr.Axes[a] = append(tr.Axes[a], smoothed(3.5)...)
		}
	}
	return tr
}
