package lane_test

import (
	"reflect"
	"slices"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"coach.settee/model"
	"coach.settee/model/lane"
	"coach.settee/model/tenpin"
)

var drawnStudents = []model.ID{"ada", "bo", "cy"}

// drawTonight draws who is there; the balls follow with drawBall.
func drawTonight(t *rapid.T) *pairTonight {
	p := newTonight()
	for _, id := range drawnStudents {
		s := model.Student{ID: id, Hand: rapid.SampledFrom([]model.Hand{model.RightHand, model.LeftHand}).Draw(t, "hand")}
		if rapid.Bool().Draw(t, "offset known") {
			s.SlideOffset = model.Known(float64(rapid.IntRange(0, 9).Draw(t, "offset")))
		}
		p.Students[id] = s
		p.OneLane[id] = rapid.IntRange(0, 4).Draw(t, "one lane") == 0
	}
	if rapid.Bool().Draw(t, "arrows known") {
		p.ArrowsFt = model.Known(float64(rapid.IntRange(12, 16).Draw(t, "arrows")))
	}
	return p
}

func drawBoard(t *rapid.T, name string, low, high int) model.Optional[float64] {
	if rapid.IntRange(0, 3).Draw(t, name+" unknown") == 0 {
		return model.Optional[float64]{}
	}
	return model.Known(float64(rapid.IntRange(low, high).Draw(t, name)))
}

func drawLine(t *rapid.T, name string) model.Line {
	return model.Line{Arrows: drawBoard(t, name+" arrows", 11, 13), Slide: drawBoard(t, name+" slide", 24, 27)}
}

func (p *pairTonight) drawBall(t *rapid.T) {
	letter := func(name string) model.Letter {
		return rapid.SampledFrom([]model.Letter{model.A, model.A, model.A, model.C, model.NoLetter}).Draw(t, name)
	}
	p.ball(rapid.SampledFrom(drawnStudents).Draw(t, "who"), rapid.SampledFrom(p.Pair[:]).Draw(t, "lane"), func(b *model.Thrown) {
		d := &b.Delivery
		b.Full = rapid.IntRange(0, 4).Draw(t, "spare") > 0
		d.Seen = rapid.IntRange(0, 6).Draw(t, "unseen") > 0
		d.Touched = rapid.Bool().Draw(t, "touched")
		d.Dead = rapid.IntRange(0, 9).Draw(t, "dead") == 0
		d.Letters = model.Letters{model.A, letter("target"), letter("release"), model.A}
		d.Hit = rapid.SampledFrom([]model.Hit{"", model.Pocket, model.High, model.Nose, model.Light, model.Missed}).Draw(t, "hit")
		d.HitBoards = drawBoard(t, "boards", -6, 6)
		d.Aimed, d.Line = drawLine(t, "aimed"), drawLine(t, "went")
		d.Bowled = rapid.SampledFrom([]string{"", "", "", "other"}).Draw(t, "bowled")
		d.After = rapid.SampledFrom([]tenpin.Leave{{}, tenpin.Standing(tenpin.Pins(2, 8)), tenpin.Standing(tenpin.Pins(6))}).Draw(t, "after")
	})
}

// renumber counts the balls of each lane again after one was taken out or put on the other lane.
func (p *pairTonight) renumber() {
	p.on = map[int]int{}
	for i := range p.Thrown {
		t := &p.Thrown[i]
		t.Before = p.on[t.Delivery.Lane]
		p.on[t.Delivery.Lane]++
	}
}

// change adds a ball, takes the last back, corrects one, or changes what is known of a student.
func (p *pairTonight) change(t *rapid.T) {
	kind := rapid.IntRange(0, 11).Draw(t, "change")
	if n := len(p.Thrown); n > 0 {
		p.Thrown = slices.Clone(p.Thrown)
		at := rapid.IntRange(0, n-1).Draw(t, "at")
		switch kind {
		case 0:
			p.Thrown = p.Thrown[:n-1]
		case 1:
			p.Thrown[at].Delivery.HitBoards = model.Known(float64(rapid.IntRange(-6, 6).Draw(t, "corrected")))
		case 2:
			p.Thrown[at].Delivery.Lane = p.Pair.Other(p.Thrown[at].Delivery.Lane)
		case 3:
			p.Thrown[at].Student = rapid.SampledFrom(drawnStudents).Draw(t, "handed to")
		case 4:
			id := rapid.SampledFrom(drawnStudents).Draw(t, "whose")
			p.OneLane[id] = !p.OneLane[id]
		case 5:
			id := rapid.SampledFrom(drawnStudents).Draw(t, "whose")
			s := p.Students[id]
			s.Hand, s.SlideOffset = model.LeftHand, model.Known(3.0)
			p.Students[id] = s
		}
		p.renumber()
	}
	if kind > 3 {
		p.drawBall(t)
	}
}

