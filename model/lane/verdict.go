package lane

import (
	"fmt"
	"math"

	"coach.settee/model"
)

// Fault tells to whom a miss at the pins belongs.
type Fault uint8

// NotYetKnown: too few shots, or too mixed; TheLane: good shots miss the pocket on one side, it is the lane or the line;
// TheShot: good shots find the pocket, so that a miss is the shot's.
const (
	NotYetKnown Fault = iota
	TheLane
	TheShot
)

// Verdict is what a student's good shots on a lane say, with the ball and the line that are in force there.
type Verdict struct {
	Lane int
	// Shots is how many balls with target A and release A it rests on.
	Shots int
	// Pocket, High and Light count their hits: in the pocket as [model.Delivery.InPocket] has it, or beyond.
	Pocket, High, Light int
	// Mean is where such shots hit on the average, in boards from the pocket, with how well that is known.
	Mean  Estimate
	Fault Fault
	// Chance is the probability, 0 to 1, that Fault is right; of NotYetKnown, that of the likelier of the two others; 0
	// without shots.
	Chance float64
	// Side is that of TheLane: +1 is high, -1 light.
	Side int
}

const (
	// missBorder is how far, in boards, the mean of good shots has to be from the pocket for the lane to be at fault: half of
	// a light hit. Invented.
	missBorder = 0.75
	// verdictChance is how likely a verdict has to be, verdictShots how many shots have to hit as it says. Invented.
	verdictChance = 0.7
	verdictShots  = 2
	// lineSD is the prior standard deviation, in boards, of where a line's good shots hit: the learner's for a new lane.
	lineSD = 2.5
)

// verdict gives what the good shots on a lane say with a ball and a line, since that line or ball was last changed.
//
// Their mean has a normal prior about the pocket (2.5 boards), the shots a normal scatter about it: the student's own of the
// evening with that ball, with 1.6 boards as a prior worth ten shots (both invented), and a word's error of reading. The lane is
// at fault where the mean lies beyond 0.75 board on one side with a probability of 0.7, the shot where it lies within with
// that probability; never by one shot: two have to hit so.
func (w *bowler) verdict(lane int, bowled string, aimed model.Line) Verdict {
	v := Verdict{Lane: lane}
	scatter := w.shotScatter(bowled)
	precision, weighted := 1/(lineSD*lineSD), 0.0
	var hits tally
	for i := len(w.thrown) - 1; i >= 0; i-- {
		t := w.thrown[i]
		if !t.Full || t.Delivery.Lane != lane {
			continue
		}
		if t.Delivery.Bowled != bowled || !withLine(t.Delivery, aimed) {
			break
		}
		if !LaneShot(t) {
			continue
		}
		hit, _ := HitBoards(t.Delivery)
		hits.add(t.Delivery)
		noise := scatter + Ball{HitSD: hit.SD}.readingNoise()
		precision, weighted = precision+1/noise, weighted+hit.Mean/noise
		v.Shots++
	}
	v.Pocket, v.High, v.Light = hits.pocket, hits.high, hits.light
	if v.Shots > 0 {
		v.Mean = Estimate{weighted / precision, 1 / math.Sqrt(precision)}
		v.judge()
	}
	return v
}

func (v *Verdict) judge() {
	high := 1 - normalCDF((missBorder-v.Mean.Mean)/v.Mean.SD)
	light := normalCDF((-missBorder - v.Mean.Mean) / v.Mean.SD)
	lane, side := high, 1
	if light > high {
		lane, side = light, -1
	}
	shot := 1 - high - light
	v.Chance = max(lane, shot)
	hits := v.Pocket
	switch {
	case lane > shot && side > 0:
		hits = v.High
	case lane > shot:
		hits = v.Light
	}
	switch {
	case hits < verdictShots || v.Chance < verdictChance:
	case lane > shot:
		v.Fault, v.Side = TheLane, side
	default:
		v.Fault = TheShot
	}
}

// shotScatter gives the variance of a student's good shots with a ball about the mean of each lane and line.
func (w *bowler) shotScatter(bowled string) float64 {
	squares, n := startBalls*startSigma*startSigma, float64(startBalls)
	for s := range w.shots() {
		if s.thrown.Delivery.Bowled == bowled && s.before > 0 {
			squares += s.deviation * s.deviation
			n++
		}
	}
	return squares / n
}

// Words say the verdict in a line: "lane 8 plays high, 7 in 10 sure: three target-A balls, all high".
func (v Verdict) Words() string {
	if v.Shots == 0 {
		return fmt.Sprintf("lane %d: no target-A ball with this line yet", v.Lane)
	}
	verdict := v.short()
	if v.Fault != NotYetKnown {
		verdict += ", " + sureness(v.Chance)
	}
	return within(verdict+": "+counted(v.Shots, "target-A ball"), ", "+v.hits().words())
}

func (v Verdict) hits() tally { return tally{v.Pocket, v.High, v.Light} }

// short says the verdict without its reasons: "lane 8 plays high".
func (v Verdict) short() string {
	words := "not yet known"
	switch {
	case v.Fault == TheShot:
		words = "is fine"
	case v.Fault == TheLane && v.Side > 0:
		words = "plays high"
	case v.Fault == TheLane:
		words = "plays light"
	}
	return fmt.Sprintf("lane %d %s", v.Lane, words)
}
