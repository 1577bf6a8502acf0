package tui

import (
	"strconv"
	"strings"

	"coach.settee/model"
)

// boardRow is one student as the board shows it.
type boardRow struct {
	seat    model.Seat
	student model.Student
	sheet   *model.Sheet
	rack    model.Rack
	// speaking marks the student that the keys speak of, reopened that it is of a delivery reopened, up who is up on a pair.
	speaking, reopened, up bool
	// careful marks a student of whom something is to be minded, load is how many balls were thrown tonight where there is a
	// limit to them.
	careful bool
	load    int
	// bond joins the students of a pair: the first, those between, the last.
	bond string
	// begun is the call begun for a student who is not up, in short.
	begun string
	name  string
	// suffix follows the name where a row has one line.
	suffix string
}

func (r boardRow) pair() model.Pair { return r.seat.Pair() }

// students gives the rows in screen order, without their names.
func (p boardPicture) students() []boardRow {
	e := p.Evening
	speaking, _ := e.Speaking()
	_, reopened := e.Editing()
	seats := e.Seats()
	rows := make([]boardRow, len(seats))
	for i, seat := range seats {
		id := seat.Student
		rows[i] = boardRow{
			seat: seat, student: e.Student(id), sheet: e.Sheet(id), rack: e.Rack(id),
			speaking: id == speaking, reopened: id == speaking && reopened, up: id == e.UpOn(seat.Pair()),
		}
		if rows[i].student.LoadLimit > 0 {
			rows[i].load = e.Load(id)
		}
		rows[i].careful = careful(rows[i].student, rows[i].load)
		if e.Begun(id) && (id != speaking || reopened) {
			rows[i].begun = begunWords(e.CallOf(id), e.ChosenFor(id))
		}
	}
	for i := range rows {
		rows[i].bond = bond(rows, i)
	}
	return rows
}

// bond gives the sign that joins a row to the others of its pair.
func bond(rows []boardRow, i int) string {
	before := i > 0 && rows[i-1].pair() == rows[i].pair()
	after := i < len(rows)-1 && rows[i+1].pair() == rows[i].pair()
	switch {
	case before && after:
		return "│"
	case after:
		return "╮"
	case before:
		return "╯"
	}
	return " "
}

// begunWords says a call in the signs of its keys: b- is balance lowered by one step, in2 two boards inside.
func begunWords(c model.Call, chosen model.Chosen) string {
	var words []string
	start := chosen.StartLetters()
	for _, a := range model.Axes {
		steps := int(start[a]) - int(c.Letters[a])
		switch {
		case a == model.Target && c.Side != "":
			words = append(words, string(c.Side)+strconv.Itoa(c.SideBoards))
		case start[a] == model.NoLetter && c.Letters[a] != model.NoLetter:
			words = append(words, axisKeys[a]+c.Letters[a].String())
		case steps > 0:
			words = append(words, axisKeys[a]+strings.Repeat("-", steps))
		case steps < 0:
			words = append(words, axisKeys[a]+strings.Repeat("+", -steps))
		}
	}
	if c.Unseen {
		words = append(words, "unseen")
	}
	if c.Foul {
		words = append(words, "foul")
	}
	if pins := namedWords(c.Pins); pins != "" {
		words = append(words, pins)
	}
	if len(words) == 0 {
		return "begun"
	}
	return strings.Join(words, " ")
}

// row adds the lines of one student. Staggered figures are those of rows that no line parts.
func (p boardPicture) row(lines []string, r boardRow, c boardColumns, plan boardPlan, staggered bool) []string {
	count, frames := p.countOf(r), p.framesOf(r, c)
	figures := count.drawn(c.figure, plan.row, p.Theme.ascii)
	shift := c.figure - width(figures[0])
	if plan.row == smallFont.lines && len(figures) > 1 && plan.gap == 0 {
		shift = stagger(staggered, shift+c.of-c.beside(count))
	}
	for i := range plan.row {
		l := newLine(c.all)
		p.leftPart(l, r, c, plan.row, i)
		if i < len(figures) {
			l.to(c.left() - c.of - c.figure + shift)
			l.add(p.countInk(r), figures[i])
		}
		if i == len(figures)-1 && c.of > 0 {
			l.add(p.Theme.quiet, " "+count.of)
		}
		l.to(c.left())
		frames.line(l, i, plan.row)
		if c.stats > 0 && i == 0 {
			l.to(c.left() + c.frames())
			l.add(ink{}, p.stats(r))
		}
		lines = append(lines, l.String())
	}
	for range plan.gap {
		lines = append(lines, "")
	}
	return lines
}

