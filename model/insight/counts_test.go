package insight

import (
	"testing"

	"pgregory.net/rapid"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// open makes an open frame: the full rack by its letters, the spare shot unseen and missed.
func open(letters string) []model.Delivery {
	return []model.Delivery{ball(7, letters), ball(0, "")}
}

func joined(parts ...[]model.Delivery) []model.Delivery {
	var out []model.Delivery
	for _, p := range parts {
		out = append(out, p...)
	}
	return out
}

func TestCountsOfAnEvening(t *testing.T) {
	over := []model.DatedSheet{
		sheet(t, model.Game{Kind: model.KindWarmup}, 0, 1, ball(9, ""), ball(10, "AAAA"), ball(3, "CCCC", dead())),
		game(t, 0, 2,
			ball(10, "AAAA"),                 // good, untouched
			ball(9, "AABA"), ball(1, "AAAA"), // good; a spare shot good and untouched
			ball(0, "ABBA", fouled()), ball(4, "AAAC"), // not good, a foul; a spare shot not good
			ball(8, ""), ball(2, ""), // unseen, both
			ball(6, "AAAA", dead()), ball(10, "FAAA"), // dead, thrown again: a strike that was not good
			ball(5, "AAAA", touched()), ball(0, "AABA", fouled()), // good, touched; a spare shot good, a foul
			ball(5, "····"), ball(5, "····"), // seen, nothing watched: neither is good, both untouched
			ball(5, "AAAA", weights(model.Weights{100, 0, 0, 0})), // good, untouched; the game is stopped here
		),
		sheet(t, model.Game{Kind: model.KindDrill, Name: "arrows"}, 0, 3, ball(9, "AAAA"), ball(9, "")),
	}
	got := countsOf(over)
	want := Counts{
		Good: Part{4, 7}, Untouched: 3, UntouchedGood: 2, Unseen: 1,
		Spare: Part{2, 4}, SpareUntouched: 2, SpareUnseen: 1,
		Fouls: 2, Load: 3 + 14 + 2,
	}
	if got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	if got := countsOf(nil); got != (Counts{}) {
		t.Errorf("of nothing: %+v", got)
	}
}

// Eight good of 22 seen: the interval was computed apart, in decimals.
func TestCountsInWords(t *testing.T) {
	c := Counts{
		Good: Part{8, 22}, Untouched: 3, Unseen: 2, Spare: Part{4, 9}, SpareUnseen: 1,
	}
	near(t, "rate", c.Good.Rate().Value, .3636, 5e-5)
	near(t, "low", c.Good.Wilson().Value.Low, .1973, 5e-5)
	near(t, "high", c.Good.Wilson().Value.High, .5705, 5e-5)
	says(t, c.Words(), "8 good of 22 seen, 3 untouched, 2 unseen")
	says(t, c.WordsRate(), "36% good; 20% to 57% in the long run")
	says(t, c.WordsSpare(), "spare shots: 4 good of 9 seen, 1 unseen")
	says(t, Counts{Good: Part{5, 9}}.Words(), "5 good of 9 seen")
	says(t, Counts{Good: Part{5, 9}}.WordsRate(), "good rate: too few to say")
	says(t, Counts{Unseen: 12}.Words(), "none seen, 12 unseen")
	says(t, Counts{}.WordsSpare(), "spare shots: none seen")
}

func says(t failer, got, want string) {
	t.Helper()
	if got != want {
		t.Errorf("it says %q, want %q", got, want)
	}
}

func TestCountsByGame(t *testing.T) {
	whole := times(12, ball(10, "AAAA"))
	games := []model.DatedSheet{
		game(t, 0, 1, whole...),
		game(t, 1, 1, joined(open("AAAA"), open("BBAA"))...),
	}
	got := byGame(games)
	want := []GameCount{
		{Counts: Counts{Good: Part{12, 12}, Untouched: 12, UntouchedGood: 12, Load: 12}, Score: 300, Complete: true},
		{Counts: Counts{Good: Part{1, 2}, Untouched: 1, UntouchedGood: 1, SpareUnseen: 2, Load: 4}, Score: 14},
	}
	if len(got) != len(want) {
		t.Fatalf("%d games, want %d", len(got), len(want))
	}
	for i := range want {
		want[i].Game, want[i].At = games[i].Sheet.Game, games[i].At
		if got[i] != want[i] {
			t.Errorf("game %d: %+v, want %+v", i, got[i], want[i])
		}
	}
}

func TestDrills(t *testing.T) {
	drill := func(name string, pins ...int) model.Game {
		return model.Game{Kind: model.KindDrill, Name: name, Pins: tenpin.Pins(pins...)}
	}
	noPins := func(d *model.Delivery) { d.Pins = model.Optional[int]{} }
	over := []model.DatedSheet{
		sheet(t, drill("corner", 10), 0, 1, ball(1, "AAAA"), ball(0, "CAAA"), ball(1, "AAAA", dead()), ball(1, "")),
		game(t, 0, 2, open("AAAA")...),
		sheet(t, drill("corner", 7), 0, 3, ball(0, "AAAA")),
		sheet(t, drill("balance"), 0, 4, ball(0, "AAAA", noPins), ball(0, "BBBB", noPins)),
		sheet(t, drill("Corner", 10), 1, 1, ball(1, "AABA"), ball(0, "AAAA", fouled())),
		sheet(t, drill(""), 1, 2, ball(0, "", noPins)),
		sheet(t, drill("slow"), 1, 3, times(3, ball(0, "", noPins))...),
	}
	want := []DrillCount{
		// The dead ball is none of the five; the one that nobody watched was made.
		{Name: "corner", Pins: tenpin.Pins(10), Balls: 5, Good: Part{3, 4}, Made: Part{3, 5}},
		{Name: "corner", Pins: tenpin.Pins(7), Balls: 1, Good: Part{1, 1}, Made: Part{0, 1}},
		{Name: "balance", Pins: tenpin.AllPins, Balls: 2, Good: Part{1, 2}},
		{Name: "", Pins: tenpin.AllPins, Balls: 1},
		{Name: "slow", Pins: tenpin.AllPins, Balls: 3},
	}
	words := []string{
		"corner at 10: 3 of 5 made, 3 of 4 good", "corner at 7: 0 of 1 made, 1 of 1 good",
		"balance: 1 of 2 good", "drill: 1 ball", "slow: 3 balls",
	}
	got := drillsOf(over)
	if len(got) != len(want) {
		t.Fatalf("%d drills, want %d", len(got), len(want))
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("drill %d: %+v, want %+v", i, got[i], want[i])
		}
		says(t, got[i].Words(), words[i])
	}
}

