package lane

import (
	"fmt"
	"strings"

	"coach.settee/model"
)

// widest is how many cells a line of words may take.
const widest = 78

// within joins parts until the line is full; the first is always there.
func within(first string, more ...string) string {
	line := first
	for _, part := range more {
		if len(line)+len(part) > widest {
			break
		}
		line += part
	}
	return line
}

var smallNumbers = []string{"none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"}

// counted says a number of things, small ones in words: "one ball", "three balls", "24 balls".
func counted(n int, thing string) string {
	if n != 1 {
		thing += "s"
	}
	return inWords(n) + " " + thing
}

// inWords says a number, a small one as a word.
func inWords(n int) string {
	if n < len(smallNumbers) {
		return smallNumbers[n]
	}
	return fmt.Sprint(n)
}

// tally counts hits by their side.
type tally struct{ pocket, high, light int }

// add counts the hit that was read of a ball.
func (t *tally) add(d model.Delivery) {
	hit, _ := HitBoards(d)
	switch {
	case d.InPocket().Value:
		t.pocket++
	case hit.Mean > 0:
		t.high++
	default:
		t.light++
	}
}

func (t tally) all() int { return t.pocket + t.high + t.light }

// mixed tells whether there were hits of more than one kind.
func (t tally) mixed() bool { return max(t.pocket, t.high, t.light) < t.all() }

// words say what the hits were, the most frequent first: "all high", "both in the pocket", "four high, one pocket".
func (t tally) words() string {
	type part struct {
		n    int
		name string
	}
	parts := []part{{t.high, "high"}, {t.light, "light"}, {t.pocket, "pocket"}}
	var said []string
	for most := t.all(); most > 0; most-- {
		for _, p := range parts {
			if p.n == most {
				said = append(said, inWords(p.n)+" "+p.name)
			}
		}
	}
	if len(said) != 1 {
		return strings.Join(said, ", ")
	}
	_, name, _ := strings.Cut(said[0], " ")
	if name == "pocket" {
		name = "in the pocket"
	}
	switch t.all() {
	case 1:
		return name
	case 2:
		return "both " + name
	}
	return "all " + name
}

// ofPocket says hits as "1 of 4 pocket, 3 high".
func (t tally) ofPocket() string {
	words := t.short()
	if t.high > 0 {
		words += fmt.Sprintf(", %d high", t.high)
	}
	if t.light > 0 {
		words += fmt.Sprintf(", %d light", t.light)
	}
	return words
}

// short says hits as "1 of 4 pocket".
func (t tally) short() string {
	if t.all() == 0 {
		return "no hit read"
	}
	return t.share() + " pocket"
}

// share says how many of the hits were in the pocket: "1 of 4", "none read".
func (t tally) share() string {
	if t.all() == 0 {
		return "none read"
	}
	return fmt.Sprintf("%d of %d", t.pocket, t.all())
}

// sureness says a probability: "7 in 10 sure", "nearly sure".
func sureness(p float64) string {
	if p >= 0.95 {
		return "nearly sure"
	}
	return fmt.Sprintf("%.0f in 10 sure", 10*p)
}
