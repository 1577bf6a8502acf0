package lane_test

import (
	"testing"

	"coach.settee/model"
	"coach.settee/model/lane"
)

func TestTwoCleanMisses(t *testing.T) {
	at := func(hit float64) lane.Ball { return straight(true, 0, usual, hit) }
	word := func(h model.Hit) lane.Ball {
		e, _ := lane.HitInWords(h)
		return lane.Ball{Right: true, Aim: usual, Hit: e.Mean, HitSD: e.SD, Clean: true}
	}
	unclean := at(4)
	unclean.Target.Value += 2
	pulled := at(4)
	pulled.Laydown.Value -= 2
	left := at(4)
	left.Right = false
	before := at(4)
	before.Aim = lane.Aim{Laydown: 22, Target: 13}
	before.Laydown, before.Target = model.Known(22.0), model.Known(13.0)
	poor := word(model.Nose)
	poor.Clean = false
	in, out := lane.Move{Feet: 2, Target: 1}, lane.Move{Feet: -2, Target: -1}
	for name, c := range map[string]struct {
		balls []lane.Ball
		want  lane.Move
	}{
		"none":                        {nil, lane.Move{}},
		"one":                         {[]lane.Ball{at(5)}, lane.Move{}},
		"two high":                    {[]lane.Ball{at(2), at(3)}, in},
		"two light":                   {[]lane.Ball{at(-2), at(-4)}, out},
		"one a board":                 {[]lane.Ball{at(3), at(1)}, lane.Move{}},
		"both sides":                  {[]lane.Ball{at(3), at(-3)}, lane.Move{}},
		"an older one does not count": {[]lane.Ball{at(0), at(3), at(3)}, in},
		"the last two count":          {[]lane.Ball{at(3), at(3), at(0)}, lane.Move{}},
		"a missed target between":     {[]lane.Ball{at(3), unclean, at(3)}, in},
		"only one clean":              {[]lane.Ball{pulled, unclean, at(3)}, lane.Move{}},
		"the other lane":              {[]lane.Ball{at(3), left}, lane.Move{}},
		"before a move":               {[]lane.Ball{before, at(3)}, lane.Move{}},
		"words":                       {[]lane.Ball{word(model.High), word(model.Nose)}, in},
		"words light":                 {[]lane.Ball{word(model.Light), word(model.Missed)}, out},
		"words, pocket":               {[]lane.Ball{word(model.High), word(model.Pocket)}, lane.Move{}},
		"words, poor":                 {[]lane.Ball{word(model.High), poor}, lane.Move{}},
	} {
		if got := lane.TwoCleanMisses(c.balls, true, usual); got != c.want {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
	}
}

// With no board of any line read the learner keeps to the rule.
func TestSuggestFallsBackToTwoClean(t *testing.T) {
	l := lane.NewLearner(0, model.Optional[lane.Estimate]{})
	add := func(right bool, hit float64) {
		l.Add(lane.Ball{Right: right, Aim: usual, Hit: hit, Clean: true})
	}
	add(false, 3)
	add(true, 0)
	if got := l.Suggest(false, 1, usual); got.Rule != lane.TwoClean || got.Move != (lane.Move{}) || got.Silent {
		t.Errorf("after one miss: %+v", got)
	}
	add(false, 3)
	move := lane.Move{Feet: 2, Target: 1}
	if got := l.Suggest(false, 2, usual); got.Rule != lane.TwoClean || got.Move != move || got.Stay != 0 {
		t.Errorf("after two: %+v", got)
	}
	l.Add(straight(true, 1, usual, 0))
	if got := l.Suggest(false, 2, usual); got.Rule != lane.Learned {
		t.Errorf("with boards read: %+v", got)
	}
}
