package tui

import (
	"strconv"
	"strings"
)

// cueFoot is the lines at the foot that say all of the cue marked.
const cueFoot = 4

// The columns of the book: the mark, the cue, how often it was said, how it went, and in wide windows what that
// says.
const (
	cueMark, cueUsed, cueCounts, cueBetter = 2, 6, 35, 64
	longestCue                             = 60
)

// cueWidths are the cells of the columns that depend on the window's.
type cueWidths struct{ text, better, all int }

func cueColumns(w int) cueWidths {
	c := cueWidths{all: w}
	room := w - cueMark - cueUsed - cueCounts
	if room-cueBetter >= 40 {
		c.better = cueBetter
		room -= cueBetter
	}
	c.text = min(max(room, 0), longestCue)
	return c
}

func (s *cuesScreen) draw(a *App, w, h int) string {
	c := cueColumns(w)
	foot := min(cueFoot, max(h-2, 0))
	lines := append([]string{s.head(a, c)}, s.list(a, c, listLines(h))...)
	lines = append(lines, s.foot(a, w, foot)...)
	return strings.Join(lines, "\n")
}

// head gives the line above the columns.
func (s *cuesScreen) head(a *App, c cueWidths) string {
	l := newLine(c.all)
	book := " " + plural(len(s.book), "cue", "cues")
	over := "  good shots, last " + strconv.Itoa(cueEvenings) + " evenings"
	if s.reading() {
		over = "  reading…"
	}
	l.put(a.theme.quiet, book, cueMark+c.text)
	l.add(a.theme.quiet, fitRight("said", cueUsed))
	l.add(a.theme.quiet, over)
	return l.String()
}

// list gives exactly n lines of the book, with the row marked in view: a heading before each axis and before what is not in
// the book.
func (s *cuesScreen) list(a *App, c cueWidths, n int) []string {
	shown := s.inList(n)
	lines := make([]string, n)
	none := emptyBook(a.theme, c.all)
	for i, line := range shown {
		switch {
		case line.row >= 0:
			lines[i] = s.row(a, s.rows[line.row], line.row == s.at, c)
		case line.heading != "":
			lines[i] = a.theme.title.on(cut(" "+line.heading, c.all))
		default:
			lines[i] = none[line.empty]
		}
	}
	return lines
}

// cueLine is a line of the book: a row, a heading, or else a line of those that say that there is no cue.
type cueLine struct {
	row     int
	heading string
	empty   int
}

// inList gives the lines in view in n, the one marked among them.
func (s *cuesScreen) inList(n int) []cueLine {
	var lines []cueLine
	at := 0
	if len(s.book) == 0 {
		for i := range emptyBookLines {
			lines = append(lines, cueLine{row: -1, empty: i})
		}
	}
	for i, row := range s.rows {
		if i == 0 || row.heading() != s.rows[i-1].heading() {
			lines = append(lines, cueLine{row: -1, heading: row.heading()})
		}
		if i == s.at {
			at = len(lines)
		}
		lines = append(lines, cueLine{row: i})
	}
	first, end := inView(at, at+1, n, len(lines))
	return lines[first:end]
}

// listLines gives the lines of the list in h.
func listLines(h int) int { return max(h-min(cueFoot, max(h-2, 0))-1, 0) }

func (r cueRow) heading() string {
	if !r.inBook() {
		return "said, not in the book"
	}
	return r.Axis.String()
}

// emptyBookLines is how many lines say that the book is empty.
const emptyBookLines = 5

func emptyBook(t *theme, w int) []string {
	return []string{
		"",
		t.strong.on(cut(" The book is empty.", w)),
		t.quiet.on(cut(" a adds a cue: the axis, then its words, as r soft hand", w)),
		t.quiet.on(cut(" S puts in a starting set, which can be changed and emptied", w)),
		"",
	}
}

func (s *cuesScreen) row(a *App, r cueRow, marked bool, c cueWidths) string {
	mark, with := "  ", ink{}
	if marked {
		mark, with = "▶ ", a.theme.accent
	}
	text := clean(r.Text)
	l := newLine(c.all)
	l.add(with, mark)
	l.put(with, text, c.text)
	if !r.said {
		return l.String()
	}
	l.add(with, fitRight(strconv.Itoa(r.effect.Uses), cueUsed))
	l.put(a.theme.quiet, "  "+r.counts(), cueCounts)
	if c.better > 0 {
		l.add(a.theme.quiet, r.effect.WordsBetter())
	}
	return l.String()
}

// counts says how the cue went without naming it.
func (r cueRow) counts() string {
	return strings.TrimPrefix(r.effect.Words(), r.effect.Cue+": ")
}

// foot says all of the cue marked in exactly n lines.
func (s *cuesScreen) foot(a *App, w, n int) []string {
	if n == 0 {
		return nil
	}
	lines := []string{a.theme.quiet.on(strings.Repeat("─", w))}
	if row, ok := s.marked(); ok {
		went := row.wentWords()
		if s.reading() && !row.said {
			went = ""
		}
		lines = append(lines, row.detail(a.theme, went, w, n-1)...)
	}
	for len(lines) < n {
		lines = append(lines, "")
	}
	return lines[:n]
}

// detail says a cue in full, and then how it went, in at most n lines: of a long cue the end is left out.
func (r cueRow) detail(t *theme, went string, w, n int) []string {
	room := w - 1
	text := clean(r.Text)
	if !isSettled(text) {
		// The terminal may draw it wider than it is measured, and must not come to the edge.
		room = room * 2 / 3
	}
	figures := wrap(went, max(w-1, 1))
	words := wrap(text, max(room, 1))
	if over := len(words) + len(figures) - n; over > 0 && len(words) > 1 {
		keep := max(len(words)-over, 1)
		last := words[keep-1]
		words = append(words[:keep-1], cut(last, room-1)+"…")
	}
	var lines []string
	for _, line := range words {
		lines = append(lines, " "+t.strong.on(line))
	}
	for _, line := range figures {
		lines = append(lines, " "+t.quiet.on(line))
	}
	return lines[:min(len(lines), n)]
}

// wentWords says how often and on how many evenings the cue was said, and how it went.
func (r cueRow) wentWords() string {
	if !r.said {
		return "not said in the games of the last " + strconv.Itoa(cueEvenings) + " evenings"
	}
	times := "once"
	if r.effect.Uses != 1 {
		times = plural(r.effect.Uses, "time", "times")
	}
	words := times + ", " + plural(r.effect.Evenings, "evening", "evenings") + ": " + r.counts()
	if better := r.effect.WordsBetter(); better != "" {
		words += "; " + better
	}
	return words
}
