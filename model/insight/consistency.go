package insight

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"

	"coach.settee/model"
)

// Consistency tells how alike the seen full racks were where that was read.
type Consistency struct {
	// Arrows is the board at the arrows less the one aimed at, Hit the hit in boards from the pocket.
	Arrows, Hit Spread
	// SpeedMPH is the speed; its Bias is the mean.
	SpeedMPH Spread
}

// Spread is the scatter of N readings.
type Spread struct {
	N int
	// Bias is the mean, unknown of none; SD the sample standard deviation, unknown of fewer than two.
	Bias, SD model.Optional[float64]
	// WithinOne are those within one board of the mark; of a speed, within one mile an hour of the mean.
	WithinOne Part
}

// ConsistencyMethod names how the scatter is reckoned.
const ConsistencyMethod = "mean, sample standard deviation"

// fewestForSpread is of how many readings the scatter is told in words. Invented: of five, the standard deviation is still
// known only to about a third of itself, of three to a half.
const fewestForSpread = 5

// Words gives a sentence for each of the arrows, the hit and the speed that was read: "arrows: 8 of 12 within a board,
// spread 1.2, 0.5 inside".
func (c Consistency) Words() []string {
	var words []string
	for _, told := range []string{
		c.Arrows.words("arrows", "inside", "outside"), c.Hit.words("hit", "high", "light"), c.SpeedMPH.wordsOfSpeed(),
	} {
		if told != "" {
			words = append(words, told)
		}
	}
	if len(words) == 0 {
		return []string{"line, hit and speed were not read"}
	}
	return words
}

func (s Spread) words(of, plus, minus string) string {
	if s.N == 0 {
		return ""
	}
	if s.N < fewestForSpread {
		return fmt.Sprintf("%s: %d read; too few to say", of, s.N)
	}
	words := fmt.Sprintf("%s: %s within a board, spread %.1f", of, s.WithinOne, s.SD.Value)
	switch off := math.Round(10*s.Bias.Value) / 10; {
	case off > 0:
		words += fmt.Sprintf(", %.1f %s", off, plus)
	case off < 0:
		words += fmt.Sprintf(", %.1f %s", -off, minus)
	}
	return words
}

func (s Spread) wordsOfSpeed() string {
	switch {
	case s.N == 0:
		return ""
	case s.N < fewestForSpread:
		return fmt.Sprintf("speed: %d read; too few to say", s.N)
	}
	return fmt.Sprintf("speed: %.1f mph, %s within one of it, spread %.1f", s.Bias.Value, s.WithinOne, s.SD.Value)
}

func consistencyOf(games []model.DatedSheet) Consistency {
	var arrows, hit, speed []float64
	for d := range seenRacks(games) {
		if d.Line.Arrows.Known && d.Aimed.Arrows.Known {
			arrows = append(arrows, d.Line.Arrows.Value-d.Aimed.Arrows.Value)
		}
		if d.HitBoards.Known {
			hit = append(hit, d.HitBoards.Value)
		}
		if d.SpeedMPH.Known {
			speed = append(speed, d.SpeedMPH.Value)
		}
	}
	c := Consistency{Arrows: spreadOf(arrows), Hit: spreadOf(hit), SpeedMPH: spreadOf(speed)}
	c.Arrows.WithinOne = withinOne(arrows, 0)
	c.Hit.WithinOne = withinOne(hit, 0)
	c.SpeedMPH.WithinOne = withinOne(speed, c.SpeedMPH.Bias.Value)
	return c
}

// spreadOf gives all of the scatter but WithinOne.
func spreadOf(readings []float64) Spread {
	s := Spread{N: len(readings)}
	if s.N > 0 {
		s.Bias = model.Known(stat.Mean(readings, nil))
	}
	if s.N > 1 {
		s.SD = model.Known(stat.StdDev(readings, nil))
	}
	return s
}

func withinOne(readings []float64, mark float64) Part {
	// Boards are read in tenths: 8.4 less 7.4 is one board however it rounds.
	const limit = 1 + 1e-9
	p := Part{Of: len(readings)}
	for _, r := range readings {
		if math.Abs(r-mark) <= limit {
			p.N++
		}
	}
	return p
}
