package tui

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
	"golang.org/x/text/unicode/norm"
)

// width gives the cells that a text of one line takes on the terminal that gives it most; control sequences take none.
func width(s string) int {
	cells := 0
	for _, r := range s {
		if r < ' ' || r == 0x7f || r >= 0x80 && !isSign(r) {
			return widest(s)
		}
		cells++
	}
	return cells
}

func widest(s string) (cells int) {
	if isSettled(s) {
		return ansi.StringWidth(s)
	}
	for p := range pieces(s) {
		cells += p.widest
	}
	return cells
}

// isSign tells whether a rune is among the signs that the screens draw with, of one cell each.
func isSign(r rune) bool {
	return r >= '\u2010' && r <= '\u2027' || r >= '←' && r <= '↓' || r >= '\u2500' && r <= '●' || r == '·'
}

// cut gives s in at most w cells, with … for what is left out.
func cut(s string, w int) string {
	switch {
	case w <= 0:
		return ""
	case len(s) <= w, width(s) <= w:
		return s
	}
	if isSettled(s) {
		return ansi.Truncate(s, w, "…")
	}
	return cutPieces(s, w)
}

func cutPieces(s string, w int) string {
	var b strings.Builder
	full := false
	for p := range pieces(s) {
		switch {
		case p.isControl():
			b.WriteString(p.text)
		case full:
		case p.widest >= w:
			full = true
			b.WriteString("…")
		default:
			w -= p.widest
			b.WriteString(p.text)
		}
	}
	return b.String()
}

// cutLeft gives the end of s in at most w cells, with … for what is left out before it.
func cutLeft(s string, w int) string {
	over := width(s) - w
	switch {
	case w <= 0:
		return ""
	case over <= 0:
		return s
	}
	for p := range pieces(s) {
		if over < 0 {
			break
		}
		over -= p.widest
		s = s[len(p.text):]
	}
	return "…" + s
}

// fit gives s in exactly w cells: cut, or with blanks after it.
func fit(s string, w int) string {
	s = cut(s, w)
	return exactly(s, s+blanks(w-width(s)), w)
}

// fitRight gives s in exactly w cells: cut, or with blanks before it.
func fitRight(s string, w int) string {
	s = cut(s, w)
	return exactly(s, blanks(w-width(s))+s, w)
}

// exactly gives fitted, unless a blank and a sign of s have become one: then s is drawn without its odd signs.
func exactly(s, fitted string, w int) string {
	if width(fitted) == w {
		return fitted
	}
	return fit(toASCII(s), w)
}

// wrap gives s in lines of at most w cells, parted at blanks where that is possible.
func wrap(s string, w int) []string {
	s = strings.Join(strings.Fields(s), " ")
	if width(s) <= w {
		return []string{s}
	}
	lines := strings.Split(wrapped(s, w), "\n")
	for i := range lines {
		lines[i] = cut(lines[i], w)
	}
	return lines
}

// wrapped gives a text with ends of lines in it, so that no line has more than w cells.
func wrapped(s string, w int) string {
	if isSettled(s) {
		return ansi.Wrap(s, w, "")
	}
	lines := strings.Split(s, "\n")
	for i := range lines {
		lines[i] = wrappedPieces(lines[i], w)
	}
	return strings.Join(lines, "\n")
}

// wrappedPieces is wrapped for one line. Words wider than a line are parted.
func wrappedPieces(line string, w int) string {
	var b strings.Builder
	used := 0
	for i, word := range strings.Split(line, " ") {
		cells := width(word)
		switch {
		case i > 0 && used+1+cells <= w:
			b.WriteByte(' ')
			used++
		case i > 0:
			b.WriteByte('\n')
			used = 0
		}
		if used+cells <= w {
			b.WriteString(word)
			used += cells
			continue
		}
		for p := range pieces(word) {
			if used > 0 && used+p.widest > w {
				b.WriteByte('\n')
				used = 0
			}
			b.WriteString(p.text)
			used += p.widest
		}
	}
	return b.String()
}

