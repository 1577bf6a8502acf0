package tui

import (
	"strings"
	"unicode/utf8"
)

// letterFont has the letters and digits of names, of five dots and a free row.
var letterFont = newFont(
	"A .#. #.# ### #.# #.#", "B ##. #.# ##. #.# ##.", "C .## #.. #.. #.. .##", "D ##. #.# #.# #.# ##.", "E ### #.. ##. #.. ###",
	"F ### #.. ##. #.. #..", "G .## #.. #.# #.# .##", "H #.# #.# ### #.# #.#", "I # # # # #", "J ..# ..# ..# #.# .#.",
	"K #.# #.# ##. #.# #.#", "L #.. #.. #.. #.. ###", "M #...# ##.## #.#.# #...# #...#", "N #..# ##.# #.## #..# #..#",
	"O .#. #.# #.# #.# .#.", "P ##. #.# ##. #.. #..", "Q .##. #..# #..# #.## .###", "R ##. #.# ##. #.# #.#",
	"S .## #.. .#. ..# ##.", "T ### .#. .#. .#. .#.", "U #.# #.# #.# #.# ###", "V #.# #.# #.# #.# .#.",
	"W #...# #...# #.#.# ##.## #...#", "X #.# #.# .#. #.# #.#", "Y #.# #.# .#. .#. .#.", "Z ### ..# .#. #.. ###",
	"0 ### #.# #.# #.# ###", "1 .#. ##. .#. .#. ###", "2 ### ..# ### #.. ###", "3 ### ..# .## ..# ###", "4 #.# #.# ### ..# ..#",
	"5 ### #.. ### ..# ###", "6 ### #.. ### #.# ###", "7 ### ..# ..# ..# ..#", "8 ### #.# ### #.# ###", "9 ### #.# ### ..# ###",
	"_ . . . . .", "- .. .. ## .. ..", "' # # . . .", ". . . . . #",
)

// glanceFont is a font for the glance; solid tells that every dot fills whole lines, so that it is drawn in ASCII too.
type glanceFont struct {
	font
	solid bool
}

// glanceFigures are the fonts of the counts, nameFonts those of the names, from the highest.
var (
	glanceFigures = []glanceFont{
		{largeFont.times(5), false}, {largeFont.times(4), true}, {largeFont.times(3), false}, {largeFont.times(2), true},
		{mediumFont.times(2), true}, {smallFont.times(2), true}, {largeFont, false}, {mediumFont, false}, {smallFont, false},
	}
	nameFonts = []glanceFont{{letterFont.times(2), true}, {letterFont, false}}
)

// times gives a font with every dot n times as wide and as high.
func (f font) times(n int) font {
	out := font{lines: f.lines * n, signs: map[rune][]string{}}
	for sign, lines := range f.signs {
		var rows []string
		for _, l := range lines {
			upper, lower := dotsOf(l, n)
			for range n {
				rows = append(rows, upper)
			}
			for range n {
				rows = append(rows, lower)
			}
		}
		for i := 0; i < len(rows); i += 2 {
			out.signs[sign] = append(out.signs[sign], halfBlocks(rows[i], rows[i+1]))
		}
	}
	return out
}

// dotsOf gives the two rows of dots of a line drawn in half blocks, each dot n times.
func dotsOf(line string, n int) (upper, lower string) {
	var up, low strings.Builder
	for _, r := range line {
		above, below := ".", "."
		if r == '█' || r == '▀' {
			above = "#"
		}
		if r == '█' || r == '▄' {
			below = "#"
		}
		up.WriteString(strings.Repeat(above, n))
		low.WriteString(strings.Repeat(below, n))
	}
	return up.String(), low.String()
}

// cells gives how wide a text is in the font, 0 where it lacks a sign of it; the font without signs is plain text.
func (f glanceFont) cells(text string) int {
	if f.signs == nil {
		return width(text)
	}
	cells := 0
	for i, r := range text {
		sign, ok := f.signs[r]
		if !ok {
			return 0
		}
		if i > 0 {
			cells++
		}
		cells += utf8.RuneCountInString(sign[0])
	}
	return cells
}

// block draws a text as high as the font in at most w cells, false where it does not fit or the font lacks a sign.
func (f glanceFont) block(text string, w int) ([]string, bool) {
	if cells := f.cells(text); f.signs == nil || cells == 0 || cells > w {
		return nil, false
	}
	return f.draw(text)
}

// lettersOf gives the signs that draw a name.
func lettersOf(name string) string {
	return strings.ReplaceAll(strings.ToUpper(toASCII(name)), " ", "_")
}
