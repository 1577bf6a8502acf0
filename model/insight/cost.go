package insight

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"coach.settee/model"
)

// CostMethod names how Cost shares out the shots.
const CostMethod = "shapley value over the watched axes"

// Cost tells what the shots cost that were not good: the seen and graded full racks.
type Cost struct {
	// ByAxis shares out NotGood: each axis's Shapley value in "would have been good had these axes been A". They sum to
	// NotGood.
	ByAxis  [model.AxisCount]float64
	NotGood int
	// Graded are the seen and graded full racks, good or not.
	Graded int
	// Ungraded are seen full racks without a graded axis: none watched, or none with a weight. They are in no share.
	Ungraded int
	// Means are the mean letter points, 0 to 4, over the seen full racks on which the axis was watched, Watched those racks.
	Means   [model.AxisCount]model.Optional[float64]
	Watched [model.AxisCount]int
	// Pattern are the letters that shots that were not good had most often, PatternCount how often; the earlier of equals.
	Pattern      model.Letters
	PatternCount int
	// In and Out are the not good shots with a target missed on that side.
	In, Out SideMiss
}

// SideMiss are shots that missed the target on one side.
type SideMiss struct {
	Shots int
	// Boards sums by how many boards at the arrows.
	Boards int
}

// twelfths is what every share of one shot is a whole number of: with up to four axes the orders of joining come in
// twelfths.
const twelfths = 12

// Words tells the two axes that cost most: "release cost 5.5 of 14, finish 4.2".
func (c Cost) Words() string {
	switch {
	case c.Graded == 0:
		return "no full rack was graded"
	case c.NotGood == 0:
		return "every graded shot was good"
	}
	axes := slices.Clone(model.Axes[:])
	slices.SortStableFunc(axes, func(a, b model.Axis) int { return cmp.Compare(c.ByAxis[b], c.ByAxis[a]) })
	words := fmt.Sprintf("%s cost %s of %d", axes[0], c.share(axes[0]), c.NotGood)
	if second := axes[1]; c.ByAxis[second] > 0 {
		words += fmt.Sprintf(", %s %s", second, c.share(second))
	}
	return words
}

// share writes an axis's share to a tenth of a shot.
func (c Cost) share(a model.Axis) string {
	return strconv.FormatFloat(math.Round(c.ByAxis[a]*10)/10, 'f', -1, 64)
}

// WordsSide tells on which side the target was missed: "missed inside once (1 board), outside 5 times (9 boards)", empty
// without a side.
func (c Cost) WordsSide() string {
	var sides []string
	for _, side := range []struct {
		name string
		miss SideMiss
	}{{"inside", c.In}, {"outside", c.Out}} {
		if side.miss.Shots > 0 {
			sides = append(sides, side.name+" "+side.miss.words())
		}
	}
	if len(sides) == 0 {
		return ""
	}
	return "missed " + strings.Join(sides, ", ")
}

func (m SideMiss) words() string {
	times := "once"
	if m.Shots > 1 {
		times = fmt.Sprintf("%d times", m.Shots)
	}
	switch m.Boards {
	case 0:
		return times
	case 1:
		return times + " (1 board)"
	}
	return fmt.Sprintf("%s (%d boards)", times, m.Boards)
}

// WordsPattern tells the most frequent pattern by the letters below A: "most often release B, finish C (3 times)", empty
// where none came twice.
func (c Cost) WordsPattern() string {
	if c.PatternCount < 2 {
		return ""
	}
	var below []string
	for _, a := range model.Axes {
		if l := c.Pattern[a]; l != model.NoLetter && l != model.A {
			below = append(below, fmt.Sprintf("%s %s", a, l))
		}
	}
	return fmt.Sprintf("most often %s (%d times)", strings.Join(below, ", "), c.PatternCount)
}

func costOf(games []model.DatedSheet) Cost {
	var c Cost
	lost := lostShots{count: map[lostShot]int{}}
	var points [model.AxisCount]int
	for d := range seenRacks(games) {
		for a, l := range d.Letters {
			if l != model.NoLetter {
				c.Watched[a]++
				points[a] += l.Points()
			}
		}
		if model.Grade(d.Letters, d.Weights) == model.Ungraded {
			c.Ungraded++
			continue
		}
		c.Graded++
		if !model.IsGood(d.Letters, d.Weights, d.Bar) {
			c.NotGood++
			c.addSide(d)
			lost.add(lostShot{d.Letters, d.Weights, d.Bar})
		}
	}
	for a := range points {
		if c.Watched[a] > 0 {
			c.Means[a] = model.Known(float64(points[a]) / float64(c.Watched[a]))
		}
	}
	c.ByAxis = lost.byAxis()
	c.Pattern, c.PatternCount = lost.pattern()
	return c
}

func (c *Cost) addSide(d *model.Delivery) {
	miss := &c.In
	switch d.Side {
	case "":
		return
	case model.Outside:
		miss = &c.Out
	}
	miss.Shots++
	miss.Boards += d.SideBoards
}

// lostShot is all that decides what a shot that was not good would have been.
type lostShot struct {
	letters model.Letters
	weights model.Weights
	bar     model.ShotGrade
}

// lostShots counts shots that were not good, order as they first came. There are few different ones in a long history, so
// that each kind is shared out once.
type lostShots struct {
	count map[lostShot]int
	order []lostShot
}

func (l *lostShots) add(lost lostShot) {
	if l.count[lost] == 0 {
		l.order = append(l.order, lost)
	}
	l.count[lost]++
}

func (l *lostShots) byAxis() (shares [model.AxisCount]float64) {
	var sum [model.AxisCount]int // of twelfths, so that it does not drift
	for _, lost := range l.order {
		for a, n := range lost.twelfths() {
			sum[a] += n * l.count[lost]
		}
	}
	for a, n := range sum {
		shares[a] = float64(n) / twelfths
	}
	return shares
}

func (l *lostShots) pattern() (most model.Letters, count int) {
	byLetters := map[model.Letters]int{}
	for _, lost := range l.order {
		byLetters[lost.letters] += l.count[lost]
	}
	for _, lost := range l.order {
		if n := byLetters[lost.letters]; n > count {
			most, count = lost.letters, n
		}
	}
	return most, count
}

// twelfths shares the one shot out over its watched axes. With all of them at A a graded shot is good, whatever the
// weights and the bar, so the shares sum to one.
func (l lostShot) twelfths() [model.AxisCount]int {
	var axes []model.Axis
	for _, a := range model.Axes {
		if l.letters.Watched().Has(a) {
			axes = append(axes, a)
		}
	}
	values := Shapley(len(axes), func(set uint) float64 {
		letters := l.letters
		for i, a := range axes {
			if set&(1<<i) != 0 {
				letters[a] = model.A
			}
		}
		if model.IsGood(letters, l.weights, l.bar) {
			return 1
		}
		return 0
	})
	var shares [model.AxisCount]int
	for i, a := range axes {
		shares[a] = int(math.Round(values[i] * twelfths))
	}
	return shares
}
