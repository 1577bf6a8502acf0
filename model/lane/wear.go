package lane

import (
	"fmt"
	"math"

	"coach.settee/model"
)

// Wear is what the evening has done to a lane.
type Wear struct {
	Lane int
	// Balls were thrown on it by everyone.
	Balls int
	// Arrows counts balls over each board at the arrows, counted from the lane's right edge for both hands: Arrows[1] to
	// Arrows[39]. Of Placed balls it is known, of Aimed of these only from what was aimed at.
	Arrows        [40]int
	Placed, Aimed int
	// Moved is when the lane began to play differently, where it seems so.
	Moved model.Optional[Moved]
	// TransitionWords say by how many boards higher both lanes of the pair play for ten balls on them, or that there are too
	// few to say.
	TransitionWords string
}

// transitionSD is how well the transition, in boards for ten balls, has to be known to be told: the prior's is 0.3. Invented.
const transitionSD = 0.2

// Wear gives what the evening has done to a lane of the pair.
func (b *Book) Wear(lane int) Wear {
	w, known := b.worn[lane]
	if !known {
		w = b.wear(lane)
		b.worn[lane] = w
	}
	return w
}

func (b *Book) wear(lane int) Wear {
	w := Wear{Lane: lane, Moved: b.moved(lane)}
	for _, t := range b.tonight.Thrown {
		if t.Delivery.Lane == lane {
			w.add(t, b.bowlers[t.Student].hand)
		}
	}
	e := b.transition()
	if e.SD > transitionSD {
		w.TransitionWords = "too few balls to say how fast the lanes change"
		return w
	}
	w.TransitionWords = transitionWords(e)
	return w
}

func (w *Wear) add(t model.Thrown, hand model.Hand) {
	w.Balls++
	d := t.Delivery
	board := d.Line.Arrows
	if t.Full && !board.Known {
		// A spare shot is not aimed along the line for full racks.
		board = d.Aimed.Arrows
	}
	if !board.Known {
		return
	}
	from := board.Value
	if hand == model.LeftHand {
		from = Mirror(from)
	}
	at := int(math.Round(from))
	if at < 1 || at > Boards {
		return
	}
	w.Arrows[at]++
	w.Placed++
	if !d.Line.Arrows.Known {
		w.Aimed++
	}
}

// transition pools what every student's learner says of it by the inverse of the variances, each without its prior, with the
// prior once.
func (b *Book) transition() Estimate {
	p := newPrior(b.arrowsFt())
	sd := p.sd[numTransition]
	before := 1 / (sd * sd)
	precision, weighted := before, p.mean[numTransition]*before
	for _, l := range b.learnt {
		e := l.own.Transition()
		own := 1 / (e.SD * e.SD)
		precision += own - before
		weighted += e.Mean*own - p.mean[numTransition]*before
	}
	return Estimate{weighted / precision, 1 / math.Sqrt(precision)}
}

func transitionWords(e Estimate) string {
	way := "higher"
	switch {
	case math.Abs(e.Mean) < 0.05:
		return "the lanes hardly change"
	case e.Mean < 0:
		way = "lighter"
	}
	return fmt.Sprintf("the lanes play %.1f boards %s for ten balls, give or take %.1f", math.Abs(e.Mean), way, max(0.1, e.SD))
}
