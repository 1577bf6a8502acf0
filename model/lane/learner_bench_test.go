package lane_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// evening gives a student's deliveries, some read in words, some with boards unread.
func evening(seed uint64, n int) []lane.Ball {
	r := rand.New(rand.NewPCG(seed, 3))
	balls := make([]lane.Ball, n)
	for i := range balls {
		aim := lane.Aim{Laydown: 20 + float64(i/40), Target: 12 + float64(i/60)}
		balls[i] = straight(i%2 == 1, 2*i, aim, math.Round(3*r.NormFloat64()))
		balls[i].Target.Value += math.Round(1.3 * r.NormFloat64())
		balls[i].Laydown.Known = i%3 > 0
		if i%5 == 0 {
			e, _ := lane.HitInWords(model.Light)
			balls[i].Hit, balls[i].HitSD = e.Mean, e.SD
		}
	}
	return balls
}

// A ball more for each of twelve students with 300 deliveries, and the suggestion for the next one.
func BenchmarkAddSuggest(b *testing.B) {
	learners := make([]*lane.Learner, 12)
	balls := make([][]lane.Ball, len(learners))
	for i := range learners {
		balls[i] = evening(uint64(i), 300)
	}
	for b.Loop() {
		b.StopTimer()
		for i := range learners {
			learners[i] = lane.NewLearner(0, model.Optional[lane.Estimate]{})
			for _, ball := range balls[i][:299] {
				learners[i].Add(ball)
			}
		}
		b.StartTimer()
		for i, l := range learners {
			l.Add(balls[i][299])
			l.Suggest(i%2 == 0, 600, balls[i][299].Aim)
		}
	}
}

// The same from nothing: every delivery of the evening anew.
func BenchmarkLearnEvening(b *testing.B) {
	balls := make([][]lane.Ball, 12)
	for i := range balls {
		balls[i] = evening(uint64(i), 300)
	}
	for b.Loop() {
		for i := range balls {
			l := lane.NewLearner(0, model.Optional[lane.Estimate]{})
			for _, ball := range balls[i] {
				l.Add(ball)
			}
			l.Suggest(i%2 == 0, 600, balls[i][299].Aim)
		}
	}
}
