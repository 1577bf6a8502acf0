package lane

import (
	"cmp"
	"math"
	"slices"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// SpareInput is what a student's spare table is made from. All boards are from the student's own side.
type SpareInput struct {
	// Hand that is not known reads as right.
	Hand model.Hand
	// Strike is the line to the pocket of the ball that the table is for. Without its slide and arrows the moves are told, but
	// not where they lead; its breakpoint, where known, tells moves that put the ball into the gutter.
	Strike model.Line
	// SlideOffset is the boards from the slide to the laydown, DefaultSlideOffset where unknown.
	SlideOffset model.Optional[float64]
	// ArrowsFt is the distance of the target, DefaultArrowsFt where it is not positive.
	ArrowsFt float64
	// EntryDeg is the entry angle of that ball in degrees, 0 to 10: DefaultEntryDeg where it is unknown or no such angle, 0 to
	// 2 for a straighter spare ball.
	EntryDeg model.Optional[float64]
	// Own are the student's own lines for single pins, by the pin's number: the corner pins' cross-lane lines above all.
	// Tonight are lines read of balls that made single pins; they stand where there is no own line.
	Own, Tonight map[int]model.Line
}

// SparesRead gives the lines by which a student's sheets have single pins made, by the pin's number, the last of each pin:
// Tonight of a spare table.
func SparesRead(sheets []*model.Sheet) map[int]model.Line {
	read := map[int]model.Line{}
	for _, x := range sheets {
		for i, d := range x.Deliveries {
			stood := x.Racks[i].Standing
			made := d.After.Known && d.After.Pins == 0 && !d.Foul && !d.Dead
			if made && stood.Known && stood.Pins.Count() == 1 && d.Line.Slide.Known && d.Line.Arrows.Known {
				read[keyPin(stood.Pins)] = d.Line
			}
		}
	}
	return read
}

// DefaultEntryDeg is the middle of the 4 to 6 degrees that trade pages give for a strike ball.
const DefaultEntryDeg = 5.0

// SpareFrom tells where a spare's line comes from.
type SpareFrom uint8

// The origins of a spare's line.
const (
	// FromStrike is a move from the strike line, the ball turning as it does there.
	FromStrike SpareFrom = iota
	// FromOwn is the student's own line, FromTonight one that was read tonight.
	FromOwn
	FromTonight
	// Computed is a straight ball's line across the lane: a place to begin until the student has one.
	Computed
)

// Spare is how one leave is shot.
type Spare struct {
	// Leave is what stands and Key the pin of it that the ball reaches first.
	Leave tenpin.PinSet
	Key   int
	From  SpareFrom
	// Line has slide and arrows, where they are known.
	Line model.Line
	// Move is from the strike line, where that is known or the line is made from it.
	Move model.Optional[Move]
	// Outside is by how many boards the ball's middle passes the key pin's on the student's own side (a right-hander's right),
	// below zero on the other. A line of the student's, own or read, is taken as a straight ball's.
	Outside model.Optional[float64]
	// Takes tells whether that ball hits a single pin or clears a leave by first contacts, and Room how many boards wide the
	// stretch at the key pin is over which it would. SpareLeftOut says what that leaves out.
	Takes bool
	Room  float64
	// Gutter tells that the move puts the strike ball's breakpoint off the lane.
	Gutter bool
}

// SpareTable gives a student's line for each single pin, then for the leaves that are common for the hand (common practice,
// no source), each in the order of their pins. A left-hander's is the mirror image of a right-hander's. On the student's own
// side, the 6 and the 10 (a left-hander's 4 and 7) and what stands with them there are shot across the lane; all else is a
// move from the strike line, of the feet alone where that comes near enough.
func SpareTable(in SpareInput) []Spare {
	t := spareTable{in: in, ball: pocketBall(DefaultEntryDeg), offset: DefaultSlideOffset}
	if e := in.EntryDeg; e.Known && e.Value >= 0 && e.Value <= 10 {
		t.ball = pocketBall(e.Value)
	}
	if in.SlideOffset.Known {
		t.offset = in.SlideOffset.Value
	}
	lines := make([]Spare, len(commonLeaves))
	for i, leave := range commonLeaves {
		lines[i] = t.line(leave)
		if in.Hand == model.LeftHand {
			lines[i].Leave = leave.Mirror()
		}
		lines[i].Key = t.number(keyPin(leave))
	}
	slices.SortFunc(lines, func(a, b Spare) int {
		return cmp.Or(cmp.Compare(min(2, a.Leave.Count()), min(2, b.Leave.Count())),
			slices.Compare(a.Leave.Numbers(), b.Leave.Numbers()))
	})
	return lines
}

// commonLeaves are a right-hander's.
var commonLeaves = []tenpin.PinSet{
	tenpin.Pins(1), tenpin.Pins(2), tenpin.Pins(3), tenpin.Pins(4), tenpin.Pins(5),
	tenpin.Pins(6), tenpin.Pins(7), tenpin.Pins(8), tenpin.Pins(9), tenpin.Pins(10),
	tenpin.Pins(1, 2), tenpin.Pins(1, 2, 4), tenpin.Pins(1, 2, 8), tenpin.Pins(1, 2, 10),
	tenpin.Pins(1, 3), tenpin.Pins(1, 3, 6), tenpin.Pins(1, 3, 6, 10), tenpin.Pins(1, 2, 4, 7),
	tenpin.Pins(2, 4), tenpin.Pins(2, 5), tenpin.Pins(2, 8), tenpin.Pins(2, 4, 5), tenpin.Pins(2, 4, 5, 8),
	tenpin.Pins(2, 7), tenpin.Pins(4, 7), tenpin.Pins(4, 7, 8),
	tenpin.Pins(3, 5), tenpin.Pins(3, 9), tenpin.Pins(3, 5, 6), tenpin.Pins(3, 5, 6, 9),
	tenpin.Pins(3, 6), tenpin.Pins(3, 10), tenpin.Pins(3, 6, 10), tenpin.Pins(6, 10), tenpin.Pins(6, 9, 10),
	tenpin.Pins(5, 7), tenpin.Pins(5, 10),
}

// spareTable reckons in a right-hander's pins, from the own side.
type spareTable struct {
	in     SpareInput
	ball   deckBall
	offset float64
}

func (t spareTable) line(leave tenpin.PinSet) Spare {
	if leave.Count() == 1 {
		pin := t.number(keyPin(leave))
		if own := t.in.Own[pin]; !own.IsZero() {
			return t.theirs(leave, FromOwn, own)
		}
		if read := t.in.Tonight[pin]; !read.IsZero() {
			return t.theirs(leave, FromTonight, read)
		}
	}
	if crossLane(leave) {
		return t.across(leave)
	}
	return t.moved(leave)
}

// crossLane tells whether a leave is shot across the lane: all of it on the own side, with the 6 or the 10.
func crossLane(leave tenpin.PinSet) bool {
	return leave.Within(tenpin.Pins(3, 6, 9, 10)) && (leave.Has(6) || leave.Has(10))
}

// number gives the number that a right-hander's pin has for the student.
func (t spareTable) number(pin int) int {
	if t.in.Hand == model.LeftHand {
		return keyPin(tenpin.Pins(pin).Mirror())
	}
	return pin
}

// A ball is near enough within nearEnough boards of the middle of what clears a leave, or where it keeps keepAway boards to
// either side of it, a student's own scatter at the pins; where there is less room than that it is told. mostTarget and
// mostFeet are the most boards that a spare moves them. All were chosen here.
const (
	nearEnough = 1.0
	keepAway   = 3.5
	mostTarget = 6
	mostFeet   = 20
)

// moved gives the move from the strike line: none where that is near enough, else of the feet alone, else of the target too,
// by as few boards as will do.
func (t spareTable) moved(leave tenpin.PinSet) Spare {
	_, ft := PinAt(keyPin(leave))
	c := t.ball.clearing(leave)
	want := c.middle() - t.ball.at(ft)
	near := max(min(nearEnough, c.room()/2), c.room()/2-keepAway)
	best, off := Move{}, math.Abs(want)
	for target := 0; target <= mostTarget && off > near; target++ {
		for _, side := range []int{target, -target} {
			for feet := -mostFeet; feet <= mostFeet; feet++ {
				m := Move{feet, side}
				if d := math.Abs(m.ShiftAt(ft, t.in.ArrowsFt) - want); d < off && t.canMove(m) {
					best, off = m, d
				}
			}
		}
	}
	s := Spare{Leave: leave, From: FromStrike, Line: t.after(best), Move: model.Known(best), Gutter: t.gutters(best)}
	s.pass(t.ball.through(t.ball.at(ft)+best.ShiftAt(ft, t.in.ArrowsFt), ft), c)
	return s
}

// canMove tells whether laydown and target stay on the lane's boards, as far as the strike line is known.
func (t spareTable) canMove(m Move) bool {
	slide, arrows := t.in.Strike.Slide, t.in.Strike.Arrows
	return (!slide.Known || hasBoard(slide.Value-t.offset+float64(m.Feet))) &&
		(!arrows.Known || hasBoard(arrows.Value+float64(m.Target)))
}

func (t spareTable) after(m Move) model.Line {
	var l model.Line
	if slide := t.in.Strike.Slide; slide.Known {
		l.Slide = model.Known(slide.Value + float64(m.Feet))
	}
	if arrows := t.in.Strike.Arrows; arrows.Known {
		l.Arrows = model.Known(arrows.Value + float64(m.Target))
	}
	return l
}

func (t spareTable) gutters(m Move) bool {
	at, ft := t.in.Strike.Breakpoint, t.in.Strike.BreakpointFt
	return at.Known && ft.Known && at.Value+m.ShiftAt(ft.Value, t.in.ArrowsFt) < laneFrom
}

// pass says where a ball passes the key pin, and what it takes.
func (s *Spare) pass(b deckBall, c clearing) {
	board, ft := PinAt(keyPin(s.Leave))
	outside := board - b.at(ft)
	s.Outside = model.Known(outside)
	s.Room = c.room()
	s.Takes = b.onLane(s.Leave) && b.takes(s.Leave)
}

// theirs gives a line of the student's for a pin.
func (t spareTable) theirs(leave tenpin.PinSet, from SpareFrom, l model.Line) Spare {
	s := Spare{Leave: leave, From: from, Line: l, Move: t.moveTo(l)}
	if l.Slide.Known && l.Arrows.Known {
		b := t.straight(l.Slide.Value-t.offset, l.Arrows.Value)
		s.pass(b, b.clearing(leave))
	}
	return s
}

// moveTo gives the move from the strike line to another, to the nearest boards.
func (t spareTable) moveTo(l model.Line) model.Optional[Move] {
	from := t.in.Strike
	if !l.Slide.Known || !l.Arrows.Known || !from.Slide.Known || !from.Arrows.Known {
		return model.Optional[Move]{}
	}
	return model.Known(Move{
		Feet:   int(math.Round(l.Slide.Value - from.Slide.Value)),
		Target: int(math.Round(l.Arrows.Value - from.Arrows.Value)),
	})
}

// straight gives a ball that does not turn.
func (t spareTable) straight(laydown, arrows float64) deckBall {
	return deckBall{
		board: shiftAt(laydown, arrows, PinsFt, t.in.ArrowsFt),
		slope: (arrows - laydown) * BoardIn / (12 * targetFt(t.in.ArrowsFt)),
	}
}

// middleArrow is the board over which a cross-lane line is computed, give or take one: common practice, no source.
const middleArrow = 20

// across gives a straight ball's line across the lane over the middle arrow, in whole boards of slide and target.
func (t spareTable) across(leave tenpin.PinSet) Spare {
	board, ft := PinAt(keyPin(leave))
	laydownFor := func(at, arrows float64) float64 {
		k := ft / targetFt(t.in.ArrowsFt)
		return (k*arrows - at) / (k - 1)
	}
	c := t.straight(laydownFor(board, middleArrow), middleArrow).clearing(leave)
	var best model.Line
	var ball deckBall
	off := math.Inf(1)
	for _, arrows := range []float64{middleArrow, middleArrow - 1, middleArrow + 1} {
		slide := math.Round(laydownFor(c.middle(), arrows) + t.offset)
		b := t.straight(slide-t.offset, arrows)
		if d := math.Abs(b.at(ft) - c.middle()); d < off {
			off, ball = d, b
			best = model.Line{Slide: model.Known(slide), Arrows: model.Known(arrows)}
		}
	}
	s := Spare{Leave: leave, From: Computed, Line: best, Move: t.moveTo(best)}
	s.pass(ball, c)
	return s
}
