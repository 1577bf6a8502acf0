package insight

import (
	"fmt"

	"coach.settee/model"
)

// What holds up; common practice, no source.
const (
	// heldUpShare is the share of A's on an axis, or of single pins made, from which it held up.
	heldUpShare = 0.7
	// fewestAs, fewestTried and fewestRun are the watched shots, the single pins tried and the good shots in a row that it
	// takes.
	fewestAs, fewestTried, fewestRun = 5, 3, 3
)

// HeldUp names one thing that held up, to be said after "held up: ", in at most 40 columns of ASCII: the axis with most A's
// ("balance, A in 9 of 10"), else the single pins ("single pins, 5 of 6 made"), else the longest run ("a run of 4 good
// shots"), else the axis that was steadiest ("balance, the steadiest"). It is never what is to be worked on next. Empty
// where there is nothing to say.
func HeldUp(r Report) string {
	axis, as := bestAxis(r)
	single := r.Spares.Single
	switch {
	case as.Of >= fewestAs && as.Rate().Value >= heldUpShare:
		return fmt.Sprintf("%s, A in %d of %d", axis, as.N, as.Of)
	case single.Of >= fewestTried && single.Rate().Value >= heldUpShare && !r.Next.speaksOf(WorkOnSpares):
		return fmt.Sprintf("single pins, %d of %d made", single.N, single.Of)
	case r.Streaks.Longest >= fewestRun:
		return fmt.Sprintf("a run of %d good shots", r.Streaks.Longest)
	case as.N > 0:
		return axis.String() + ", the steadiest"
	}
	return ""
}

// bestAxis gives the axis with the highest share of A's over the games, of equals the one that cost less, then the earlier.
func bestAxis(r Report) (best model.Axis, as Part) {
	var sums [model.AxisCount]Part
	for _, g := range r.Trend.Games {
		for a, p := range g.As {
			sums[a].N += p.N
			sums[a].Of += p.Of
		}
	}
	for _, a := range model.Axes {
		p := sums[a]
		if p.Of == 0 || r.Next.speaksOf(a.String()) {
			continue
		}
		// p.N/p.Of against as.N/as.Of, in whole numbers.
		more, least := p.N*as.Of, as.N*p.Of
		if as.Of == 0 || more > least || more == least && r.Cost.ByAxis[a] < r.Cost.ByAxis[best] {
			best, as = a, p
		}
	}
	return best, as
}

// speaksOf tells whether the next thing to work on, by the coach or by the figures, is what.
func (n Next) speaksOf(what string) bool { return n.What == what || n.Figures == what }
