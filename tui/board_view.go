package tui

import (
	"slices"
	"strconv"
	"strings"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// boardPicture is what the board shows at one moment.
type boardPicture struct {
	Evening *model.Evening
	// Pace is that of each student's game or drill, where there is one.
	Pace map[model.ID]insight.Pace
	// Pending holds the deliveries that are not on disk yet.
	Pending map[model.ID]bool
	// Refused says that the disk does not take them.
	Refused bool
	// Counting says that the next digit is a number of pins felled.
	Counting bool
	Theme    *theme
	// Tight keeps each student to one line.
	Tight bool
	// Scrolled is by how many rows the wheel has moved those that do not all fit.
	Scrolled int
}

// draw gives the board in exactly h lines, none wider than w cells.
func (p boardPicture) draw(w, h int) string {
	if h <= 0 {
		return ""
	}
	rows := p.students()
	lines := make([]string, 0, h)
	if len(rows) == 0 {
		lines = p.welcome(lines, w, h)
	} else {
		lines = p.board(lines, rows, w, h)
	}
	for len(lines) < h {
		lines = append(lines, "")
	}
	return p.Theme.finish(strings.Join(lines[:h], "\n"))
}

// unkept gives the sign of a delivery that is not on disk: … while it is on its way, ? while the disk refuses it.
func (p boardPicture) unkept(id model.ID) string {
	switch {
	case !p.Pending[id]:
		return ""
	case p.Refused:
		return "?"
	}
	return "…"
}

// studentAt gives the student in whose row a line of the board drawn in w and h lies, counted from 0.
func (p boardPicture) studentAt(w, h, line int) (model.ID, bool) {
	rows := p.students()
	plan, first := p.layOut(rows, w, h)
	for i := first; i < first+plan.shown; i++ {
		if plan.headed(rows, i, first) {
			line--
		}
		if line >= 0 && line < plan.row+plan.gap {
			return rows[i].student.ID, true
		}
		line -= plan.row + plan.gap
	}
	return "", false
}

// keyAt gives the key of what lies at a cell of the panel of the board drawn in w and h.
func (p boardPicture) keyAt(w, h, x, line int) (panelKey, bool) {
	rows := p.students()
	if len(rows) == 0 {
		return panelKey{}, false
	}
	plan, _ := p.layOut(rows, w, h)
	return p.panelKeyAt(w, plan.panel, x, line-(h-plan.panel))
}

// layOut shares out the lines, and gives the first row shown.
func (p boardPicture) layOut(rows []boardRow, w, h int) (plan boardPlan, first int) {
	plan = planFor(len(rows), headingCount(rows), h, p.highestRow(w))
	first = min(firstShown(rows, plan.shown)+p.Scrolled, len(rows)-plan.shown)
	return plan, max(first, 0)
}

// headed tells whether there is a heading above a row that is shown.
func (p boardPlan) headed(rows []boardRow, i, first int) bool {
	return i == first || p.headings && rows[i].pair() != rows[i-1].pair()
}

// board adds the rows of the students who are shown, and the panel at the foot.
func (p boardPicture) board(lines []string, rows []boardRow, w, h int) []string {
	plan, first := p.layOut(rows, w, h)
	columns := columnsFor(w, laneDigits(rows), plan.row)
	nameRows(p.Evening, rows, columns.name, plan.row)
	last := first + plan.shown
	for i := first; i < last; i++ {
		if plan.headed(rows, i, first) {
			more, counted := "", ""
			if i == first {
				more, counted = moreWords(first, len(rows)-last), p.counted(rows[first:last], columns.figure+columns.of)
			}
			lines = append(lines, p.heading(rows[i].pair(), columns, plan, counted, more))
		}
		lines = p.row(lines, rows[i], columns, plan, i%2 == 1)
	}
	for len(lines) < h-plan.panel {
		lines = append(lines, "")
	}
	return p.panel(lines, w, plan.panel)
}

// welcome fills an evening that has no students.
func (p boardPicture) welcome(lines []string, w, h int) []string {
	t := p.Theme
	pairs := make([]string, 0, 8)
	for _, pair := range p.Evening.Session().Pairs {
		pairs = append(pairs, pair.String())
	}
	for range max((h-5)/2, 0) {
		lines = append(lines, "")
	}
	text := []struct {
		ink  ink
		text string
	}{
		{t.title, "No students yet on " + strings.Join(pairs, " ")},
		{ink{}, ""},
		{t.accent, "A adds a student"},
		{t.quiet, "name, average, and l for left-handed: Ada 120 l"},
		{t.quiet, "? shows every key"},
	}
	for _, l := range text {
		s := cut(l.text, w)
		lines = append(lines, blanks((w-width(s))/2)+l.ink.on(s))
	}
	return lines
}

// heading gives the line above a pair's first student: the pair, and above the first of all what the columns are, the
// counts among them, and how many students are out of view.
func (p boardPicture) heading(pair model.Pair, c boardColumns, plan boardPlan, counted, more string) string {
	t := p.Theme
	l := newLine(c.all)
	switch {
	case plan.headings:
		l.add(t.quiet, "─ "+pair.String()+" ")
	case more != "":
		l.add(t.alert, " "+more)
	default:
		l.add(t.quiet, " lane")
	}
	if counted == "" {
		l.add(t.quiet, strings.Repeat("─", l.room))
		return l.String()
	}
	l.to(c.left() - c.figure - c.of)
	l.add(t.quiet, counted)
	l.to(c.left())
	for frame := 1; frame <= 10; frame++ {
		l.add(t.quiet, " "+fit(strconv.Itoa(frame), c.cell-1))
	}
	l.to(c.left() + c.frames())
	if c.stats > 0 {
		l.add(t.quiet, statsCells("score", "most", "chance"))
	}
	return l.String()
}

// moreWords says how many students are out of view above and below.
func moreWords(above, below int) string {
	var words []string
	if above > 0 {
		words = append(words, "↑"+strconv.Itoa(above))
	}
	if below > 0 {
		words = append(words, "↓"+strconv.Itoa(below))
	}
	if len(words) == 0 {
		return ""
	}
	return strings.Join(append(words, "more"), " ")
}

// firstShown gives the first row to show of those that do not all fit: the first of all that has the student that the
// keys speak of in view.
func firstShown(rows []boardRow, shown int) int {
	speaking := slices.IndexFunc(rows, func(r boardRow) bool { return r.speaking })
	if shown <= 0 || speaking < 0 {
		return 0
	}
	return max(speaking-shown+1, 0)
}

func headingCount(rows []boardRow) int {
	n := 0
	for i := range rows {
		if i == 0 || rows[i].pair() != rows[i-1].pair() {
			n++
		}
	}
	return n
}

func laneDigits(rows []boardRow) int {
	n := 1
	for _, r := range rows {
		n = max(n, len(strconv.Itoa(r.pair()[1])))
	}
	return n
}
