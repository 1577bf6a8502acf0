package model_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"coach.settee/model"
)

func TestAverageAsPublished(t *testing.T) {
	f, err := os.Open(filepath.Join("..", "testdata", "published", "averages.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatal(len(rows), err)
	}
	number := func(text string) int {
		n, err := strconv.Atoi(text)
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
	for _, row := range rows[1:] {
		pins, scores := 0, strings.Fields(row[0])
		for _, score := range scores {
			pins += number(score)
		}
		average, known := model.AverageOf(pins, len(scores))
		if !known || average != number(row[1]) || pins-average*len(scores) != number(row[2]) {
			t.Errorf("%s: %d pins, average %d (%v), want %s and %s over", row[0], pins, average, known, row[1], row[2])
		}
	}
}

func TestAverageDropsItsFraction(t *testing.T) {
	tests := []struct {
		pins, games, want int
		known             bool
	}{
		{0, 0, 0, false}, {0, 3, 0, true}, {300, 1, 300, true}, {359, 2, 179, true}, {899, 3, 299, true}, {479, 4, 119, true},
		{480, 4, 120, true},
	}
	for _, tt := range tests {
		if got, known := model.AverageOf(tt.pins, tt.games); got != tt.want || known != tt.known {
			t.Errorf("%d pins in %d games: %d, %v, want %d, %v", tt.pins, tt.games, got, known, tt.want, tt.known)
		}
	}
}
