package tui

import (
	"fmt"
	"slices"
	"strings"

	"coach.settee/model"
)

// limitCaution stands at the foot of the limits; common practice, no source.
const limitCaution = "stop at pain and see a licensed clinician; local rules come first"

// The record's columns: what stands before a field's name, and the name; from besideFacts on the facts are beside the fields.
const (
	rowMark, rowName = 2, 18
	besideFacts      = 100
)

func (s *studentScreen) draw(a *App, w, h int) string {
	if s.isFinding(a) {
		return s.drawFound(a, w, h)
	}
	if _, ok := s.shown(a); !ok {
		return s.empty(a, w)
	}
	lines := []string{s.head(a, w)}
	room := h - len(lines)
	switch {
	case s.intake != nil:
		lines = s.drawIntake(a, w)
	case s.bared:
		lines = append(lines, s.private(a, w, room)...)
	case w >= besideFacts:
		left := fieldCells(w)
		fields, facts := s.fieldsAndHint(a, left, room), s.factBlock(a, w-left-gutter, room)
		for i := range fields {
			fields[i] = fit(fields[i], left)
			if i < len(facts) {
				fields[i] += blanks(gutter) + facts[i]
			}
		}
		lines = append(lines, fields...)
	default:
		facts := s.factBlock(a, w, mostFacts(h))
		lines = append(lines, s.fieldsAndHint(a, w, room-len(facts))...)
		lines = append(lines, facts...)
	}
	return strings.Join(lines, "\n")
}

// fieldCells gives the cells of the fields in w where the facts are beside them.
func fieldCells(w int) int { return min(w*11/20, 92) }

// empty says how to begin.
func (s *studentScreen) empty(a *App, w int) string {
	title, more := "  No student is kept yet.", ""
	if len(a.students) > 0 {
		title, more = "  Every student is archived.", "  v   lists them too"
	}
	lines := []string{"", a.theme.title.on(cut(title, w)), "", cut("  n   takes one in: name, average, l for left-handed", w), more}
	return strings.Join(lines, "\n")
}

// mostFacts is how many of h lines what the evenings say may take below the fields.
func mostFacts(h int) int {
	if h >= 20 {
		return 6
	}
	return 3
}

// head says whose record it is.
func (s *studentScreen) head(a *App, w int) string {
	student, _ := s.shown(a)
	t, l := a.theme, newLine(w)
	name := cut(clean(a.labelOf(student.ID)), max(w-40, w/2))
	l.add(ink{}, "  ")
	l.add(t.accent, name)
	if student.Minor {
		l.add(t.alert, "  minor")
	}
	if student.Archived {
		l.add(t.alert, "  archived")
	}
	l.add(t.quiet, "  "+string(student.Chosen().Level))
	if a.evening != nil {
		if seat, here := a.evening.SeatOf(student.ID); here {
			l.add(t.quiet, "  here on "+seat.Pair().String())
		}
	}
	return l.String()
}

// mostHintLines is the most lines that say what may be typed for the field marked.
const mostHintLines = 2

// fieldsAndHint draws the fields, the one marked in view, with what may be typed for it below.
func (s *studentScreen) fieldsAndHint(a *App, w, h int) []string {
	hint := s.hint(a, w)
	lines, _, first, end := s.fieldLines(a, w, h)
	out := slices.Clone(lines[first:end])
	where := ""
	switch {
	case a.prompt != nil && a.prompt == s.editing.prompt:
		where = " ctrl+u empties the line "
	case end-first < len(lines):
		where = fmt.Sprintf(" %d to %d of %d ", first+1, end, len(lines))
	}
	rule := cut(strings.Repeat("─", max(w-width(where)-4, 0))+where+"────", w)
	return append(append(out, a.theme.quiet.on(rule)), hint...)
}

// fieldLines gives the lines of all fields with the row of each, and which are in view in h lines with the hint below.
func (s *studentScreen) fieldLines(a *App, w, h int) (lines []string, rows []int, first, end int) {
	var top, bottom int
	for row := range s.intakeRow() + 1 {
		drawn := s.row(a, row, w)
		if row == s.marked {
			top, bottom = len(lines), len(lines)+len(drawn)
		}
		lines = append(lines, drawn...)
		for range drawn {
			rows = append(rows, row)
		}
	}
	first, end = inView(top, bottom, max(h-1-len(s.hint(a, w)), 1), len(lines))
	return lines, rows, first, end
}

