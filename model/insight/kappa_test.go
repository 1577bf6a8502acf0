package insight

import (
	"math/big"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"
)

// Sources: testdata/published/README.md. A weighted kappa printed elsewhere is often of linear weights.
func TestQuadraticKappaAgainstPublished(t *testing.T) {
	for _, row := range published(t, "kappa.csv") {
		exact, ok := new(big.Rat).SetString(row[1])
		if !ok {
			t.Fatalf("%q is no fraction", row[1])
		}
		want, _ := exact.Float64()
		table := readTable(t, row[0])
		near(t, row[0], QuadraticKappa(pairsOf(table)).Value, want, 1e-15)
		if got := weighted(table); got.Cmp(exact) != 0 {
			t.Errorf("%s by its definition is %s, want %s", row[0], got, exact)
		}
		if row[2] != "" {
			near(t, row[0]+" as printed", want, parsed(t, row[2])[0], halfUnit(row[2]))
		}
	}
}

func readTable(t *testing.T, text string) [][]int {
	t.Helper()
	var table [][]int
	for _, line := range strings.Split(text, "/") {
		var row []int
		for _, n := range parsed(t, strings.Fields(line)...) {
			row = append(row, int(n))
		}
		table = append(table, row)
	}
	return table
}

func pairsOf(table [][]int) [][2]int {
	var pairs [][2]int
	for i, row := range table {
		for j, n := range row {
			for range n {
				pairs = append(pairs, [2]int{i, j})
			}
		}
	}
	return pairs
}

// weighted is the definition: one less the observed over the expected disagreement, each cell weighted by (i-j)^2/(k-1)^2.
func weighted(table [][]int) *big.Rat {
	k, n := len(table), int64(0)
	rows, columns := make([]int64, k), make([]int64, k)
	for i, row := range table {
		for j, count := range row {
			rows[i] += int64(count)
			columns[j] += int64(count)
			n += int64(count)
		}
	}
	observed, expected := new(big.Rat), new(big.Rat)
	for i, row := range table {
		for j, count := range row {
			weight := big.NewRat(int64((i-j)*(i-j)), int64((k-1)*(k-1)))
			observed.Add(observed, new(big.Rat).Mul(weight, big.NewRat(int64(count), n)))
			expected.Add(expected, new(big.Rat).Mul(weight, big.NewRat(rows[i]*columns[j], n*n)))
		}
	}
	return new(big.Rat).Sub(big.NewRat(1, 1), observed.Quo(observed, expected))
}

// With quadratic weights kappa is twice the covariance over the two variances and the square of the means' difference, all
// with n below: J. L. Fleiss and J. Cohen, Educational and Psychological Measurement 33 (1973); from memory.
func TestQuadraticKappaByMoments(t *testing.T) {
	grade := rapid.IntRange(1, 12)
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 60).Draw(t, "n")
		pairs := make([][2]int, n)
		own, coach := make([]float64, n), make([]float64, n)
		for i := range pairs {
			pairs[i] = [2]int{grade.Draw(t, "own"), grade.Draw(t, "coach")}
			own[i], coach[i] = float64(pairs[i][0]), float64(pairs[i][1])
		}
		toN := float64(n-1) / float64(n)
		away := stat.Mean(own, nil) - stat.Mean(coach, nil)
		below := toN*(stat.Variance(own, nil)+stat.Variance(coach, nil)) + away*away
		got := QuadraticKappa(pairs)
		if !got.Known {
			if below > 1e-12 {
				t.Fatalf("unknown of %v", pairs)
			}
			return
		}
		near(t, "kappa", got.Value, 2*toN*stat.Covariance(own, coach, nil)/below, 1e-11)
	})
}

func TestQuadraticKappaAtTheEnds(t *testing.T) {
	if QuadraticKappa(nil).Known {
		t.Error("known of no pairs")
	}
	if QuadraticKappa([][2]int{{7, 7}, {7, 7}, {7, 7}}).Known {
		t.Error("known where all are of one category")
	}
	near(t, "full agreement", QuadraticKappa([][2]int{{1, 1}, {5, 5}, {12, 12}}).Value, 1, 0)
	near(t, "full disagreement", QuadraticKappa([][2]int{{1, 12}, {12, 1}}).Value, -1, 0)
	near(t, "each always the same, not the other's", QuadraticKappa([][2]int{{4, 9}, {4, 9}}).Value, 0, 0)
}
