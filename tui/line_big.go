package tui

import "strings"

// moveFont has the letters of a move and of staying, as high as the small figures, one row of dots left free.
var moveFont = newFont(
	"0 ### #.# #.# #.# ###", "1 .#. ##. .#. .#. ###", "2 ### ..# ### #.. ###", "3 ### ..# .## ..# ###", "4 #.# #.# ### ..# ..#",
	"5 ### #.. ### ..# ###", "6 ### #.. ### #.# ###", "7 ### ..# ..# ..# ..#", "8 ### #.# ### #.# ###", "9 ### #.# ### ..# ###",
	"A .#. #.# ### #.# #.#", "E ### #.. ##. #.. ###", "F ### #.. ##. #.. #..", "G ### #.. #.# #.# ###", "H #.# #.# ### #.# #.#",
	"I # # # # #", "L #.. #.. #.. #.. ###", "R ##. #.# ##. #.# #.#", "S ### #.. ### ..# ###", "T ### .#. .#. .#. .#.",
	"Y #.# #.# .#. .#. .#.", "_ . . . . .",
)

// bigWords draws a move for the hand, its parts one under the other: in block letters where w cells and h lines take them,
// else with block figures between capitals, else in capitals.
func bigWords(move string, w, h int, plain bool) []string {
	parts := strings.Split(strings.ToUpper(move), ", ")
	high := len(parts) * moveFont.lines
	if plain || high > h {
		return parts
	}
	for _, draw := range []func(string) ([]string, bool){blockPart, figurePart} {
		var out []string
		fits := true
		for _, part := range parts {
			drawn, ok := draw(part)
			out = append(out, drawn...)
			fits = fits && ok && width(drawn[0]) <= w
		}
		if fits {
			return out
		}
	}
	return parts
}

// blockPart draws a part of a move in block letters alone.
func blockPart(part string) ([]string, bool) {
	return moveFont.draw(strings.ReplaceAll(part, " ", "_"))
}

// figurePart draws a part of a move with its boards as a block figure; one without boards is a line of capitals.
func figurePart(part string) ([]string, bool) {
	words := strings.Fields(part)
	if len(words) != 3 {
		return []string{part}, true
	}
	drawn, ok := moveFont.draw(words[1])
	if !ok {
		return nil, false
	}
	for i := range drawn {
		before, after := blanks(width(words[0])), ""
		if i == len(drawn)/2 {
			before, after = words[0], " "+words[2]
		}
		drawn[i] = before + " " + drawn[i] + after
	}
	return drawn, true
}
