package tui

import (
	"fmt"
	"strconv"
	"strings"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// studentView is the screen turned to the student: that student alone, in the tone chosen. For gentle there are dots
// instead of letters, and nothing that counts against anyone.
func (p stripPicture) studentView() string {
	t := p.theme
	name := clean(firstWord(p.evening.Student(p.student).Name))
	x := p.sheet()
	if x == nil {
		return "\n  " + t.accent.on(name) + t.quiet.on("  nothing bowled yet")
	}
	title := "  " + t.accent.on(name) + "  " + t.title.on(clean(p.evening.TitleOf(x.Game)))
	if p.elsewhere != "" {
		title += t.quiet.on("  " + clean(p.elsewhere))
	}
	lines := []string{title, ""}
	lines = append(lines, p.largeCount(x)...)
	lines = append(append(append(lines, ""), p.largeDots(x)...), "")
	r := p.report()
	if r.Streaks.Longest > 1 {
		lines = append(lines, "  "+t.strong.on(fmt.Sprintf("longest run %d", r.Streaks.Longest)))
	}
	gentle := p.by.Chosen().Tone == model.Gentle
	held := insight.HeldUp(r)
	if gentle {
		// Without the letter that it goes by.
		held, _, _ = strings.Cut(held, ",")
	}
	if held != "" {
		for _, s := range says(t.good, p.w-4, "held up: "+held) {
			lines = append(lines, "  "+s)
		}
	}
	for _, s := range p.toTry(r.Next, gentle) {
		lines = append(lines, "  "+s)
	}
	if !gentle {
		lines = append(lines, p.plainly(x, r)...)
	}
	return strings.Join(lines, "\n")
}

// toTry says one thing to try, and why where that is for the student.
func (p stripPicture) toTry(n insight.Next, gentle bool) figureBlock {
	switch {
	case n.ByCoach:
		return says(p.theme.strong, p.w-4, "to try: "+n.What)
	case gentle:
		return says(p.theme.strong, p.w-4, n.Why)
	}
	return p.tryBlock(n, p.w-4)
}

// largeCount draws the good count of the goal; of a drill at pins those made.
func (p stripPicture) largeCount(x *model.Sheet) []string {
	count := p.board.countOf(boardRow{student: p.by, sheet: x, rack: x.Next()})
	words := count.of
	if x.Game.Kind == model.KindGame {
		words = fmt.Sprintf("good, goal %d", p.by.Chosen().Goal.Whole())
	}
	high := largeFont.lines
	if p.by.Chosen().Tone != model.Gentle && p.h < roomyHeight {
		// Letters and causes need the room.
		high = smallFont.lines
	}
	drawn := figure(count.n, 14, high, p.theme.ascii)
	lines := make([]string, len(drawn))
	for i, l := range drawn {
		lines[i] = "    " + p.theme.accent.on(l)
		if i == len(drawn)-1 {
			lines[i] += "  " + p.theme.title.on(words)
		}
	}
	return lines
}

// largeDots sets the dots apart, of a game with the frame above each, the one selected marked and in view.
func (p stripPicture) largeDots(x *model.Sheet) []string {
	const cells = 4
	chosen, _, _ := p.chosen()
	var numbers, dots []string
	at := 0
	for i, d := range x.Deliveries {
		dot := dotOf(d, x.Racks[i])
		if dot == "" {
			continue
		}
		number, mark := d.Frame, " "
		if number == 0 {
			number = d.Seq
		}
		if d.ID == chosen.ID || d.Frame > 0 && d.Frame == chosen.Frame {
			at, mark = len(dots), "▶"
		}
		numbers, dots = append(numbers, mark+strconv.Itoa(number)), append(dots, " "+dot)
	}
	fits := max((p.w-4)/cells, 1)
	first := min(max(at-fits/2, 0), max(len(dots)-fits, 0))
	above, below := newLine(p.w), newLine(p.w)
	above.add(ink{}, "  ")
	below.add(ink{}, "  ")
	for i := first; i < min(first+fits, len(dots)); i++ {
		above.put(p.theme.quiet, numbers[i], cells)
		below.put(p.theme.good, dots[i], cells)
	}
	return []string{above.String(), below.String()}
}

// plainly adds letters and causes, for students who are told them.
func (p stripPicture) plainly(x *model.Sheet, r insight.Report) []string {
	lines := []string{""}
	if x.Game.Kind == model.KindGame {
		c := boardColumns{cell: 5, tenth: 8, stats: 1}
		c.all = c.frames()
		parts := p.board.framesOf(boardRow{sheet: x, rack: x.Next()}, c)
		for _, i := range []int{0, 1, 3} {
			l := newLine(p.w)
			l.add(ink{}, " ")
			parts.line(l, i, 2)
			lines = append(lines, l.String())
		}
		lines = append(lines, "")
	}
	for _, s := range p.costBlock(r, min(p.w-4, 44)) {
		lines = append(lines, "  "+s)
	}
	return lines
}
