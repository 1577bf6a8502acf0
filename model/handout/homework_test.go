package handout

import "testing"

// The boxes ask for as many times, and as many balls, as the homework says; of ten balls where it says none, and for a tick
// where it is not done with balls.
func TestHomeworkBoxes(t *testing.T) {
	for text, want := range map[string][2]int{
		"corner pin, 3 times 10, Tuesday": {3, 10}, "spares, 2 times 20, Monday": {2, 20}, "swings, 7 x 12, daily": {3, 12},
		"foul-line releases, 3 sets of 15, Friday": {3, 15}, "2 x 20 balls": {2, 20}, "1 times 30": {1, 30},
		"one-step drill, 20 balls": {3, 20}, "one-step drill, 20 balls, Tuesday and Saturday": {3, 20},
		"one-arrow game: hit 15 within half a board, 20 balls, before Sunday": {3, 20}, "swing it 15 times": {3, 15},
		"swing it 12x": {3, 12}, "sets of 8, corner pin": {3, 8}, "20 balls 3 times a week": {3, 20}, "1 ball a day": {3, 1},
		"one-step swings, 10 a day, Monday Wednesday Friday": {3, 10}, "تأرجح بخطوة واحدة, 10 كل يوم, الاثنين": {3, 10},
		"corner pin": {3, 10}, "spares, three times a week": {3, 10}, "foul-line releases until they are dull": {3, 10},
		"stand on one leg while brushing teeth": {3, 0}, "hold the finish": {3, 0}, "walk, 5 minutes, daily": {3, 0},
		"stand on one leg, 2 min, Monday": {3, 0}, "swing in the mirror 3 times a week": {3, 0}, "walk 5 times": {3, 5},
		"0 times 5": {3, 0}, "0 balls": {3, 10},
	} {
		if h := homeworkOf(text); len(h.Boxes) != want[0] || h.Of != want[1] {
			t.Errorf("%q: %d boxes of %d, want %v", text, len(h.Boxes), h.Of, want)
		}
	}
}
