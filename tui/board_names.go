package tui

import (
	"strconv"
	"strings"

	"coach.settee/model"
)

// nameRows gives every row its name and, in rows of one line, what follows it: the first name where that is enough to
// tell the students of the evening apart, cut so that the rows still differ.
func nameRows(e *model.Evening, rows []boardRow, cells, lines int) {
	firsts := map[string]int{}
	for _, r := range rows {
		firsts[strings.ToLower(firstWord(r.student.Name))]++
	}
	taken := map[string]bool{}
	for i := range rows {
		r := &rows[i]
		r.suffix = suffixOf(*r, cells, lines)
		room := cells - width(r.suffix)
		name := clean(firstWord(r.student.Name))
		if firsts[strings.ToLower(firstWord(r.student.Name))] > 1 {
			name = ends(clean(e.Label(r.student.ID)), room)
		}
		name = cut(name, room)
		for n := 2; taken[name]; n++ {
			mark := strconv.Itoa(n)
			name = cut(name, room-len(mark)) + mark
		}
		taken[name] = true
		r.name = name
	}
}

func firstWord(name string) string {
	words := strings.Fields(name)
	if len(words) == 0 {
		return "?"
	}
	return words[0]
}

// leastOfFirst are the cells that a hand leaves to the first name.
const leastOfFirst = 3

// handLetters are the letters that are short for the hands in a label.
var handLetters = map[string]string{"left-handed": "L", "right-handed": "R"}

// ends gives the first and the last word of a label in w cells, the last one whole, since that is what tells two of the
// same name apart; a hand is said in short, but not so that it reads as gone.
func ends(label string, w int) string {
	words := strings.Fields(label)
	if len(words) < 2 {
		return label
	}
	last := words[len(words)-1]
	if letter := handLetters[last]; letter != "" {
		last = letter + "-hand"
		if width(last)+1+min(width(words[0]), leastOfFirst) > w {
			last = letter
		}
	}
	if room := w - width(last) - 1; room >= 1 {
		return cut(words[0], room) + " " + last
	}
	return last
}

// suffixOf gives what follows the name: a sign for limits, and where there is no second line what would be in it.
func suffixOf(r boardRow, cells, lines int) string {
	suffix := ""
	if r.careful {
		suffix = "!"
	}
	if lines > 1 {
		return suffix
	}
	if r.seat.Out {
		suffix += " out"
	}
	if r.begun != "" {
		suffix += " " + r.begun
	}
	const leastName = 2
	return cut(suffix, cells-leastName)
}
