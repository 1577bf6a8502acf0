package lane

import (
	"maps"

	"coach.settee/model"
)

// Book keeps what was learnt of a pair in an evening, so that a ball more costs little. What it says is the same as that of
// a new Book with the same evening. It is not for use by several goroutines at once.
type Book struct {
	tonight Tonight
	bowlers map[model.ID]*bowler
	// learnt holds every student's with every ball, in the order of their first.
	learnt []*learnt
	onLane map[int]int
	// worn holds what Wear said since the last change.
	worn map[int]Wear
}

// bowler is a student as one pair sees it in an evening.
type bowler struct {
	hand    model.Hand
	offset  float64
	oneLane bool
	named   named
	thrown  []model.Thrown
	with    map[string]*learnt
}

// learnt is what was learnt of a student with one ball: a change of ball is not the lane moving.
type learnt struct {
	bowler *bowler
	thrown []model.Thrown
	// own knows of nobody else, told also the pair's difference as the others had it when the student first came to the
	// other lane; nil where they had none.
	own, told  *Learner
	difference model.Optional[Estimate]
}

// NewBook begins with no balls.
func NewBook() *Book {
	b := &Book{}
	b.clear()
	return b
}

// Update takes the evening as it is now: new balls are added to what is there, anything else is learnt anew. The evening's
// list and maps may be changed afterwards.
func (b *Book) Update(t Tonight) {
	if !b.continues(t) {
		b.clear()
	}
	kept := b.tonight.Thrown
	b.tonight = t
	b.tonight.Thrown = kept
	b.tonight.Students, b.tonight.OneLane = maps.Clone(t.Students), maps.Clone(t.OneLane)
	added := t.Thrown[len(kept):]
	if len(added) > 0 {
		b.worn = map[int]Wear{}
	}
	for _, th := range added {
		if b.bowlers[th.Student] == nil {
			b.bowlers[th.Student] = newBowler(th.Student, t)
		}
		b.bowlers[th.Student].named.see(th.Delivery.Aimed)
	}
	for _, th := range added {
		b.add(th)
	}
}

// continues tells whether the evening begins as the one that is here and nothing that was learnt would be other.
func (b *Book) continues(t Tonight) bool {
	n := len(b.tonight.Thrown)
	if t.Pair != b.tonight.Pair || t.ArrowsFt != b.tonight.ArrowsFt || len(t.Thrown) < n {
		return false
	}
	for i := range b.tonight.Thrown {
		if t.Thrown[i] != b.tonight.Thrown[i] {
			return false
		}
	}
	for id, w := range b.bowlers {
		now := newBowler(id, t)
		if now.hand != w.hand || now.offset != w.offset || now.oneLane != w.oneLane {
			return false
		}
		now.named = w.named
		for _, th := range t.Thrown[n:] {
			if th.Student == id {
				now.named.see(th.Delivery.Aimed)
			}
		}
		if now.named != w.named {
			return false
		}
	}
	return true
}

func (b *Book) clear() {
	b.tonight, b.bowlers, b.learnt = Tonight{}, map[model.ID]*bowler{}, nil
	b.onLane, b.worn = map[int]int{}, map[int]Wear{}
}

func newBowler(id model.ID, t Tonight) *bowler {
	s := t.Students[id]
	w := &bowler{hand: s.Hand, offset: slideOffset(s), oneLane: t.OneLane[id], with: map[string]*learnt{}}
	if w.hand != model.LeftHand {
		w.hand = model.RightHand
	}
	return w
}

func (b *Book) add(th model.Thrown) {
	b.tonight.Thrown = append(b.tonight.Thrown, th)
	b.onLane[th.Delivery.Lane]++
	w := b.bowlers[th.Student]
	w.thrown = append(w.thrown, th)
	if !learns(th) {
		return
	}
	l := w.with[th.Delivery.Bowled]
	if l == nil {
		l = &learnt{bowler: w}
		l.own = l.build(b.arrowsFt(), w.named, l.difference)
		w.with[th.Delivery.Bowled] = l
		b.learnt = append(b.learnt, l)
	}
	l.add(th, b)
}

