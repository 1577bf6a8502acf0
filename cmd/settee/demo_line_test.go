package main

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// advised gives the advice for everyone's next ball in the invented evening that runs, and for the other lane, by first names.
func advised(t *testing.T) (next, other map[string]lane.Advice) {
	t.Helper()
	_, e, _ := keyScript(t)
	next, other = map[string]lane.Advice{}, map[string]lane.Advice{}
	for _, p := range e.Session().Pairs {
		book := lane.NewBook()
		book.Update(lane.TonightOf(e, p))
		for _, seat := range e.Seats() {
			if seat.Pair() != p {
				continue
			}
			name, _, _ := strings.Cut(e.Student(seat.Student).Name, " ")
			here := e.LaneOf(seat.Student)
			next[name] = book.Advise(seat.Student, here, e.AimOf(seat.Student, here))
			there := p.Other(here)
			other[name] = book.Advise(seat.Student, there, e.AimOf(seat.Student, there))
		}
	}
	return next, other
}

// The demo shows what the line's screen can say: a move that helped and the word to stay since, a move to make, too little
// read for a word, and students without a line.
func TestTheDemoShowsLines(t *testing.T) {
	next, other := advised(t)
	for name, a := range next {
		t.Logf("%s on lane %d: %s; %s; %s", name, a.Lane, a.Big, a.Reason, a.Chances)
	}
	for _, b := range bowlersOf(keysSeed) {
		name, _, _ := strings.Cut(b.Name, " ")
		level := slices.Index(model.Levels[:], b.Chosen().Level)
		want := level >= slices.Index(model.Levels[:], model.Regular)
		for _, a := range []lane.Advice{next[name], other[name]} {
			if has := !a.From.IsZero(); has != want {
				t.Errorf("%s has a line on lane %d: %v", name, a.Lane, has)
			}
		}
	}
	stays, moves, unknown := next["Ilva"], next["Suri"], next["Odo"]
	if stays.Silent || stays.Move != (lane.Move{}) {
		t.Errorf("Ilva is told %s", stays.Big)
	}
	made := slices.Concat(stays.Moves, other["Ilva"].Moves)
	if len(made) != 1 || pocketOf(t, made[0].Since) <= pocketOf(t, made[0].Before) || !strings.HasSuffix(made[0].Words, " since") {
		t.Errorf("Ilva's moves are %+v", made)
	}
	if moves.Silent || moves.Move.ShiftAt(lane.PinsFt, lane.DefaultArrowsFt) >= 0 || moves.Here.High < 2 || moves.Difference.Value.Mean >= -1 {
		t.Errorf("Suri is told %s: %s; %s", moves.Big, moves.Reason, moves.PairWords)
	}
	if !unknown.Silent || unknown.Hand != model.LeftHand {
		t.Errorf("Odo is told %s", unknown.Big)
	}
}

// pocketOf gives the share of pocket hits in "3 of 4 pocket, 1 high".
func pocketOf(t *testing.T, words string) float64 {
	t.Helper()
	var pocket, of float64
	if _, err := fmt.Sscanf(words, "%g of %g pocket", &pocket, &of); err != nil {
		t.Fatalf("%q: %v", words, err)
	}
	return pocket / of
}
