package lane_test

import (
	"fmt"
	"strings"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// pairTonight writes an evening on lanes 7 and 8.
type pairTonight struct {
	lane.Tonight
	on map[int]int
}

func newTonight(students ...model.Student) *pairTonight {
	p := &pairTonight{Tonight: lane.Tonight{
		Pair: model.Pair{7, 8}, Students: map[model.ID]model.Student{}, OneLane: map[model.ID]bool{},
	}, on: map[int]int{}}
	for _, s := range students {
		p.Students[s.ID] = s
	}
	return p
}

func righty(id model.ID) model.Student { return model.Student{ID: id, Hand: model.RightHand} }

func lefty(id model.ID) model.Student { return model.Student{ID: id, Hand: model.LeftHand} }

func board(arrows, slide float64) model.Line {
	return model.Line{Arrows: model.Known(arrows), Slide: model.Known(slide)}
}

// usualLine is the line that students aim at here: 12 at the arrows from 26.
var usualLine = board(12, 26)

// says changes what is noted of a ball.
type says func(*model.Thrown)

// ball is a good shot at a full rack, its line as it was meant but not read.
func (p *pairTonight) ball(who model.ID, on int, notes ...says) {
	t := model.Thrown{Student: who, Full: true, Before: p.on[on], Delivery: model.Delivery{
		ID: model.ID(fmt.Sprintf("d%d", len(p.Thrown))), Lane: on, Seen: true, Touched: true,
		Letters: model.Letters{model.A, model.A, model.A, model.A}, Aimed: usualLine,
	}}
	for _, note := range notes {
		note(&t)
	}
	p.on[on]++
	p.Thrown = append(p.Thrown, t)
}

func hit(h model.Hit) says { return func(t *model.Thrown) { t.Delivery.Hit = h } }

func boards(high float64) says {
	return func(t *model.Thrown) { t.Delivery.HitBoards = model.Known(high) }
}

func aims(l model.Line) says { return func(t *model.Thrown) { t.Delivery.Aimed = l } }

func went(l model.Line) says { return func(t *model.Thrown) { t.Delivery.Line = l } }

func with(ball string) says { return func(t *model.Thrown) { t.Delivery.Bowled = ball } }

func graded(a model.Axis, l model.Letter) says {
	return func(t *model.Thrown) { t.Delivery.Letters[a] = l }
}

func unseen(t *model.Thrown) { t.Delivery.Seen, t.Delivery.Letters = false, model.Letters{} }

func spare(t *model.Thrown) { t.Full = false }

func dead(t *model.Thrown) { t.Delivery.Dead, t.Delivery.Seen = true, false }

func foul(t *model.Thrown) { t.Delivery.Foul = true }

func (p *pairTonight) advise(who model.ID, on int) lane.Advice {
	return p.adviseFrom(who, on, usualLine)
}

func (p *pairTonight) adviseFrom(who model.ID, on int, aimed model.Line) lane.Advice {
	b := lane.NewBook()
	b.Update(p.Tonight)
	return b.Advise(who, on, aimed)
}

// exchanged gives words with left for right and right for left.
func exchanged(words string) string {
	return strings.NewReplacer("left", "right", "right", "left").Replace(words)
}
