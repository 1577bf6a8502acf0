package tenpin_test

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"coach.settee/model/tenpin"
)

// drawBalls draws a legal game, finished or not, by keeping its own rack: what
// stands, whether it is named, and what each frame allows.
func drawBalls(t *rapid.T) []tenpin.Ball {
	var balls []tenpin.Ball
	stop := rapid.IntRange(0, 21).Draw(t, "balls at most")
	for frame := 1; frame <= 10; frame++ {
		due, allDown := 2, 0
		up, named, fresh := tenpin.AllPins, true, true
		left := 10
		for ball := 0; ball < due; ball++ {
			if len(balls) == stop {
				return balls
			}
			b := drawBall(t, up, named, fresh, left)
			balls = append(balls, b)
			left -= b.Pins
			up, named = after(b, up, named)
			fresh = left == 0
			if fresh {
				allDown++
				up, named, left = tenpin.AllPins, true, 10
				if frame < 10 {
					break
				}
				due = 3
			}
		}
	}
	return balls
}

// drawBall draws one ball at what stands. Marks are drawn often, so that whole
// games of them occur.
func drawBall(t *rapid.T, up tenpin.PinSet, named, fresh bool, left int) tenpin.Ball {
	switch rapid.IntRange(0, 9).Draw(t, "kind") {
	case 0:
		return tenpin.Ball{Foul: true}
	case 1, 2, 3:
		return tenpin.Ball{Pins: left}
	case 4:
		if fresh {
			return tenpin.Ball{Pins: rapid.IntRange(1, 8).Draw(t, "pins"), Split: tenpin.SplitYes}
		}
	case 5, 6:
		stay := tenpin.PinSet(rapid.IntRange(0, int(tenpin.AllPins)).Draw(t, "stay"))
		if named {
			stay &= up
		}
		for n := 10; stay.Count() > left; n-- {
			stay &^= tenpin.Pins(n)
		}
		return tenpin.Ball{Pins: left - stay.Count(), After: tenpin.Standing(stay)}
	}
	return tenpin.Ball{Pins: rapid.IntRange(0, left).Draw(t, "pins")}
}

// after is what stands after b, and whether its pins are named.
func after(b tenpin.Ball, up tenpin.PinSet, named bool) (tenpin.PinSet, bool) {
	switch {
	case b.After.Known:
		return b.After.Pins, true
	case b.Pins == 0:
		return up, named
	default:
		return 0, false
	}
}

// secondScorer scores by looking ahead in the list of pins from the start of
// each frame, as one does on paper. It gives the running totals as far as the
// list reaches.
func secondScorer(balls []tenpin.Ball) (totals []int) {
	pins := make([]int, len(balls))
	for i, b := range balls {
		pins[i] = b.Pins
	}
	at, total := 0, 0
	for range 10 {
		rest := pins[at:]
		var need, used int
		switch {
		case len(rest) > 0 && rest[0] == 10:
			need, used = 3, 1
		case len(rest) > 1 && rest[0]+rest[1] == 10:
			need, used = 3, 2
		default:
			need, used = 2, 2
		}
		if len(rest) < need {
			return totals
		}
		for _, n := range rest[:need] {
			total += n
		}
		totals = append(totals, total)
		at += used
	}
	return totals
}

func TestEveryLegalGame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		balls := drawBalls(t)
		card, err := tenpin.Score(balls)
		if err != nil {
			t.Fatalf("%+v: %v", balls, err)
		}
		totals := secondScorer(balls)
		for i, f := range card.Frames {
			if f.Known != (i < len(totals)) || f.Known && f.Total != totals[i] {
				t.Fatalf("frame %d: %d (known %v), second scorer %v", i+1, f.Total, f.Known, totals)
			}
		}
		want := 0
		if len(totals) > 0 {
			want = totals[len(totals)-1]
		}
		if card.Score != want || card.Score < 0 || card.Max > 300 || card.Score > card.Max {
			t.Fatalf("score %d, max %d, second scorer %v", card.Score, card.Max, totals)
		}
		if card.Complete != (len(totals) == 10) || card.Complete != card.At.Over() || card.Complete && card.Max != card.Score {
			t.Fatalf("complete %v, over %v, score %d, max %d, second scorer %v",
				card.Complete, card.At.Over(), card.Score, card.Max, totals)
		}
		var shown []tenpin.Ball
		for _, f := range card.Frames {
			shown = append(shown, f.Balls...)
		}
		if len(shown)+len(balls) > 0 && !reflect.DeepEqual(shown, balls) {
			t.Fatalf("the card shows %+v of %+v", shown, balls)
		}
	})
}

