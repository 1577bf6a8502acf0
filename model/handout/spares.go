package handout

import (
	"fmt"
	"strings"

	"coach.settee/model"
	"coach.settee/model/insight"
	"coach.settee/model/tenpin"
)

// fewestOfLeave are the tries at one leave, and leastMissed the misses of it, from which it is told as missed most;
// invented. Spares, and each kind of them, are told from fewestShots tries on.
const fewestOfLeave, leastMissed = 5, 2

// spares tell the spares made of those tried, by kind; for gentle how many were made.
func (t told) spares() string {
	s := t.now.Spares
	all := s.All()
	if t.gentle() {
		if all.N == 0 {
			return ""
		}
		return model.NumberOf(all.N, "spare") + " made"
	}
	var words []string
	if all.Of >= fewestShots {
		words = append(words, joined(": ", "spares "+all.String(), spareKinds(s, all)))
	}
	if most := missedMost(s.Leaves); most != "" {
		words = append(words, most)
	}
	return strings.Join(words, "; ")
}

func spareKinds(s insight.Spares, all insight.Part) string {
	var kinds []string
	for _, k := range []struct {
		name string
		made insight.Part
	}{{"single pins", s.Single}, {"more", s.Multi}, {"splits", s.Split}, {"unnamed", s.Unknown}} {
		if k.made.Of >= fewestShots && (k.made.Of < all.Of || k.name != "unnamed") {
			kinds = append(kinds, k.name+" "+k.made.String())
		}
	}
	return strings.Join(kinds, ", ")
}

// missedMost names the leave missed most often of those tried often enough. Ten pins after a gutter ball are none to
// practise.
func missedMost(leaves []insight.LeaveCount) string {
	var worst insight.LeaveCount
	missed := func(l insight.LeaveCount) int { return l.Made.Of - l.Made.N }
	for _, l := range leaves {
		if l.Leave != tenpin.AllPins && l.Made.Of >= fewestOfLeave && missed(l) > missed(worst) {
			worst = l
		}
	}
	if missed(worst) < leastMissed {
		return ""
	}
	return fmt.Sprintf("missed most: %s, %d times of %d", worst.Leave.Words(), missed(worst), worst.Made.Of)
}

// drills tell what the drills came to; for gentle what was made.
func (t told) drills() []string {
	var out []string
	for _, d := range t.now.Drills {
		d.Name = clipped(d.Name, mostDrillName)
		words := d.Words()
		if t.gentle() {
			words = gentleDrill(d)
		}
		if words != "" && len(out) < mostDrills {
			out = append(out, words)
		}
	}
	return out
}

// mostDrills and mostDrillName are the drills, and the characters of a name, that the page has room for.
const mostDrills, mostDrillName = 4, 40

func gentleDrill(d insight.DrillCount) string {
	name := d.Name
	if name == "" {
		name = "drill"
	}
	switch {
	case d.Made.N > 0:
		return fmt.Sprintf("%s: %d made", name, d.Made.N)
	case d.Good.N > 0:
		return fmt.Sprintf("%s: %d good", name, d.Good.N)
	}
	return fmt.Sprintf("%s: %s", name, model.NumberOf(d.Balls, "ball"))
}
