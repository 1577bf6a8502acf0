package lane_test

import (
	"math"
	"strings"
	"testing"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// One ball on each lane comes first, and four balls end the first guess.
func TestAdviceIsSilentThenTentative(t *testing.T) {
	p := newTonight(righty("ada"))
	said := func() string {
		a := p.advise("ada", 8)
		return a.Big + "|" + a.Reason + "|" + a.Rests
	}
	check := func(want string) {
		t.Helper()
		if got := said(); got != want {
			t.Errorf("after %d balls %q, want %q", len(p.Thrown), got, want)
		}
	}
	check("no word yet|a good ball on each lane with its hit read comes first|")
	p.ball("ada", 7, boards(5), went(usualLine))
	check("no word yet|a good ball on lane 8 with its hit read comes first|")
	p.ball("ada", 8, boards(0), went(usualLine))
	check("stay|one target-A ball on lane 8, in the pocket; lane 7 not yet known|" +
		"rests on two balls, one of them on lane 8; a first guess")
	p.ball("ada", 7, boards(0), went(usualLine))
	p.ball("ada", 8, boards(0), went(usualLine))
	check("stay|two target-A balls on lane 8, both in the pocket; lane 7 not yet known|rests on four balls, two of them on lane 8")
}

func TestAdviceOnOneLane(t *testing.T) {
	p := newTonight(righty("ada"))
	p.OneLane["ada"] = true
	p.ball("ada", 7, boards(3), went(usualLine))
	if got := p.advise("ada", 7); !got.Silent || !strings.HasPrefix(got.Reason, "two balls") {
		t.Errorf("after one ball: %+v", got)
	}
	for range 8 {
		p.ball("ada", 7, boards(4), went(usualLine))
	}
	got := p.advise("ada", 7)
	if got.Silent || got.Move.Feet <= 0 || got.Reason != "nine target-A balls on lane 7, all high" {
		t.Errorf("after nine: %+v", got)
	}
}

// Twelve good balls high on both lanes, the boards read: the feet go inside, and the line goes with them.
func TestAdviceMoves(t *testing.T) {
	for _, student := range []model.Student{righty("ada"), lefty("ada")} {
		p := newTonight(student)
		for i := range 12 {
			p.ball("ada", 7+i%2, boards(float64(3+i%3)), went(usualLine))
		}
		aimed := usualLine
		aimed.Breakpoint, aimed.BreakpointFt = model.Known(8.0), model.Known(43.0)
		a := p.adviseFrom("ada", 8, aimed)
		if a.Move.Feet < 1 || a.Rule != lane.Learned || a.From != aimed {
			t.Fatalf("%+v", a)
		}
		feet, target := float64(a.Move.Feet), float64(a.Move.Target)
		want := board(12+target, 26+feet)
		// The breakpoint goes with the straight line: feet 1 alone takes it 1 - 43/15 = -1.87 boards, from 8 to 6.1.
		want.BreakpointFt = model.Known(43.0)
		want.Breakpoint = model.Known(math.Round((8+feet+(target-feet)*43/15)*10) / 10)
		if a.To != want {
			t.Errorf("to %+v, want %+v", a.To, want)
		}
		inside := map[model.Hand]string{model.RightHand: "left", model.LeftHand: "right"}[student.Hand]
		if a.Big != a.Move.Words(student.Hand) || !strings.Contains(a.Big, inside) {
			t.Errorf("a %s-hander: %q", student.Hand, a.Big)
		}
		if a.Warning != "" || a.Here.Fault != lane.TheLane || a.After < a.Stay+0.02 {
			t.Errorf("%+v", a)
		}
		if !strings.HasPrefix(a.Chances, "about ") || !strings.HasSuffix(a.Chances, " after") || strings.ContainsAny(a.Chances, ".%") {
			t.Errorf("%q", a.Chances)
		}
	}
}

func TestAdviceStays(t *testing.T) {
	p := newTonight(righty("ada"))
	for i, high := range []float64{0, 1, -1, 0, 0, 0, 1, -1} {
		p.ball("ada", 7+i%2, boards(high), went(usualLine))
	}
	a := p.advise("ada", 7)
	if a.Big != "stay" || a.To != a.From || a.Stay != a.After || !strings.HasSuffix(a.Chances, "in 100 as they are, and no move is worth more") {
		t.Errorf("%+v", a)
	}
}

// Warnings against one ball: eight pockets and then a last ball.
func TestAdviceWarns(t *testing.T) {
	const alone = "the last ball on lane 8 was high: one ball is no reason to move"
	for name, c := range map[string]struct {
		last [][]says
		want string
	}{
		"a pocket":                  {[][]says{{boards(0)}}, ""},
		"a board high":              {[][]says{{boards(1)}}, ""},
		"one high":                  {[][]says{{boards(3)}}, alone},
		"one high, a word":          {[][]says{{hit(model.High)}}, alone},
		"one light":                 {[][]says{{boards(-3)}}, "the last ball on lane 8 was light: one ball is no reason to move"},
		"a poor shot":               {[][]says{{boards(4), graded(model.Release, model.C)}}, "the last ball on lane 8 was high, but not a good shot: no reason to move"},
		"two alike":                 {[][]says{{hit(model.High)}, {hit(model.High)}}, ""},
		"two, a poor shot between":  {[][]says{{hit(model.High)}, {boards(0), graded(model.Target, model.C)}, {hit(model.High)}}, ""},
		"one to each side":          {[][]says{{hit(model.Light)}, {hit(model.High)}}, alone},
		"a pocket between":          {[][]says{{hit(model.High)}, {hit(model.Pocket)}, {hit(model.High)}}, alone},
		"with another line before":  {[][]says{{hit(model.High), aims(board(14, 30))}}, ""},
		"the hit was not read last": {[][]says{{hit(model.High)}, {}}, alone},
	} {
		p := newTonight(righty("ada"))
		for i := range 8 {
			p.ball("ada", 7+i%2, boards(0), went(usualLine))
		}
		for _, notes := range c.last {
			p.ball("ada", 8, notes...)
		}
		a := p.advise("ada", 8)
		if a.Move != (lane.Move{}) || a.Warning != c.want {
			t.Errorf("%s: %+v, %q, want %q", name, a.Move, a.Warning, c.want)
		}
	}
}

func TestAdviceAgainst(t *testing.T) {
	p := newTonight(righty("ada"))
	p.ball("ada", 7, boards(0), went(usualLine))
	if got := p.advise("ada", 8).Against(board(12, 27)); got != "no ball on this lane asks for it yet" {
		t.Errorf("%q", got)
	}
	p.ball("ada", 8, boards(3), went(usualLine))
	one := p.advise("ada", 8)
	for to, want := range map[model.Line]string{
		usualLine:     "",
		{}:            "",
		board(15, 29): "feet and target alike by the boards missed: worse than standing still",
		board(13, 28): "that answers one ball: worse than standing still",
	} {
		if got := one.Against(to); got != want {
			t.Errorf("%+v after one ball: %q, want %q", to, got, want)
		}
	}
	for range 6 {
		p.ball("ada", 8, boards(0), went(usualLine))
	}
	if got := p.advise("ada", 8).Against(board(13, 28)); got != "" {
		t.Errorf("after a pocket: %q", got)
	}
	p.ball("ada", 8, boards(3), went(usualLine))
	last := p.advise("ada", 8)
	if got := last.Against(board(13, 28)); got == "" || got != last.Warning {
		t.Errorf("after one high among pockets: %q", got)
	}
}

// Without a board of a line read it is the rule of two clean misses, and no chance is told.
func TestAdviceWithoutBoards(t *testing.T) {
	p := newTonight(righty("ada"))
	p.ball("ada", 7, hit(model.Pocket))
	p.ball("ada", 8, hit(model.High))
	p.ball("ada", 8, hit(model.Light), graded(model.Target, model.C))
	p.ball("ada", 8, hit(model.Nose))
	a := p.advise("ada", 8)
	if a.Rule != lane.TwoClean || a.Move != (lane.Move{Feet: 2, Target: 1}) || a.To != board(13, 28) || a.Chances != "" {
		t.Errorf("%+v", a)
	}
	if want := "rests on three balls, two of them on lane 8; rule: two clean misses alike"; a.Rests != want {
		t.Errorf("%q, want %q", a.Rests, want)
	}
	if a.Note != "read the board at the arrows, and chances can be told" {
		t.Errorf("note %q", a.Note)
	}
}

func TestAdviceStartsAnewWithAnotherBall(t *testing.T) {
	p := newTonight(righty("ada"))
	for i := range 10 {
		p.ball("ada", 7+i%2, boards(4), went(usualLine), with("old"))
	}
	p.ball("ada", 7, boards(0), went(usualLine), with("new"))
	a := p.advise("ada", 7)
	if a.Bowled != "new" || a.Balls != 1 || !a.Silent {
		t.Errorf("one ball with the new one: %+v", a)
	}
	if a := p.advise("ada", 8); a.Bowled != "old" || a.Balls != 10 {
		t.Errorf("on the other lane the old one was last: %+v", a)
	}
}

// Three others find lane 8 three boards higher than lane 7. Ada has bowled on lane 7 alone, in the pocket.
func TestAdviceForAnUnknownLane(t *testing.T) {
	p := newTonight(righty("ada"), righty("bo"), righty("cy"), righty("di"), lefty("lou"))
	for i := range 24 {
		for _, who := range []model.ID{"bo", "cy", "di"} {
			p.ball(who, 7+i%2, boards(float64(3*(i%2))), went(usualLine))
		}
	}
	fresh := p.advise("ada", 8)
	if !fresh.Silent || !fresh.Difference.Known || fresh.PairWords != "lane 8 plays about three boards higher than lane 7" &&
		fresh.PairWords != "lane 8 plays about two boards higher than lane 7" {
		t.Errorf("before any ball: %+v", fresh)
	}
	for range 4 {
		p.ball("ada", 7, boards(0), went(usualLine))
		p.ball("lou", 7, boards(0), went(usualLine))
	}
	a := p.advise("ada", 8)
	if a.Silent || a.OnLane != 0 || a.Move.Feet <= 0 {
		t.Errorf("lane 8 from four pockets on lane 7: %+v", a)
	}
	if want := "rests on four balls on lane 7, and on the others"; a.Rests != want {
		t.Errorf("%q, want %q", a.Rests, want)
	}
	if want := "no target-A ball on lane 8 with this line yet; lane 7 is fine"; a.Reason != want {
		t.Errorf("%q, want %q", a.Reason, want)
	}
	if here := p.advise("ada", 7); !here.Silent {
		t.Errorf("lane 7 speaks before a ball on lane 8: %+v", here)
	}
	// A left-hander plays the lane's other side: right-handers tell nothing of it.
	if other := p.advise("lou", 8); !other.Silent || other.Difference.Known {
		t.Errorf("a left-hander is told %+v", other)
	}
	// What the others knew stays known once Ada has bowled there.
	p.ball("ada", 8, boards(2), went(usualLine))
	if after := p.advise("ada", 8); after.Difference.Value.Mean < 1.5 || after.Difference.Value.SD > fresh.Difference.Value.SD {
		t.Errorf("after a ball there: %+v, before %+v", after.Difference, fresh.Difference)
	}
}

func TestMovesMade(t *testing.T) {
	p := newTonight(righty("ada"), righty("bo"))
	p.ball("ada", 8, aims(model.Line{}))
	for _, h := range []model.Hit{model.High, model.Pocket, model.Nose, ""} {
		p.ball("ada", 8, hit(h))
		p.ball("bo", 8, hit(model.Light))
		p.ball("ada", 7, hit(model.Light), aims(board(11, 25)))
	}
	p.ball("ada", 8, spare, aims(board(13, 28)))
	p.ball("ada", 8, boards(0), aims(board(13, 28)))
	p.ball("ada", 8, boards(-3), aims(board(13, 28)), graded(model.Target, model.C))
	p.ball("ada", 8, aims(board(13.2, 28)))
	p.ball("ada", 8, aims(board(13.2, 26)))
	moves := p.advise("ada", 8).Moves
	want := []lane.MoveMade{{
		Lane: 8, From: usualLine, To: board(13, 28), Move: lane.Move{Feet: 2, Target: 1}, Ball: 11, Balls: 5,
		Before: "1 of 3 pocket, 2 high", Since: "1 of 2 pocket, 1 light",
		Words: "ball 11: feet 2 left, target 1 left; pocket 1 of 3 before, 1 of 2 since",
	}, {
		Lane: 8, From: board(13.2, 28), To: board(13.2, 26), Move: lane.Move{Feet: -2}, Ball: 14, Balls: 8,
		Before: "1 of 2 pocket, 1 light", Since: "no hit read",
		Words: "ball 14: feet 2 right, target stays; pocket 1 of 2 before, none read since",
	}}
	if len(moves) != len(want) {
		t.Fatalf("%+v", moves)
	}
	for i := range want {
		if moves[i] != want[i] {
			t.Errorf("%+v, want %+v", moves[i], want[i])
		}
	}
	if other := p.advise("ada", 7).Moves; len(other) != 0 {
		t.Errorf("on lane 7 nothing moved: %+v", other)
	}
}
