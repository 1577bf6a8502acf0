package insight

import (
	"fmt"
	"math"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

const (
	priorRacks = 12.0 // racks that the prior mean is worth, against this game's
	goalRacks  = 12.0 // racks that the goal is worth, against the last ten games
	levelTries = 20.0 // tries that the level's rates are worth, against the student's own

	lowestGoal, highestGoal = 0.5, 10.0

	// LongestDrill is the longest drill that has a pace, in deliveries.
	LongestDrill = 1000
)

// Rates are how often a student strikes and converts spares, each 0 to 1.
type Rates struct {
	Strike float64 // of the balls at a full rack
	Spare  float64 // of the spare shots
}

// LevelRates are the rates to start from at a level; an unknown level has those of New, which is also the level of a student
// without an average. The figures are an invented prior: plausible, taken from no table.
func LevelRates(level model.Level) Rates {
	switch level {
	case model.Developing:
		return Rates{Strike: .22, Spare: .40}
	case model.Regular:
		return Rates{Strike: .38, Spare: .58}
	case model.Advanced:
		return Rates{Strike: .48, Spare: .70}
	case model.Elite:
		return Rates{Strike: .58, Spare: .80}
	default:
		return Rates{Strike: .10, Spare: .20}
	}
}

// ShrinkRates draws a student's own counts towards the level's rates, as if
// the student had bowled 20 more tries of each kind at those rates:
//
//	s = (strikes + 20 level.Strike) / (fullRacks + 20)
//	c = (sparesMade + 20 level.Spare) / (spareTries + 20)
//
// The counts are those of the last ten finished games, unseen balls included:
// their pins are known. fullRacks are all balls at a full rack, also the
// tenth's; spareTries all other balls of those games.
func ShrinkRates(level Rates, strikes, fullRacks, sparesMade, spareTries int) Rates {
	return Rates{
		Strike: (float64(strikes) + levelTries*level.Strike) / (float64(fullRacks) + levelTries),
		Spare:  (float64(sparesMade) + levelTries*level.Spare) / (float64(spareTries) + levelTries),
	}
}

// ExpectedRacks is R, the expected number of full racks in a game, 10 to 12.
// Ten frames have one each; in the tenth a strike (s) or a spare ((1-s)c)
// brings another, and a second strike (s²) one more:
//
//	R = 10 + s + (1-s)c + s²
func ExpectedRacks(r Rates) float64 {
	s, c := r.Strike, r.Spare
	return 10 + s + (1-s)*c + s*s
}

// PaceInput is what a student has shown and what is aimed at. Full racks only:
// spare shots, warm-up and dead balls are no part of any of the counts.
type PaceInput struct {
	Goal               float64 // good shots a game, 0.5 to 10 in halves
	Rates              Rates   // of this student, after ShrinkRates
	PastGood, PastSeen int     // good among the seen of the last ten finished games
	Good, Seen         int     // good among the seen of this game or drill
	Unseen             int     // of this game or drill, thrown but not watched
}

// Drill is what sets the length of a drill.
type Drill struct {
	Length int  // deliveries planned; 0 when open-ended
	AtPins bool // at named pins: spare shots, which no good count is over
}

// Pace is where a game or a drill is heading. Open racks are those still to
// come and those thrown unseen: what was not watched is not held against the
// student.
type Pace struct {
	Expected float64 // good count at the end: so far, and the open racks' share
	Chance   float64 // of the goal, rounded up, being met; 0 to 1
	Target   int     // the goal, rounded up
	Needed   int     // good still missing to Target; 0 when met
	OpenMin  int     // fewest open racks, unseen ones included
	OpenMax  int     // most open racks, unseen ones included
	Unseen   int     // open racks that have been thrown already
}

// GamePace is the pace of a game that stands at the position.
//
// With s and c the rates and R the expected racks, the rate of good has the
// prior mean
//
//	m = (PastGood + 12 Goal/R) / (PastSeen + 12)
//
// the prior Beta(12m, 12(1-m)), and after this game's seen racks the posterior
// Beta(12m + Good, 12(1-m) + Seen - Good). The good among n open racks are
// then beta-binomial; n is mixed over what the tenth may bring:
//
//	next ball                        racks still to come
//	1st of frame f, 1 to 9           11-f, and the tenth's extra
//	2nd of frame f, 1 to 9           10-f, and the tenth's extra
//	tenth, 1st                       1, and the tenth's extra
//	tenth, 2nd after a strike        1, and with s another
//	tenth, 2nd after anything else   with c one, else none
//	tenth, 3rd after two strikes     1
//	tenth, 3rd after a spare         1
//	tenth, 3rd after anything else   none: it is a spare shot
//	no next ball, the game is over   none
//
// The tenth's extra is two with s², one with s(1-s) + (1-s)c, else none.
//
// Inputs out of their range are held at its ends, and a good count at its
// seen count. Rates after ShrinkRates keep m strictly between 0 and 1; where
// the ends are handed in all the same, the rate of good is taken as certain.
func GamePace(in PaceInput, at tenpin.Position) Pace {
	in = in.held()
	return in.pace(int(math.Ceil(in.Goal)), racksToCome(at, in.Rates))
}

// DrillPace is the pace of a drill at full racks: of N deliveries the goal is
// N Goal/R, the rest as in a game with N racks. It is false for a drill
// without a length, one at named pins, and one longer than LongestDrill.
func DrillPace(in PaceInput, drill Drill) (Pace, bool) {
	if drill.AtPins || drill.Length < 1 || drill.Length > LongestDrill {
		return Pace{}, false
	}
	in = in.held()
	goal := float64(drill.Length) * in.Goal / ExpectedRacks(in.Rates)
	const rounding = 1e-9 // a whole goal must not become the next one up
	toCome := racks{sure: max(0, drill.Length-in.Seen-in.Unseen), extra: [3]float64{1}}
	return in.pace(int(math.Ceil(goal-rounding)), toCome), true
}

// Words is the pace at one glance, in a game at most 47 columns of ASCII:
// "needs 4 of the 5 to 7 racks left". Racks thrown unseen are told apart from
// those left, because only the coach can still call them.
func (p Pace) Words() string {
	leftMin, leftMax := p.OpenMin-p.Unseen, p.OpenMax-p.Unseen
	left := rackWords(leftMin, leftMax) + " left"
	unseen := ""
	if p.Unseen > 0 {
		unseen = fmt.Sprintf("%d unseen", p.Unseen)
		left += " + " + unseen
	}
	sure := p.Unseen == 0 && leftMin == leftMax && p.Needed == leftMin
	switch {
	case p.Needed == 0:
		return "goal met"
	case leftMax == 0 && p.Unseen > 0:
		return fmt.Sprintf("%d short of the goal, %s", p.Needed, unseen)
	case leftMax == 0:
		return fmt.Sprintf("%d short of the goal", p.Needed)
	case p.Needed > p.OpenMax:
		return fmt.Sprintf("%s, %d needed", left, p.Needed)
	case p.Needed >= leftMax && p.Unseen > 0:
		return fmt.Sprintf("needs %d: %s", p.Needed, left)
	case leftMin == 0:
		return "needs the rack after a spare"
	case sure && p.Needed == 1:
		return "needs the last rack"
	case sure && p.Needed == 2:
		return "needs both racks left"
	case sure:
		return fmt.Sprintf("needs all %s", left)
	}
	return fmt.Sprintf("needs %d of the %s", p.Needed, left)
}

func rackWords(least, most int) string {
	noun := "racks"
	if most == 1 {
		noun = "rack"
	}
	switch {
	case least == most:
		return fmt.Sprintf("%d %s", most, noun)
	case least == 0:
		return fmt.Sprintf("at most %d %s", most, noun)
	}
	return fmt.Sprintf("%d to %d %s", least, most, noun)
}

// racks is the distribution of the full racks still to come.
type racks struct {
	sure  int
	most  int        // extra racks that the pins could bring, 0 to 2
	extra [3]float64 // chance of 0, 1, 2 extra racks
}

func racksToCome(at tenpin.Position, r Rates) racks {
	s, c := r.Strike, r.Spare
	tenth := racks{sure: 1, most: 2, extra: [3]float64{(1 - s) * (1 - c), s*(1-s) + (1-s)*c, s * s}}
	frame, ball := at.Frame(), at.BallInFrame()
	switch {
	case at.Over():
		return racks{extra: [3]float64{1}}
	case ball == 1:
		tenth.sure += 10 - frame
		return tenth
	case frame < 10:
		tenth.sure += 9 - frame
		return tenth
	case ball == 2 && at.FullRack():
		return racks{sure: 1, most: 1, extra: [3]float64{1 - s, s}}
	case ball == 2:
		return racks{most: 1, extra: [3]float64{1 - c, c}}
	case at.FullRack():
		return racks{sure: 1, extra: [3]float64{1}}
	}
	return racks{extra: [3]float64{1}}
}

// pace reckons the pace towards target for an input that is in its ranges.
func (in PaceInput) pace(target int, toCome racks) Pace {
	a, b := in.posterior()
	p := Pace{
		Target:  target,
		Needed:  max(0, target-in.Good),
		OpenMin: toCome.sure + in.Unseen,
		OpenMax: toCome.sure + toCome.most + in.Unseen,
		Unseen:  in.Unseen,
	}
	expected := float64(p.OpenMin) + toCome.extra[1] + 2*toCome.extra[2]
	p.Expected = float64(in.Good) + expected*a/(a+b)
	p.Chance = chance(a, b, p, toCome.extra)
	return p
}

func chance(a, b float64, p Pace, extra [3]float64) float64 {
	switch {
	case p.Needed == 0:
		return 1
	case p.Needed > p.OpenMax:
		return 0
	}
	var room [32]float64
	u := newUrn(a, b, room[:])
	for range p.OpenMin {
		u.draw()
	}
	met := extra[0] * u.atLeast(p.Needed)
	for i := 1; i <= p.OpenMax-p.OpenMin; i++ {
		u.draw()
		met += extra[i] * u.atLeast(p.Needed)
	}
	return min(met, 1) // rounding may carry a near certainty past 1
}

// priorMean is m, see GamePace.
func (in PaceInput) priorMean() float64 {
	return (float64(in.PastGood) + goalRacks*in.Goal/ExpectedRacks(in.Rates)) / (float64(in.PastSeen) + goalRacks)
}

func (in PaceInput) posterior() (a, b float64) {
	m := in.priorMean()
	return priorRacks*m + float64(in.Good), priorRacks*(1-m) + float64(in.Seen-in.Good)
}

func (in PaceInput) held() PaceInput {
	in.Goal = min(max(in.Goal, lowestGoal), highestGoal)
	in.Rates.Strike = min(max(in.Rates.Strike, 0), 1)
	in.Rates.Spare = min(max(in.Rates.Spare, 0), 1)
	in.PastSeen = max(in.PastSeen, 0)
	in.PastGood = min(max(in.PastGood, 0), in.PastSeen)
	in.Seen = max(in.Seen, 0)
	in.Good = min(max(in.Good, 0), in.Seen)
	in.Unseen = min(max(in.Unseen, 0), LongestDrill)
	return in
}
