package lane

import (
	"coach.settee/model"
)

// Tonight is what was thrown on one pair of lanes in an evening, as the lane's history sees it.
type Tonight struct {
	Pair model.Pair
	// Thrown is every ball on the pair, all students', in the order of recording (see [model.Evening.PairTonight]).
	Thrown   []model.Thrown
	Students map[model.ID]model.Student
	// OneLane holds the students who keep to one lane: nobody waits for a ball of theirs on the other.
	OneLane map[model.ID]bool
	// ArrowsFt is the distance of the target from the foul line; unknown reads as DefaultArrowsFt.
	ArrowsFt model.Optional[float64]
}

// TonightOf collects what an evening has of a pair, with everyone who bowled or sits there.
func TonightOf(e *model.Evening, pair model.Pair) Tonight {
	t := Tonight{
		Pair: pair, Thrown: e.PairTonight(pair), Students: map[model.ID]model.Student{}, OneLane: map[model.ID]bool{},
		ArrowsFt: e.Session().ArrowsFt,
	}
	for _, x := range t.Thrown {
		if _, has := t.Students[x.Student]; !has {
			t.Students[x.Student] = e.Student(x.Student)
		}
	}
	for _, seat := range e.Seats() {
		if seat.Pair() == pair {
			t.Students[seat.Student] = e.Student(seat.Student)
			t.OneLane[seat.Student] = !seat.Alternate
		}
	}
	return t
}

// LaneShot tells whether a ball speaks of the lane or of the line rather than of the student: seen at a full rack, target A
// and release A, its hit read, no foul and no dead ball.
func LaneShot(t model.Thrown) bool {
	return hitRead(t) && cleanShot(t.Delivery)
}

// HitBoards gives where a ball met the pins in boards from the pocket, plus is high, and the error of a reading in a word, 0 for
// one in boards.
func HitBoards(d model.Delivery) (hit Estimate, known bool) {
	if d.HitBoards.Known {
		return Estimate{Mean: max(-widestHit, min(widestHit, d.HitBoards.Value))}, true
	}
	return HitInWords(d.Hit)
}

func hitRead(t model.Thrown) bool {
	d := t.Delivery
	_, known := HitBoards(d)
	return known && t.Full && d.Seen && !d.Foul && !d.Dead
}

func cleanShot(d model.Delivery) bool {
	return d.Letters[model.Target] == model.A && d.Letters[model.Release] == model.A
}

// learns tells whether the learner takes the ball: one that went as it was meant, or of which the board at the arrows was
// read, so that its scatter is known.
func learns(t model.Thrown) bool {
	return hitRead(t) && (cleanShot(t.Delivery) || t.Delivery.Line.Arrows.Known && t.Delivery.Aimed.Arrows.Known)
}

// middle stands for a board that nobody named: only differences of lines are learnt from.
const middle = 20.0

// named is the first line that was aimed at tonight, each part for itself: it stands for what is not named of another.
type named struct{ slide, arrows model.Optional[float64] }

func (n *named) see(l model.Line) {
	if !n.slide.Known {
		n.slide = l.Slide
	}
	if !n.arrows.Known {
		n.arrows = l.Arrows
	}
}

// aim gives a line as the learner has it: the laydown is the slide board less the offset.
func (n named) aim(l model.Line, offset float64) Aim {
	n = named{first(l.Slide, n.slide), first(l.Arrows, n.arrows)}
	a := Aim{Laydown: middle, Target: middle}
	if n.slide.Known {
		a.Laydown = n.slide.Value - offset
	}
	if n.arrows.Known {
		a.Target = n.arrows.Value
	}
	return a
}

func first(a, b model.Optional[float64]) model.Optional[float64] {
	if a.Known {
		return a
	}
	return b
}

// ball gives what the learner is told of a delivery. What was read of a line counts only where it was named what was meant.
func (n named) ball(t model.Thrown, offset float64) Ball {
	d := t.Delivery
	hit, _ := HitBoards(d)
	b := Ball{
		Right: rightLane(d.Lane), Thrown: t.Before, Aim: n.aim(d.Aimed, offset),
		Hit: hit.Mean, HitSD: hit.SD, Clean: cleanShot(d),
	}
	if d.Line.Slide.Known && d.Aimed.Slide.Known {
		b.Laydown = model.Known(d.Line.Slide.Value - offset)
	}
	if d.Line.Arrows.Known && d.Aimed.Arrows.Known {
		b.Target = d.Line.Arrows
	}
	return b
}

// rightLane tells the right lane of a pair, the even one, whatever the hand.
func rightLane(lane int) bool { return lane%2 == 0 }

func slideOffset(s model.Student) float64 {
	if s.SlideOffset.Known {
		return s.SlideOffset.Value
	}
	return DefaultSlideOffset
}
