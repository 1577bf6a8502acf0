package insight

import (
	"fmt"
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// Sources: testdata/published/README.md.
func TestFisherAgainstPublished(t *testing.T) {
	for _, row := range published(t, "fisher.csv") {
		v := parsed(t, row[:4]...)
		got := FisherExact(int(v[0]), int(v[1]), int(v[2]), int(v[3]))
		tail := map[string]float64{"less": got.Less, "greater": got.Greater, "two-sided": got.TwoSided}[row[4]]
		exact, ok := new(big.Rat).SetString(row[5])
		if !ok {
			t.Fatalf("%q is no fraction", row[5])
		}
		want, _ := exact.Float64()
		what := fmt.Sprintf("%s of %v", row[4], v)
		near(t, what, tail, want, 1e-15)
		if row[6] != "" {
			// It is printed to four figures.
			printed := parsed(t, row[6])[0]
			near(t, what+" as printed", tail, printed, printed*5e-4)
		}
	}
}

// exactly adds up the tables with the same margins in whole numbers, by binomial coefficients.
func exactly(a, b, c, d int) Fisher {
	ways := func(x int) *big.Int {
		row := new(big.Int).Binomial(int64(a+b), int64(x))
		return row.Mul(row, new(big.Int).Binomial(int64(c+d), int64(a+c-x)))
	}
	var less, greater, both big.Int
	for x := max(0, a-d); x <= min(a+b, a+c); x++ {
		w := ways(x)
		if x <= a {
			less.Add(&less, w)
		}
		if x >= a {
			greater.Add(&greater, w)
		}
		if w.Cmp(ways(a)) <= 0 {
			both.Add(&both, w)
		}
	}
	all := new(big.Int).Binomial(int64(a+b+c+d), int64(a+c))
	part := func(n *big.Int) float64 {
		p, _ := new(big.Rat).SetFrac(n, all).Float64()
		return p
	}
	return Fisher{part(&less), part(&greater), part(&both)}
}

func TestFisherAgainstWholeNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cell := rapid.IntRange(0, 40)
		a, b, c, d := cell.Draw(t, "a"), cell.Draw(t, "b"), cell.Draw(t, "c"), cell.Draw(t, "d")
		got, want := FisherExact(a, b, c, d), exactly(a, b, c, d)
		near(t, "less", got.Less, want.Less, 1e-12)
		near(t, "greater", got.Greater, want.Greater, 1e-12)
		near(t, "two-sided", got.TwoSided, want.TwoSided, 1e-12)
	})
}

// Each table's mirror image is as probable, and rounding must not leave it out.
func TestFisherCountsWhatIsAsProbable(t *testing.T) {
	for n := 1; n <= 300; n++ {
		for a := 0; a < n; a += 7 {
			got := FisherExact(a, n-a, n-a, a)
			want := min(1, 2*min(got.Less, got.Greater))
			near(t, fmt.Sprintf("%d of %d and %d of %d", a, n, n-a, n), got.TwoSided, want, 1e-12)
		}
	}
	// In these a first cell of 0, 6 and 1 has the same chance, which floats put a last digit higher.
	for _, table := range [][4]int{{5, 1, 2, 9}, {1, 5, 9, 2}, {5, 2, 4, 10}} {
		got, want := FisherExact(table[0], table[1], table[2], table[3]), exactly(table[0], table[1], table[2], table[3])
		near(t, fmt.Sprint(table), got.TwoSided, want.TwoSided, 1e-12)
	}
}

func TestFisherOfThousands(t *testing.T) {
	for _, table := range [][4]int{{900, 1100, 820, 1180}, {2500, 100, 60, 3}, {10000, 0, 0, 10000}, {0, 3000, 0, 2000}} {
		got := FisherExact(table[0], table[1], table[2], table[3])
		if math.IsNaN(got.TwoSided) || got.TwoSided < 0 || got.TwoSided > 1 {
			t.Errorf("%v: %v", table, got)
		}
	}
	// The normal approximation with a continuity correction is good to a per cent or two here.
	got := FisherExact(900, 1100, 820, 1180)
	z := (40 - .5) / math.Sqrt(2000*2000*1720*2280/(4000.*4000*3999))
	near(t, "two-sided", got.TwoSided, math.Erfc(z/math.Sqrt2), .0002)
}

func TestFisherOfNothing(t *testing.T) {
	for _, table := range [][4]int{{}, {3, 0, 0, 0}, {0, 0, 2, 5}, {4, 0, 6, 0}} {
		got := FisherExact(table[0], table[1], table[2], table[3])
		if want := (Fisher{1, 1, 1}); got != want {
			t.Errorf("%v: %v, want %v: its margins leave one table", table, got, want)
		}
	}
}
