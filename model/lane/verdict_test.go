package lane_test

import (
	"math"
	"testing"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// verdict is that with the ball and the line of the last full rack.
func (p *pairTonight) verdict(who model.ID, on int) lane.Verdict {
	var aimed model.Line
	for _, t := range p.Thrown {
		if t.Student == who && t.Delivery.Lane == on && t.Full {
			aimed = t.Delivery.Aimed
		}
	}
	return p.adviseFrom(who, on, aimed).Here
}

// Four pockets on lane 7, three highs on lane 8. The scatter's variance is the prior's 2.56 worth ten shots with five
// deviations of none: 25.6/15 = 1.7067. Lane 8: a word's error adds 0.36 - 1/3, so precision 0.16 + 3/1.7333 = 1.8908, mean
// 3 x 1.3/1.7333/1.8908 = 1.190, sd 0.7272, beyond 0.75 with the chance of a normal below 0.605: 0.727. Lane 7: precision
// 0.16 + 4/1.7067 = 2.5038, sd 0.6320, within 0.75 with 0.765.
func TestVerdict(t *testing.T) {
	p := newTonight(righty("ada"))
	for range 4 {
		p.ball("ada", 7, hit(model.Pocket))
	}
	for range 3 {
		p.ball("ada", 8, hit(model.High))
	}
	near := func(a, b float64) bool { return math.Abs(a-b) < 0.001 }
	v := p.verdict("ada", 8)
	if v.Fault != lane.TheLane || v.Side != 1 || v.Shots != 3 || v.High != 3 || !near(v.Chance, 0.727) ||
		!near(v.Mean.Mean, 1.190) || !near(v.Mean.SD, 0.7272) {
		t.Errorf("three high: %+v", v)
	}
	if got, want := v.Words(), "lane 8 plays high, 7 in 10 sure: three target-A balls, all high"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	v = p.verdict("ada", 7)
	if v.Fault != lane.TheShot || v.Pocket != 4 || !near(v.Chance, 0.765) || v.Mean.Mean != 0 {
		t.Errorf("four pockets: %+v", v)
	}
	if got, want := v.Words(), "lane 7 is fine, 8 in 10 sure: four target-A balls, all in the pocket"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := p.advise("ada", 8).Reason, "three target-A balls on lane 8, all high; lane 7 is fine"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestVerdictRestsOnGoodShotsOfThisLineAndBall(t *testing.T) {
	for name, c := range map[string]struct {
		throw func(p *pairTonight)
		want  string
	}{
		"nothing": {func(*pairTonight) {}, "lane 8: no target-A ball with this line yet"},
		"one, however far": {func(p *pairTonight) {
			p.ball("ada", 8, boards(8))
		}, "lane 8 not yet known: one target-A ball, high"},
		"two noses": {func(p *pairTonight) {
			p.ball("ada", 8, hit(model.Nose))
			p.ball("ada", 8, hit(model.Nose))
		}, "lane 8 plays high, 9 in 10 sure: two target-A balls, both high"},
		"light, by boards": {func(p *pairTonight) {
			for range 4 {
				p.ball("ada", 8, boards(-4))
			}
		}, "lane 8 plays light, nearly sure: four target-A balls, all light"},
		"both sides": {func(p *pairTonight) {
			p.ball("ada", 8, hit(model.High))
			p.ball("ada", 8, hit(model.Light))
			p.ball("ada", 8, hit(model.High))
		}, "lane 8 not yet known: three target-A balls, two high, one light"},
		"poor shots say nothing": {func(p *pairTonight) {
			for range 9 {
				p.ball("ada", 8, hit(model.Brooklyn), graded(model.Target, model.D))
			}
		}, "lane 8: no target-A ball with this line yet"},
		"nor do another's, nor the other lane's": {func(p *pairTonight) {
			for range 9 {
				p.ball("bo", 8, hit(model.Nose))
				p.ball("ada", 7, hit(model.Nose))
			}
			p.ball("ada", 8, hit(model.Pocket))
		}, "lane 8 not yet known: one target-A ball, in the pocket"},
		"a new line": {func(p *pairTonight) {
			for range 9 {
				p.ball("ada", 8, hit(model.Nose))
			}
			p.ball("ada", 8, hit(model.Pocket), aims(board(13, 28)))
		}, "lane 8 not yet known: one target-A ball, in the pocket"},
		"another ball is not the lane moving": {func(p *pairTonight) {
			for range 9 {
				p.ball("ada", 8, hit(model.Nose), with("old"))
			}
			p.ball("ada", 8, hit(model.Pocket), with("new"))
		}, "lane 8 not yet known: one target-A ball, in the pocket"},
		"spare shots with another ball between": {func(p *pairTonight) {
			for range 2 {
				p.ball("ada", 8, hit(model.Nose), with("strike"))
				p.ball("ada", 8, with("plastic"), spare)
			}
		}, "lane 8 plays high, 9 in 10 sure: two target-A balls, both high"},
	} {
		p := newTonight(righty("ada"), righty("bo"))
		c.throw(p)
		if got := p.verdict("ada", 8).Words(); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}
