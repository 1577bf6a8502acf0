package handout

import "testing"

// The boxes ask for as many times, and as many balls, as the homework says.
func TestHomeworkBoxes(t *testing.T) {
	for text, want := range map[string][2]int{
		"corner pin, 3 times 10, Tuesday": {3, 10}, "spares, 2 times 20, Monday": {2, 20}, "swings, 7 x 12, daily": {3, 12},
		"foul-line releases, 3 sets of 15, Friday": {3, 15}, "hold the finish": {3, 10}, "0 times 5": {3, 10},
	} {
		if h := homeworkOf(text); len(h.Boxes) != want[0] || h.Of != want[1] {
			t.Errorf("%q: %d boxes of %d, want %v", text, len(h.Boxes), h.Of, want)
		}
	}
}
