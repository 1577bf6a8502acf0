package tui

import (
	"slices"
	"strings"

	"coach.settee/model"
)

func (s *sessionScreen) draw(a *App, w, h int) string {
	var lines []string
	switch {
	case s.earlier != nil:
		return strings.Join(s.earlier.draw(a, w, h), "\n")
	case a.evening == nil:
		lines = slices.Concat(a.notice(w), a.packed(w), s.empty(a))
	default:
		for _, l := range s.evening(a, w, h-len(a.open)) {
			lines = append(lines, l.text)
		}
	}
	for i, other := range a.open {
		words := "  also open: " + a.dateAndPlace(other)
		if i == 0 {
			words += " (o turns to it)"
		}
		lines = append(lines, a.theme.quiet.on(cut(clean(words), w)))
	}
	for i := range lines {
		lines[i] = cut(lines[i], w)
	}
	return strings.Join(lines, "\n")
}

// notice gives what the coach is told at the start; once an evening was begun it was there to be read.
func (a *App) notice(w int) []string {
	if a.conf.Notice == "" || a.closed != nil {
		return nil
	}
	return append([]string{""}, a.whole(a.conf.Notice, w)...)
}

// whole gives words in as many lines as they take, long paths and all.
func (a *App) whole(words string, w int) []string {
	lines := strings.Split(wrapped(clean(words), max(w-4, 10)), "\n")
	for i := range lines {
		lines[i] = a.theme.strong.on(cut("  "+lines[i], w))
	}
	return lines
}

// empty says how to begin.
func (s *sessionScreen) empty(a *App) []string {
	if introduced := a.introduced(); introduced != nil {
		return introduced
	}
	lines := []string{"", a.theme.title.on("  No evening is on the board."), ""}
	if a.prompt != nil {
		return append(lines,
			"  Type the lanes below and press enter; then each student with an",
			"  average, and an empty line when all are there: Ada 120",
			"", "  esc drops the line; then = begins one like an earlier one.", "")
	}
	return append(lines,
		"  n   begins one: the lanes, then the students: Ada 120",
		"  =   begins one like an earlier one, which is asked first",
		"  E   lists the evenings: turn to one, open one again",
		"  s   is for the students' records, c for the book of cues",
		"  g   goes over the games of the last evening",
		"  q   leaves", "")
}

// evening lists what holds for the evening and who is here, with the student marked in view.
func (s *sessionScreen) evening(a *App, w, h int) []seatLine {
	head := s.held(a, w)
	const roomy = 14
	if h >= roomy {
		head = append(head, "")
	}
	head = append(head, a.theme.quiet.on(columnsOf(a.evening.Seats()).line("  ", "pair", "lane", "avg", "games", "load")+"student"))
	rows := s.rows(a)
	if len(rows) == 0 {
		head = append(head, "    Nobody is here yet: a adds a student.")
	}
	lines := make([]seatLine, len(head))
	for i, text := range head {
		lines[i].text = text
	}
	if len(rows) == 0 {
		return lines
	}
	return append(lines, s.shown(a, rows, w, max(h-len(lines), 1))...)
}

// held says what holds for the evening: when and where, the lanes and how they are, and in what order they are bowled on.
func (s *sessionScreen) held(a *App, w int) []string {
	held := a.evening.Session()
	rotate, block := "after a frame", "in turn"
	if !held.Rotate {
		rotate = "by hand"
	}
	if held.Block {
		block = "in blocks"
	}
	pairs := make([]string, len(held.Pairs))
	for i, p := range held.Pairs {
		pairs[i] = p.String()
	}
	on := "pairs " + strings.Join(pairs, "  ")
	if ft := feet(held.ArrowsFt); ft != "" {
		on += "   arrows: " + ft + " ft"
	}
	lines := []string{"  " + clean(a.dateAndPlace(held)), "  " + on}
	const most = 2
	oil := wrap(clean("oil: "+a.oilWords(held)), w-2)
	for _, l := range oil[:min(len(oil), most)] {
		lines = append(lines, "  "+l)
	}
	return append(lines, "  next up: "+rotate+"   drills: "+block)
}

// oilWords says what is known of the oil: how long, of what kind, since when, and who bowled on it.
func (a *App) oilWords(held model.Session) string {
	var words []string
	for _, part := range [][3]string{
		{"", feet(held.PatternFt), " ft"}, {"", held.PatternKind, ""}, {"oiled ", a.oiled(), ""}, {"before: ", held.Before, ""},
	} {
		if part[1] != "" {
			words = append(words, part[0]+part[1]+part[2])
		}
	}
	if len(words) == 0 {
		return "not set"
	}
	return strings.Join(words, ", ")
}
