package lane_test

import (
	"testing"

	"coach.settee/model"
	"coach.settee/model/lane"
)

func TestLaneShot(t *testing.T) {
	for name, c := range map[string]struct {
		notes []says
		want  bool
	}{
		"good, its hit in a word":      {[]says{hit(model.High)}, true},
		"good, its hit in boards":      {[]says{boards(-1.5)}, true},
		"no hit read":                  {nil, false},
		"a poor finish and balance":    {[]says{hit(model.High), graded(model.Finish, model.D), graded(model.Balance, model.C)}, true},
		"target missed":                {[]says{hit(model.High), graded(model.Target, model.B)}, false},
		"a poor release":               {[]says{hit(model.High), graded(model.Release, model.B)}, false},
		"target not watched":           {[]says{hit(model.High), graded(model.Target, model.NoLetter)}, false},
		"not seen":                     {[]says{hit(model.High), unseen}, false},
		"a spare shot":                 {[]says{hit(model.High), spare}, false},
		"a dead ball":                  {[]says{hit(model.High), dead}, false},
		"a foul":                       {[]says{hit(model.High), foul}, false},
		"no letter pressed, hit named": {[]says{hit(model.High), func(t *model.Thrown) { t.Delivery.Touched = false }}, true},
	} {
		p := newTonight(righty("ada"))
		p.ball("ada", 7, c.notes...)
		if got := lane.LaneShot(p.Thrown[0]); got != c.want {
			t.Errorf("%s: %v", name, got)
		}
	}
}

func TestHitBoards(t *testing.T) {
	for _, c := range []struct {
		d    model.Delivery
		want lane.Estimate
	}{
		{model.Delivery{Hit: model.Nose}, lane.Estimate{Mean: 2.5, SD: 0.6}},
		{model.Delivery{Hit: model.Nose, HitBoards: model.Known(3.0)}, lane.Estimate{Mean: 3}},
		{model.Delivery{HitBoards: model.Known(0.0)}, lane.Estimate{}},
		{model.Delivery{HitBoards: model.Known(-12.0)}, lane.Estimate{Mean: -8}},
	} {
		if got, known := lane.HitBoards(c.d); !known || got != c.want {
			t.Errorf("%+v: %+v, %v", c.d, got, known)
		}
	}
	if _, known := lane.HitBoards(model.Delivery{}); known {
		t.Error("no hit is known")
	}
}

// What the learner is told of an evening, beside a learner that is told the same by hand: the laydown is the slide board
// less the student's own offset, balls are counted over everyone, even lanes are the right ones.
func TestAdviseLearnsWhatWasSeen(t *testing.T) {
	ada := righty("ada")
	ada.SlideOffset = model.Known(4.0)
	p := newTonight(ada, righty("bo"))
	p.ArrowsFt = model.Known(14.0)
	p.ball("bo", 7)
	p.ball("ada", 7, boards(2), went(board(12, 27)))
	p.ball("ada", 8, hit(model.High), went(board(13, 26)))
	p.ball("bo", 8, unseen)
	p.ball("ada", 7, boards(5), went(board(9, 26)), graded(model.Target, model.C))
	p.ball("ada", 7, boards(-6), graded(model.Target, model.F))
	p.ball("ada", 8, boards(1), unseen)
	p.ball("ada", 8, boards(3), aims(board(13, 28)))

	want := lane.NewLearner(14, model.Optional[lane.Estimate]{})
	known := model.Known[float64]
	want.Add(lane.Ball{Thrown: 1, Aim: lane.Aim{Laydown: 22, Target: 12}, Laydown: known(23), Target: known(12), Hit: 2, Clean: true})
	want.Add(lane.Ball{Right: true, Aim: lane.Aim{Laydown: 22, Target: 12}, Laydown: known(22), Target: known(13), Hit: 1.3, HitSD: 0.6, Clean: true})
	want.Add(lane.Ball{Thrown: 2, Aim: lane.Aim{Laydown: 22, Target: 12}, Laydown: known(22), Target: known(9), Hit: 5})
	want.Add(lane.Ball{Right: true, Thrown: 3, Aim: lane.Aim{Laydown: 24, Target: 13}, Hit: 3, Clean: true})

	for on := 7; on <= 8; on++ {
		got := p.advise("ada", on)
		if w := want.Suggest(on == 8, 4, lane.Aim{Laydown: 22, Target: 12}); got.Suggestion != w {
			t.Errorf("lane %d: %+v, want %+v", on, got.Suggestion, w)
		}
	}
}

// Boards that were not named are those of the student's first line: only differences of lines count.
func TestAdviseWithHalfALine(t *testing.T) {
	whole, half := newTonight(righty("ada")), newTonight(righty("ada"))
	for i, high := range []float64{2, 3, 1, 4, 2, 3} {
		line := model.Line{Arrows: model.Known(12.0)}
		whole.ball("ada", 7+i%2, boards(high), went(line))
		half.ball("ada", 7+i%2, boards(high), went(line), func(t *model.Thrown) {
			if i != 2 {
				t.Delivery.Aimed = line
			}
		})
	}
	if a, b := whole.advise("ada", 7), half.advise("ada", 7); a.Suggestion != b.Suggestion {
		t.Errorf("with the slide named once: %+v, want %+v", b.Suggestion, a.Suggestion)
	}
	// Without a line from before, the one in force now stands for it.
	none := newTonight(righty("ada"))
	for i, high := range []float64{2, 3, 1, 4} {
		none.ball("ada", 7+i%2, boards(high), aims(model.Line{}))
	}
	got := none.advise("ada", 7)
	if got.Rule != lane.TwoClean || got.Note == "" || got.To.Slide.Value != 26+float64(got.Move.Feet) {
		t.Errorf("without a line: %+v", got)
	}
}