const manyBlanks = "                                                                                                    "

func blanks(n int) string {
	switch {
	case n <= 0:
		return ""
	case n <= len(manyBlanks):
		return manyBlanks[:n]
	}
	return strings.Repeat(" ", n)
}

// clean makes a text from a person or a file fit to be drawn in one line: control characters are gone, and so is what
// terminals do not agree on the width of.
func clean(s string) string {
	if isPlain(s) {
		return s
	}
	s = strings.ToValidUTF8(s, "")
	s = withoutLooseMarks(norm.NFC.String(strings.Map(drawable, s)))
	// Written as one rune it is one cell or two; in its two parts it is one everywhere.
	return saraAm.Replace(s)
}

func isPlain(s string) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			return false
		}
	}
	return true
}

var saraAm = strings.NewReplacer("\u0e33", "\u0e4d\u0e32", "\u0eb3", "\u0ecd\u0eb2")

const (
	firstFlagLetter, lastFlagLetter = '\U0001f1e6', '\U0001f1ff'
	firstSkinTone, lastSkinTone     = '\U0001f3fb', '\U0001f3ff'
	enclosingKeycap                 = '\u20e3'
)

// drawable gives what to draw for a rune, -1 for nothing.
func drawable(r rune) rune {
	switch {
	case r == '\t' || r == '\n' || r == '\r' || unicode.Is(unicode.Zs, r):
		return ' '
	case unicode.IsControl(r), unicode.Is(unicode.Cf, r), unicode.Is(unicode.Co, r), r == '\u2028', r == '\u2029':
		return -1
	case unicode.Is(unicode.Variation_Selector, r), r >= firstSkinTone && r <= lastSkinTone, r == enclosingKeycap:
		return -1
	case unicode.Is(unicode.Other_Default_Ignorable_Code_Point, r):
		return -1
	case r >= firstFlagLetter && r <= lastFlagLetter:
		return 'A' + r - firstFlagLetter
	}
	return r
}

// withoutLooseMarks leaves out the marks that have no letter before them to combine with.
func withoutLooseMarks(s string) string {
	loose := true
	return strings.Map(func(r rune) rune {
		if loose && unicode.Is(unicode.M, r) {
			return -1
		}
		loose = r == ' '
		return r
	}, s)
}

// asciiSigns are the signs of the screens in ASCII, each as wide as what it stands for.
var asciiSigns = map[rune]string{
	'●': "*", '○': "o", '·': ".", '▶': ">", '▸': "+", '◀': "<", '–': "-", '—': "-", '…': "~", '↑': "^", '↓': "v",
	'╮': ",", '╯': "'", '│': "|", '─': "-", '━': "=", '█': "#", '▀': "#", '▄': "#",
	'▁': "_", '▂': ".", '▃': "-", '▅': "=", '▆': "+", '▇': "#",
}

// toASCII replaces every sign beyond ASCII by ASCII of the same width; control sequences pass as they are.
func toASCII(s string) string {
	if isASCII(s) {
		return s
	}
	var b strings.Builder
	for len(s) > 0 {
		sign, _ := ansi.FirstGraphemeCluster(s, ansi.GraphemeWidth)
		b.WriteString(asciiFor(sign))
		s = s[len(sign):]
	}
	return b.String()
}

func asciiFor(sign string) string {
	if sign[0] < 0x80 {
		return sign[:1] + strings.Repeat("?", max(width(sign)-1, 0))
	}
	r, _ := utf8.DecodeRuneInString(sign)
	if ascii, ok := asciiSigns[r]; ok {
		return ascii
	}
	cells := width(sign)
	if base := norm.NFD.String(sign); base[0] < 0x80 && cells == 1 {
		return base[:1]
	}
	return strings.Repeat("?", cells)
}

func isASCII(s string) bool {
	for i := range len(s) {
		if s[i] >= 0x80 {
			return false
		}
	}
	return true
}

// plural gives a number of things with the word for one of them or for several.
func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