// row draws a field: its name, what holds, and what was refused of it.
func (s *studentScreen) row(a *App, row, w int) []string {
	student, _ := s.shown(a)
	name, value, private := "intake", intakeShown(student.Intake), false
	if row < s.intakeRow() {
		f := s.fields[row]
		name, private = f.Name, f.Private
		if private {
			value = f.Text(student)
		} else {
			value = f.Shown(student)
		}
	}
	t, l := a.theme, newLine(w)
	mark, nameInk, valueInk := "  ", t.quiet, ink{}
	if row == s.marked {
		mark, nameInk, valueInk = "▶ ", t.accent, t.strong
	}
	if private && value != "" {
		value, valueInk = hidden, t.alert
	}
	l.put(nameInk, mark+name, rowMark+rowName)
	refused := ""
	if row == s.marked {
		refused = clean(s.refusedOf(a))
	}
	value = clean(value)
	var rest []string
	if refused != "" {
		value = cut(value, max(l.room-width(refused)-2, l.room/4))
		refused, rest = besideValue(t, refused, l.room-width(value)-2, w)
	}
	switch {
	case value != "" || refused != "":
	case row == s.intakeRow():
		value, valueInk = "not taken yet: i asks", t.quiet
	default:
		value, valueInk = "-", t.quiet
	}
	if row == s.intakeRow() {
		wrapped := wrap(value, l.room)
		value = wrapped[0]
		for _, more := range wrapped[1:] {
			rest = append(rest, blanks(rowMark+rowName)+cut(more, w-rowMark-rowName))
		}
	}
	value = cut(value, l.room)
	l.add(valueInk, value)
	if refused != "" {
		l.add(t.alert, "  "+refused)
	}
	lines := append([]string{l.String()}, rest...)
	if name == limitsName {
		for _, caution := range wrap(limitCaution, w-rowMark-2) {
			lines = append(lines, t.quiet.on(blanks(rowMark+2)+caution))
		}
	}
	return lines
}

// besideValue gives of a refusal what has room beside the value, and the lines below that take the rest.
func besideValue(t *theme, refused string, room, w int) (beside string, below []string) {
	refused = strings.Join(strings.Fields(refused), " ")
	if width(refused) <= room {
		return refused, nil
	}
	first := wrap(refused, max(room, 1))[0]
	rest, whole := strings.CutPrefix(refused, first+" ")
	if !whole {
		first, rest = "", refused
	}
	for _, line := range wrap(rest, w-rowMark-rowName) {
		below = append(below, blanks(rowMark+rowName)+t.alert.on(cut(line, w-rowMark-rowName)))
	}
	return first, below
}

// limitsName is the field that the caution belongs to.
const limitsName = "limits"

// hint says what may be typed for the field marked, in as many lines as the longest hint takes.
func (s *studentScreen) hint(a *App, w int) []string {
	wrapped := func(row int) []string {
		words := "intake: enter asks a question after the other, a key each"
		if row < s.intakeRow() {
			words = s.fields[row].Name + ": " + s.fields[row].Hint
		}
		return wrap(clean(words), w-3)
	}
	longest := 0
	for row := range s.intakeRow() + 1 {
		longest = max(longest, len(wrapped(row)))
	}
	out := make([]string, min(longest, mostHintLines))
	lines := wrapped(s.marked)
	for i := range min(len(out), len(lines)) {
		out[i] = a.theme.quiet.on("  " + lines[i])
	}
	return out
}

// factBlock draws what the evenings say in up to h lines, each thing whole or not at all; apart where there is room.
func (s *studentScreen) factBlock(a *App, w, h int) []string {
	student, _ := s.shown(a)
	var lines []string
	indent, apart := "  ", a.w >= besideFacts
	if apart {
		lines, indent = append(lines, a.theme.title.on(cut("what the evenings say", w))), ""
	}
	for _, f := range s.factLines(a, student) {
		var block []string
		if apart {
			block = append(block, "")
		}
		for i, line := range wrap(clean(f.words), w-len(indent)-3) {
			if i > 0 {
				line = "  " + line
			}
			block = append(block, f.ink.on(indent+line))
		}
		if len(lines)+len(block) <= h {
			lines = append(lines, block...)
		}
	}
	return lines
}

// private draws the texts that are not for every eye, that of the field marked first.
func (s *studentScreen) private(a *App, w, h int) []string {
	student, _ := s.shown(a)
	lines := []string{a.theme.alert.on(cut("  For your eye only: any key hides it", w)), ""}
	for _, text := range s.privateTexts(student) {
		for i, line := range wrap(clean(text[1]), w-rowMark-rowName-1) {
			name := ""
			if i == 0 {
				name = text[0]
			}
			lines = append(lines, a.theme.quiet.on(fit("  "+name, rowMark+rowName))+line)
		}
		lines = append(lines, "")
	}
	if len(lines) == 2 {
		lines = append(lines, "  no limits, no notes, and nothing that hurts", "")
	}
	lines = append(lines, a.theme.quiet.on(cut("  "+limitCaution, w)))
	if len(lines) > h {
		lines = append(lines[:max(h-1, 0)], a.theme.quiet.on(cut("  more: mark the field and press I, its text comes first", w)))
	}
	return lines
}

// privateTexts gives names and texts of what is not for every eye, that of the row marked first.
func (s *studentScreen) privateTexts(student model.Student) [][2]string {
	var texts [][2]string
	add := func(row int, name, text string) {
		switch {
		case text == "":
		case row == s.marked:
			texts = slices.Insert(texts, 0, [2]string{name, text})
		default:
			texts = append(texts, [2]string{name, text})
		}
	}
	for row, f := range s.fields {
		if f.Private {
			add(row, f.Name, f.Text(student))
		}
	}
	add(s.intakeRow(), "hurts", student.Intake.Hurts)
	return texts
}
