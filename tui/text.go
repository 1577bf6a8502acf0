package tui

import (
	"strings"
	"unicode"

	"github.com/charmbracelet/x/ansi"
	"golang.org/x/text/unicode/norm"
)

// width gives the cells that a text of one line takes; control sequences take none.
func width(s string) int { return ansi.StringWidth(s) }

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
	return s + blanks(w-width(s))
}

// fitRight gives s in exactly w cells: cut, or with blanks before it.
func fitRight(s string, w int) string {
	s = cut(s, w)
	return blanks(w-width(s)) + s
}

// centre gives s in exactly w cells with blanks on both sides.
func centre(s string, w int) string {
	s = cut(s, w)
	return fit(blanks((w-width(s))/2)+s, w)
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
	s = norm.NFC.String(strings.Map(drawable, s))
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

// asciiSigns are the signs of the screens in ASCII, each as wide as what it stands for.
var asciiSigns = map[rune]string{
	'●': "*", '○': "o", '·': ".", '▶': ">", '▸': ">", '◀': "<", '–': "-", '—': "-", '…': "~", '↑': "^", '↓': "v",
	'│': "|", '┃': "|", '─': "-", '━': "=", '█': "#", '▀': "#", '▄': "#", '×': "x", '±': "+", '⏎': "/", '«': "<", '»': ">",
}

// toASCII replaces every rune beyond ASCII by ASCII of the same width; control sequences pass as they are.
func toASCII(s string) string {
	if isASCII(s) {
		return s
	}
	var b strings.Builder
	for _, r := range s {
		b.WriteString(asciiFor(r))
	}
	return b.String()
}

func asciiFor(r rune) string {
	if r < 0x80 {
		return string(r)
	}
	if sign, ok := asciiSigns[r]; ok {
		return sign
	}
	cells := width(string(r))
	if base := norm.NFD.String(string(r)); base[0] < 0x80 && cells == 1 {
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
