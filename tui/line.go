package tui

import (
	"slices"

	"coach.settee/model"
)

// linePage is what the line's screen shows.
type linePage uint8

const (
	// lineLane is the lane with the move; the others are the spare table and the moves made tonight.
	lineLane linePage = iota
	lineSpares
	lineMoves
)

// lineScreen shows the lane of a student's next ball, the line aimed at there, and the move. What a lane does and which
// move is worth making is package lane's to say.
type lineScreen struct {
	bindings table
	// student is whose line is shown; lane is the lane turned to, 0 for that of the student's next ball.
	student model.ID
	lane    int
	page    linePage
	// top is the first line shown of what does not fit.
	top   int
	known lineKnown
}

func newLineScreen(board table) *lineScreen {
	return &lineScreen{bindings: append(slices.Clone(lineKeys), boardsOwn(board))}
}

func (s *lineScreen) title() string  { return "Line" }
func (s *lineScreen) about() string  { return "the line and the move" }
func (s *lineScreen) letter() string { return "y" }
func (s *lineScreen) table() table   { return s.bindings }

func (s *lineScreen) moment(*App) moment {
	if s.page != lineLane {
		return momentLinePage
	}
	return momentLine
}

// open turns to the student that the screen before speaks of, on the lane of the next ball. It tells whether there is an
// evening to speak of.
func (s *lineScreen) open(a *App) bool {
	if a.evening == nil {
		a.refuse(errNoEvening)
		return false
	}
	id, _ := a.evening.Speaking()
	switch a.screen {
	case screen(a.session):
		id = a.session.student(a)
	case screen(a.strip):
		if _, here := a.evening.SeatOf(a.strip.student); here {
			id = a.strip.student
		}
	}
	s.page = lineLane
	s.turnTo(id)
	return true
}

// turnTo turns to a student, on the lane of the next ball.
func (s *lineScreen) turnTo(id model.ID) { s.student, s.lane, s.top = id, 0, 0 }

// shownLane gives the lane that is shown: of the student's pair, the one turned to or that of the next ball.
func (s *lineScreen) shownLane(e *model.Evening) int {
	seat, _ := e.SeatOf(s.student)
	if s.lane != 0 && model.PairOf(s.lane) == seat.Pair() {
		return s.lane
	}
	return e.LaneOf(s.student)
}

// otherLane turns to the other lane of the pair, without moving anyone.
func (s *lineScreen) otherLane(a *App) {
	shown := s.shownLane(a.evening)
	s.lane, s.top = model.PairOf(shown).Other(shown), 0
}

// turnBeside turns to the student a number of places after the one shown, in screen order and around its end.
func (s *lineScreen) turnBeside(a *App, by int) {
	seats := a.evening.Seats()
	at := slices.IndexFunc(seats, func(x model.Seat) bool { return x.Student == s.student })
	n := len(seats)
	s.turnTo(seats[((max(at, 0)+by)%n+n)%n].Student)
}

// noMove refuses to take a move where none is advised.
func noMove(a *App) string {
	switch k := a.line.known; {
	case nobodyShown(a) != "":
		return nobodyShown(a)
	case k.advice.Silent:
		return "there is no move to take yet: c sets a line by hand"
	case !k.advisesMove():
		return "the advice is to stay: c sets another line by hand"
	case k.nothingToMove():
		return "no line is set that could be moved: c sets it, 17 34 8@43 is arrows, slide and breakpoint"
	}
	return ""
}

// accept makes the suggested move the student's line from the next ball on that lane.
func (s *lineScreen) accept(a *App) {
	k := s.known
	a.tell(a.evening.Aim(s.student, k.lane, k.advice.To, k.advice.Move.Words(k.advice.Hand)))
}

// askForLine asks for a line: on the spare table for the student's own for a pin, else for the one aimed at.
func (s *lineScreen) askForLine(a *App) {
	if s.page == lineSpares {
		s.askForSpare(a)
		return
	}
	s.askForAim(a)
}

// askForAim asks for the line that the student aims at on the lane that is shown.
func (s *lineScreen) askForAim(a *App) {
	id, on, aimed, advice := s.student, s.known.lane, s.known.aimed, s.known.advice
	a.ask(s.known.aimLabel(a.evening.Label(id)), func(text string) error {
		line, err := model.ParseAim(text, aimed)
		if err != nil {
			return err
		}
		if err := a.done(a.evening.Aim(id, on, line, "")); err != nil {
			return err
		}
		words := advice.Against(line)
		switch {
		case line == aimed:
			a.say("the line stays as it is")
		case words != "":
			a.say("set; but " + words)
		}
		return nil
	})
}

// askForStudent asks whom to turn to.
func (s *lineScreen) askForStudent(a *App) {
	a.ask("the line of, by a few letters of the name", func(text string) error {
		id, err := a.byName(text)
		if err == nil {
			s.turnTo(id)
		}
		return err
	})
}

// escape goes from a page back to the lane, and from there to the board.
func (s *lineScreen) escape(a *App) {
	if s.page != lineLane {
		s.page, s.top = lineLane, 0
		return
	}
	a.show(a.board)
}

// turnPage turns to a page, and again back to the lane.
func (s *lineScreen) turnPage(p linePage) {
	if s.page == p {
		p = lineLane
	}
	s.page, s.top = p, 0
}

// scroll moves through what does not fit.
func (s *lineScreen) scroll(a *App, key string) {
	by := walked(key, pageLines)
	s.top = min(max(s.top+by, 0), s.lastTop(a, a.w, a.bodyHeight()))
}

// follow turns to who is up after something was taken back, if that is someone else.
func (s *lineScreen) follow(a *App) {
	if a.evening == nil {
		return
	}
	if up := a.evening.UpStudent(); up != s.student {
		s.turnTo(up)
	}
}

// followRedone turns to the student whose action was done again, who need not be up.
func (s *lineScreen) followRedone(a *App) {
	if a.evening == nil {
		return
	}
	last, _ := a.evening.Last()
	if _, here := a.evening.SeatOf(last.Student); here && last.Student != s.student {
		s.turnTo(last.Student)
	}
}
