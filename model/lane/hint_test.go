package lane_test

import (
	"testing"

	"coach.settee/model"
	"coach.settee/model/lane"
	"coach.settee/model/tenpin"
)

// Common practice, no source. For a left-hander the pins are mirrored.
func TestLeaveHint(t *testing.T) {
	for _, c := range []struct {
		right, left []int
		want        string
	}{
		{[]int{2}, []int{3}, "light"},
		{[]int{2, 8}, []int{3, 9}, "light"},
		{[]int{2, 4, 5, 8}, []int{3, 5, 6, 9}, "light"},
		{[]int{5, 7}, []int{5, 10}, "light"},
		{[]int{8, 10}, []int{7, 9}, "light"},
		{[]int{4}, []int{6}, "high"},
		{[]int{4, 9}, []int{6, 8}, "high"},
		{[]int{3, 10}, []int{2, 7}, "high"},
		{[]int{4, 6, 7, 10}, []int{4, 6, 7, 10}, "high"},
		{[]int{10}, []int{7}, ""},
		{[]int{7}, []int{10}, ""},
		{nil, nil, ""},
	} {
		for hand, pins := range map[model.Hand][]int{model.RightHand: c.right, model.LeftHand: c.left} {
			leave := tenpin.Pins(pins...)
			want := ""
			if c.want != "" {
				want = leave.String() + ": often a " + c.want + " hit"
			}
			if got := lane.LeaveHint(leave, hand); got != want {
				t.Errorf("%s, %s hand: %q, want %q", leave, hand, got, want)
			}
		}
	}
}

func TestAdviceHints(t *testing.T) {
	leaves := func(pins ...int) says {
		return func(t *model.Thrown) { t.Delivery.After = tenpin.Standing(tenpin.Pins(pins...)) }
	}
	p := newTonight(lefty("lou"))
	p.ball("lou", 8, leaves(3, 9))
	p.ball("lou", 8, leaves(), spare)
	p.ball("lou", 7, leaves(6))
	if got := p.advise("lou", 8).Hint; got != "3-9: often a light hit" {
		t.Errorf("%q", got)
	}
	p.ball("lou", 8, leaves(3, 9), hit(model.Pocket))
	if got := p.advise("lou", 8).Hint; got != "" {
		t.Errorf("where the hit was read: %q", got)
	}
	p.ball("lou", 8, leaves(3, 9), foul)
	if got := p.advise("lou", 8).Hint; got != "" {
		t.Errorf("after a foul: %q", got)
	}
}
