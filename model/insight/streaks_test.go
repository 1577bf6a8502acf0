package insight

import (
	"testing"

	"pgregory.net/rapid"

	"coach.settee/model"
)

// strikes makes strikes of a game from "1" for a good shot, "0" for one that was not and "u" for an unseen one.
func strikes(shots string) []model.Delivery {
	letters := map[rune]string{'1': "AAAA", '0': "AACA", 'u': ""}
	var balls []model.Delivery
	for _, r := range shots {
		balls = append(balls, ball(10, letters[r]))
	}
	return balls
}

// By hand: after a good shot 4 of 7 good, after another 3 of 4; runs 111 00 1 0 11 0 11. Of the 495 orders of 4 and 8 there
// are 2 10 42 84 126 126 70 35 with 2 to 9 runs, so 390 with 7 or fewer and 231 with 7 or more.
func TestStreaksOfAGame(t *testing.T) {
	s := streaksOf([]model.DatedSheet{game(t, 0, 1, strikes("111001011011")...)})
	if want := (Part{4, 7}); s.AfterGood != want {
		t.Errorf("after good %v", s.AfterGood)
	}
	if want := (Part{3, 4}); s.AfterPoor != want {
		t.Errorf("after poor %v", s.AfterPoor)
	}
	if s.Runs != 7 || s.Longest != 3 {
		t.Errorf("%d runs, longest %d", s.Runs, s.Longest)
	}
	near(t, "p", s.RunsP.Value, 2*231./495, 1e-14)
	near(t, "expected", s.Expected, 1+2*4*8/12., 1e-14)
	if got := s.WordsAfter(); got != "after a good shot 4 of 7 good, after any other 3 of 4" {
		t.Errorf("%q", got)
	}
}

func TestStreaksKeepToNeighboursAndGames(t *testing.T) {
	t.Run("an unseen rack parts", func(t *testing.T) {
		s := streaksOf([]model.DatedSheet{game(t, 0, 1, strikes("11u110")...)})
		if s.AfterGood != (Part{2, 3}) || s.AfterPoor != (Part{}) || s.Longest != 2 || s.Runs != 2 {
			t.Errorf("%+v", s)
		}
	})
	t.Run("spare shots and dead balls do not", func(t *testing.T) {
		s := streaksOf([]model.DatedSheet{game(t, 0, 1,
			ball(7, "AAAA"), ball(3, "FFFF"), ball(0, "", dead()), ball(9, "AAAA"), ball(1, ""), ball(10, "AAAA"))})
		if s.AfterGood != (Part{2, 2}) || s.Longest != 3 || s.Runs != 1 {
			t.Errorf("%+v", s)
		}
	})
	t.Run("games are not strung together", func(t *testing.T) {
		s := streaksOf([]model.DatedSheet{game(t, 0, 1, strikes("0011")...), game(t, 0, 2, strikes("1100")...)})
		if s.AfterGood != (Part{2, 3}) || s.AfterPoor != (Part{1, 3}) || s.Longest != 2 || s.Runs != 4 {
			t.Errorf("%+v", s)
		}
	})
	t.Run("a good and a poor game are no streak", func(t *testing.T) {
		s := streaksOf([]model.DatedSheet{game(t, 0, 1, strikes("111111111111")...), game(t, 0, 2, strikes("000000000000")...)})
		if s.RunsP.Known || s.Runs != 2 || s.Words() != "too few to say whether good shots come in runs" {
			t.Errorf("%+v: %s", s, s.Words())
		}
	})
	t.Run("nothing seen", func(t *testing.T) {
		if s := streaksOf([]model.DatedSheet{game(t, 0, 1, strikes("uuu")...)}); s != (Streaks{}) {
			t.Errorf("%+v", s)
		}
	})
}

func TestStreaksWords(t *testing.T) {
	of := func(shots ...string) string {
		var games []model.DatedSheet
		for i, s := range shots {
			games = append(games, game(t, 0, i+1, strikes(s)...))
		}
		return streaksOf(games).Words()
	}
	tests := []struct {
		games []string
		want  string
	}{
		{[]string{"111000"}, "too few to say whether good shots come in runs"},
		{[]string{"111001011011", "010011101100"}, "good shots came in no clearer runs than chance makes"},
		{[]string{"111111000000", "000000111111"}, "over these games good shots ran longer than chance makes"},
		{[]string{"101010101010", "010101010101"}, "over these games good shots took turns more than by chance"},
	}
	for _, test := range tests {
		if got := of(test.games...); got != test.want {
			t.Errorf("%v: got %q", test.games, got)
		}
	}
}

func TestStreaksCountEachNeighbourOnce(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		shots := rapid.StringOfN(rapid.SampledFrom([]rune("01")), 1, 12, -1).Draw(rt, "shots")
		s := streaksOf([]model.DatedSheet{game(t, 0, 1, strikes(shots)...)})
		if s.AfterGood.Of+s.AfterPoor.Of != len(shots)-1 {
			rt.Fatalf("%+v of %s", s, shots)
		}
		// A run begins at the first shot and at each that is not like the one before.
		if s.Runs != 1+s.AfterPoor.N+s.AfterGood.Of-s.AfterGood.N {
			rt.Fatalf("%+v of %s", s, shots)
		}
		if s.RunsP.Known && (s.RunsP.Value <= 0 || s.RunsP.Value > 1) {
			rt.Fatalf("p %v of %s", s.RunsP.Value, shots)
		}
	})
}
