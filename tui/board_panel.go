package tui

import (
	"fmt"
	"strconv"
	"strings"

	"coach.settee/model"
)

// boardPanel is the foot of the board: the delivery being called.
type boardPanel struct {
	picture boardPicture
	theme   *theme
	student model.Student
	sheet   *model.Sheet
	rack    model.Rack
	call    model.Call
	// grading is what the delivery is graded by.
	grading model.Chosen
	// edit is the delivery reopened, if editing.
	edit    model.Edit
	editing bool
	// width is the panel's cells; large tells that the letters are drawn in block figures.
	width int
	large bool
	facts []string
}

// panel adds the panel in some lines of w cells.
func (p boardPicture) panel(lines []string, w, height int) []string {
	if height == 0 {
		return lines
	}
	id, rack := p.Evening.Speaking()
	b := boardPanel{picture: p, theme: p.Theme, rack: rack, width: w}
	lines = append(lines, b.bar(id))
	if id == "" {
		lines = append(lines, p.Theme.quiet.on(cut("  A adds a student here, space goes to the next pair", w)))
		return lines
	}
	b.student, b.call, b.sheet = p.Evening.Student(id), p.Evening.Call(), p.Evening.Sheet(id)
	b.grading = p.Evening.Grading()
	b.edit, b.editing = p.Evening.Editing()
	b.large = p.isLarge(w, height)
	b.facts = b.factLines(w-b.factColumn(), height-1)
	for i := range height - 1 {
		lines = append(lines, b.line(i))
	}
	return lines
}

// isLarge tells whether a panel of some lines in w cells has its letters in block figures.
func (p boardPicture) isLarge(w, height int) bool {
	return height >= largePanel && w >= roomyWidth
}

// The columns of the panel: letters, then the rack, then the facts.
const (
	letterCells, rackCells           = 21, 11
	largeLetterCells, largeRackCells = 46, 19
)

// letterColumn is where an axis' letter stands, largeLetterColumn the cells that each has in block figures.
const letterColumn, largeLetterColumn = 11, 11

func (b boardPanel) rackColumn() int {
	if b.large {
		return largeLetterCells
	}
	return letterCells
}

func (b boardPanel) factColumn() int {
	if b.large {
		return largeLetterCells + largeRackCells
	}
	return letterCells + rackCells
}

// stateLine is the line under the letters that says what is named of the pins.
func (b boardPanel) stateLine() int {
	if b.large {
		return 6
	}
	return 4
}

func (b boardPanel) line(i int) string {
	l := newLine(b.width)
	switch {
	case i == b.stateLine():
		b.state(l)
	case b.large:
		b.largeLetters(l, i)
	default:
		b.letters(l, i)
	}
	b.pins(l, i)
	if i < len(b.facts) {
		l.to(b.factColumn())
		l.add(ink{}, b.facts[i])
	}
	return l.String()
}

// bar gives the heading: whose delivery it is, and which.
func (b boardPanel) bar(id model.ID) string {
	e := b.picture.Evening
	l := newLine(b.width)
	words, with, rule := "", b.theme.upBar, b.theme.accent
	edit, editing := e.Editing()
	switch {
	case id == "":
		words = fmt.Sprintf(" nobody is up on %s ", e.PairInView())
	case editing:
		words, with, rule = " ◀ "+changingWords(e, edit)+" ", b.theme.openBar, b.theme.cost
	default:
		words = fmt.Sprintf(" ▶ %s  lane %d  %s ", clean(e.Label(id)), e.LaneOf(id), nextWords(e, id, b.rack))
		if seat, _ := e.SeatOf(id); seat.Out {
			words += " out: V brings back in "
		}
	}
	l.add(rule, "━━")
	l.add(with, cut(words, b.width-2))
	l.add(rule, strings.Repeat("━", l.room))
	return l.String()
}

// nextWords says which delivery a student's next one is.
func nextWords(e *model.Evening, id model.ID, r model.Rack) string {
	s := e.Sheet(id)
	switch {
	case s == nil:
		return "first game, frame 1"
	case s.Game.Kind == model.KindWarmup:
		return fmt.Sprintf("warm-up, ball %d", s.Live()+1)
	case s.Ended() && s.Game.Kind == model.KindDrill:
		return "next " + clean(e.TitleOf(s.Game)) + ", ball 1"
	case s.Ended():
		return "next game, frame 1"
	case s.Game.Kind == model.KindDrill && s.Game.Length > 0:
		return fmt.Sprintf("%s, ball %d of %d", clean(e.TitleOf(s.Game)), s.Live()+1, s.Game.Length)
	case s.Game.Kind == model.KindDrill:
		return fmt.Sprintf("%s, ball %d", clean(e.TitleOf(s.Game)), s.Live()+1)
	case r.Ball > 1:
		return fmt.Sprintf("frame %d, ball %d", r.Frame, r.Ball)
	}
	return fmt.Sprintf("frame %d", r.Frame)
}

// changingWords says which delivery is reopened.
func changingWords(e *model.Evening, edit model.Edit) string {
	name := clean(e.Label(edit.Student))
	s := e.SheetOf(edit.Game)
	for _, d := range s.Deliveries {
		if d.ID != edit.Delivery {
			continue
		}
		kept := ""
		if d.Dead {
			kept = ", dead ball"
		}
		if d.Frame > 0 {
			return fmt.Sprintf("changing frame %d of %s, ball %d on lane %d%s", d.Frame, name, d.Ball, d.Lane, kept)
		}
		return fmt.Sprintf("changing ball %d of %s, %s on lane %d%s", d.Seq, name, clean(e.TitleOf(s.Game)), d.Lane, kept)
	}
	return "changing a delivery of " + name
}