// The most that is possible never rises with a ball, and is what a full search
// finds.
func TestMaxNeverRises(t *testing.T) {
	from := searcher()
	rapid.Check(t, func(t *rapid.T) {
		balls := drawBalls(t)
		before, points := 300, 0
		var at tenpin.Position
		for i := range balls {
			card, err := tenpin.Score(balls[:i+1])
			if err != nil {
				t.Fatal(err)
			}
			if card.Max > before {
				t.Fatalf("ball %d raises the most possible from %d to %d", i+1, before, card.Max)
			}
			next, gained, err := at.Next(balls[i])
			if err != nil {
				t.Fatal(err)
			}
			at, points, before = next, points+gained, card.Max
			if at != card.At {
				t.Fatalf("the card stands at %+v, the balls lead to %+v", card.At, at)
			}
			if want := points + from(at); card.Max != want {
				t.Fatalf("ball %d: most possible %d, by search %d", i+1, card.Max, want)
			}
		}
	})
}

// searcher searches all balls from a position for the most points.
func searcher() func(tenpin.Position) int {
	known := map[tenpin.Position]int{}
	var from func(tenpin.Position) int
	from = func(p tenpin.Position) int {
		if most, ok := known[p]; ok || p.Over() {
			return most
		}
		most := 0
		for pins := 0; pins <= p.StandingCount(); pins++ {
			if next, points, err := p.Next(tenpin.Ball{Pins: pins}); err == nil {
				most = max(most, points+from(next))
			}
		}
		known[p] = most
		return most
	}
	return from
}

// Read again, the notation gives the same totals, marks and splits; it cannot
// say which pins stood, nor that an unmarked count was no split.
func TestNotationIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		card, err := tenpin.Score(drawBalls(t))
		if err != nil {
			t.Fatal(err)
		}
		again, err := tenpin.Parse(card.Notation())
		if err != nil {
			t.Fatalf("%q: %v", card.Notation(), err)
		}
		if again.Notation() != card.Notation() || again.Score != card.Score || again.Max != card.Max ||
			again.Complete != card.Complete || len(again.Frames) != len(card.Frames) {
			t.Fatalf("%q: got %+v, want %+v", card.Notation(), again, card)
		}
		for i, f := range card.Frames {
			g := again.Frames[i]
			if g.Total != f.Total || g.Known != f.Known || (g.Split == tenpin.SplitYes) != (f.Split == tenpin.SplitYes) {
				t.Fatalf("%q, frame %d: got %+v, want %+v", card.Notation(), i+1, g, f)
			}
		}
	})
}

// A ball with one thing wrong is refused wherever it comes, and the position is
// what it was.
func TestImpossibleBallsAreRefused(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		card, err := tenpin.Score(drawBalls(t))
		if err != nil {
			t.Fatal(err)
		}
		p := card.At
		standing := p.StandingCount()
		var b tenpin.Ball
		switch kind := rapid.IntRange(0, 4).Draw(t, "wrong"); {
		case kind == 0:
			b.Pins = standing + rapid.IntRange(1, 12).Draw(t, "too many")
		case kind == 1:
			b.Pins = -rapid.IntRange(1, 12).Draw(t, "too few")
		case kind == 2:
			b.Foul, b.Pins = true, rapid.IntRange(1, 10).Draw(t, "with a foul")
		case kind == 3 && p.Standing().Known && p.Standing().Pins != tenpin.AllPins && !p.Over():
			ghosts := (tenpin.AllPins &^ p.Standing().Pins).Numbers()
			ghost := rapid.SampledFrom(ghosts).Draw(t, "was not standing")
			b.Pins, b.After = standing-1, tenpin.Standing(tenpin.Pins(ghost))
		default:
			stay := tenpin.PinSet(rapid.IntRange(0, int(tenpin.AllPins)).Draw(t, "stay"))
			b.Pins = rapid.IntRange(0, standing).Draw(t, "pins")
			if stay.Count() == standing-b.Pins {
				stay = stay.Toggle(rapid.IntRange(1, 10).Draw(t, "one off"))
			}
			b.After = tenpin.Standing(stay)
		}
		if next, points, err := p.Next(b); err == nil || next != p || points != 0 {
			t.Fatalf("%+v at %+v: %+v, %d points, %v", b, p, next, points, err)
		}
	})
}
