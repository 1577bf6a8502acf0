package lane

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

// One side's sum, value by value, and where it began, against published tables (testdata/published has their sources). A
// series with a head start is another chart's.
func TestCUSUMAgainstPublishedTables(t *testing.T) {
	f, err := os.Open("../../testdata/published/cusum.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	upper, lower := map[string]cusum{}, map[string]cusum{}
	checked := 0
	for ball, row := range rows[1:] {
		series := row[0]
		number := func(i int) float64 {
			n, _ := strconv.ParseFloat(row[i], 64)
			return n
		}
		if number(4) != 0 {
			continue
		}
		up, low := upper[series], lower[series]
		up.add(ball, number(5)-number(1)-number(2))
		low.add(ball, number(1)-number(5)-number(2))
		for i, sum := range map[int]cusum{6: up, 7: low} {
			if row[i] == "" {
				continue
			}
			checked++
			if math.Abs(sum.sum-number(i)) > 1e-9 {
				t.Errorf("%s, row %d: %v, want %s", series, ball+2, sum.sum, row[i])
			}
		}
		if up.sum > 0 && up.from+up.shots-1 != ball || up.sum == 0 && up != (cusum{}) {
			t.Errorf("%s, row %d: from %d for %d shots", series, ball+2, up.from, up.shots)
		}
		upper[series], lower[series] = up, low
	}
	if checked < 80 {
		t.Errorf("only %d values", checked)
	}
}
