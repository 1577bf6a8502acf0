package tui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// widestStudentView is the cells that the student's view takes of a wide window, in its middle.
const widestStudentView = 100

// studentView is the screen turned to the student: that student alone, in the tone chosen. For gentle there are dots
// instead of letters, and nothing that counts against anyone.
func (p stripPicture) studentView() string {
	margin := max(p.w-widestStudentView, 0) / 2
	h := p.h
	p.w -= 2 * margin
	lines := p.shown(p.studentLines(), h)
	out := make([]string, max(h-len(lines), 0)/3, h)
	if margin == 0 {
		out = nil
	}
	for _, l := range lines {
		out = append(out, blanks(margin)+l)
	}
	return strings.Join(out, "\n")
}

// studentLines gives the lines of the student's view, as large as there is room for.
func (p stripPicture) studentLines() []string {
	t := p.theme
	name := clean(firstWord(p.evening.Student(p.student).Name))
	x := p.sheet()
	if x == nil {
		return []string{"", "  " + t.accent.on(name) + t.quiet.on("  nothing bowled yet")}
	}
	title := "  " + t.accent.on(name) + "  " + t.title.on(clean(p.evening.TitleOf(x.Game)))
	if p.elsewhere != "" {
		title += t.quiet.on("  " + clean(p.elsewhere))
	}
	var lines []string
	for _, l := range studentLayouts {
		if lines = p.laidOut(x, title, l); len(lines) <= p.h {
			break
		}
	}
	return lines
}

// studentLayout is how the student's view is laid out.
type studentLayout struct {
	// count is the lines of the good count, 0 where it stands beside the title.
	count int
	// apart puts empty lines between what belongs together, bars draws what cost the shots.
	apart, bars bool
}

// studentLayouts are the layouts from the largest on; the first one that fits is taken.
var studentLayouts = []studentLayout{
	{largeFont.lines, true, true}, {smallFont.lines, true, true}, {smallFont.lines, true, false}, {0, true, false}, {0, false, false},
}

func (p stripPicture) laidOut(x *model.Sheet, title string, l studentLayout) []string {
	r := p.report()
	head := figureBlock{title}
	if l.count == 0 {
		head[0] += "  " + p.theme.accent.on(strconv.Itoa(p.count(x).n)) + p.theme.title.on(" "+p.countWords(x))
	}
	blocks := []figureBlock{head, p.largeCount(x, l.count), p.dotGrid(x), p.toldOf(r)}
	if p.told() {
		blocks = append(blocks, p.causes(r, l.bars))
	}
	if l.apart {
		return stacked(blocks)
	}
	return slices.Concat(blocks...)
}

// told tells whether the student is told letters and causes.
func (p stripPicture) told() bool { return p.by.Chosen().Tone != model.Gentle }

// toldOf gives the longest run, what held up, and one thing to try.
func (p stripPicture) toldOf(r insight.Report) figureBlock {
	t := p.theme
	var lines figureBlock
	if r.Streaks.Longest > 1 {
		lines = append(lines, t.strong.on(fmt.Sprintf("longest run %d", r.Streaks.Longest)))
	}
	held := insight.HeldUp(r)
	if !p.told() {
		// Without the letter that it goes by.
		held, _, _ = strings.Cut(held, ",")
	}
	if held != "" {
		lines = append(lines, says(t.good, p.w-4, "held up: "+held)...)
	}
	return indented(append(lines, p.toTry(r.Next, !p.told())...))
}

func indented(b figureBlock) figureBlock {
	for i := range b {
		b[i] = "  " + b[i]
	}
	return b
}

// toTry says one thing to try, and why where that is for the student.
func (p stripPicture) toTry(n insight.Next, gentle bool) figureBlock {
	switch {
	case n.ByCoach:
		return says(p.theme.strong, p.w-4, "to try: "+n.What)
	case n.Early:
		// What it goes by is for the coach.
		return says(p.theme.strong, p.w-4, insight.KeepGoing)
	case gentle:
		return says(p.theme.strong, p.w-4, n.Why)
	}
	return p.tryBlock(n, p.w-4)
}

// largeCount draws in some lines the good count of the goal; of a drill at pins those made.
func (p stripPicture) largeCount(x *model.Sheet, high int) figureBlock {
	if high == 0 {
		return nil
	}
	drawn := figure(p.count(x).n, 14, high, p.theme.ascii)
	lines := make(figureBlock, len(drawn))
	for i, l := range drawn {
		lines[i] = "    " + p.theme.accent.on(l)
		if i == len(drawn)-1 {
			lines[i] += "  " + p.theme.title.on(p.countWords(x))
		}
	}
	return lines
}

func (p stripPicture) count(x *model.Sheet) rowCount {
	return p.board.countOf(boardRow{student: p.by, sheet: x, rack: x.Next()})
}

func (p stripPicture) countWords(x *model.Sheet) string {
	if x.Game.Kind == model.KindGame {
		return fmt.Sprintf("good, goal %d", p.by.Chosen().Goal.Whole())
	}
	return p.count(x).of
}

// dotGrid has the dots of a game below the numbers of its frames, and where the student is told letters, pins, grades and
// totals below them.
func (p stripPicture) dotGrid(x *model.Sheet) figureBlock {
	if x.Game.Kind != model.KindGame {
		return p.largeDots(x)
	}
	var dots [10]string
	for i, d := range x.Deliveries {
		dots[d.Frame-1] += dotOf(d, x.Racks[i])
	}
	c := p.frameColumns()
	l := newLine(p.w)
	l.add(ink{}, " ")
	for _, dot := range dots {
		l.put(p.theme.good, " "+dot, c.cell)
	}
	lines := figureBlock{p.frameNumbers(c), l.String()}
	if p.told() {
		lines = append(lines, p.frameLines(x, c, true)...)
	}
	return lines
}

// largeDots sets the dots of a drill apart, the one selected marked and in view.
func (p stripPicture) largeDots(x *model.Sheet) figureBlock {
	cells := 4
	if p.w >= roomyWidth {
		cells = 6
	}
	chosen, _, _ := p.chosen()
	var numbers, dots []string
	at := 0
	for i, d := range x.Deliveries {
		dot, mark := dotOf(d, x.Racks[i]), " "
		if dot == "" {
			continue
		}
		if d.ID == chosen.ID {
			at, mark = len(dots), "▶"
		}
		numbers, dots = append(numbers, mark+strconv.Itoa(d.Seq)), append(dots, " "+dot)
	}
	fits := max((p.w-4)/cells, 1)
	first, end := inView(at, at+1, fits, len(dots))
	above, below := newLine(p.w), newLine(p.w)
	above.add(ink{}, "  ")
	below.add(ink{}, "  ")
	for i := first; i < end; i++ {
		above.put(p.theme.quiet, numbers[i], cells)
		below.put(p.theme.good, dots[i], cells)
	}
	return figureBlock{above.String(), below.String()}
}

// causes tells what cost the other shots, as bars or in words.
func (p stripPicture) causes(r insight.Report, bars bool) figureBlock {
	if r.Cost.NotGood == 0 {
		return nil
	}
	if bars {
		return indented(p.costBlock(r, min(p.w-4, 44)))
	}
	return indented(says(ink{}, p.w-4, r.Cost.Words(), r.Cost.WordsSide()))
}
