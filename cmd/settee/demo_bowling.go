package main

import (
	"math/rand/v2"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// ability is how well someone bowls, as chances out of 1000.
type ability struct {
	// slip is the chance that an axis is not at its best.
	slip int
	// spread is by how many tenths of a board the hit of a ball on a line is off at most, with nothing else amiss.
	spread int
	// pocketGood and pocketPoor are the chances of the pocket with a good shot and with any other; missPoor is that of
	// missing the head pin with another. A good shot never misses it. They are of students who aim at no line.
	pocketGood, pocketPoor, missPoor int
	// carry is the chance of a strike from the pocket.
	carry int
	// single, several and split are the chances of a spare at one pin, at several, and at a split.
	single, several, split int
}

// The four abilities give about the averages and the good counts of their levels (the figures are invented).
var (
	ofElite      = ability{slip: 270, spread: 11, carry: 740, single: 960, several: 880, split: 220}
	ofRegular    = ability{slip: 350, spread: 20, carry: 620, single: 790, several: 590, split: 90}
	ofDeveloping = ability{425, 0, 460, 140, 190, 540, 580, 390, 40}
	ofNew        = ability{500, 0, 170, 50, 420, 300, 280, 150, 10}
)

// ball is what came off a hand: by how many steps each axis was off, by how many boards the target was missed (plus is
// inside), where a ball on a line went, where it met the pins, what it left.
type ball struct {
	steps  [model.AxisCount]int
	missed int
	path   path
	hit    model.Hit
	left   tenpin.PinSet
}

// throw bowls a student's ball at a rack of so many pins on a lane, as in a week's evening. Where the pins are not known it
// makes do with any that many.
func (c *coach) throw(b bowler, week int, r model.Rack, lane int) ball {
	dice := c.dice
	thrown := ball{steps: b.slips(dice, week, r.Full)}
	if off := thrown.steps[model.Target]; off > 0 {
		thrown.missed = 1 + (off-1)*b.Chosen().Tolerance
		if chance(dice, 450) {
			thrown.missed = -thrown.missed
		}
	}
	standing := r.Standing.Pins
	if !r.Standing.Known {
		standing = anyPins(r.Count)
	}
	if standing != tenpin.AllPins {
		thrown.left = b.spareShot(dice, standing)
		return thrown
	}
	if aimed := c.evening.AimOf(b.ID, lane); aimed.IsZero() {
		thrown.hit = b.meet(dice, b.wouldBeGood(thrown.steps))
	} else {
		from, _ := model.ParseAim(b.aim, model.Line{})
		thrown.path = b.roll(dice, thrown, playsOf(c.week, lane, b.Hand), c.thrown[lane], from, aimed)
		thrown.hit = hitOf(thrown.path.hit)
	}
	if !chance(dice, b.strikeChance(thrown.hit)) {
		thrown.left = leave(dice, thrown.hit)
		if b.Hand == model.LeftHand {
			thrown.left = thrown.left.Mirror()
		}
	}
	return thrown
}

// slips says by how many steps each axis is off: mostly by one. The weak axis is off more often, less so week by week,
// and a spare shot is thrown with more care.
func (b bowler) slips(dice *rand.Rand, week int, full bool) [model.AxisCount]int {
	var steps [model.AxisCount]int
	for _, a := range model.Axes {
		slip := b.ability.slip * 85 / 100
		if a == b.weak {
			slip = b.ability.slip * (190 - 15*week) / 100
		}
		if !full {
			slip = slip * 80 / 100
		}
		if !chance(dice, slip) {
			continue
		}
		steps[a] = 1 + pick(dice, []int{720, 210, 60, 10})
	}
	return steps
}

// wouldBeGood tells whether a shot that far off is a good one with every axis watched.
func (b bowler) wouldBeGood(steps [model.AxisCount]int) bool {
	chosen := b.Chosen()
	letters := model.Letters{model.A, model.A, model.A, model.A}
	for _, a := range model.Axes {
		letters[a] = letters[a].Lower(steps[a])
	}
	return model.IsGood(letters, chosen.Weights, chosen.Bar)
}

// meet says where a ball meets a full rack. A good shot may be high or light, and a poor one may find the pocket.
func (b bowler) meet(dice *rand.Rand, good bool) model.Hit {
	pocket, missed := b.ability.pocketPoor, b.ability.missPoor
	if good {
		pocket, missed = b.ability.pocketGood, 0
	}
	rest := 1000 - pocket - missed
	hits := [...]model.Hit{model.Pocket, model.Missed, model.High, model.Light, model.Nose, model.Brooklyn}
	return hits[pick(dice, []int{pocket, missed, rest * 36 / 100, rest * 38 / 100, rest * 14 / 100, rest * 12 / 100})]
}

// strikeChance is the chance of a strike by where the ball meets the pins.
func (b bowler) strikeChance(h model.Hit) int {
	switch h {
	case model.Pocket:
		return b.ability.carry
	case model.Brooklyn:
		return b.ability.carry * 60 / 100
	case model.High, model.Light:
		return b.ability.carry * 38 / 100
	case model.Nose:
		return b.ability.carry * 8 / 100
	}
	return 0
}

// spareShot gives what a ball at less than a full rack leaves.
func (b bowler) spareShot(dice *rand.Rand, standing tenpin.PinSet) tenpin.PinSet {
	odds := b.ability.several
	switch {
	case standing.IsSplit():
		odds = b.ability.split
	case standing.Count() == 1:
		odds = b.ability.single
	case standing.Has(1) && standing.Count() < 6 && standing.Has(10) != standing.Has(7):
		odds = odds * 70 / 100
	}
	if chance(dice, odds) {
		return 0
	}
	if standing.Count() == 1 || chance(dice, 180) {
		return standing
	}
	left := standing
	for _, n := range standing.Numbers() {
		if left.Count() > 1 && chance(dice, 550) {
			left = left.Toggle(n)
		}
	}
	return left
}

// leaves are what a right-hander's ball commonly leaves by where it met the pins, with how often (common practice, no
// source).
var leaves = map[model.Hit][]struct {
	often int
	pins  tenpin.PinSet
}{
	model.Pocket: {
		{36, tenpin.Pins(10)}, {13, tenpin.Pins(7)}, {9, tenpin.Pins(4)}, {8, tenpin.Pins(9)}, {5, tenpin.Pins(8)},
		{3, tenpin.Pins(2, 8)}, {2, tenpin.Pins(8, 10)}, {1, tenpin.Pins(7, 10)},
	},
	model.High: {
		{18, tenpin.Pins(4)}, {15, tenpin.Pins(6, 10)}, {12, tenpin.Pins(3, 10)}, {14, tenpin.Pins(3, 6, 10)},
		{6, tenpin.Pins(4, 9)}, {6, tenpin.Pins(4, 7)}, {4, tenpin.Pins(6, 7, 10)}, {4, tenpin.Pins(4, 6, 7, 10)},
	},
	model.Light: {
		{12, tenpin.Pins(7)}, {10, tenpin.Pins(10)}, {10, tenpin.Pins(2, 8)}, {9, tenpin.Pins(2, 4, 5)},
		{9, tenpin.Pins(2, 4, 5, 8)}, {7, tenpin.Pins(1, 2, 4, 10)}, {6, tenpin.Pins(1, 2, 10)},
		{5, tenpin.Pins(5, 7)}, {5, tenpin.Pins(5)}, {4, tenpin.Pins(8, 10)},
	},
	model.Nose: {
		{12, tenpin.Pins(4, 6, 7, 10)}, {9, tenpin.Pins(3, 4, 6, 7, 10)}, {7, tenpin.Pins(4, 6)},
		{5, tenpin.Pins(4, 6, 7, 9, 10)}, {6, tenpin.Pins(3, 10)}, {6, tenpin.Pins(2, 7)},
	},
	model.Brooklyn: {
		{11, tenpin.Pins(7)}, {7, tenpin.Pins(10)}, {8, tenpin.Pins(2, 7)}, {8, tenpin.Pins(4, 7)},
		{6, tenpin.Pins(3, 10)}, {5, tenpin.Pins(5)}, {4, tenpin.Pins(3, 9, 10)},
	},
	model.Missed: {
		{12, tenpin.Pins(1, 2, 4, 7)}, {12, tenpin.Pins(1, 3, 6, 10)}, {9, tenpin.Pins(1, 2, 4)},
		{9, tenpin.Pins(1, 3, 6)}, {9, tenpin.Pins(1, 2, 4, 5, 7, 8)}, {9, tenpin.Pins(1, 3, 5, 6, 9, 10)},
		{6, tenpin.Pins(1, 2, 3, 4, 5, 7, 8, 9)}, {5, tenpin.AllPins.Toggle(10)}, {5, tenpin.AllPins.Toggle(7)},
		{7, tenpin.AllPins},
	},
}

func leave(dice *rand.Rand, h model.Hit) tenpin.PinSet {
	row := leaves[h]
	often := make([]int, len(row))
	for i := range row {
		often[i] = row[i].often
	}
	return row[pick(dice, often)].pins
}

// anyPins gives that many pins, from the back of the rack.
func anyPins(count int) tenpin.PinSet {
	var s tenpin.PinSet
	for n := 10; s.Count() < count; n-- {
		s |= tenpin.Pins(n)
	}
	return s
}

// chance is true in so many of 1000 cases.
func chance(dice *rand.Rand, of1000 int) bool { return dice.IntN(1000) < of1000 }

// pick gives an index as often as its weight says.
func pick(dice *rand.Rand, weights []int) int {
	sum := 0
	for _, w := range weights {
		sum += w
	}
	at := dice.IntN(sum)
	for i, w := range weights {
		if at -= w; at < 0 {
			return i
		}
	}
	return len(weights) - 1
}
