package insight

import (
	"maps"
	"testing"

	"pgregory.net/rapid"

	"coach.settee/model"
)

// exampleGames are 22 seen full racks: 3 earned, 5 unlucky, 3 lucky, 11 missed, in two whole games and one begun.
func exampleGames(t *testing.T) []model.DatedSheet {
	earned, lucky := ball(10, "AAAA"), ball(10, "BBAA")
	return []model.DatedSheet{
		game(t, 0, 1, joined(
			times(2, earned), times(3, open("AAAA")...), times(2, lucky), times(3, open("BBAA")...), // 10 frames
		)...),
		game(t, 0, 2, joined(
			times(1, earned), times(2, open("AABA")...), times(1, lucky), times(6, open("CAAA")...),
		)...),
		game(t, 1, 1, times(2, open("AAAD")...)...),
	}
}

func TestOutcomeOfTheExample(t *testing.T) {
	o := outcomeOf(exampleGames(t))
	if got, want := [4]int{o.Earned, o.Unlucky, o.Lucky, o.Missed}, [4]int{3, 5, 3, 11}; got != want {
		t.Fatalf("%v, want %v", got, want)
	}
	if o.WhenGood != (Part{3, 8}) || o.WhenPoor != (Part{3, 14}) {
		t.Errorf("%v and %v", o.WhenGood, o.WhenPoor)
	}
	near(t, "difference", o.Difference.Value, .1607, 5e-5)
	// In whole numbers: of 6 strikes, x by the 8 good shots in C(8,x) C(14,6-x) ways; for x 0 to 6
	// 3003 16016 28028 20384 6370 784 28,
	// in all 74613; those no more than the observed 20384 sum to 46585.
	near(t, "fisher", o.FisherP.Value, 46585./74613, 1e-14)
	near(t, "fisher as agreed", o.FisherP.Value, .6244, 5e-5)
	says(t, o.Words(), "strikes: 3 of 8 good shots, 3 of 14 others; too few to say")
	says(t, o.WordsResults(), "3 earned, 5 unlucky, 3 lucky, 11 missed")
	says(t, o.WordsPocket(), "pocket: no hit was read")
	says(t, o.WordsCarry(), "")
	if o.Lanes != nil || o.Pocket != (Part{}) || o.Carry != (Part{}) {
		t.Errorf("hits that nobody read: %+v", o)
	}
}

