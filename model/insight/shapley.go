package insight

import "math/bits"

// Shapley gives each player's Shapley value in the game v of a set of players, a bit for each: what the player adds, on
// average over all orders of joining. The values sum to v of everyone less v of nobody. It asks v for each of the 2^players
// sets once, so players are to be few. Shapley, "A value for n-person games", Contributions to the Theory of Games II
// (1953).
func Shapley(players int, v func(set uint) float64) []float64 {
	worth := make([]float64, 1<<players)
	for set := range worth {
		worth[set] = v(uint(set))
	}
	values := make([]float64, players)
	orders := sharesOfOrders(players)
	for player := range values {
		for set := range worth {
			if joined := set | 1<<player; joined != set {
				values[player] += orders[bits.OnesCount(uint(set))] * (worth[joined] - worth[set])
			}
		}
	}
	return values
}

// sharesOfOrders gives, by the size s of a set, the share s!(n-s-1)!/n! of the orders in which just that set comes before a
// player.
func sharesOfOrders(n int) []float64 {
	shares := make([]float64, n)
	for s := range shares {
		if s == 0 {
			shares[0] = 1 / float64(n)
			continue
		}
		shares[s] = shares[s-1] * float64(s) / float64(n-s)
	}
	return shares
}
