package tui

import (
	"iter"
	"strings"
	"unicode"

	"github.com/charmbracelet/x/ansi"
)

const (
	wrapOff, wrapOn = "\x1b[?7l", "\x1b[?7h" // DECAWM
	eraseRight      = "\x1b[K"               // EL, ECMA-48 8.3.41
)

// steady makes a picture look the same on terminals that give its texts different widths: every settled sign stands in the
// column that it is drawn for, and no line goes on in the next.
func steady(picture string) string {
	if isSettled(picture) {
		return picture
	}
	lines := strings.Split(picture, "\n")
	for i, l := range lines {
		if !isSettled(l) {
			lines[i] = steadyLine(l)
		}
	}
	return strings.Join(lines, "\n")
}

// steadyLine sets the column anew after each text that is not settled. A terminal may leave cells of such a text's room
// alone, so these are blank before. They are drawn as blanks where the runtime's measure leaves them out: it erases behind
// a line that is too short by that measure, and so the last sign of a full one.
func steadyLine(line string) string {
	s := steadied{}
	s.b.WriteString(wrapOff + eraseRight)
	for p := range pieces(line) {
		switch {
		case p.isControl():
			s.settle()
			s.b.WriteString(p.text)
		case isSettled(p.text):
			s.settle()
			s.resume()
			s.b.WriteString(p.text)
			s.column += p.widest
		default:
			s.run.WriteString(p.text)
			s.cells += p.cells
			s.widest += p.widest
		}
	}
	s.settle()
	s.b.WriteString(wrapOn)
	return s.b.String()
}

// steadied is a line being made steady, up to a column.
type steadied struct {
	b      strings.Builder
	column int
	// lost says that the terminal's column may be another.
	lost bool
	// run is the text that is not settled and not yet in the line.
	run           strings.Builder
	cells, widest int
}

// settle puts the run into the line, in the cells of the widest measure.
func (s *steadied) settle() {
	if s.run.Len() == 0 {
		return
	}
	if beyond := s.widest - s.cells; beyond > 0 {
		s.moveTo(s.column + s.cells)
		s.b.WriteString(blanks(beyond))
		s.moveTo(s.column)
	}
	s.resume()
	s.b.WriteString(s.run.String())
	s.column += s.widest
	s.lost = true
	s.run.Reset()
	s.cells, s.widest = 0, 0
}

func (s *steadied) resume() {
	if s.lost {
		s.moveTo(s.column)
	}
}

// moveTo goes to a column, counted from 0: CHA, ECMA-48 8.3.9, counts from 1.
func (s *steadied) moveTo(column int) {
	s.b.WriteString(ansi.CursorHorizontalAbsolute(column + 1))
	s.lost = false
}

// piece is what a terminal draws as one, or a control sequence.
type piece struct {
	text string
	// cells are those of the runtime's measure, which goes by the grapheme cluster; widest are the most that a terminal
	// gives it, also one that adds up the runes.
	cells, widest int
}

func (p piece) isControl() bool { return p.text[0] < ' ' || p.text[0] == 0x7f }

// pieces parts a text of one line.
func pieces(s string) iter.Seq[piece] {
	return func(yield func(piece) bool) {
		for len(s) > 0 {
			p := firstPiece(s)
			if !yield(p) {
				return
			}
			s = s[len(p.text):]
		}
	}
}

func firstPiece(s string) piece {
	switch {
	case s[0] < ' ' || s[0] == 0x7f:
		_, _, n, _ := ansi.DecodeSequence(s, ansi.NormalState, nil)
		return piece{text: s[:max(n, 1)]}
	case s[0] < 0x80 && (len(s) == 1 || s[1] < 0x80):
		return piece{s[:1], 1, 1}
	}
	text, cells := ansi.FirstGraphemeCluster(s, ansi.GraphemeWidth)
	return piece{text, cells, max(cells, runeCells(text))}
}

// runeCells adds up the cells of the runes of a cluster, as wcwidth does.
func runeCells(cluster string) (cells int) {
	for _, r := range cluster {
		cells += ansi.StringWidth(string(r))
	}
	return cells
}

// isSettled tells whether all terminals agree on the width of a text that is clean.
func isSettled(s string) bool {
	for _, r := range s {
		if r >= '\u0300' && !isSign(r) && !isSettledLetter(r) {
			return false
		}
	}
	return true
}

func isSettledLetter(r rune) bool {
	return r < '\u0700' && unicode.In(r, unicode.Greek, unicode.Cyrillic, unicode.Hebrew) && unicode.IsLetter(r)
}