// drawGame makes a game, finished or not, with all that a ball can have.
func drawGame(t *rapid.T, tb testing.TB, evening, number int) model.DatedSheet {
	var balls []model.Delivery
	var at tenpin.Position
	for range rapid.IntRange(0, 24).Draw(t, "balls") {
		if at.Over() {
			break
		}
		d := ball(0, rapid.SampledFrom([]string{"AAAA", "AABA", "BABA", "A·CA", "DAAA", "····", ""}).Draw(t, "letters"))
		d.Own = model.ShotGrade(rapid.IntRange(0, int(model.GradeA)).Draw(t, "own"))
		d.Lane = rapid.IntRange(7, 8).Draw(t, "lane")
		switch rapid.IntRange(0, 9).Draw(t, "kind") {
		case 0:
			dead()(&d)
			balls = append(balls, d)
			continue
		case 1:
			fouled()(&d)
		default:
			d.Pins = model.Known(rapid.IntRange(0, at.StandingCount()).Draw(t, "pins"))
		}
		drawHit(t, &d)
		next, _, err := at.Next(d.Scored())
		if err != nil {
			t.Fatalf("%+v: %v", d, err)
		}
		at, balls = next, append(balls, d)
	}
	return game(tb, evening, number, balls...)
}

func drawHit(t *rapid.T, d *model.Delivery) {
	d.Hit = rapid.SampledFrom([]model.Hit{
		"", model.Pocket, model.High, model.Nose, model.Brooklyn, model.Light, model.Missed,
	}).Draw(t, "hit")
	if rapid.Bool().Draw(t, "boards") {
		d.HitBoards = model.Known(float64(rapid.IntRange(-30, 30).Draw(t, "hit boards")) / 10)
	}
}

func drawGames(t *rapid.T, tb testing.TB) []model.DatedSheet {
	games := make([]model.DatedSheet, rapid.IntRange(0, 4).Draw(t, "games"))
	for i := range games {
		games[i] = drawGame(t, tb, i/2, i%2+1)
	}
	return games
}

// The tally kept beside a game is counted by other code.
func TestCountsAgreeWithTheTallies(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		games := drawGames(r, t)
		var want Counts
		spareTried := 0
		for _, g := range games {
			y := g.Sheet.Tally
			want.Good = Part{want.Good.N + y.Good, want.Good.Of + y.Seen}
			want.Untouched += y.Untouched
			want.Unseen += y.Racks - y.Seen
			want.Spare = Part{want.Spare.N + y.SpareGood, want.Spare.Of + y.SpareSeen}
			want.Fouls += y.Fouls
			want.Load += y.Load
			spareTried += y.SpareTried
		}
		want.SpareUnseen = spareTried - want.Spare.Of
		got := countsOf(games)
		if got.UntouchedGood > min(got.Untouched, got.Good.N) || got.SpareUntouched > got.Spare.Of {
			r.Fatalf("more untouched than there are: %+v", got)
		}
		want.UntouchedGood, want.SpareUntouched = got.UntouchedGood, got.SpareUntouched
		if got != want {
			r.Fatalf("%+v, want %+v", got, want)
		}
		var sum Counts
		for _, g := range byGame(games) {
			sum.Good = Part{sum.Good.N + g.Counts.Good.N, sum.Good.Of + g.Counts.Good.Of}
			sum.Load += g.Counts.Load
		}
		if sum.Good != got.Good || sum.Load != got.Load {
			r.Fatalf("the games sum to %+v, all of them to %+v", sum, got)
		}
	})
}
