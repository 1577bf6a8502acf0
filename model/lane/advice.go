package lane

import (
	"math"

	"coach.settee/model"
)

// Advice is what to do with a student's next ball on a lane, in figures and in the words that a coach reads. The words are
// of 78 cells at most.
type Advice struct {
	Suggestion
	Hand   model.Hand
	Lane   int
	Bowled string
	// From is the line in force, To that after the move, as From where the advice is to stay. Its breakpoint moves as straight
	// lines do, to a tenth of a board; it is not known where its distance is not.
	From, To model.Line
	// Big is the move: "feet 2 left, target 1 left", "stay", or "no word yet".
	Big string
	// Reason says why: "three target-A balls on lane 8, all high; lane 7 is fine".
	Reason string
	// Chances says what it is worth: "about 27 in 100 as they are, 33 after"; "" where no chance is known.
	Chances string
	// Rests says on how many balls it rests, and that it is a first guess.
	Rests string
	// Warning is against a reaction to the last ball, "" for none.
	Warning string
	// Note says what is missing for better advice, "" for nothing.
	Note string
	// Hint says what the last leave may tell where its hit was not read, "" for nothing.
	Hint string
	// Here and Other are the verdicts on this lane and on the pair's other one.
	Here, Other Verdict
	// Difference is by how many boards higher the right lane of the pair plays for the student, before the student's own
	// ball on each lane as the others have it; unknown where nobody can say. PairWords say it, "" where it is not known well.
	Difference model.Optional[Estimate]
	PairWords  string
	// Moves are those that the student made on the lane tonight, in order.
	Moves []MoveMade

	oneLane bool
	// told: the others told of the pair.
	told bool
	// last is the hit last read on the lane with this line and ball, lastClean whether that was a good shot.
	last      model.Optional[Estimate]
	lastClean bool
	// missedAlike is how many good shots up to then missed on one side, that of alike; words how many hits are words.
	missedAlike, words int
	alike              float64
}

// Advise gives the advice for a student's next ball on a lane with the line that is in force there (see
// [model.Evening.AimOf]).
func (b *Book) Advise(student model.ID, lane int, aimed model.Line) Advice {
	w := b.bowlerOf(student)
	bowled := w.bowled(lane)
	learner, aim := b.learner(w, bowled, lane, aimed)
	other := b.tonight.Pair.Other(lane)
	a := Advice{
		Suggestion: learner.Suggest(rightLane(lane), b.onLane[lane], aim),
		Hand:       w.hand, Lane: lane, Bowled: bowled, From: aimed, To: aimed,
		Here: w.verdict(lane, bowled, aimed), Other: w.verdict(other, bowled, w.lineOn(other)),
		Moves: w.moves(lane), oneLane: w.oneLane, told: learner.pairTold,
	}
	a.Difference = b.differenceFor(w, bowled)
	a.Hint = w.lastHint(lane)
	a.see(w)
	if a.Move != (Move{}) {
		a.To = a.Move.line(aimed, b.arrowsFt())
	}
	a.say()
	return a
}

// line gives a line after the move; what is not known of it stays so.
func (m Move) line(l model.Line, arrowsFt float64) model.Line {
	to := l
	if to.Slide.Known {
		to.Slide.Value += float64(m.Feet)
	}
	if to.Arrows.Known {
		to.Arrows.Value += float64(m.Target)
	}
	if !l.Breakpoint.Known || !l.BreakpointFt.Known {
		to.Breakpoint, to.BreakpointFt = model.Optional[float64]{}, model.Optional[float64]{}
		return to
	}
	shifted := l.Breakpoint.Value + m.ShiftAt(l.BreakpointFt.Value, arrowsFt)
	to.Breakpoint.Value = min(max(math.Round(shifted*10)/10, 0), model.MaxBoard)
	return to
}

func (b *Book) differenceFor(w *bowler, bowled string) model.Optional[Estimate] {
	l := w.with[bowled]
	switch {
	case l == nil || l.own.perLane[0] == 0 || l.own.perLane[1] == 0:
		return b.difference(w.hand, l)
	case l.told != nil:
		return model.Known(l.told.Difference())
	}
	return model.Known(l.own.Difference())
}

// see looks at the hits that were read of the student.
func (a *Advice) see(w *bowler) {
	for _, t := range w.thrown {
		if !hitRead(t) {
			continue
		}
		hit, _ := HitBoards(t.Delivery)
		if t.Delivery.Bowled != a.Bowled {
			continue
		}
		if learns(t) && hit.SD > 0 {
			a.words++
		}
		if t.Delivery.Lane == a.Lane && withLine(t.Delivery, a.From) {
			a.last, a.lastClean = model.Known(hit), cleanShot(t.Delivery)
			a.countAlike(hit)
		}
	}
}

func (a *Advice) countAlike(hit Estimate) {
	switch {
	case !a.lastClean:
		return
	case !missed(hit):
		a.missedAlike, a.alike = 0, 0
		return
	case a.alike*hit.Mean <= 0:
		a.missedAlike = 0
	}
	a.alike = hit.Mean
	a.missedAlike++
}

// lastHint gives the hint of the student's last full rack on a lane where its hit was not read.
func (w *bowler) lastHint(lane int) string {
	for i := len(w.thrown) - 1; i >= 0; i-- {
		t := w.thrown[i]
		if d := t.Delivery; t.Full && !d.Dead && d.Lane == lane {
			if _, known := HitBoards(d); known || !d.After.Known || d.Foul {
				return ""
			}
			return LeaveHint(d.After.Pins, w.hand)
		}
	}
	return ""
}

// Against warns of a line that the coach has in mind instead, "" for no objection.
func (a Advice) Against(to model.Line) string {
	switch m := moveBetween(a.From, to); {
	case m == (Move{}) || m == a.Move:
		return ""
	case a.last.Known && m.Feet == m.Target && float64(m.Feet) == math.Round(a.last.Value.Mean):
		return "feet and target alike by the boards missed: worse than standing still"
	case a.OnLane == 0:
		return "no ball on this lane asks for it yet"
	case a.OnLane == 1:
		return "that answers one ball: worse than standing still"
	case a.Warning != "":
		return a.Warning
	}
	return ""
}
