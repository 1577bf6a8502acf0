package lane_test

import (
	"math/rand/v2"
	"strings"
	"testing"

	"coach.settee/model"
	"coach.settee/model/lane"
)

func (p *pairTonight) wear(on int) lane.Wear {
	b := lane.NewBook()
	b.Update(p.Tonight)
	return b.Wear(on)
}

// Boards are counted from the right edge: a left-hander's 12 is 28.
func TestWear(t *testing.T) {
	p := newTonight(righty("ada"), lefty("lou"))
	p.ball("ada", 7, went(board(13.4, 26)))
	p.ball("ada", 7)
	p.ball("lou", 7, went(board(12, 26)))
	p.ball("lou", 8)
	p.ball("ada", 7, spare)
	p.ball("ada", 7, spare, went(board(25, 30)))
	p.ball("ada", 7, dead, aims(model.Line{}))
	p.ball("ada", 7, went(board(0, 26)))
	w := p.wear(7)
	if w.Balls != 7 || w.Placed != 4 || w.Aimed != 1 {
		t.Errorf("%+v", w)
	}
	for at, n := range w.Arrows {
		want := map[int]int{13: 1, 12: 1, 28: 1, 25: 1}[at]
		if n != want {
			t.Errorf("%d over board %d, want %d", n, at, want)
		}
	}
	if w := p.wear(8); w.Balls != 1 || w.Arrows[28] != 1 {
		t.Errorf("lane 8: %+v", w)
	}
}

func TestWearTransition(t *testing.T) {
	p := newTonight(righty("ada"), righty("bo"), righty("cy"), righty("di"))
	throw := func(n int) {
		for i := range n {
			for _, who := range []model.ID{"ada", "bo", "cy", "di"} {
				on := 7 + i%2
				p.ball(who, on, boards(0.08*float64(p.on[on])), went(usualLine))
			}
		}
	}
	throw(2)
	if w := p.wear(7); w.TransitionWords != "too few balls to say how fast the lanes change" {
		t.Errorf("after eight balls: %+v", w)
	}
	throw(30)
	w := p.wear(7)
	if want := "the lanes play 0.8 boards higher for ten balls, give or take 0.1"; w.TransitionWords != want {
		t.Errorf("%q, want %q", w.TransitionWords, want)
	}
}

// Lane 8 plays four boards higher from its 41st ball on; on lane 7 nothing changes.
func TestWearFindsTheLaneThatMoved(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 8))
	p := newTonight(righty("ada"), lefty("lou"))
	for i := range 160 {
		who, on := []model.ID{"ada", "lou"}[i/2%2], 7+i%2
		high := r.NormFloat64()
		if on == 8 && p.on[8] >= 40 {
			high += 4
		}
		p.ball(who, on, boards(high))
	}
	w := p.wear(8)
	if m := w.Moved.Value; !w.Moved.Known || !m.Higher || m.Ball < 38 || m.Ball > 43 || m.Shots < 2 ||
		!strings.HasPrefix(m.Words, "lane 8 seems to play higher from ball 4") {
		t.Errorf("%+v", w.Moved)
	}
	if w := p.wear(7); w.Moved.Known {
		t.Errorf("lane 7: %+v", w.Moved)
	}
}

// A move, another ball, poor shots and another student's line are not the lane moving.
func TestWearKnowsWhatIsNotTheLane(t *testing.T) {
	p := newTonight(righty("ada"), righty("bo"))
	for i := range 20 {
		p.ball("ada", 8, boards(float64(i%2)))
	}
	for i := range 20 {
		p.ball("ada", 8, boards(5+float64(i%2)), aims(board(14, 26)))
		p.ball("ada", 8, boards(-5+float64(i%2)), with("other"), aims(board(14, 26)))
		p.ball("bo", 8, boards(-7))
		p.ball("bo", 8, boards(7), graded(model.Release, model.C))
	}
	if w := p.wear(8); w.Moved.Known {
		t.Errorf("%+v", w.Moved)
	}
}

// Of lanes that do not change, few are said to have moved: a two-sided CUSUM with k 0.5 and h 5 is raised once in 465 values
// on the average (from memory), so that of 40 good shots each, under a tenth of the lanes are.
func TestWearSeldomCriesWolf(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 5))
	cried := 0
	const lanes = 300
	for range lanes {
		p := newTonight(righty("ada"))
		for range 41 {
			p.ball("ada", 8, boards(1.6*r.NormFloat64()))
		}
		if p.wear(8).Moved.Known {
			cried++
		}
	}
	if cried > lanes*10/100 {
		t.Errorf("%d of %d steady lanes", cried, lanes)
	}
	t.Logf("%d of %d steady lanes", cried, lanes)
}

func TestWearTransitionInWords(t *testing.T) {
	for words, drift := range map[string]float64{
		"the lanes hardly change": 0,
		"the lanes play 0.3 boards lighter for ten balls, give or take 0.1": -0.03,
	} {
		p := newTonight(righty("ada"), righty("bo"))
		for i := range 400 {
			on := 7 + i/2%2
			p.ball([]model.ID{"ada", "bo"}[i%2], on, boards(drift*float64(p.on[on])), went(usualLine))
		}
		if got := p.wear(7).TransitionWords; got != words {
			t.Errorf("%q, want %q", got, words)
		}
	}
}
