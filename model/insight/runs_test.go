package insight

import (
	"fmt"
	"math/bits"
	"testing"

	"pgregory.net/rapid"
)

func TestRunsAgainstPublishedCounts(t *testing.T) {
	n0, n1 := column(t, "runs.csv", "", "n0"), column(t, "runs.csv", "", "n1")
	runs, orders := column(t, "runs.csv", "", "runs"), column(t, "runs.csv", "", "orders")
	all := map[string]float64{"14 11": 4457400, "5 5": 252, "6 4": 210}
	listed := map[string]float64{}
	for i := range runs {
		kinds := fmt.Sprintf("%v %v", n0[i], n1[i])
		listed[kinds] += orders[i]
		got := RunsDistribution(int(n0[i]), int(n1[i]))[int(runs[i])]
		near(t, fmt.Sprintf("%v runs of %s", runs[i], kinds), got, orders[i]/all[kinds], 1e-15)
	}
	for kinds, want := range all {
		near(t, "orders of "+kinds, listed[kinds], want, 0)
	}
}

func TestRunsTails(t *testing.T) {
	tests := []struct {
		name  string
		games [][2]int
		runs  int
		// fewer and more are the tails, 0 for one that is not checked, within how much they may be off.
		fewer, within, more float64
	}{
		// A public mailing list's archive, mg53905; the tail in exact fractions.
		{"0001011001100110001011100", [][2]int{{14, 11}}, 13, 7825. / 14858, 1e-14, 0},
		// MMMFFFMMMMFFMMMFFFFFFFMMFMM, dictionary.psychologydb.com; the tail in exact fractions.
		{"nine runs of 14 and 13", [][2]int{{14, 13}}, 9, 701. / 29716, 1e-14, 0},
		// Computed; 6 and 16 are the limits of the usual two-sided 5% table, from memory.
		{"6 runs of 10 and 10", [][2]int{{10, 10}}, 6, .0185217260, 5e-11, 0},
		{"7 runs of 10 and 10", [][2]int{{10, 10}}, 7, .0512567927, 5e-11, 0},
		{"16 runs of 10 and 10", [][2]int{{10, 10}}, 16, 0, 5e-11, .0185217260},
		// By hand: of the 3 orders of 1 and 2 two have 2 runs and one has 3, so that two such games have 4 runs in 4 of 9
		// orders, 5 in 4 and 6 in 1.
		{"two games, 4 runs", [][2]int{{1, 2}, {2, 1}}, 4, 4. / 9, 1e-15, 1},
		{"two games, 5 runs", [][2]int{{1, 2}, {2, 1}}, 5, 8. / 9, 1e-15, 5. / 9},
		{"a game of one kind has its one run", [][2]int{{1, 2}, {0, 7}, {2, 1}}, 6, 8. / 9, 1e-15, 5. / 9},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			orFewer, orMore := RunsTails(test.games, test.runs)
			if test.fewer > 0 {
				near(t, "as many or fewer", orFewer, test.fewer, test.within)
			}
			if test.more > 0 {
				near(t, "as many or more", orMore, test.more, test.within)
			}
		})
	}
}

// The other road: every order listed, as the bits of a number.
func TestRunsDistributionAgainstAllOrders(t *testing.T) {
	for n := 1; n <= 12; n++ {
		orders := make([][]float64, n+1) // by the ones, by the runs
		all := make([]float64, n+1)
		for ones := range orders {
			orders[ones] = make([]float64, n+1)
		}
		for order := range uint(1) << n {
			ones := bits.OnesCount(order)
			changes := bits.OnesCount((order ^ order>>1) & (1<<(n-1) - 1))
			orders[ones][changes+1]++
			all[ones]++
		}
		for ones := range orders {
			for runs, p := range RunsDistribution(n-ones, ones) {
				near(t, fmt.Sprintf("%d runs, %d of %d", runs, ones, n), p, orders[ones][runs]/all[ones], 1e-15)
			}
		}
	}
}

func TestRunsTailsMeetInTheObserved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.IntRange(0, 12)
		games := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) [2]int {
			return [2]int{kind.Draw(t, "poor"), kind.Draw(t, "good")}
		}), 1, 30).Draw(t, "games")
		runs := rapid.IntRange(0, 200).Draw(t, "runs")
		orFewer, orMore := RunsTails(games, runs)
		_, more := RunsTails(games, runs+1)
		near(t, "sum of the tails", orFewer+more, 1, 1e-12)
		fewer, _ := RunsTails(games, runs-1)
		near(t, "chance of just as many", orFewer-fewer, orMore-more, 1e-12)
	})
}

// What is dropped of a long history must not show. A game of 5 and 5 has 6 runs on average, with the variance
// 2 n0 n1 (2 n0 n1 - n) / (n^2 (n-1)) = 20/9 of Wald and Wolfowitz.
func TestRunsOfALongHistory(t *testing.T) {
	games := make([][2]int, 1000)
	for i := range games {
		games[i] = [2]int{5, 5}
	}
	total := runsOf(games)
	sum, mean, square := 0., 0., 0.
	for i, p := range total.p {
		off := float64(total.from + i - 6000)
		sum += p
		mean += off * p
		square += off * off * p
	}
	near(t, "sum", sum, 1, 1e-12)
	near(t, "mean off 6000", mean, 0, 1e-9)
	near(t, "variance", square, 1000*20./9, 1e-8)
	if len(total.p) > 2000 {
		t.Errorf("%d numbers of runs are kept", len(total.p))
	}
}
