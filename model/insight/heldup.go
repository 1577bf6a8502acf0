package insight

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"coach.settee/model"
)

// What holds up; common practice, no source.
const (
	// heldUpShare is the share of A's on an axis, or of single pins made, from which it held up.
	heldUpShare = 0.7
	// fewestAs, fewestTried and fewestRun are the watched shots, the single pins tried and the good shots in a row that it
	// takes.
	fewestAs, fewestTried, fewestRun = 5, 5, 3
)

// SinglePins is what HeldUpHabit calls the single-pin spares.
const SinglePins = "single pins"

// HeldUp names one thing that held up, to be said after "held up: ", in at most 40 columns of ASCII: the axis with most A's
// ("balance, A in 9 of 10"), else the single pins ("single pins, 5 of 6 made"), else the longest run ("a run of 4 good
// shots"), else the axis that was steadiest ("balance, the steadiest"). It is never what is to be worked on next. Empty
// where there is nothing to say.
func HeldUp(r Report) string {
	held, of := HeldUpHabit(r)
	switch {
	case held == SinglePins:
		return fmt.Sprintf("%s, %s made", held, of)
	case held != "":
		return fmt.Sprintf("%s, A in %s", held, of)
	case r.Streaks.Longest >= fewestRun:
		return fmt.Sprintf("a run of %d good shots", r.Streaks.Longest)
	}
	if axis, as := Steadiest(r); as.N > 0 {
		return axis + ", the steadiest"
	}
	return ""
}

// HeldUpHabit names an axis with its A's, or SinglePins with those made, that held up: at least 7 in 10, of at least five. It
// is never what is to be worked on next, nor one of except. Empty where there is none.
func HeldUpHabit(r Report, except ...string) (what string, of Part) {
	single := r.Spares.Single
	switch axis, as := Steadiest(r, except...); {
	case as.Of >= fewestAs && as.Rate().Value >= heldUpShare:
		return axis, as
	case single.Of >= fewestTried && single.Rate().Value >= heldUpShare && !r.Next.speaksOf(WorkOnSpares) &&
		!slices.Contains(except, SinglePins):
		return SinglePins, single
	}
	return "", Part{}
}

// Steadiest names the axis with the highest share of A's over the games, of equals the one that cost less, then the earlier;
// never what is to be worked on next, nor one of except. Of is 0 where there is none.
func Steadiest(r Report, except ...string) (axis string, of Part) {
	var sums [model.AxisCount]Part
	for _, g := range r.Trend.Games {
		for a, p := range g.As {
			sums[a].N += p.N
			sums[a].Of += p.Of
		}
	}
	best := model.Balance
	for _, a := range model.Axes {
		p := sums[a]
		if p.Of == 0 || r.Next.speaksOf(a.String()) || slices.Contains(except, a.String()) {
			continue
		}
		// p.N/p.Of against of.N/of.Of, in whole numbers.
		more, least := p.N*of.Of, of.N*p.Of
		if of.Of == 0 || more > least || more == least && r.Cost.ByAxis[a] < r.Cost.ByAxis[best] {
			best, axis, of = a, a.String(), p
		}
	}
	return axis, of
}

// speaksOf tells whether the next thing to work on, by the coach or by the figures, is what: an axis or WorkOnSpares. A
// coach's words are of it where they hold its name or one of the words usual for it.
func (n Next) speaksOf(what string) bool {
	if n.What == what || n.Figures == what {
		return true
	}
	return n.ByCoach && slices.ContainsFunc(strings.FieldsFunc(strings.ToLower(n.What), isNoLetter), func(word string) bool {
		return word == what || slices.Contains(usualWords[what], word)
	})
}

func isNoLetter(r rune) bool { return !unicode.IsLetter(r) }

// usualWords are words by which coaches speak of an axis or of spares; common practice, no source.
var usualWords = map[string][]string{
	"balance":    {"balanced", "foot", "feet", "footwork", "knee", "lean", "posture", "slide", "step", "steps", "walk"},
	"target":     {"targets", "aim", "arrow", "arrows", "eyes", "look", "see"},
	"release":    {"releases", "fingers", "hand", "thumb", "wrist"},
	"finish":     {"finishes", "follow", "hold", "pose", "post"},
	WorkOnSpares: {"spare", "pin", "corner"},
}
