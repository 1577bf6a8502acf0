package insight

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestHeldUp(t *testing.T) {
	as := func(games ...[4]Part) (tr Trend) {
		for _, g := range games {
			tr.Games = append(tr.Games, TrendGame{As: g})
		}
		return tr
	}
	mixed := as([4]Part{{6, 7}, {5, 10}, {9, 10}, {}}, [4]Part{{3, 3}, {5, 10}, {9, 10}, {}})
	poor := as([4]Part{{6, 10}, {5, 10}, {3, 10}, {}})
	for _, c := range []struct {
		name string
		r    Report
		want string
	}{
		{"nothing", Report{}, ""},
		// Balance 9 of 10 and release 18 of 20 are equal: the earlier, or the one that cost less.
		{"an axis", Report{Trend: mixed}, "balance, A in 9 of 10"},
		{"the one that cost less", Report{Trend: mixed, Cost: Cost{ByAxis: [4]float64{3, 5, 2, 0}}}, "release, A in 18 of 20"},
		{"not the next thing", Report{Trend: mixed, Next: Next{What: "balance"}}, "release, A in 18 of 20"},
		{"nor what the figures would have", Report{Trend: mixed, Next: Next{What: "arms", Figures: "balance"}},
			"release, A in 18 of 20"},
		{"nor what the coach's words name", Report{Trend: mixed, Next: Next{What: "keep the Balance!", ByCoach: true}}, "release, A in 18 of 20"},
		{"nor what they speak of", Report{Trend: mixed, Next: Next{What: "slow feet first", ByCoach: true}}, "release, A in 18 of 20"},
		{"but what they do not", Report{Trend: mixed, Next: Next{What: "defeat nobody, unbalanced", ByCoach: true}}, "balance, A in 9 of 10"},
		{"at the edge", Report{Trend: as([4]Part{{7, 10}})}, "balance, A in 7 of 10"},
		{"four shots are few", Report{Trend: as([4]Part{{4, 4}})}, "balance, the steadiest"},
		{"single pins", Report{Trend: poor, Spares: Spares{Single: Part{5, 6}}}, "single pins, 5 of 6 made"},
		{"four tries are few", Report{Trend: poor, Spares: Spares{Single: Part{4, 4}}}, "balance, the steadiest"},
		{"single pins are next", Report{Trend: poor, Spares: Spares{Single: Part{5, 6}}, Next: Next{What: WorkOnSpares}},
			"balance, the steadiest"},
		{"a run", Report{Trend: poor, Spares: Spares{Single: Part{4, 6}}, Streaks: Streaks{Longest: 3}}, "a run of 3 good shots"},
		{"a run of two", Report{Trend: poor, Streaks: Streaks{Longest: 2}}, "balance, the steadiest"},
		{"no A", Report{Trend: as([4]Part{{0, 10}})}, ""},
	} {
		if got := HeldUp(c.r); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// What a page shows to have gone down did not hold up, and neither a run nor what is only steadiest is a habit.
func TestHeldUpHabit(t *testing.T) {
	r := Report{Trend: Trend{Games: []TrendGame{{As: [4]Part{{9, 10}, {5, 10}, {8, 10}, {}}}}}, Spares: Spares{Single: Part{5, 6}}}
	for _, c := range []struct {
		except []string
		what   string
		of     Part
	}{
		{nil, "balance", Part{9, 10}},
		{[]string{"balance"}, "release", Part{8, 10}},
		{[]string{"balance", "release"}, SinglePins, Part{5, 6}},
		{[]string{"balance", "release", SinglePins}, "", Part{}},
	} {
		if what, of := HeldUpHabit(r, c.except...); what != c.what || of != c.of {
			t.Errorf("but for %q: %q %v, want %q %v", c.except, what, of, c.what, c.of)
		}
	}
	if axis, of := Steadiest(r, "balance", "release"); axis != "target" || of != (Part{5, 10}) {
		t.Errorf("the steadiest is %s %v", axis, of)
	}
	r = Report{Streaks: Streaks{Longest: 9}}
	if what, of := HeldUpHabit(r); what != "" || of != (Part{}) {
		t.Errorf("a run is a habit: %q %v", what, of)
	}
}

func TestHeldUpProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawReport(t)
		r.Next = nextOf(drawStudent(t), r)
		held := HeldUp(r)
		if len(held) > 40 || strings.HasPrefix(held, r.Next.What) {
			t.Fatalf("%q held up, %q is next", held, r.Next.What)
		}
		for _, word := range []string{"miss", "poor", "not", "cost"} {
			if strings.Contains(held, word) {
				t.Fatalf("%q is not kind: %q", word, held)
			}
		}
	})
}
