package lane

import (
	"iter"
	"math"

	"coach.settee/model"
)

// shot is a good shot beside those before it of the same student, lane, ball and line.
type shot struct {
	thrown model.Thrown
	// before is how many there were, deviation by how many boards this one hit higher than their mean, brought to the scatter
	// of a single shot: the recursive residual, independent of those before where nothing changes. 0 for the first.
	before    int
	deviation float64
}

// shots gives a student's good shots on the pair in their order.
func (w *bowler) shots() iter.Seq[shot] {
	type group struct {
		lane   int
		bowled string
	}
	type mean struct {
		aimed model.Line
		n     int
		hit   float64
	}
	return func(yield func(shot) bool) {
		means := map[group]*mean{}
		for _, t := range w.thrown {
			if !LaneShot(t) {
				continue
			}
			g := group{t.Delivery.Lane, t.Delivery.Bowled}
			m := means[g]
			if m == nil || !withLine(t.Delivery, m.aimed) {
				m = &mean{}
				means[g] = m
			}
			m.aimed = t.Delivery.Aimed
			hit, _ := HitBoards(t.Delivery)
			s := shot{thrown: t, before: m.n}
			if n := float64(m.n); n > 0 {
				s.deviation = (hit.Mean - m.hit) * math.Sqrt(n/(n+1))
			}
			m.n++
			m.hit += (hit.Mean - m.hit) / float64(m.n)
			if !yield(s) {
				return
			}
		}
	}
}
