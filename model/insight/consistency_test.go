package insight

import (
	"math"
	"slices"
	"testing"

	"coach.settee/model"
)

func TestConsistency(t *testing.T) {
	spare := ball(1, "AAAA", arrows(10, 20), hitBoards(9), speed(30)) // none of it counts
	c := consistencyOf([]model.DatedSheet{game(t, 0, 1,
		ball(9, "AAAA", arrows(7.3, 8.3), hitBoards(.5), speed(16)), spare,
		ball(9, "AAAA", arrows(17, 15), hitBoards(-1.5), speed(17)), spare,
		ball(9, "BBBB", arrows(17, 20)), spare,
		ball(9, "AAAA", arrows(17, 17), hitBoards(0)), spare,
		ball(10, "", arrows(17, 10), hitBoards(3), speed(12)),                         // not watched
		ball(10, "AAAA", func(d *model.Delivery) { d.Line.Arrows = model.Known(3.) }), // nothing was aimed at
	)})
	// Arrows: 1, -2, 3, 0: mean 1/2, squares about it 1/4 + 25/4 + 25/4 + 1/4 = 13, over 3.
	spreads(t, "arrows", c.Arrows, Spread{4, model.Known(.5), model.Known(math.Sqrt(13. / 3)), Part{2, 4}})
	// Hit: .5, -1.5, 0: mean -1/3, squares about it 25/36 + 49/36 + 4/36 = 13/6, over 2.
	spreads(t, "hit", c.Hit, Spread{3, model.Known(-1. / 3), model.Known(math.Sqrt(13. / 12)), Part{2, 3}})
	// Speed: 16 and 17 are each half a mile an hour from 16.5; the deviation is 1 over the root of 2.
	spreads(t, "speed", c.SpeedMPH, Spread{2, model.Known(16.5), model.Known(math.Sqrt(.5)), Part{2, 2}})
}

func spreads(t *testing.T, what string, got, want Spread) {
	t.Helper()
	near(t, what+": bias", got.Bias.Value, want.Bias.Value, 1e-14)
	near(t, what+": sd", got.SD.Value, want.SD.Value, 1e-14)
	got.Bias.Value, got.SD.Value = want.Bias.Value, want.SD.Value
	if got != want {
		t.Errorf("%s: %+v, want %+v", what, got, want)
	}
}

func TestConsistencyOfLittle(t *testing.T) {
	if got := consistencyOf(nil); got != (Consistency{}) {
		t.Errorf("of nothing: %+v", got)
	}
	c := consistencyOf([]model.DatedSheet{game(t, 0, 1, ball(10, "AAAA", arrows(17, 18.5)))})
	if want := (Spread{N: 1, Bias: model.Known(1.5), WithinOne: Part{0, 1}}); c.Arrows != want {
		t.Errorf("of one: %+v, want %+v", c.Arrows, want)
	}
}

func TestConsistencyInWords(t *testing.T) {
	spread := func(n, within int, bias, sd float64) Spread {
		return Spread{n, model.Known(bias), model.Known(sd), Part{within, n}}
	}
	tests := []struct {
		name string
		c    Consistency
		want []string
	}{
		{"nothing", Consistency{}, []string{"line, hit and speed were not read"}},
		{"all three", Consistency{spread(12, 8, .52, 1.18), spread(5, 4, -.4, .8), spread(12, 9, 16.24, .61)}, []string{
			"arrows: 8 of 12 within a board, spread 1.2, 0.5 inside", "hit: 4 of 5 within a board, spread 0.8, 0.4 light",
			"speed: 16.2 mph, 9 of 12 within one of it, spread 0.6",
		}},
		{"the other sides", Consistency{spread(6, 1, -1.96, 2), spread(6, 2, 1, 1.5), Spread{}}, []string{
			"arrows: 1 of 6 within a board, spread 2.0, 2.0 outside", "hit: 2 of 6 within a board, spread 1.5, 1.0 high",
		}},
		{"on the mark", Consistency{Arrows: spread(6, 6, -.04, .4)}, []string{"arrows: 6 of 6 within a board, spread 0.4"}},
		{"few", Consistency{spread(4, 4, 0, .4), spread(1, 1, 0, 0), spread(2, 2, 16, .1)}, []string{
			"arrows: 4 read; too few to say", "hit: 1 read; too few to say", "speed: 2 read; too few to say",
		}},
	}
	for _, tt := range tests {
		if got := tt.c.Words(); !slices.Equal(got, tt.want) {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}