// letters puts an axis with its letter in a line.
func (b boardPanel) letters(l *drawnLine, i int) {
	if i >= model.AxisCount {
		return
	}
	a := model.Axes[i]
	l.add(b.theme.key, " "+axisKeys[a])
	l.put(b.theme.quiet, " "+a.String(), letterColumn-2)
	text, with := b.letter(a)
	l.add(with, text)
	if a == model.Target {
		l.add(b.theme.cost, " "+b.side())
	}
}

// letter gives what is set on an axis.
func (b boardPanel) letter(a model.Axis) (string, ink) {
	letter := b.call.Letters[a]
	switch {
	case b.call.Unseen:
		return "–", b.theme.quiet
	case letter == model.NoLetter:
		return "·", b.theme.quiet
	case letter == model.A:
		return letter.String(), b.theme.strong
	}
	return letter.String(), b.theme.alert
}

func (b boardPanel) side() string {
	if b.call.Side == "" || b.call.Unseen {
		return ""
	}
	return fmt.Sprintf("%s %d", b.call.Side, b.call.SideBoards)
}

// largeLetters puts a line of the letters in block figures, the axes side by side.
func (b boardPanel) largeLetters(l *drawnLine, i int) {
	for _, a := range model.Axes {
		end := l.used + largeLetterColumn
		text, with := b.letter(a)
		block, drawn := mediumFont.drawIn(strings.ReplaceAll(text, "–", "-"), b.theme.ascii)
		switch {
		case i == 0:
			l.add(b.theme.key, " "+axisKeys[a])
			l.add(b.theme.quiet, " "+a.String())
		case i <= mediumFont.lines && drawn:
			l.add(with, "   "+block[i-1])
		case i == 2:
			l.add(with, "   "+text)
		case i == mediumFont.lines+1 && a == model.Target:
			l.add(b.theme.cost, "   "+b.side())
		}
		l.to(end)
	}
}

// state puts what is named of the pins, foul and unseen, and where there is room the grade that the letters give.
func (b boardPanel) state(l *drawnLine) {
	if b.picture.Counting {
		l.add(b.theme.alert, fmt.Sprintf(" = : how many of the %d fell?", b.rack.Count))
		return
	}
	if words := namedWords(b.call.Pins); words != "" {
		l.add(b.theme.strong, " "+words)
	} else if !b.rack.Standing.Known {
		l.add(b.theme.quiet, fmt.Sprintf(" %d left, not known which", b.rack.Count))
	}
	if b.call.Foul {
		l.add(b.theme.alert, " FOUL")
	}
	if b.call.Unseen {
		l.add(b.theme.alert, " UNSEEN")
		return
	}
	if b.width >= roomyWidth {
		l.add(b.theme.quiet, "  grade "+gradeWords(b.call.Letters, b.grading))
	}
}

// gradeWords says what the letters make of a shot.
func gradeWords(letters model.Letters, by model.Chosen) string {
	grade := model.Grade(letters, by.Weights)
	switch {
	case grade == model.Ungraded:
		return "none"
	case model.IsGood(letters, by.Weights, by.Bar):
		return grade.String() + ", good"
	}
	return grade.String()
}

// namedWords says what is named of the pins.
func namedWords(n model.Naming) string {
	switch n.How {
	case model.NoneDown:
		return "none down"
	case model.LeftNamed:
		if n.Left == 0 {
			return "all down"
		}
		return "left " + n.Left.String()
	case model.FelledCounted:
		return strconv.Itoa(n.Felled) + " down"
	}
	return ""
}

// pinRows are the pins as they stand, the back row first.
var pinRows = [...][]int{{7, 8, 9, 10}, {4, 5, 6}, {2, 3}, {1}}

// pins puts a line of the rack: a number stands, ● is named as left, · was down before the ball.
func (b boardPanel) pins(l *drawnLine, i int) {
	row, column, cells := b.pinRow(i)
	if row == nil {
		return
	}
	l.to(column)
	for _, pin := range row {
		text, with := b.pin(pin)
		l.put(with, text, cells)
	}
}

// pinRow gives the pins that a line of the panel shows, from which column on and in how many cells each.
func (b boardPanel) pinRow(i int) (row []int, column, cells int) {
	at, cells := i, 2
	if b.large {
		at, cells = i/2, 4
	}
	if at >= len(pinRows) || b.large && i%2 == 1 || i == b.stateLine() && !b.large {
		return nil, 0, cells
	}
	return pinRows[at], b.rackColumn() + at*cells/2, cells
}

func (b boardPanel) pin(n int) (string, ink) {
	switch {
	case b.call.Pins.How == model.LeftNamed && b.call.Pins.Left.Has(n):
		return "●", b.theme.cost
	case b.rack.Standing.Known && !b.rack.Standing.Pins.Has(n):
		return "·", b.theme.quiet
	case !b.rack.Standing.Known:
		return strconv.Itoa(n), b.theme.quiet
	}
	return strconv.Itoa(n), ink{}
}