// What a book says after balls, corrections and balls taken back is what a new one says of the same evening.
func TestBookIsLikeANewOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawTonight(t)
		kept := lane.NewBook()
		for range rapid.IntRange(1, 30).Draw(t, "changes") {
			p.change(t)
			kept.Update(p.Tonight)
			anew := lane.NewBook()
			anew.Update(p.Tonight)
			who := rapid.SampledFrom(drawnStudents).Draw(t, "asked for")
			aimed := drawLine(t, "now")
			for _, on := range p.Pair {
				if got, want := kept.Advise(who, on, aimed), anew.Advise(who, on, aimed); !reflect.DeepEqual(got, want) {
					t.Fatalf("%+v, want %+v", got, want)
				}
				if got, want := kept.Wear(on), anew.Wear(on); got != want {
					t.Fatalf("%+v, want %+v", got, want)
				}
			}
		}
	})
}

// The words fit a line of 78 cells, on lanes with high numbers too, and a move leads to a line that can be aimed at.
func TestAdviceFitsALine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawTonight(t)
		p.Pair = model.Pair{199, 200}
		for range rapid.IntRange(0, 60).Draw(t, "balls") {
			p.drawBall(t)
		}
		b := lane.NewBook()
		b.Update(p.Tonight)
		aimed := rapid.SampledFrom([]model.Line{usualLine, {}}).Draw(t, "now")
		for _, who := range drawnStudents {
			for _, on := range p.Pair {
				a := b.Advise(who, on, aimed)
				words := []string{a.Big, a.Reason, a.Chances, a.Rests, a.Warning, a.Note, a.Hint, a.PairWords, a.Against(board(15, 29))}
				for _, m := range a.Moves {
					words = append(words, m.Words)
				}
				w := b.Wear(on)
				words = append(words, a.Here.Words(), a.Other.Words(), w.TransitionWords, w.Moved.Value.Words)
				for _, line := range words {
					if utf8.RuneCountInString(line) > 78 {
						t.Errorf("%d cells: %q", utf8.RuneCountInString(line), line)
					}
				}
				if moved := a.To != a.From; moved != (a.Move != lane.Move{} && aimed == usualLine) || a.Big == "" || a.Reason == "" {
					t.Errorf("%+v", a)
				}
			}
		}
	})
}

// A left-hander's mirrored evening: the same boards from the student's own side, leaves mirrored. The advice is the same with
// left and right exchanged, and the balls lie mirrored on the lane.
func TestAdviceIsMirrored(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		right := drawTonight(t)
		left := newTonight()
		left.OneLane, left.ArrowsFt = right.OneLane, right.ArrowsFt
		for id, s := range right.Students {
			s.Hand = model.RightHand
			right.Students[id] = s
			s.Hand = model.LeftHand
			left.Students[id] = s
		}
		for range rapid.IntRange(0, 30).Draw(t, "balls") {
			right.drawBall(t)
		}
		left.Thrown = slices.Clone(right.Thrown)
		for i := range left.Thrown {
			after := &left.Thrown[i].Delivery.After
			after.Pins = after.Pins.Mirror()
		}
		for _, who := range drawnStudents {
			for _, on := range right.Pair {
				a, b := right.advise(who, on), left.advise(who, on)
				if a.Suggestion != b.Suggestion || a.To != b.To || a.Reason != b.Reason || a.Warning != b.Warning ||
					a.Here != b.Here || a.Other != b.Other || a.Difference != b.Difference || (a.Hint == "") != (b.Hint == "") {
					t.Fatalf("%+v, mirrored %+v", a, b)
				}
				if b.Big != exchanged(a.Big) {
					t.Fatalf("%q, mirrored %q", a.Big, b.Big)
				}
				r, l := right.wear(on), left.wear(on)
				for at := 1; at <= 39; at++ {
					if r.Arrows[at] != l.Arrows[40-at] {
						t.Fatalf("%d over board %d, %d over %d", r.Arrows[at], at, l.Arrows[40-at], 40-at)
					}
				}
			}
		}
	})
}

// A book keeps no hold of the evening that it was given.
func TestBookKeepsItsOwn(t *testing.T) {
	p := newTonight(righty("ada"))
	for range 3 {
		p.ball("ada", 7, hit(model.Nose))
	}
	b := lane.NewBook()
	b.Update(p.Tonight)
	before := b.Advise("ada", 7, usualLine).Here
	p.Thrown[0].Delivery.Hit = model.Light
	if got := b.Advise("ada", 7, usualLine).Here; got != before {
		t.Errorf("%+v, before %+v", got, before)
	}
	b.Update(p.Tonight)
	if got := b.Advise("ada", 7, usualLine).Here; got.Light != 1 || got.High != 2 {
		t.Errorf("corrected: %+v", got)
	}
}
