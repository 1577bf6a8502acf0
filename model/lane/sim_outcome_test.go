package lane_test

import "math"

// outcome counts the first balls of one session.
type outcome struct {
	balls, hits, moves int
	// said counts balls by the tenth in which the chance stated for them lay.
	said [10]said
}

type said struct {
	chance  float64
	hits, n int
}

func hits(hit float64) int {
	if math.Abs(hit) <= 1 {
		return 1
	}
	return 0
}

func (o *outcome) count(hit float64) {
	o.balls++
	o.hits += hits(hit)
}

func (o *outcome) say(chance, hit float64) {
	tenth := &o.said[int(chance*10)]
	tenth.chance += chance
	tenth.hits += hits(hit)
	tenth.n++
}

func (o outcome) share() float64 { return float64(o.hits) / float64(o.balls) }

// evenings are the sessions of one run.
type evenings []outcome

// share gives the share of balls within a board of the pocket.
func (e evenings) share() float64 {
	sum := 0.0
	for _, o := range e {
		sum += o.share()
	}
	return sum / float64(len(e))
}

// gain gives by how much the share is above another run's, with the standard error of that over sessions.
func (e evenings) gain(over evenings) (gain, sd float64) {
	n := float64(len(e))
	gain = e.share() - over.share()
	for i := range e {
		d := e[i].share() - over[i].share() - gain
		sd += d * d
	}
	return gain, math.Sqrt(sd / (n - 1) / n)
}

func (e evenings) movesEach() float64 {
	moves := 0
	for _, o := range e {
		moves += o.moves
	}
	return float64(moves) / float64(len(e)*simStudents)
}

// honesty is the mean chance stated and the share of hits of the balls in a tenth, with the standard error of their
// difference over sessions.
type honesty struct {
	said, was, se float64
	balls         int
}

func (e evenings) honesty(tenth int) honesty {
	var all said
	for _, o := range e {
		all.chance += o.said[tenth].chance
		all.hits += o.said[tenth].hits
		all.n += o.said[tenth].n
	}
	n := float64(all.n)
	h := honesty{said: all.chance / n, was: float64(all.hits) / n, balls: all.n}
	squares := 0.0
	for _, o := range e {
		s := o.said[tenth]
		d := s.chance - float64(s.hits) - (h.said-h.was)*float64(s.n)
		squares += d * d
	}
	h.se = math.Sqrt(squares*float64(len(e))/float64(len(e)-1)) / n
	return h
}
