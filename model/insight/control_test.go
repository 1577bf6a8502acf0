package insight

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"gonum.org/v1/gonum/floats"
	"pgregory.net/rapid"
)

// column reads a column of a published table, of the rows whose first field is series where that is not empty; an empty
// field is NaN.
func column(t *testing.T, table, series, name string) []float64 {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "..", "testdata", "published", table))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	at := -1
	for i, head := range rows[0] {
		if head == name {
			at = i
		}
	}
	if at < 0 {
		t.Fatalf("%s has no column %s", table, name)
	}
	var values []float64
	for _, row := range rows[1:] {
		if series != "" && row[0] != series {
			continue
		}
		v := math.NaN()
		if row[at] != "" {
			if v, err = strconv.ParseFloat(row[at], 64); err != nil {
				t.Fatal(err)
			}
		}
		values = append(values, v)
	}
	if len(values) == 0 {
		t.Fatalf("%s has no %s", table, series)
	}
	return values
}

func TestCUSUMAgainstPublishedTables(t *testing.T) {
	tests := []struct {
		series string
		// signal is the value, from 1, at which the upper sum first passes h; 0 for none.
		signal int
	}{{"nist", 14}, {"montgomery-runger", 0}, {"plain", 7}, {"head-start", 3}}
	for _, test := range tests {
		t.Run(test.series, func(t *testing.T) {
			get := func(name string) []float64 { return column(t, "cusum.csv", test.series, name) }
			upper, lower := CUSUM(get("x"), get("target")[0], get("k")[0], get("head_start")[0])
			signal := 0
			for i, want := range get("upper") {
				near(t, fmt.Sprintf("upper %d", i+1), upper[i], want, 1e-9)
				if signal == 0 && upper[i] > get("h")[0] {
					signal = i + 1
				}
			}
			for i, want := range get("lower") {
				if !math.IsNaN(want) {
					near(t, fmt.Sprintf("lower %d", i+1), lower[i], want, 1e-9)
				}
			}
			if signal != test.signal {
				t.Errorf("signal at %d, want %d", signal, test.signal)
			}
		})
	}
}

func TestEWMAAgainstPublishedTable(t *testing.T) {
	full, printed := column(t, "ewma.csv", "", "full"), column(t, "ewma.csv", "", "printed")
	got := EWMA(column(t, "ewma.csv", "", "x"), 50, .3)
	limits := EWMALimits(50, 2.0539, .3, 3)
	for i, v := range got {
		near(t, fmt.Sprintf("ewma %d", i+1), v, full[i], 5e-7)
		near(t, fmt.Sprintf("ewma %d as printed", i+1), v, printed[i], .0051)
		if v < limits.Low || v > limits.High {
			t.Errorf("ewma %d is outside the limits", i+1)
		}
	}
	// NIST/SEMATECH e-Handbook 6.3.2.4 prints 47.4115 and 52.5884.
	near(t, "lower limit", limits.Low, 47.4115, 1e-4)
	near(t, "upper limit", limits.High, 52.5884, 1e-4)
}

func TestCUSUMOfOneSideIsTheOthersOfTheMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOf(rapid.Float64Range(0, 4)).Draw(t, "x")
		target := rapid.Float64Range(0, 4).Draw(t, "target")
		upper, lower := CUSUM(x, target, .5, 0)
		mirror := make([]float64, len(x))
		floats.SubTo(mirror, mirror, x)
		low, up := CUSUM(mirror, -target, .5, 0)
		if !floats.EqualApprox(upper, up, 1e-12) || !floats.EqualApprox(lower, low, 1e-12) {
			t.Fatalf("%v %v, mirrored %v %v", upper, lower, up, low)
		}
	})
}

// The other road: the weights of the values and of the start.
func TestEWMAIsAWeightedMean(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOfN(rapid.Float64Range(0, 4), 1, 40).Draw(t, "x")
		lambda := rapid.Float64Range(.01, 1).Draw(t, "lambda")
		want := 2 * math.Pow(1-lambda, float64(len(x)))
		for i, v := range x {
			want += lambda * math.Pow(1-lambda, float64(len(x)-1-i)) * v
		}
		near(t, "last", EWMA(x, 2, lambda)[len(x)-1], want, 1e-12)
	})
}
