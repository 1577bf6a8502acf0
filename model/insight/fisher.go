package insight

// Fisher holds the chances of Fisher's exact test of a table of two by two with its margins kept.
type Fisher struct {
	// Less and Greater are the chances of a first cell of at most, and of at least, the observed one.
	Less, Greater float64
	// TwoSided is the chance of all the tables that are no more probable than the observed one.
	TwoSided float64
}

// FisherExact tests the table a b / c d, all counts 0 or more: R. A. Fisher, "The Design of Experiments" (1935), with the
// two-sided chance as the R manual's fisher.test has it.
func FisherExact(a, b, c, d int) Fisher {
	h := hypergeometric{row: a + b, other: c + d, column: a + c}
	observed := h.weightOf(a)
	// Tables as probable as the observed one must count whichever way rounding went; R allows as much.
	const equal = 1 + 1e-7
	var total, less, greater, both float64
	h.each(func(x int, weight float64) {
		total += weight
		if x <= a {
			less += weight
		}
		if x >= a {
			greater += weight
		}
		if weight <= observed*equal {
			both += weight
		}
	})
	return Fisher{Less: less / total, Greater: greater / total, TwoSided: both / total}
}

// hypergeometric is the distribution of the first cell of a table of two by two with its rows and its first column given.
type hypergeometric struct{ row, other, column int }

func (h hypergeometric) weightOf(a int) float64 {
	var of float64
	h.each(func(x int, weight float64) {
		if x == a {
			of = weight
		}
	})
	return of
}

// each visits every value of the cell with its probability in units of the most probable one's. Each is a ratio to its
// neighbour nearer the middle, so that nothing overflows and what is too small to be told from 0 is 0.
func (h hypergeometric) each(visit func(x int, weight float64)) {
	low, high := max(0, h.column-h.other), min(h.row, h.column)
	mode := (h.row + 1) * (h.column + 1) / (h.row + h.other + 2)
	mode = min(max(mode, low), high)
	visit(mode, 1)
	weight := 1.0
	for x := mode; x < high; x++ {
		weight *= float64(h.row-x) * float64(h.column-x) / (float64(x+1) * float64(h.other-h.column+x+1))
		visit(x+1, weight)
	}
	weight = 1
	for x := mode; x > low; x-- {
		weight *= float64(x) * float64(h.other-h.column+x) / (float64(h.row-x+1) * float64(h.column-x+1))
		visit(x-1, weight)
	}
}
