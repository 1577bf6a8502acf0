package insight

import "gonum.org/v1/gonum/floats"

// RunsDistribution gives the chance of each number of runs, from none up to all, among n0 of one kind and n1 of another in
// an order by chance, up to some hundreds of each. Wald and Wolfowitz, "On a test whether two samples are from the same
// population", Annals of Mathematical Statistics 11 (1940): of the C(n0+n1, n0) orders 2 C(n0-1,k-1) C(n1-1,k-1) have 2k
// runs, and C(n0-1,k) C(n1-1,k-1) + C(n0-1,k-1) C(n1-1,k) have 2k+1.
func RunsDistribution(n0, n1 int) []float64 {
	p := make([]float64, n0+n1+1)
	if n0 == 0 || n1 == 0 {
		p[min(n0+n1, 1)] = 1
		return p
	}
	orders := choose(n0+n1, n0)
	for r := 2; r <= min(2*min(n0, n1)+1, n0+n1); r++ {
		k := r / 2
		ways := 2 * choose(n0-1, k-1) * choose(n1-1, k-1)
		if r%2 == 1 {
			ways = choose(n0-1, k)*choose(n1-1, k-1) + choose(n0-1, k-1)*choose(n1-1, k)
		}
		p[r] = ways / orders
	}
	return p
}

// RunsTails gives the chances that games have together as many runs as runs or fewer, and as many or more, where in each
// of them its own number of each kind is in an order by chance. Rates that differ between the games make no run of this,
// as they do where games are strung together. The distribution is exact: what is dropped of it is below rounding.
func RunsTails(games [][2]int, runs int) (orFewer, orMore float64) {
	total := runsOf(games)
	for i, p := range total.p {
		if total.from+i <= runs {
			orFewer += p
		}
		if total.from+i >= runs {
			orMore += p
		}
	}
	return min(orFewer, 1), min(orMore, 1)
}

// runsOf is the distribution of the runs of games together.
func runsOf(games [][2]int) runChances {
	total := runChances{p: []float64{1}}
	one := map[[2]int]runChances{}
	var room []float64
	for _, g := range games {
		c, known := one[g]
		if !known {
			c = runChances{p: RunsDistribution(g[0], g[1])}.trimmed()
			one[g] = c
		}
		total, room = total.plus(c, room), total.p[:0]
	}
	return total
}

// choose is C(n, k), none for k out of range. Each product is a whole number of combinations, so it is exact up to 2^53.
func choose(n, k int) float64 {
	if k < 0 || k > n {
		return 0
	}
	ways := 1.0
	for i := range min(k, n-k) {
		ways = ways * float64(n-i) / float64(i+1)
	}
	return ways
}

// runChances are a distribution over numbers of runs; p[0] is the chance of from.
type runChances struct {
	from int
	p    []float64
}

// plus gives the distribution of the sum of one of c and one of d, in room where it fits.
func (c runChances) plus(d runChances, room []float64) runChances {
	n := len(c.p) + len(d.p) - 1
	if cap(room) < n {
		room = make([]float64, 0, 2*n)
	}
	sum := room[:n]
	clear(sum)
	for i, p := range d.p {
		floats.AddScaled(sum[i:i+len(c.p)], p, c.p)
	}
	return runChances{c.from + d.from, sum}.trimmed()
}

// trimmed drops the ends that are of no weight, without which a long history would take long.
func (c runChances) trimmed() runChances {
	const negligible = 1e-30
	for len(c.p) > 1 && c.p[len(c.p)-1] < negligible {
		c.p = c.p[:len(c.p)-1]
	}
	for len(c.p) > 1 && c.p[0] < negligible {
		c.from, c.p = c.from+1, c.p[1:]
	}
	return c
}
