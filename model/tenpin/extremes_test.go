package tenpin_test

import (
	"fmt"
	"strings"
	"testing"

	"coach.settee/model/tenpin"
)

// choice is a ball about to be bowled, with what came right before it.
type choice struct {
	at          tenpin.Position
	pins        int
	afterStrike bool
}

func (c choice) clears() bool { return c.pins == c.at.StandingCount() }
func (c choice) strike() bool { return c.clears() && c.at.FullRack() }
func (c choice) in(frames ...int) bool {
	for _, f := range frames {
		if c.at.Frame() == f {
			return true
		}
	}
	return false
}

// spare tells whether the choice keeps a frame on the way to a spare: no strike
// on its first ball, all down on its second, anything after.
func (c choice) spare() bool {
	switch c.at.BallInFrame() {
	case 1:
		return !c.clears()
	case 2:
		return c.clears()
	default:
		return true
	}
}

// extreme searches all games whose every ball is allowed for the best total, or
// the least: an exhaustive search over counts of pins.
func extreme(allowed func(choice) bool, better func(a, b int) bool) (total int, found bool) {
	type state struct {
		at          tenpin.Position
		afterStrike bool
	}
	type answer struct {
		total int
		found bool
	}
	known := map[state]answer{}
	var from func(s state) answer
	from = func(s state) answer {
		if s.at.Over() {
			return answer{0, true}
		}
		if a, ok := known[s]; ok {
			return a
		}
		var top answer
		for pins := 0; pins <= s.at.StandingCount(); pins++ {
			c := choice{s.at, pins, s.afterStrike}
			if !allowed(c) {
				continue
			}
			next, points, err := s.at.Next(tenpin.Ball{Pins: pins})
			if err != nil {
				continue
			}
			rest := from(state{next, c.strike()})
			if rest.found && (!top.found || better(points+rest.total, top.total)) {
				top = answer{points + rest.total, true}
			}
		}
		known[s] = top
		return top
	}
	a := from(state{})
	return a.total, a.found
}

func more(a, b int) bool { return a > b }
func less(a, b int) bool { return a < b }

func upTo(from, to int) []int {
	var frames []int
	for f := from; f <= to; f++ {
		frames = append(frames, f)
	}
	return frames
}

// The totals were computed apart from this program by a full search; 90, 191,
// 200 and 279 are also the figures of general articles on the sport.
func TestExtremes(t *testing.T) {
	check := func(name string, want int, better func(a, b int) bool, allowed func(choice) bool) {
		t.Run(name, func(t *testing.T) {
			got, found := extreme(allowed, better)
			if !found || got != want {
				t.Errorf("got %d (found %v), want %d", got, found, want)
			}
		})
	}
	for i, want := range []int{279, 268, 267, 267, 267, 267, 267, 267, 267, 267} {
		check(fmt.Sprintf("frame %d open", i+1), want, more, func(c choice) bool {
			return !c.in(i+1) || !c.clears()
		})
	}
	for i, want := range []int{290, 280, 279, 279, 279, 279, 279, 279, 279, 279} {
		check(fmt.Sprintf("frame %d a spare", i+1), want, more, func(c choice) bool {
			return !c.in(i+1) || c.spare()
		})
	}
	for i, want := range []int{279, 258, 237, 216, 195, 174, 153, 132, 111, 90} {
		check(fmt.Sprintf("first %d open", i+1), want, more, func(c choice) bool {
			return !c.in(upTo(1, i+1)...) || !c.clears()
		})
	}
	for i, want := range []int{267, 246, 225, 204, 183, 162, 141, 120, 100, 90} {
		check(fmt.Sprintf("last %d open", i+1), want, more, func(c choice) bool {
			return !c.in(upTo(10-i, 10)...) || !c.clears()
		})
	}
	check("everything free", 300, more, func(choice) bool { return true })
	check("nothing at all", 0, less, func(choice) bool { return true })
	check("no strike", 190, more, func(c choice) bool { return !c.strike() })
	check("no strike but the fill ball", 191, more, func(c choice) bool {
		return !c.strike() || c.at.BallInFrame() == 3
	})
	check("never two strikes running", 200, more, func(c choice) bool { return !c.strike() || !c.afterStrike })
	check("no mark", 90, more, func(c choice) bool { return !c.clears() })
	check("least with a mark in each frame", 100, less, func(c choice) bool {
		return c.spare() || c.at.BallInFrame() == 1 && c.strike() ||
			c.in(10) && c.at.BallInFrame() == 2 && c.at.FullRack()
	})
	check("least with a strike first in each frame", 270, less, func(c choice) bool {
		return c.at.BallInFrame() > 1 || c.strike()
	})
}

// The same figures as the highest score still possible after open frames at the
// start, and by hand in other positions.
func TestMaxAfter(t *testing.T) {
	tests := []struct {
		game string
		want int
	}{
		{"", 300},
		{"X", 300},
		{"XXX", 300},
		{"9", 290},
		{"-", 290},
		{"F", 290},
		{"9-", 279},
		{"9/", 290},
		{"X 9-", 268},
		{"X 9/", 280},
		{"X X 9-", 267},
		{"X X 9/", 279},
		{"72 X (8)", 259},
		{strings.Repeat("X", 9) + "9", 279},
		{strings.Repeat("X", 9) + "9-", 267},
		{strings.Repeat("X", 9) + "F", 270},
		{strings.Repeat("X", 10) + "F", 280},
		{strings.Repeat("X", 10) + "7", 287},
		{strings.Repeat("X", 11), 300},
		{strings.Repeat("-", 18), 30},
		{strings.Repeat("-", 18) + "-", 20},
		{strings.Repeat("-", 20), 0},
	}
	for n, want := range []int{279, 258, 237, 216, 195, 174, 153, 132, 111, 90} {
		tests = append(tests, struct {
			game string
			want int
		}{strings.Repeat("9-", n+1), want})
	}
	for _, test := range tests {
		t.Run(test.game, func(t *testing.T) {
			if got := parse(t, test.game).Max; got != test.want {
				t.Errorf("got %d, want %d", got, test.want)
			}
		})
	}
}
