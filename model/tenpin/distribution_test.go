package tenpin_test

import (
	"math/big"
	"testing"

	"coach.settee/model/tenpin"
)

// OEIS A060853.
func TestCountGames(t *testing.T) {
	counts := tenpin.CountGames()
	rows := published(t, "a060853.csv")
	if len(rows) != len(counts) {
		t.Fatalf("%d rows for %d scores", len(rows), len(counts))
	}
	total, most := new(big.Int), 0
	for score, count := range counts {
		if number(t, rows[score][0]) != score {
			t.Fatalf("row %d is of score %s", score, rows[score][0])
		}
		if got := count.String(); got != rows[score][1] {
			t.Errorf("score %d: %s games, want %s", score, got, rows[score][1])
		}
		total.Add(total, count)
		if count.Cmp(counts[most]) > 0 {
			most = score
		}
	}
	all := new(big.Int).Exp(big.NewInt(66), big.NewInt(9), nil)
	all.Mul(all, big.NewInt(241))
	if total.Cmp(all) != 0 || total.String() != "5726805883325784576" {
		t.Errorf("%v games in all, want 66^9 x 241 = %v", total, all)
	}
	if most != 77 || counts[most].String() != "172542309343731946" {
		t.Errorf("most games have %d: %v", most, counts[most])
	}
}

// Cooper and Kennedy, Mathematics Magazine 63(4), 1990, give the mean score of
// all games as about 80 (the figure from memory); the exact fractions were
// computed apart from this program.
func TestMomentsOfAllGames(t *testing.T) {
	counts := tenpin.CountGames()
	games, sum, squares := new(big.Int), new(big.Int), new(big.Int)
	for score, count := range counts {
		weighted := new(big.Int).Mul(count, big.NewInt(int64(score)))
		games.Add(games, count)
		sum.Add(sum, weighted)
		squares.Add(squares, weighted.Mul(weighted, big.NewInt(int64(score))))
	}
	mean := new(big.Rat).SetFrac(sum, games)
	if want := big.NewRat(125572265, 1574694); mean.Cmp(want) != 0 {
		t.Errorf("mean %v, want %v", mean, want)
	}
	variance := new(big.Rat).SetFrac(squares, games)
	variance.Sub(variance, new(big.Rat).Mul(mean, mean))
	if want := big.NewRat(115923378174025, 619915298409); variance.Cmp(want) != 0 {
		t.Errorf("variance %v, want %v", variance, want)
	}
}
