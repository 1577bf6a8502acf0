package lane_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// fullEvening is twelve students with 300 deliveries each, all on one pair.
func fullEvening() *pairTonight {
	r := rand.New(rand.NewPCG(1, 1))
	p := newTonight()
	for s := range 12 {
		id := model.ID(fmt.Sprintf("s%d", s))
		p.Students[id] = righty(id)
	}
	for i := range 300 {
		for s := range 12 {
			line := board(12+float64(i/100), 26+float64(i/80))
			p.ball(model.ID(fmt.Sprintf("s%d", s)), 7+i%2, aims(line), boards(math.Round(3*r.NormFloat64())),
				went(board(line.Arrows.Value+math.Round(r.NormFloat64()), line.Slide.Value)))
		}
	}
	return p
}

// A ball more, and the advice for all twelve, within one frame: 16 ms.
func BenchmarkBookBallAndAdvice(b *testing.B) {
	p := fullEvening()
	all := p.Thrown
	aimed := board(14, 29)
	book := lane.NewBook()
	for b.Loop() {
		b.StopTimer()
		p.Thrown = all[:len(all)-1]
		book.Update(p.Tonight)
		b.StartTimer()
		p.Thrown = all
		book.Update(p.Tonight)
		for s := range 12 {
			book.Advise(model.ID(fmt.Sprintf("s%d", s)), 7+s%2, aimed)
		}
	}
}

// The whole evening from nothing, as after a correction.
func BenchmarkBookAnew(b *testing.B) {
	p := fullEvening()
	for b.Loop() {
		lane.NewBook().Update(p.Tonight)
	}
}

func BenchmarkBookWear(b *testing.B) {
	p := fullEvening()
	all := p.Thrown
	book := lane.NewBook()
	for b.Loop() {
		b.StopTimer()
		p.Thrown = all[:len(all)-1]
		book.Update(p.Tonight)
		p.Thrown = all
		b.StartTimer()
		book.Update(p.Tonight)
		book.Wear(7)
		book.Wear(8)
	}
}