// add learns from a ball. At the first one on the second lane, what the others know of the pair is taken over for good.
func (l *learnt) add(th model.Thrown, b *Book) {
	w := l.bowler
	ball := w.named.ball(th, w.offset)
	here, there := laneIndex(ball.Right), laneIndex(!ball.Right)
	if l.told == nil && l.own.perLane[here] == 0 && l.own.perLane[there] > 0 {
		if l.difference = b.difference(w.hand, l); l.difference.Known {
			l.told = l.build(b.arrowsFt(), w.named, l.difference)
		}
	}
	l.thrown = append(l.thrown, th)
	l.own.Add(ball)
	if l.told != nil {
		l.told.Add(ball)
	}
}

// build learns all balls anew.
func (l *learnt) build(arrowsFt float64, n named, difference model.Optional[Estimate]) *Learner {
	learner := NewLearner(arrowsFt, difference)
	if l.bowler.oneLane {
		learner.OneLane()
	}
	for _, th := range l.thrown {
		learner.Add(n.ball(th, l.bowler.offset))
	}
	return learner
}

// difference gives the pair's difference as all others of a hand know it, and the student's other balls: the two hands play
// on other boards of a lane.
func (b *Book) difference(hand model.Hand, but *learnt) model.Optional[Estimate] {
	var others []*Learner
	for _, l := range b.learnt {
		if l != but && l.bowler.hand == hand {
			others = append(others, l.own)
		}
	}
	return PairDifference(others)
}

// learner gives what is known of a student with a ball for the next one on a lane from a line: on a lane where the student
// has bowled none yet, with what the others know of the pair by now.
func (b *Book) learner(w *bowler, bowled string, lane int, aimed model.Line) (*Learner, Aim) {
	l := w.with[bowled]
	if l == nil {
		l = &learnt{bowler: w}
		l.own = l.build(b.arrowsFt(), w.named, l.difference)
	}
	n := w.named
	n.see(aimed)
	to, difference := n.aim(aimed, w.offset), l.difference
	if l.own.perLane[laneIndex(rightLane(lane))] == 0 {
		difference = b.difference(w.hand, l)
	}
	switch {
	case n != w.named || difference != l.difference:
		return l.build(b.arrowsFt(), n, difference), to
	case l.told != nil:
		return l.told, to
	}
	return l.own, to
}

func (b *Book) arrowsFt() float64 { return ArrowsFt(b.tonight.ArrowsFt) }

// bowlerOf gives a student, also one who has not bowled on the pair.
func (b *Book) bowlerOf(id model.ID) *bowler {
	if w := b.bowlers[id]; w != nil {
		return w
	}
	return newBowler(id, b.tonight)
}

// bowled names the ball in use for the next full rack on a lane: that of the last one there, else of the last on the pair.
func (w *bowler) bowled(lane int) string {
	for i := len(w.thrown) - 1; i >= 0; i-- {
		if t := w.thrown[i]; t.Full && t.Delivery.Lane == lane {
			return t.Delivery.Bowled
		}
	}
	for i := len(w.thrown) - 1; i >= 0; i-- {
		if w.thrown[i].Full {
			return w.thrown[i].Delivery.Bowled
		}
	}
	return ""
}

// lineOn gives the line aimed at with the last full rack on a lane, zero before any.
func (w *bowler) lineOn(lane int) model.Line {
	for i := len(w.thrown) - 1; i >= 0; i-- {
		if t := w.thrown[i]; t.Full && t.Delivery.Lane == lane {
			return t.Delivery.Aimed
		}
	}
	return model.Line{}
}

// withLine tells whether a ball was thrown with a line: one thrown before any was set was not.
func withLine(d model.Delivery, aimed model.Line) bool {
	return d.Aimed.IsZero() == aimed.IsZero() && sameLine(d.Aimed, aimed)
}

// sameLine tells whether two lines are the same where both are known: at the slide and at the arrows.
func sameLine(a, b model.Line) bool {
	same := func(a, b model.Optional[float64]) bool { return !a.Known || !b.Known || a.Value == b.Value }
	return same(a.Slide, b.Slide) && same(a.Arrows, b.Arrows)
}