func TestResultOf(t *testing.T) {
	full, spare := model.Rack{Count: 10, Full: true}, model.Rack{Count: 10}
	noPins := func(d *model.Delivery) { d.Pins = model.Optional[int]{} }
	tests := []struct {
		name string
		ball model.Delivery
		rack model.Rack
		want Result
	}{
		{"a good strike", ball(10, "AAAA"), full, Earned},
		{"a good shot that left one", ball(9, "AABA"), full, Unlucky},
		{"a strike by two B's", ball(10, "ABBA"), full, Lucky},
		{"neither", ball(9, "ABBA"), full, Missed},
		{"a good shot over the line", ball(10, "AAAA", fouled()), full, Unlucky},
		{"seen with nothing watched is not graded", ball(10, "····"), full, NoResult},
		{"unseen", ball(10, ""), full, NoResult},
		{"dead", ball(10, "AAAA", dead()), full, NoResult},
		{"dead whatever else it is", ball(10, "AAAA", func(d *model.Delivery) { d.Dead = true }), full, NoResult},
		{"a spare shot at ten", ball(10, "AAAA"), spare, NoResult},
		{"pins unknown", ball(0, "AAAA", noPins), full, NoResult},
	}
	for _, tt := range tests {
		if got := ResultOf(tt.ball, tt.rack); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}

// A published report, whose title was not handed down, prints 54 pocket hits of 66 first balls as 82%, and the 40 strikes
// among the 54 as 74%.
func TestPocketAndCarryOfAReport(t *testing.T) {
	strike := ball(10, "AAAA", hit(model.Pocket))
	lucky := ball(10, "CAAA", hit(model.Pocket))
	pocket := []model.Delivery{ball(9, "AAAA", hit(model.Pocket)), ball(1, "AAAA", hit(model.Pocket))}
	high := []model.Delivery{ball(8, "AAAA", hit(model.High)), ball(0, "")}
	games := []model.DatedSheet{
		game(t, 0, 1, times(12, strike)...), game(t, 0, 2, times(12, strike)...), game(t, 0, 3, times(12, lucky)...),
		game(t, 0, 4, joined(times(4, strike), times(6, pocket...), []model.Delivery{ball(8, "AAAA", hit(model.Light))})...),
		game(t, 0, 5, joined(times(8, pocket...), times(2, high...))...),
		game(t, 0, 6, times(9, high...)...),
	}
	o := outcomeOf(games)
	if o.Pocket != (Part{54, 66}) || o.Carry != (Part{40, 54}) {
		t.Fatalf("pocket %v, carry %v", o.Pocket, o.Carry)
	}
	if o.Pocket.Percent() != "82%" || o.Carry.Percent() != "74%" {
		t.Errorf("pocket %s, carry %s", o.Pocket.Percent(), o.Carry.Percent())
	}
	says(t, o.WordsPocket(), "pocket: 54 of 66 (82%)")
	says(t, o.WordsCarry(), "carry: 40 of 54 (74%)")
}

func TestHitsByLane(t *testing.T) {
	missed := ball(0, "", hit(model.Brooklyn)) // nobody watched it, and it is a spare shot
	o := outcomeOf([]model.DatedSheet{game(t, 0, 1,
		ball(9, "AAAA", lane(12), hitBoards(1)), missed,
		ball(9, "AAAA", lane(11), hit(model.Pocket)), missed,
		ball(9, "AAAA", lane(12), hit(model.High)), missed,
		ball(10, "AAAA", lane(12), hitBoards(.2)),
		ball(0, "DAAA", lane(11), hit(model.Missed)), missed,
		ball(9, "AAAA", lane(13)), missed,
	)})
	want := []LaneHits{
		{11, map[model.Hit]int{model.Pocket: 1, model.Missed: 1}, Part{1, 2}},
		{12, map[model.Hit]int{model.Pocket: 1, model.High: 2}, Part{1, 3}},
	}
	words := []string{"lane 11: 1 pocket, 1 missed the head pin", "lane 12: 1 pocket, 2 high"}
	if len(o.Lanes) != len(want) {
		t.Fatalf("%+v, want %+v", o.Lanes, want)
	}
	for i, got := range o.Lanes {
		if got.Lane != want[i].Lane || got.Pocket != want[i].Pocket || !maps.Equal(got.Words, want[i].Words) {
			t.Errorf("%+v, want %+v", got, want[i])
		}
		says(t, got.Sentence(), words[i])
	}
	says(t, o.WordsPocket(), "pocket: 2 of 5; too few to say")
	says(t, o.WordsCarry(), "carry: 1 of 2; too few to say")
}

func TestOutcomeInWords(t *testing.T) {
	tests := []struct {
		earned, unlucky, lucky, missed int
		want                           string
	}{
		{0, 0, 0, 0, "strikes: none of the full racks was seen"},
		{3, 2, 0, 0, "strikes: 3 of 5 good shots, no others"},
		{0, 0, 2, 4, "strikes: 2 of 6 that were not good, no good ones"},
		{9, 1, 2, 8, "strikes: 9 of 10 good shots, 2 of 10 others; good ones strike more"},
		{2, 8, 9, 1, "strikes: 2 of 10 good shots, 9 of 10 others; good ones strike less"},
		{100, 100, 115, 85, "strikes: 100 of 200 good shots, 115 of 200 others; too few to say"},
		{115, 85, 100, 100, "strikes: 115 of 200 good shots, 100 of 200 others; too few to say"},
		{500, 500, 500, 500, "strikes: 500 of 1000 good shots, 500 of 1000 others; about the same"},
	}
	for _, tt := range tests {
		o := Outcome{Earned: tt.earned, Unlucky: tt.unlucky, Lucky: tt.lucky, Missed: tt.missed}
		o.compare()
		says(t, o.Words(), tt.want)
		one := tt.earned+tt.unlucky == 0 || tt.lucky+tt.missed == 0
		if o.FisherP.Known == one || o.Difference.Known == one || o.DifferenceInterval.Known == one {
			t.Errorf("%+v", o)
		}
	}
}

func TestOutcomeSumsToTheCounts(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		games := drawGames(r, t)
		o, c := outcomeOf(games), countsOf(games)
		want := Part{c.Good.N, c.Good.Of - costOf(games).Ungraded}
		if good := (Part{o.Earned + o.Unlucky, o.Earned + o.Unlucky + o.Lucky + o.Missed}); good != want {
			r.Fatalf("%v by the results, %v by the counts", good, want)
		}
		if o.Carry.Of != o.Pocket.N {
			r.Fatalf("pocket %v, carry %v", o.Pocket, o.Carry)
		}
		var lanes Part
		for _, l := range o.Lanes {
			hits := 0
			for _, n := range l.Words {
				hits += n
			}
			if hits != l.Pocket.Of {
				r.Fatalf("lane %d: %d words, %v", l.Lane, hits, l.Pocket)
			}
			lanes = Part{lanes.N + l.Pocket.N, lanes.Of + l.Pocket.Of}
		}
		if lanes != o.Pocket {
			r.Fatalf("the lanes sum to %v of %v", lanes, o.Pocket)
		}
	})
}
