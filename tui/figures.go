package tui

import (
	"strconv"
	"strings"
)

// font draws signs of a few lines high with half blocks, two dots to a line.
type font struct {
	lines int
	signs map[rune][]string
}

// The fonts by the lines they take. A one before another digit is drawn narrow, from the sign i.
var (
	smallFont = newFont(
		"0 ### #.# #.# ###", "1 .#. ##. .#. ###", "2 ### ..# #.. ###", "3 ### .## ..# ###", "4 #.# #.# ### ..#",
		"5 ### #.. ..# ###", "6 #.. ### #.# ###", "7 ### ..# ..# ..#", "8 ### ### #.# ###", "9 ### #.# ### ..#",
		"i .# ## .# .#",
	)
	mediumFont = newFont(
		"0 #### #..# #..# #..# #..# ####", "1 .##. #.#. ..#. ..#. ..#. .###", "2 #### ...# #### #... #... ####",
		"3 #### ...# .### ...# ...# ####", "4 #..# #..# #..# #### ...# ...#", "5 #### #... #### ...# ...# ####",
		"6 #### #... #### #..# #..# ####", "7 #### ...# ..#. ..#. .#.. .#..", "8 #### #..# #### #..# #..# ####",
		"9 #### #..# #..# #### ...# ####", "i .# ## .# .# .# .#",
		"A .##. #..# #..# #### #..# #..#", "B ###. #..# ###. #..# #..# ###.", "C .### #... #... #... #... .###",
		"D ###. #..# #..# #..# #..# ###.", "F #### #... ###. #... #... #...", "- .... .... .... #### .... ....",
	)
	largeFont = newFont(
		"0 .####. ##..## ##..## ##..## ##..## ##..## ##..## .####.", "1 ..##.. .###.. ####.. ..##.. ..##.. ..##.. ..##.. ######",
		"2 #####. ....## ....## .####. ##.... ##.... ##.... ######", "3 #####. ....## ....## .####. ....## ....## ....## #####.",
		"4 ##..## ##..## ##..## ##..## ###### ....## ....## ....##", "5 ###### ##.... ##.... #####. ....## ....## ....## #####.",
		"6 .####. ##.... ##.... #####. ##..## ##..## ##..## .####.", "7 ###### ....## ....## ...##. ...##. ..##.. ..##.. ..##..",
		"8 .####. ##..## ##..## .####. ##..## ##..## ##..## .####.", "9 .####. ##..## ##..## .##### ....## ....## ....## .####.",
		"i ..## .### ..## ..## ..## ..## ..## ..##",
	)
	fonts = [...]font{largeFont, mediumFont, smallFont}
)

// newFont reads signs, each written as its rune and its rows of dots.
func newFont(signs ...string) font {
	f := font{signs: map[rune][]string{}}
	for _, s := range signs {
		words := strings.Fields(s)
		dots := words[1:]
		f.lines = len(dots) / 2
		var lines []string
		for i := 0; i < len(dots); i += 2 {
			lines = append(lines, halfBlocks(dots[i], dots[i+1]))
		}
		f.signs[rune(words[0][0])] = lines
	}
	return f
}

// halfBlocks draws two rows of dots in one line.
func halfBlocks(upper, lower string) string {
	var b strings.Builder
	for i := range len(upper) {
		switch {
		case upper[i] == '#' && lower[i] == '#':
			b.WriteRune('█')
		case upper[i] == '#':
			b.WriteRune('▀')
		case lower[i] == '#':
			b.WriteRune('▄')
		default:
			b.WriteByte(' ')
		}
	}
	return b.String()
}

// draw gives a text in the font, one blank between signs; false where the font lacks a sign.
func (f font) draw(text string) ([]string, bool) {
	lines := make([]string, f.lines)
	for i, r := range text {
		sign, ok := f.signs[r]
		if !ok {
			return nil, false
		}
		for n := range lines {
			if i > 0 {
				lines[n] += " "
			}
			lines[n] += sign[n]
		}
	}
	return lines, true
}

// figure draws a count in exactly h lines of w cells: in the largest font that fits, or as plain digits in the first line.
// foot is the line in which the figure ends.
func figure(count, w, h int, plain bool) (lines []string, foot int) {
	digits := strconv.Itoa(count)
	lines = []string{digits}
	text := digits
	if len(digits) > 1 && digits[0] == '1' {
		text = "i" + digits[1:]
	}
	for _, f := range fonts {
		if plain || f.lines > h {
			continue
		}
		if drawn, ok := f.draw(text); ok && width(drawn[0]) <= w {
			lines = drawn
			break
		}
	}
	foot = len(lines) - 1
	for i := range lines {
		lines[i] = fitRight(lines[i], w)
	}
	for len(lines) < h {
		lines = append(lines, blanks(w))
	}
	return lines, foot
}
