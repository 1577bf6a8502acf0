package tui

import (
	"coach.settee/model"
	"coach.settee/model/lane"
	"coach.settee/model/tenpin"
)

// lineKnown is what the line's screen knows of the student and the lane shown. It is brought up to date between two
// pictures; nothing is reckoned while one is drawn.
type lineKnown struct {
	on      lineOn
	book    *lane.Book
	by      model.Student
	session model.Session
	// lane is the lane shown, next that of the student's next ball; alone tells that the student keeps to one lane.
	lane, next int
	alone      bool
	aimed      model.Line
	advice     lane.Advice
	// wear is of the pair's lanes.
	wear [2]lane.Wear
	// made are the moves on both lanes, the first lane's first.
	made   []lane.MoveMade
	spares []lane.Spare
	drawn  lane.Drawn
}

// lineOn is all that lineKnown hangs on. What changes an evening is a step handed to the recorder.
type lineOn struct {
	evening *model.Evening
	steps   uint64
	student model.ID
	lane    int
}

// advisesMove tells whether the advice is to move.
func (k lineKnown) advisesMove() bool { return !k.advice.Silent && k.advice.Move != lane.Move{} }

// nothingToMove tells that the line in force has no part that the advice moves.
func (k lineKnown) nothingToMove() bool {
	from, to := k.advice.From, k.advice.To
	return from.Slide == to.Slide && from.Arrows == to.Arrows
}

// settleLine brings the line's screen up to date with the evening.
func (a *App) settleLine() {
	s := a.line
	if a.screen != screen(s) || a.evening == nil {
		return
	}
	e := a.evening
	if _, here := e.SeatOf(s.student); !here {
		s.turnTo(e.UpStudent())
	}
	if s.student == "" {
		s.known = lineKnown{}
		return
	}
	on := lineOn{evening: e, steps: a.ledger.progress.Issued, student: s.student, lane: s.shownLane(e)}
	if s.known.on != on {
		s.known = s.known.anew(on)
	}
}

// anew reckons everything; the book is kept for the pair, so that it learns no ball twice.
func (k lineKnown) anew(on lineOn) lineKnown {
	e, id, pair := on.evening, on.student, model.PairOf(on.lane)
	book := k.book
	if book == nil || k.on.evening != e || model.PairOf(k.on.lane) != pair {
		book = lane.NewBook()
	}
	tonight := lane.TonightOf(e, pair)
	book.Update(tonight)
	k = lineKnown{
		on: on, book: book, by: e.Student(id), session: e.Session(), lane: on.lane, next: e.LaneOf(id), alone: tonight.OneLane[id],
		aimed: e.AimOf(id, on.lane), wear: [2]lane.Wear{book.Wear(pair[0]), book.Wear(pair[1])},
	}
	k.advice = book.Advise(id, k.lane, k.aimed)
	for _, l := range pair {
		advice := k.advice
		if l != k.lane {
			advice = book.Advise(id, l, e.AimOf(id, l))
		}
		k.made = append(k.made, advice.Moves...)
	}
	k.spares = lane.SpareTable(lane.SpareInput{
		Hand: k.by.Hand, Strike: k.aimed, SlideOffset: k.by.SlideOffset, ArrowsFt: k.arrowsFt(),
		Own: keptSpareLines(k.by), Tonight: lane.SparesRead(e.Sheets(id)),
	})
	k.drawn = lane.Draw(lane.DrawInput{
		Student: k.by, Advice: k.advice, Thrown: tonight.Thrown, ArrowsFt: k.session.ArrowsFt, PatternFt: k.session.PatternFt,
	})
	return k
}

// keptSpareLines gives the student's own lines by their pins.
func keptSpareLines(s model.Student) map[int]model.Line {
	own := map[int]model.Line{}
	for _, l := range s.SpareLines {
		own[l.Pin] = l.Line
	}
	return own
}

// spareInForce gives the student's line for a pin as the spare table has it, zero where that is reckoned.
func (k lineKnown) spareInForce(pin int) model.Line {
	for _, s := range k.spares {
		if s.Leave == tenpin.Pins(pin) && (s.From == lane.FromOwn || s.From == lane.FromTonight) {
			return s.Line
		}
	}
	return model.Line{}
}

func (k lineKnown) arrowsFt() float64 { return lane.ArrowsFt(k.session.ArrowsFt) }
