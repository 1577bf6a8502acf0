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

// The fonts by the lines they take. Only the smallest fills its lines; the others keep a row of dots free, so that figures
// under each other do not grow together.
var (
	smallFont = newFont(
		"0 ### #.# #.# ###", "1 .# ## .# .#", "2 ### ..# #.. ###", "3 ### .## ..# ###", "4 #.# #.# ### ..#",
		"5 ### #.. ..# ###", "6 #.. ### #.# ###", "7 ### ..# ..# ..#", "8 ### ### #.# ###", "9 ### #.# ### ..#",
	)
	mediumFont = newFont(
		"0 #### #..# #..# #..# ####", "1 .# ## .# .# .#", "2 #### ...# #### #... ####", "3 #### ...# .### ...# ####",
		"4 #..# #..# #### ...# ...#", "5 #### #... #### ...# ####", "6 #### #... #### #..# ####", "7 #### ...# ..#. ..#. ..#.",
		"8 #### #..# #### #..# ####", "9 #### #..# #### ...# ####",
		"A .##. #..# #### #..# #..#", "B ###. #..# ###. #..# ###.", "C .### #... #... #... .###", "D ###. #..# #..# #..# ###.",
		"F #### #... ###. #... #...", "- .... .... #### .... ....",
	)
	largeFont = newFont(
		"0 .####. ##..## ##..## ##..## ##..## ##..## .####.", "1 ..## .### ..## ..## ..## ..## ..##",
		"2 #####. ....## ....## .####. ##.... ##.... ######", "3 #####. ....## ....## .####. ....## ....## #####.",
		"4 ##..## ##..## ##..## ###### ....## ....## ....##", "5 ###### ##.... ##.... #####. ....## ....## #####.",
		"6 .####. ##.... ##.... #####. ##..## ##..## .####.", "7 ###### ....## ....## ...##. ..##.. ..##.. ..##..",
		"8 .####. ##..## ##..## .####. ##..## ##..## .####.", "9 .####. ##..## ##..## .##### ....## ....## .####.",
	)
	fonts = [...]font{largeFont, mediumFont, smallFont}
)

// newFont reads signs, each written as its rune and its rows of dots.
func newFont(signs ...string) font {
	f := font{signs: map[rune][]string{}}
	for _, s := range signs {
		words := strings.Fields(s)
		dots := words[1:]
		if len(dots)%2 == 1 {
			dots = append(dots, strings.Repeat(".", len(dots[0])))
		}
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

// figure draws a count in at most h lines of w cells: in the largest font that fits, or as plain digits in one line.
func figure(count, w, h int, ascii bool) []string {
	for _, f := range fonts {
		if f.lines > h {
			continue
		}
		if drawn, ok := f.drawIn(strconv.Itoa(count), ascii); ok && width(drawn[0]) <= w {
			return drawn
		}
	}
	return []string{strconv.Itoa(count)}
}

// drawIn is draw, with signs that ASCII has too where that is all there is.
func (f font) drawIn(text string, ascii bool) ([]string, bool) {
	lines, ok := f.draw(text)
	for i := range lines {
		if ascii {
			lines[i] = asciiHalves.Replace(lines[i])
		}
	}
	return lines, ok
}

// asciiHalves has signs of ASCII whose ink is where that of the blocks is, so that halves stay halves.
var asciiHalves = strings.NewReplacer("█", "#", "▀", `"`, "▄", "_")
