package insight

import (
	"fmt"
	"math"

	"coach.settee/model"
)

// OneEye is what every trend says of itself.
const OneEye = "this is one coach's eye"

// fewestTrendGames is how many games with seen full racks at one level make a trend that is told; chosen here.
const fewestTrendGames = 3

// Words tell the rate of good shots now against the start, in at most 64 columns of ASCII. It is up or down only where
// Newcombe's interval of the difference (as in Part.Difference) leaves zero out; ten shots at the start rarely tell more
// than a large step. Levels are not compared with each other. OneEye belongs beside it.
func (t Trend) Words() string {
	now, ok := t.now()
	if !ok {
		return "too few games to say"
	}
	rate := fmt.Sprintf("%.0f%% now, between %.0f%% and %.0f%%",
		100*now.Value.Value, 100*now.Band.Value.Low, 100*now.Band.Value.High)
	switch {
	case t.Baseline.Of == 0:
		return rate
	case t.level() != t.BaselineLevel:
		return "the level changed: " + rate
	}
	from := fmt.Sprintf("%d of %d at the start", t.Baseline.N, t.Baseline.Of)
	switch t.against(now) {
	case 1:
		return "up from " + from + ": " + rate
	case -1:
		return "down from " + from + ": " + rate
	}
	return from + ", " + rate
}

// WordsScore tell the score now: "score 172 now, between 160 and 184"; "too few finished games to say" of fewer than three
// at this level.
func (t Trend) WordsScore() string {
	if len(t.Score) == 0 || !t.Score[len(t.Score)-1].Value.Known {
		return "too few finished games to say"
	}
	s := t.Score[len(t.Score)-1]
	if !s.Band.Known {
		return fmt.Sprintf("score %.0f now", s.Value.Value)
	}
	return fmt.Sprintf("score %.0f now, between %.0f and %.0f", s.Value.Value, s.Band.Value.Low, s.Band.Value.High)
}

// Axis gives an axis's smoothed letters at the first game that has them of the last game's level, and at the last game.
func (t Trend) Axis(a model.Axis) (first, now Smooth) {
	points := t.Axes[a]
	for i := len(points) - 1; i >= 0; i-- {
		if points[i].Value.Known {
			first = points[i]
		}
		if t.Games[i].Break {
			break
		}
	}
	if len(points) > 0 {
		now = points[len(points)-1]
	}
	return first, now
}

// now gives the smoothed rate at the last game, false where too little was seen at its level.
func (t Trend) now() (Smooth, bool) {
	seen := 0
	for i := len(t.Games) - 1; i >= 0; i-- {
		if t.Games[i].Good.Of > 0 {
			seen++
		}
		if t.Games[i].Break {
			break
		}
	}
	if seen < fewestTrendGames || !t.Rate[len(t.Rate)-1].Value.Known {
		return Smooth{}, false
	}
	return t.Rate[len(t.Rate)-1], true
}

// level gives the level of the last game that has one.
func (t Trend) level() model.Level {
	for i := len(t.Games) - 1; i >= 0; i-- {
		if t.Games[i].Level != "" {
			return t.Games[i].Level
		}
	}
	return ""
}

// against tells whether the rate now is above (1) or below (-1) the baseline's beyond what chance leaves open.
func (t Trend) against(now Smooth) int {
	base, in := t.Baseline.Rate().Value, t.Baseline.Wilson().Value
	rate, band := now.Value.Value, now.Band.Value
	switch {
	case rate-base > math.Hypot(rate-band.Low, in.High-base):
		return 1
	case base-rate > math.Hypot(band.High-rate, base-in.Low):
		return -1
	}
	return 0
}
