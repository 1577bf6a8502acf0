package tui

import (
	"fmt"
	"strconv"
	"strings"

	"coach.settee/model"
)

// factLines gives what else is known of the delivery in at most height lines of w cells, the most important first.
func (b boardPanel) factLines(w, height int) []string {
	if height < 1 {
		return nil
	}
	var lines []string
	for _, f := range b.factList() {
		if len(lines) > height {
			break
		}
		lines = append(lines, f.lines(w, b.theme)...)
	}
	if b.hasFocus() {
		if focus := b.focusFact().lines(w, b.theme); len(lines)+len(focus) <= height {
			return append(lines, focus...)
		}
	}
	if len(lines) > height {
		last := lines[height-1]
		lines = append(lines[:height-1], cut(last, w-1)+"…")
	}
	return lines
}

// fact is something said of a delivery, with a label unless it says it itself.
type fact struct {
	label, text string
	ink         ink
}

func (f fact) lines(w int, t *theme) []string {
	const labelCells = 6
	label := 0
	if f.label != "" {
		label = labelCells
	}
	room := w - label
	if !isSettled(f.text) {
		// The terminal may draw it wider than it is measured, and must not come to the edge.
		room = room * 2 / 3
	}
	lines := wrap(f.text, max(room, 1))
	for i, text := range lines {
		before := blanks(label)
		if i == 0 {
			before = t.quiet.on(fit(f.label, label))
		}
		lines[i] = before + f.ink.on(text)
	}
	return lines
}

func (b boardPanel) factList() []fact {
	var facts []fact
	cue := ""
	if b.editing {
		cue = b.edit.Cue
		facts = append(facts, fact{text: "enter keeps the change, esc leaves it as it was", ink: b.theme.alert})
	} else {
		facts = append(facts, b.paceFacts()...)
		seat, _ := b.picture.Evening.SeatOf(b.student.ID)
		cue = seat.Cue
	}
	for _, f := range []fact{
		{label: "cue", text: clean(cue), ink: b.theme.accent},
		loadFact(b.student, b.picture.Evening.Load(b.student.ID), b.theme),
		{label: "ball", text: ballWords(b.call)},
		{label: "note", text: clean(b.call.Note)},
	} {
		if f.text != "" {
			facts = append(facts, f)
		}
	}
	return facts
}

// hasFocus tells whether there is a focus to be said: in roomy windows, where no cue says it better.
func (b boardPanel) hasFocus() bool {
	seat, _ := b.picture.Evening.SeatOf(b.student.ID)
	return b.width >= roomyWidth && !b.editing && seat.Cue == "" && b.focusFact().text != ""
}

// focusFact says what the student works on tonight.
func (b boardPanel) focusFact() fact {
	return fact{label: "focus", text: clean(b.picture.Evening.FocusOf(b.student.ID)), ink: b.theme.quiet}
}

// paceFacts says how the goal stands, with its chance where there is room.
func (b boardPanel) paceFacts() []fact {
	pace, ok := b.picture.Pace[b.student.ID]
	if !ok {
		return nil
	}
	if x := b.sheet; x != nil && x.Finished() {
		// The heading is of what comes next.
		return []fact{{text: clean(b.picture.Evening.TitleOf(x.Game)) + ": " + pace.Words(), ink: b.theme.strong}}
	}
	facts := []fact{{text: pace.Words(), ink: b.theme.strong}}
	if b.width >= roomyWidth {
		facts = append(facts, fact{
			text: fmt.Sprintf("heading for %.1f, chance of %d: %s", pace.Expected, pace.Target, percent(pace.Chance)),
			ink:  b.theme.quiet,
		})
	}
	return facts
}

// ballWords says where the ball went and what the student made of it.
func ballWords(c model.Call) string {
	var words []string
	if hit := hitWords(c); hit != "" {
		words = append(words, hit)
	}
	if c.Own != model.Ungraded {
		words = append(words, "own call "+c.Own.String())
	}
	if line := lineWords(c.Line); line != "" {
		words = append(words, "line "+line)
	}
	if c.SpeedMPH.Known {
		words = append(words, number(c.SpeedMPH.Value)+" mph")
	}
	return strings.Join(words, ", ")
}

func hitWords(c model.Call) string {
	words := c.Hit.String()
	if c.HitBoards.Known {
		words = strings.TrimSpace(fmt.Sprintf("%s %+g", words, c.HitBoards.Value))
	}
	return words
}

// lineWords writes a line as its prompt takes it: arrows, slide, breakpoint with its distance in feet.
func lineWords(line model.Line) string {
	if line.IsZero() {
		return ""
	}
	words := []string{board(line.Arrows), board(line.Slide), board(line.Breakpoint)}
	if line.BreakpointFt.Known {
		words[2] += "@" + number(line.BreakpointFt.Value)
	}
	for len(words) > 0 && words[len(words)-1] == "." {
		words = words[:len(words)-1]
	}
	return strings.Join(words, " ")
}

func board(o model.Optional[float64]) string {
	if !o.Known {
		return "."
	}
	return number(o.Value)
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
