package tui

import "coach.settee/model"

// glanceScreen is the board in figures that are read from the approach: first names, good counts, and dots to each one's
// own goal. It has nothing that sets one student beside another, and grades as the board does.
type glanceScreen struct {
	bindings table
}

func newGlance(board table) *glanceScreen { return &glanceScreen{bindings: glanceTable(board)} }

func (s *glanceScreen) title() string  { return "Glance" }
func (s *glanceScreen) about() string  { return "the counts, large, for the students" }
func (s *glanceScreen) letter() string { return "v" }
func (s *glanceScreen) table() table   { return s.bindings }

// moment is the board's where something is begun.
func (s *glanceScreen) moment(a *App) moment {
	switch m := a.board.moment(a); m {
	case momentNobody, momentOut, momentFullRack, momentSpareShot, momentFree:
		return momentGlance
	default:
		return m
	}
}

// open tells whether there is an evening to show.
func (s *glanceScreen) open(a *App) bool {
	if a.evening == nil {
		a.refuse(errNoEvening)
		return false
	}
	return true
}

// escape leaves an open delivery as it was, or clears the call begun, or else goes back to the board.
func (s *glanceScreen) escape(a *App) {
	if _, open := a.evening.Editing(); open || a.evening.Begun(a.evening.UpStudent()) {
		a.escape()
		return
	}
	a.show(a.board)
}

// turn turns the screen to the student who is up.
func (s *glanceScreen) turn(a *App) {
	a.show(a.strip)
	if a.screen == screen(a.strip) {
		a.strip.shielded, a.strip.before = true, s
	}
}

// glanceTile is one student as the glance shows it.
type glanceTile struct {
	name  string
	count rowCount
	// goal is the student's own, in whole good shots, 0 where there is none.
	goal int
	// words say what is counted, short the same where there is little room.
	words, short string
	// up marks the student that the keys speak of, next who is up on another pair, out who bowls no more for now.
	up, next, out bool
}

// setTiles takes down what there is to show of everyone.
func (p *glancePicture) setTiles() {
	up := p.board.Evening.UpStudent()
	for i, r := range p.rows {
		p.rows[i].careful, p.rows[i].begun = false, ""
		t := glanceTile{
			count: p.board.countOf(r), goal: p.goalOf(r),
			up: r.student.ID == up, next: r.up && r.student.ID != up, out: r.seat.Out,
		}
		t.words, t.short = t.said(r.sheet)
		p.tiles = append(p.tiles, t)
	}
}

// names gives everyone's first name in up to some cells, more where two are alike, cut so that they still differ.
func (p glancePicture) names(cells int) []string {
	if names, ok := p.named[cells]; ok {
		return names
	}
	nameRows(p.board.Evening, p.rows, cells, 2)
	names := make([]string, len(p.rows))
	for i, r := range p.rows {
		names[i] = r.name
	}
	p.named[cells] = names
	return names
}

// goalOf gives how many good shots a student works towards now, 0 where no number is.
func (p glancePicture) goalOf(r boardRow) int {
	if r.sheet == nil || r.sheet.Game.Kind == model.KindGame {
		return p.board.Evening.ChosenFor(r.student.ID).Goal.Whole()
	}
	if pace, ok := p.board.Pace[r.student.ID]; ok && r.rack.Full {
		return pace.Target
	}
	return 0
}

// rowAt gives the place of the student whose tile lies at a cell of the picture.
func (s *glanceScreen) rowAt(a *App, x, y, w, h int) (int, bool) {
	p := s.picture(a)
	if len(p.tiles) == 0 {
		return 0, false
	}
	g := p.layOut(w, h)
	column, row := x/(g.outer()+between), y/g.high
	at := row*g.columns + column
	return at, column < g.columns && at < len(p.tiles)
}

// markRow puts a student up.
func (s *glanceScreen) markRow(a *App, row int) {
	if words := openUnseen(a); words != "" {
		a.refuseWith(words)
		return
	}
	a.tell(a.evening.PutUp(a.evening.Seats()[row].Student))
}
