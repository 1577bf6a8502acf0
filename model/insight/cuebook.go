package insight

import (
	"cmp"
	"slices"

	"coach.settee/model"
)

// CuesOver gives how cues went over the games of several students, each one's in order, the evenings of each apart: two
// students with a cue on one evening are two. The most used come first, by evenings and then by the racks that they were in
// force for.
func CuesOver(students [][]model.DatedSheet) []CueEffect {
	var all []CueEffect
	place := map[string]int{}
	for _, bowled := range students {
		games := without(bowled, func(g model.DatedSheet) bool { return !isBegun(g) })
		for _, c := range cuesOf(games) {
			i, known := place[c.Cue]
			if !known {
				i = len(all)
				place[c.Cue] = i
				all = append(all, CueEffect{Cue: c.Cue})
			}
			all[i].merge(c)
		}
	}
	for i := range all {
		all[i].compare()
	}
	slices.SortStableFunc(all, func(a, b CueEffect) int {
		return cmp.Or(cmp.Compare(b.Evenings, a.Evenings), cmp.Compare(b.InForce, a.InForce), cmp.Compare(a.Cue, b.Cue))
	})
	return all
}

// merge adds the counts of another student's evenings.
func (c *CueEffect) merge(other CueEffect) {
	c.Uses += other.Uses
	c.Evenings += other.Evenings
	c.Compared += other.Compared
	c.InForce += other.InForce
	for _, sides := range [][2]*Part{{&c.Before, &other.Before}, {&c.Since, &other.Since}} {
		sides[0].N += sides[1].N
		sides[0].Of += sides[1].Of
	}
}
