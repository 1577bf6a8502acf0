package insight

import (
	"fmt"
	"math"
	"math/bits"
	"testing"

	"pgregory.net/rapid"
)

func TestShapleyOfKnownGames(t *testing.T) {
	// bySet lists v from the empty set on, the first player the lowest bit.
	bySet := func(v ...float64) func(uint) float64 { return func(set uint) float64 { return v[set] } }
	vote := func(set uint) float64 {
		votes := 0
		for i, weight := range []int{4, 3, 2, 1} {
			if set&(1<<i) != 0 {
				votes += weight
			}
		}
		return when(votes >= 6)
	}
	airport := func(set uint) float64 {
		cost := 0.
		for i, c := range []float64{8, 11, 13, 18} {
			if set&(1<<i) != 0 {
				cost = max(cost, c)
			}
		}
		return cost
	}
	gloves := func(set uint) float64 {
		return float64(min(bits.OnesCount(set&0b00011), bits.OnesCount(set&0b11100)))
	}
	axes := func(set uint) float64 {
		v := 0.
		for i, worth := range []float64{3, 2, 4, 1} {
			if set&(1<<i) != 0 {
				v += worth
			}
		}
		return v + 6*when(set&0b0101 == 0b0101) + 12*when(set == 0b1111)
	}
	tests := []struct {
		name string
		v    func(uint) float64
		want []float64
	}{
		// Encyclopaedia article on the Shapley value.
		{"glove game, the third has the left one", bySet(0, 0, 0, 0, 0, 1, 1, 1), []float64{1. / 6, 1. / 6, 2. / 3}},
		// wiskundeoptiu.nl.
		{"unanimity of the first and the third", bySet(0, 0, 0, 0, 0, 1, 0, 1), []float64{.5, 0, .5}},
		// wiskundeoptiu.nl, node 4161.
		{"2 0 0, together 2 2 6, all 8", bySet(0, 2, 0, 2, 0, 2, 6, 8), []float64{2, 3, 3}},
		// LAMSADE, lecture slides (studylib 9282877).
		{"100 and 200, together 700", bySet(0, 100, 200, 700), []float64{300, 400}},
		{"additive", bySet(0, 1, 2, 3, 3, 4, 5, 6), []float64{1, 2, 3}},
		// From memory, and computed again over all orders in exact fractions.
		{"airport, costs 8 11 13 18", airport, []float64{2, 3, 4, 9}},
		// The others were computed in exact fractions, over all orders and by the formula for sets.
		{"two left and three right gloves", gloves, []float64{13. / 20, 13. / 20, 7. / 30, 7. / 30, 7. / 30}},
		{"votes 4 3 2 1, quota 6", vote, []float64{5. / 12, 1. / 4, 1. / 4, 1. / 12}},
		{"four axes, more for two and for all", axes, []float64{9, 5, 10, 4}},
		{"one player", bySet(0, 7), []float64{7}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := Shapley(len(test.want), test.v)
			for i, want := range test.want {
				near(t, fmt.Sprintf("player %d", i+1), got[i], want, 1e-12)
			}
		})
	}
}

func when(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// The other road: the mean over every order of joining.
func TestShapleyIsTheMeanOverAllOrders(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 5).Draw(t, "players")
		worth := rapid.SliceOfN(rapid.Float64Range(-10, 10), 1<<n, 1<<n).Draw(t, "worth")
		v := func(set uint) float64 { return worth[set] }
		want := make([]float64, n)
		orders := 0.
		eachOrder(n, func(order []int) {
			orders++
			set := uint(0)
			for _, player := range order {
				want[player] += v(set|1<<player) - v(set)
				set |= 1 << player
			}
		})
		sum := 0.
		for i, got := range Shapley(n, v) {
			near(t, fmt.Sprintf("player %d", i+1), got, want[i]/orders, 1e-12)
			sum += got
		}
		near(t, "sum", sum, worth[len(worth)-1]-worth[0], 1e-12)
		near(t, "orders", orders, math.Gamma(float64(n+1)), 1e-9)
	})
}

// eachOrder calls f with every order of n players.
func eachOrder(n int, f func([]int)) {
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	var place func(k int)
	place = func(k int) {
		if k == n {
			f(order)
			return
		}
		for i := k; i < n; i++ {
			order[k], order[i] = order[i], order[k]
			place(k + 1)
			order[k], order[i] = order[i], order[k]
		}
	}
	place(0)
}
