package insight

import "coach.settee/model"

// QuadraticKappa gives Cohen's weighted kappa of pairs of ordered categories, numbered in steps of one, with the weights of
// disagreement (i-j)^2/(k-1)^2 over k categories: J. Cohen, "Weighted kappa", Psychological Bulletin 70 (1968). 1 is full
// agreement, 0 what chance would give, below 0 less. Unknown where chance cannot disagree: of no pairs, and where all of them
// are of one category.
//
// With n pairs it is 1 - n sum (i-j)^2 / sum over all i with all j of (i-j)^2. k falls out of it, and the lower sum is
// n (sum i^2 + sum j^2) - 2 (sum i)(sum j), all in whole numbers.
func QuadraticKappa(pairs [][2]int) model.Optional[float64] {
	var apart, squares, first, second int
	for _, p := range pairs {
		i, j := p[0], p[1]
		apart += (i - j) * (i - j)
		squares += i*i + j*j
		first += i
		second += j
	}
	n := len(pairs)
	chance := n*squares - 2*first*second
	if chance == 0 {
		return model.Optional[float64]{}
	}
	return model.Known(1 - float64(n*apart)/float64(chance))
}
