package tui

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
	"golang.org/x/text/unicode/norm"
)

// width gives the cells that a text of one line takes; control sequences take none.
func width(s string) int {
	cells := 0
	for _, r := range s {
		if r < ' ' || r == 0x7f || r >= 0x80 && !isSign(r) {
			return ansi.StringWidth(s)
		}
		cells++
	}
	return cells
}

// isSign tells whether a rune is among the signs that the screens draw with, of one cell each.
func isSign(r rune) bool {
	return r >= '\u2010' && r <= '\u2027' || r >= '\u2500' && r <= '●' || r == '·'
}

// cut gives s in at most w cells, with … for what is left out.
func cut(s string, w int) string {
	switch {
	case w <= 0:
		return ""
	case len(s) <= w, width(s) <= w:
		return s
	}
	return ansi.Truncate(s, w, "…")
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
	lines := strings.Split(ansi.Wrap(s, w, ""), "\n")
	for i := range lines {
		lines[i] = cut(lines[i], w)
	}
	return lines
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

// isSettled tells whether all terminals agree on the width of a text that is clean.
func isSettled(s string) bool {
	for _, r := range s {
		punctuation := r >= '\u2010' && r <= '\u2027'
		letter := unicode.In(r, unicode.Greek, unicode.Cyrillic, unicode.Hebrew) && unicode.IsLetter(r)
		if r >= '\u0300' && !punctuation && !letter {
			return false
		}
	}
	return true
}

// anchor gives what puts the next sign at a column of the screen, counted from 0, whatever width the terminal has given
// to the text before it. It is empty where that text is settled.
func anchor(text string, column int) string {
	if isSettled(text) {
		return ""
	}
	return ansi.CursorHorizontalAbsolute(column + 1)
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
		return sign[:1]
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
