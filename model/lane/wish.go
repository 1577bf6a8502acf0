package lane

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"coach.settee/model"
)

// Wish is where a line should lie after a move: Boards further inside at Ft feet from the foul line, 0 for a place that it
// should keep.
type Wish struct{ Ft, Boards float64 }

// Fitted is a move found for wishes. Over is what is left over at each of them, in their order: the boards by which the line
// lies further inside than was wished.
type Fitted struct {
	Move Move
	Over []Wish
}

// MostWished is the most boards that a move for a wish has, of feet and of target.
const MostWished = 8

// FitMoves gives the three whole-board moves that come nearest to one or two wishes, the nearest first: by the least sum of
// the squares of what is left over, and of those that come equally near the smaller move. A target distance that is not
// positive reads as DefaultArrowsFt. It refuses no wish or more than two, two for one distance, a distance that is not on
// the lane, and more than 39 boards.
func FitMoves(wishes []Wish, arrowsFt float64) ([]Fitted, error) {
	if err := checkWishes(wishes); err != nil {
		return nil, err
	}
	var all []Fitted
	for feet := -MostWished; feet <= MostWished; feet++ {
		for target := -MostWished; target <= MostWished; target++ {
			all = append(all, fitted(Move{feet, target}, wishes, arrowsFt))
		}
	}
	slices.SortStableFunc(all, func(a, b Fitted) int {
		return cmp.Or(cmp.Compare(a.squares(), b.squares()), cmp.Compare(a.Move.size(), b.Move.size()),
			cmp.Compare(magnitude(a.Move.Target), magnitude(b.Move.Target)))
	})
	return all[:3], nil
}

// Words tell the move and what is left over to a tenth of a board: "feet 3 left, target 2 left: as wished at 60 ft, 0.2
// left of it at 42 ft".
func (f Fitted) Words(hand model.Hand) string {
	inside, outside := Sides(hand)
	words := f.Move.Words(hand)
	for i, o := range f.Over {
		words += [...]string{": ", ", "}[min(i, 1)]
		switch tenths := math.Round(10 * o.Boards); {
		case tenths == 0:
			words += fmt.Sprintf("as wished at %g ft", o.Ft)
		case tenths < 0:
			words += fmt.Sprintf("%.1f %s of it at %g ft", -tenths/10, outside, o.Ft)
		default:
			words += fmt.Sprintf("%.1f %s of it at %g ft", tenths/10, inside, o.Ft)
		}
	}
	return words
}

func checkWishes(wishes []Wish) error {
	if len(wishes) == 0 {
		return errors.New("nothing is wished for: give a distance in feet and the boards there, 0 to keep the place")
	}
	if len(wishes) > 2 {
		return fmt.Errorf("%d wishes: a move of feet and target can follow two at most", len(wishes))
	}
	for _, w := range wishes {
		if !(w.Ft >= 0 && w.Ft <= pinDeckEndFt) {
			return fmt.Errorf("a wish at %g ft: the lane goes from 0 to %g", w.Ft, pinDeckEndFt)
		}
		if !(math.Abs(w.Boards) <= Boards) {
			return fmt.Errorf("a wish for %g boards: the lane has %d", w.Boards, Boards)
		}
	}
	if len(wishes) == 2 && wishes[0].Ft == wishes[1].Ft {
		return fmt.Errorf("two wishes at %g ft: wish for one there", wishes[0].Ft)
	}
	return nil
}

// pinDeckEndFt is the last row of pins, rounded up to a foot.
const pinDeckEndFt = 63.0

func fitted(m Move, wishes []Wish, arrowsFt float64) Fitted {
	f := Fitted{Move: m}
	for _, w := range wishes {
		f.Over = append(f.Over, Wish{w.Ft, m.ShiftAt(w.Ft, arrowsFt) - w.Boards})
	}
	return f
}

// squares gives the sum of the squares of what is left over, rounded so that what is equal by geometry compares equal.
func (f Fitted) squares() float64 {
	sum := 0.0
	for _, o := range f.Over {
		sum += o.Boards * o.Boards
	}
	return math.Round(sum * 1e9)
}

func (m Move) size() int { return magnitude(m.Feet) + magnitude(m.Target) }

func magnitude(n int) int { return max(n, -n) }
