package tenpin_test

import (
	"testing"

	"coach.settee/model/tenpin"
)

// step is a ball and what is expected after it.
type step struct {
	ball     tenpin.Ball
	points   int
	frame    int
	inFrame  int
	standing int
	fullRack bool
	leave    tenpin.Leave
}

var (
	unknown = tenpin.Leave{}
	all     = tenpin.Standing(tenpin.AllPins)
	foul    = tenpin.Ball{Foul: true}
)

func fell(pins int) tenpin.Ball { return tenpin.Ball{Pins: pins} }

func leaving(pins int, numbers ...int) tenpin.Ball {
	return tenpin.Ball{Pins: pins, After: tenpin.Standing(tenpin.Pins(numbers...))}
}

func only(numbers ...int) tenpin.Leave { return tenpin.Standing(tenpin.Pins(numbers...)) }

// inTenth is nine frames of gutter balls.
func inTenth(t *testing.T) tenpin.Position {
	t.Helper()
	return parse(t, "-- -- -- -- -- -- -- -- --").At
}

func walk(t *testing.T, p tenpin.Position, steps []step) tenpin.Position {
	t.Helper()
	for i, s := range steps {
		next, points, err := p.Next(s.ball)
		if err != nil {
			t.Fatalf("ball %d: %v", i+1, err)
		}
		got := step{s.ball, points, next.Frame(), next.BallInFrame(), next.StandingCount(), next.FullRack(), next.Standing()}
		if got != s {
			t.Errorf("ball %d:\n got %+v\nwant %+v", i+1, got, s)
		}
		p = next
	}
	return p
}

// By hand from the Universal Playing Rules 2.1.2 to 2.1.6; the fouls from the
// rule that a foul's pins do not count and its rack is set again (world rules,
// fouls).
func TestPositions(t *testing.T) {
	tests := []struct {
		name  string
		steps []step
	}{
		{"an open frame with named leaves", []step{
			{leaving(8, 7, 10), 8, 1, 2, 2, false, only(7, 10)},
			{leaving(1, 7), 1, 2, 1, 10, true, all},
		}},
		{"a leave not named", []step{
			{fell(8), 8, 1, 2, 2, false, unknown},
			{fell(1), 1, 2, 1, 10, true, all},
		}},
		{"a leave named that was not known before", []step{
			{fell(8), 8, 1, 2, 2, false, unknown},
			{leaving(1, 4), 1, 2, 1, 10, true, all},
		}},
		{"a spare counts the next ball", []step{
			{leaving(9, 10), 9, 1, 2, 1, false, only(10)},
			{fell(1), 1, 2, 1, 10, true, all},
			{fell(7), 14, 2, 2, 3, false, unknown},
			{fell(2), 2, 3, 1, 10, true, all},
		}},
		{"three strikes", []step{
			{fell(10), 10, 2, 1, 10, true, all},
			{fell(10), 20, 3, 1, 10, true, all},
			{fell(10), 30, 4, 1, 10, true, all},
			{fell(4), 12, 4, 2, 6, false, unknown},
			{fell(3), 6, 5, 1, 10, true, all},
			{fell(1), 1, 5, 2, 9, false, unknown},
		}},
		{"a gutter ball, then ten are a spare", []step{
			{fell(0), 0, 1, 2, 10, false, all},
			{fell(10), 10, 2, 1, 10, true, all},
			{fell(5), 10, 2, 2, 5, false, unknown},
		}},
		{"a foul, then ten are a spare", []step{
			{foul, 0, 1, 2, 10, false, all},
			{fell(10), 10, 2, 1, 10, true, all},
			{fell(5), 10, 2, 2, 5, false, unknown},
		}},
		{"a foul that names the rack", []step{
			{tenpin.Ball{Foul: true, After: all}, 0, 1, 2, 10, false, all},
			{leaving(9, 10), 9, 2, 1, 10, true, all},
		}},
		{"a foul on the second ball", []step{
			{leaving(7, 4, 7, 8), 7, 1, 2, 3, false, only(4, 7, 8)},
			{tenpin.Ball{Foul: true, After: only(4, 7, 8)}, 0, 2, 1, 10, true, all},
		}},
		{"a foul after a strike is one of its two balls", []step{
			{fell(10), 10, 2, 1, 10, true, all},
			{foul, 0, 2, 2, 10, false, all},
			{fell(7), 14, 3, 1, 10, true, all},
		}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) { walk(t, tenpin.Position{}, test.steps) })
	}
}

// Sources as above; a second ball at ten after a strike and a foul in the tenth
// is a spare, and a foul on the third ball leaves the first two as they are.
func TestPositionsInTheTenth(t *testing.T) {
	over := tenpin.Standing(0)
	tests := []struct {
		name  string
		steps []step
	}{
		{"open", []step{
			{fell(9), 9, 10, 2, 1, false, unknown},
			{fell(0), 0, 10, 0, 0, false, over},
		}},
		{"three strikes", []step{
			{fell(10), 10, 10, 2, 10, true, all},
			{fell(10), 10, 10, 3, 10, true, all},
			{fell(10), 10, 10, 0, 0, false, over},
		}},
		{"two strikes and a count", []step{
			{fell(10), 10, 10, 2, 10, true, all},
			{fell(10), 10, 10, 3, 10, true, all},
			{fell(8), 8, 10, 0, 0, false, over},
		}},
		{"a strike, then a spare", []step{
			{fell(10), 10, 10, 2, 10, true, all},
			{leaving(8, 3, 10), 8, 10, 3, 2, false, only(3, 10)},
			{fell(2), 2, 10, 0, 0, false, over},
		}},
		{"a strike, a gutter ball, ten", []step{
			{fell(10), 10, 10, 2, 10, true, all},
			{fell(0), 0, 10, 3, 10, false, all},
			{fell(10), 10, 10, 0, 0, false, over},
		}},
		{"a strike, a foul, ten", []step{
			{fell(10), 10, 10, 2, 10, true, all},
			{foul, 0, 10, 3, 10, false, all},
			{fell(10), 10, 10, 0, 0, false, over},
		}},
		{"a foul, ten, and the third ball", []step{
			{foul, 0, 10, 2, 10, false, all},
			{fell(10), 10, 10, 3, 10, true, all},
			{fell(10), 10, 10, 0, 0, false, over},
		}},
		{"a spare and a foul", []step{
			{fell(7), 7, 10, 2, 3, false, unknown},
			{fell(3), 3, 10, 3, 10, true, all},
			{foul, 0, 10, 0, 0, false, over},
		}},
		{"a foul on both", []step{
			{foul, 0, 10, 2, 10, false, all},
			{foul, 0, 10, 0, 0, false, over},
		}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			last := walk(t, inTenth(t), test.steps)
			if !last.Over() {
				t.Error("the game is not over")
			}
		})
	}
}

func TestTheStart(t *testing.T) {
	var p tenpin.Position
	if p.Frame() != 1 || p.BallInFrame() != 1 || p.StandingCount() != 10 || !p.FullRack() || p.Over() || p.Standing() != all {
		t.Errorf("%+v is no start of a game", p)
	}
}
