package insight

import (
	"fmt"
	"math"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// WorthMethod names how the worth was reckoned.
const WorthMethod = "exact score distribution at the student's rates, drawn to the level's with 20 tries"

// Worth is what a student's rates come to in pins, by the exact distribution of ten-pin scores at ShotRates.
type Worth struct {
	// Expected is the expected score of a game; unknown without a full rack that was seen and graded.
	Expected model.Optional[float64]
	// PerGoodShot is what one more good shot a game would add to it, PerSingle one more single-pin spare made a game, in pins.
	//
	// With R full racks to be expected in a game (ExpectedRacks), PerGoodShot is what Expected gains from a rate of good that
	// is 1/R higher, or, where that would pass 1, loses by one that is 1/R lower. It is below 0 where poor shots strike more
	// often. Expected rises evenly with the rate of single pins made, so that PerSingle is what it gains from none to all of
	// them, for each single pin left to a spare shot; unknown where none is.
	PerGoodShot, PerSingle model.Optional[float64]
	// Chances are those of reaching scores, in the order asked for; none while Expected is unknown.
	Chances []ScoreChance
	// Rates are what it was reckoned from, drawn towards the level's.
	Rates ShotRates
	// Racks are the full racks, seen and graded, behind Rates.Good.
	Racks int
}

// ScoreChance is the chance of a game of at least Score.
type ScoreChance struct {
	Score  int
	Chance float64
}

// fewestForWorth are the full racks from which the words tell what a good shot is worth: with fewer the level's rates
// weigh more in it than the student's own.
const fewestForWorth = int(levelTries)

const tooFewForWorth = "too few to say"

// WordsExpected gives "at this rate a game comes to about 154".
func (w Worth) WordsExpected() string {
	if !w.Expected.Known || w.Racks < fewestForWorth {
		return "expected score: " + tooFewForWorth
	}
	return fmt.Sprintf("at this rate a game comes to about %.0f", w.Expected.Value)
}

// WordsGood gives "one more good shot a game is worth about 6 pins".
func (w Worth) WordsGood() string {
	if w.PerGoodShot.Known && w.Racks >= fewestForWorth && w.PerGoodShot.Value <= -.5 {
		return "good shots have not struck more than the others so far"
	}
	return "one more good shot a game" + w.worthWords(w.PerGoodShot)
}

// WordsSingle gives "one more single pin made a game is worth about 11 pins".
func (w Worth) WordsSingle() string {
	return "one more single pin made a game" + w.worthWords(w.PerSingle)
}

func (w Worth) worthWords(pins model.Optional[float64]) string {
	switch whole := math.Round(pins.Value); {
	case !pins.Known || w.Racks < fewestForWorth:
		return ": " + tooFewForWorth
	case whole < 1:
		return " is worth less than a pin"
	case whole == 1:
		return " is worth about 1 pin"
	default:
		return fmt.Sprintf(" is worth about %.0f pins", whole)
	}
}

// WordsReach gives a line for each chance, none where there is too little to say.
func (w Worth) WordsReach() []string {
	if w.Racks < fewestForWorth {
		return nil
	}
	var lines []string
	for _, c := range w.Chances {
		lines = append(lines, c.Words())
	}
	return lines
}

// Words gives "200 or more in about 12 of 100 games".
func (c ScoreChance) Words() string {
	score := fmt.Sprintf("%d or more", c.Score)
	if c.Score >= highestScore {
		score = fmt.Sprint(c.Score)
	}
	switch hundredth := math.Round(100 * c.Chance); {
	case hundredth < 1:
		return score + " in fewer than 1 of 100 games"
	case hundredth > 99:
		return score + " in nearly every game"
	default:
		return fmt.Sprintf("%s in about %.0f of 100 games", score, hundredth)
	}
}

const highestScore = 300

// usualReach are the scores whose chance is told where none is asked for.
var usualReach = [...]int{100, 150, 200, 250, highestScore}

func worthOf(games []model.DatedSheet, level model.Level, reach []int) Worth {
	counts := countShots(games)
	w := Worth{Rates: counts.rates(levelShots(level)), Racks: counts.good.Of}
	if w.Racks == 0 {
		return w
	}
	w.Expected = model.Known(w.Rates.expected())
	w.PerGoodShot = model.Known(w.Rates.perGoodShot())
	w.PerSingle = w.Rates.perSingle()
	if len(reach) == 0 {
		reach = usualReach[:]
	}
	w.Chances = w.Rates.reaching(reach)
	return w
}

func (r ShotRates) expected() float64 { return tenpin.ExpectedScore(r.chance()) }

func (r ShotRates) perGoodShot() float64 {
	step := 1 / ExpectedRacks(Rates{Strike: r.strike(), Spare: r.spares()})
	better := r
	if better.Good+step > 1 {
		r.Good -= step
	} else {
		better.Good += step
	}
	return better.expected() - r.expected()
}

func (r ShotRates) perSingle() model.Optional[float64] {
	// A spare shot follows what is no strike on the first ball of a frame or on the tenth's second ball after a strike.
	s := r.strike()
	singles := (10 + s) * (1 - s) * r.FirstBall[9]
	if singles == 0 {
		return model.Optional[float64]{}
	}
	all, none := r, r
	all.Single, none.Single = 1, 0
	return model.Known((all.expected() - none.expected()) / singles)
}

// reaching gives the chance of at least each score.
func (r ShotRates) reaching(scores []int) []ScoreChance {
	exactly := tenpin.ScoreChances(r.chance())
	var atLeast [highestScore + 2]float64
	for score := highestScore; score > 0; score-- {
		atLeast[score] = min(atLeast[score+1]+exactly[score], 1)
	}
	atLeast[0] = 1
	chances := make([]ScoreChance, len(scores))
	for i, score := range scores {
		chances[i] = ScoreChance{score, atLeast[min(max(score, 0), highestScore+1)]}
	}
	return chances
}