// stagger gives by how many cells a figure is moved to the right, so that it does not grow together with those above and
// below it, which fill their lines as it does.
func stagger(moved bool, over int) int {
	if !moved {
		return 0
	}
	return max(min(over, 4), 0)
}

// beside gives the cells of what stands beside a count.
func (c boardColumns) beside(count rowCount) int {
	if c.of == 0 {
		return 0
	}
	return 1 + width(count.of)
}

// countInk gives the ink of a count.
func (p boardPicture) countInk(r boardRow) ink {
	if r.speaking {
		return p.Theme.accent
	}
	return p.Theme.strong
}

// leftPart puts what stands before the count: who it is, and in the second line what there is to say of the student.
func (p boardPicture) leftPart(l *drawnLine, r boardRow, c boardColumns, rows, i int) {
	bar := p.barInk(r)
	marker, open, shut := " ", " ", " "
	switch {
	case r.reopened:
		marker, open, shut = "◀", "[", "]"
	case r.speaking:
		marker, open, shut = "▶", "[", "]"
	case r.up:
		marker = "▸"
	}
	switch i {
	case 0:
		lane := strconv.Itoa(p.Evening.LaneOf(r.student.ID))
		join := " "
		if rows == 1 {
			join = r.bond
		}
		l.add(bar, marker+open+fitRight(lane, c.lane)+join)
		l.put(bar, r.name, c.name-width(r.suffix))
		l.add(p.suffixInk(r), r.suffix)
		l.add(bar, shut)
	case 1:
		l.add(bar, blanks(edge+c.lane+1))
		words, with := p.secondLine(r, c)
		if r.speaking {
			with = bar
		}
		l.put(with, words, c.name+1)
	default:
		l.add(bar, blanks(edge+c.lane+1))
		with := p.Theme.quiet
		if r.speaking {
			with = bar
		}
		words := ""
		if i == 2 {
			words = loadWords(r, c.name+1)
		}
		l.put(with, words, c.name+1)
	}
}

// barInk gives the ink of who it is: a bar for the student that the keys speak of.
func (p boardPicture) barInk(r boardRow) ink {
	switch {
	case r.reopened:
		return p.Theme.openBar
	case r.speaking:
		return p.Theme.upBar
	case r.seat.Out:
		return p.Theme.quiet
	case r.up:
		return p.Theme.accent
	}
	return ink{}
}

func (p boardPicture) suffixInk(r boardRow) ink {
	if r.speaking {
		return p.barInk(r)
	}
	return p.Theme.alert
}

// secondLine says what there is to say under the name.
func (p boardPicture) secondLine(r boardRow, c boardColumns) (string, ink) {
	var words []string
	with := p.Theme.quiet
	if c.of == 0 {
		words = append(words, p.countOf(r).of)
	}
	if r.seat.Out {
		words, with = append(words, "out"), p.Theme.alert
	}
	if r.begun != "" {
		words, with = append(words, r.begun), p.Theme.accent
	}
	if r.seat.Out || r.begun != "" {
		return strings.Join(words, " "), with
	}
	return strings.TrimSpace(strings.Join(words, " ") + " " + p.titleOf(r.sheet)), with
}

// titleOf names what a student bowls, in short.
func (p boardPicture) titleOf(s *model.Sheet) string {
	switch {
	case s == nil:
		return ""
	case s.Game.Kind == model.KindGame && s.Game.Stopped != "":
		return p.Evening.TitleOf(s.Game) + " left"
	case s.Game.Kind == model.KindGame && s.Ended():
		return p.Evening.TitleOf(s.Game) + " over"
	case s.Game.Kind == model.KindDrill:
		return "drill"
	}
	return p.Evening.TitleOf(s.Game)
}

// stats gives score, highest possible and the chance of the goal, in the cells of columnsFor.
func (p boardPicture) stats(r boardRow) string {
	score, most, chance := "", "", ""
	if r.sheet != nil && r.sheet.Game.Kind == model.KindGame {
		score, most = strconv.Itoa(r.sheet.Card.Score), strconv.Itoa(r.sheet.Card.Max)
	}
	if pace, ok := p.Pace[r.student.ID]; ok {
		chance = percent(pace.Chance)
	}
	return statsCells(score, most, chance)
}

// statsCells gives score, highest possible and chance, or their headings.
func statsCells(score, most, chance string) string {
	return fitRight(score, 6) + fitRight(most, 5) + fitRight(chance, 7)
}

// percent gives a chance in whole per cents; only what is certain is 0% or 100%.
func percent(chance float64) string {
	n := int(chance*100 + 0.5)
	switch {
	case n == 0 && chance > 0:
		return "<1%"
	case n == 100 && chance < 1:
		return ">99%"
	}
	return strconv.Itoa(n) + "%"
}
