package insight

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"coach.settee/model"
)

// Result sets how a full rack was thrown against what fell.
type Result uint8

// The results. NoResult is of what was not seen or is no full rack.
const (
	NoResult Result = iota
	// Earned is a strike by a good shot, Unlucky a good shot without one.
	Earned
	Unlucky
	// Lucky is a strike by a shot that was not good, Missed neither.
	Lucky
	Missed
)

// Outcome is the table of results over the seen and graded full racks, and what comes of it.
type Outcome struct {
	Earned, Unlucky, Lucky, Missed int
	// WhenGood and WhenPoor are the strikes of the good shots and of the others, Difference the first rate less the second
	// (Part.Difference), FisherP the two-sided p of FisherExact; unknown where one kind is missing.
	WhenGood, WhenPoor Part
	Difference         model.Optional[float64]
	DifferenceInterval model.Optional[Interval]
	FisherP            model.Optional[float64]
	// Pocket are the pocket hits of the seen full racks whose hit is known, Carry the strikes of the pocket hits.
	Pocket, Carry Part
	// Lanes are the hits by lane, in order of the lanes.
	Lanes []LaneHits
}

// LaneHits are the hits of seen full racks on one lane.
type LaneHits struct {
	Lane int
	// Words counts the hits by word; a hit read in boards only is counted as the word that it comes to.
	Words  map[model.Hit]int
	Pocket Part
}

// OutcomeMethod names how the difference's interval and the chance are reckoned.
const OutcomeMethod = "newcombe hybrid score 95%, fisher exact two-sided"

// sameStrikes is how far apart two strike rates may be and still be told as about the same. Invented: one strike a game.
const sameStrikes = 0.1

// Words gives "strikes: 3 of 8 good shots, 3 of 14 others; too few to say". It says more only where the interval of the
// difference leaves no doubt of its side, or none of its being small.
func (o Outcome) Words() string {
	switch {
	case o.WhenGood.Of == 0 && o.WhenPoor.Of == 0:
		return "strikes: none of the full racks was seen"
	case o.WhenPoor.Of == 0:
		return fmt.Sprintf("strikes: %s good shots, no others", o.WhenGood)
	case o.WhenGood.Of == 0:
		return fmt.Sprintf("strikes: %s that were not good, no good ones", o.WhenPoor)
	}
	verdict := "too few to say"
	switch in := o.DifferenceInterval.Value; {
	case in.Low > 0:
		verdict = "good ones strike more"
	case in.High < 0:
		verdict = "good ones strike less"
	case in.Low >= -sameStrikes && in.High <= sameStrikes:
		verdict = "about the same"
	}
	return fmt.Sprintf("strikes: %s good shots, %s others; %s", o.WhenGood, o.WhenPoor, verdict)
}

// WordsResults gives "3 earned, 5 unlucky, 3 lucky, 11 missed".
func (o Outcome) WordsResults() string {
	return fmt.Sprintf("%d earned, %d unlucky, %d lucky, %d missed", o.Earned, o.Unlucky, o.Lucky, o.Missed)
}

// WordsPocket gives "pocket: 54 of 66 (82%)".
func (o Outcome) WordsPocket() string {
	if o.Pocket.Of == 0 {
		return "pocket: no hit was read"
	}
	return "pocket: " + o.Pocket.words()
}

// WordsCarry gives "carry: 40 of 54 (74%)", "" without a pocket hit.
func (o Outcome) WordsCarry() string {
	if o.Carry.Of == 0 {
		return ""
	}
	return "carry: " + o.Carry.words()
}

// Sentence gives "lane 12: 1 pocket, 2 high".
func (l LaneHits) Sentence() string {
	var told []string
	for _, h := range []model.Hit{model.Pocket, model.High, model.Nose, model.Brooklyn, model.Light, model.Missed} {
		if n := l.Words[h]; n > 0 {
			told = append(told, fmt.Sprintf("%d %s", n, h))
		}
	}
	return fmt.Sprintf("lane %d: %s", l.Lane, strings.Join(told, ", "))
}

// ResultOf gives the result of a delivery with what it found; NoResult also of a dead ball, of one that was seen without
// being graded and of one whose pins are unknown.
func ResultOf(d model.Delivery, r model.Rack) Result {
	if d.Dead || !r.Full || !d.Pins.Known || d.Grade() == model.Ungraded {
		return NoResult
	}
	switch good, strike := d.Good(), (shot{d, r}).cleared(); {
	case good && strike:
		return Earned
	case good:
		return Unlucky
	case strike:
		return Lucky
	}
	return Missed
}

// String gives "earned" and the like, "" for no result.
func (r Result) String() string {
	return [...]string{"", "earned", "unlucky", "lucky", "missed"}[min(r, Missed)]
}

func outcomeOf(games []model.DatedSheet) Outcome {
	var o Outcome
	lanes := map[int]*LaneHits{}
	for d, r := range seenRacks(games) {
		o.count(ResultOf(*d, r))
		in := d.InPocket()
		if !in.Known {
			continue
		}
		o.Pocket = o.Pocket.with(in.Value, true)
		o.Carry = o.Carry.with((shot{*d, r}).cleared(), in.Value)
		l := lanes[d.Lane]
		if l == nil {
			l = &LaneHits{Lane: d.Lane, Words: map[model.Hit]int{}}
			lanes[d.Lane] = l
		}
		l.Words[d.HitWord()]++
		l.Pocket = l.Pocket.with(in.Value, true)
	}
	for _, n := range slices.Sorted(maps.Keys(lanes)) {
		o.Lanes = append(o.Lanes, *lanes[n])
	}
	o.compare()
	return o
}

func (o *Outcome) count(r Result) {
	switch r {
	case Earned:
		o.Earned++
	case Unlucky:
		o.Unlucky++
	case Lucky:
		o.Lucky++
	case Missed:
		o.Missed++
	}
}

// compare sets the strikes of the good shots beside those of the others.
func (o *Outcome) compare() {
	o.WhenGood = Part{o.Earned, o.Earned + o.Unlucky}
	o.WhenPoor = Part{o.Lucky, o.Lucky + o.Missed}
	o.Difference, o.DifferenceInterval = o.WhenGood.Difference(o.WhenPoor)
	if o.Difference.Known {
		o.FisherP = model.Known(FisherExact(o.Earned, o.Unlucky, o.Lucky, o.Missed).TwoSided)
	}
}
