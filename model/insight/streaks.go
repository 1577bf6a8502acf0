package insight

import (
	"fmt"

	"coach.settee/model"
)

// StreaksMethod names the test of Streaks.
const StreaksMethod = "exact runs test within games over the graded racks, twice the smaller tail"

// StreaksCaution goes with the counts after good and other shots, which chance alone makes unequal: the share of heads
// right after a head is 5/12 on average over three tosses of a fair coin (Miller and Sanjurjo, Econometrica 2018, from
// memory; 3 of the 6 orders with such a toss have none).
const StreaksCaution = "by chance alone a good shot looks rarer after a good one"

// Streaks tells whether good shots come in runs.
type Streaks struct {
	// AfterGood and AfterPoor are the good shots right after a good one and after one that was not, of neighbouring seen and
	// graded full racks of a game.
	AfterGood, AfterPoor Part
	// Runs counts the runs of good and of other shots within the games, over the seen and graded full racks of each,
	// whatever lies between them. RunsP is twice the smaller tail of RunsTails, at most 1; unknown where no game has both
	// kinds.
	Runs  int
	RunsP model.Optional[float64]
	// Expected is the mean of Runs by chance.
	Expected float64
	// Longest is the longest run of good shots in one game, at neighbouring racks.
	Longest int
}

// Words tells whether good shots came in runs, without making a hot hand of luck.
func (s Streaks) Words() string {
	const (
		// enough neighbours for a test of runs to tell anything; invented.
		enough = 20
		rare   = .05
	)
	switch {
	case !s.RunsP.Known || s.AfterGood.Of+s.AfterPoor.Of < enough:
		return "too few to say whether good shots come in runs"
	case s.RunsP.Value >= rare:
		return "good shots came in no clearer runs than chance makes"
	case float64(s.Runs) < s.Expected:
		return "over these games good shots ran longer than chance makes"
	}
	return "over these games good shots took turns more than by chance"
}

// WordsAfter tells the counts, to which StreaksCaution belongs: "after a good shot 4 of 7 good, after any other 3 of 4".
func (s Streaks) WordsAfter() string {
	return fmt.Sprintf("after a good shot %d of %d good, after any other %d of %d",
		s.AfterGood.N, s.AfterGood.Of, s.AfterPoor.N, s.AfterPoor.Of)
}

func streaksOf(games []model.DatedSheet) Streaks {
	var s Streaks
	kinds := make([][2]int, 0, len(games))
	both := false
	for _, g := range games {
		game := [2]int{}
		game[0], game[1] = s.add(g.Sheet)
		if game[0]+game[1] == 0 {
			continue
		}
		kinds = append(kinds, game)
		both = both || game[0] > 0 && game[1] > 0
		s.Expected += 1 + 2*float64(game[0]*game[1])/float64(game[0]+game[1])
	}
	if both {
		orFewer, orMore := RunsTails(kinds, s.Runs)
		s.RunsP = model.Known(min(2*min(orFewer, orMore), 1))
	}
	return s
}

// add counts one game and gives its seen full racks that were not good, and those that were.
func (s *Streaks) add(sheet *model.Sheet) (poor, good int) {
	wasGood, neighbours, run := false, false, 0
	for i := range sheet.Deliveries {
		d := &sheet.Deliveries[i]
		switch {
		case d.Dead || !sheet.Racks[i].Full:
			continue
		case d.Grade() == model.Ungraded:
			neighbours, run = false, 0
			continue
		}
		isGood := d.Good()
		if poor+good == 0 || isGood != wasGood {
			s.Runs++
		}
		if neighbours {
			s.pair(wasGood, isGood)
		}
		if isGood {
			good++
			run++
			s.Longest = max(s.Longest, run)
		} else {
			poor++
			run = 0
		}
		wasGood, neighbours = isGood, true
	}
	return poor, good
}

func (s *Streaks) pair(wasGood, isGood bool) {
	after := &s.AfterPoor
	if wasGood {
		after = &s.AfterGood
	}
	after.Of++
	if isGood {
		after.N++
	}
}
