package model_test

import (
	"errors"
	"strings"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"coach.settee/model"
)

func TestTakingBack(t *testing.T) {
	tests := []struct{ name, before, key string }{
		{"a strike", "x", "x"},
		{"a strike with letters and a hit", "bb hh", "x"},
		{"pins that were named", "t 70", "⏎"},
		{"pins that were named before all were taken down", "70", "x"},
		{"no pin down", "f-", "⏎"},
		{"a count", "r", "=7"},
		{"a spare", "70⏎ b", "/"},
		{"a spare on the other key", "70⏎", "x"},
		{"a foul", "b!7", "⏎"},
		{"an unseen ball", "z", "x"},
		{"an unseen ball with letters before", "bb i z", "x"},
		{"a side", "iii", "x"},
		{"a side down to F", "tttt ii", "x"},
		{"a dead ball with a call begun", "bb 7 p", "D"},
		{"a dead ball", "", "D"},
		{"what prompts said", "OB+⏎ Nwell⏎ L17 34 8@43 16 +1.5⏎", "x"},
		{"a ball of a drill without pins", "G10⏎ b", "⏎"},
		{"a ball of an axis that is not watched", "", "x"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l := beginLesson(t, "Ada 172, Bo 120, Cy 220").press(tt.before)
			before := l.view()
			after := l.press(tt.key).view()
			before.sameAs(t, "taken back", l.press("⌫").view())
			after.sameAs(t, "done again", l.press("U").view())
			restarted := l.restart().press("⌫").view()
			for id := range before.Calls {
				if id != "Ada" {
					before.Calls[id], restarted.Calls[id] = model.Call{}, model.Call{}
				}
			}
			before.sameAs(t, "taken back after a restart", restarted)
		})
	}
}

func TestTakingBackWhatIsNoBall(t *testing.T) {
	for name, keys := range map[string]string{
		"a cue":                      "Cslow⏎",
		"a cue cleared":              "Cslow⏎ C⏎",
		"the lane":                   "W",
		"the pair":                   "P9⏎",
		"everyone's pair":            "P9 all⏎",
		"a line aimed at":            "M7 17 34⏎ x M8 15⏎ ⇤ M7 16 32⏎ P9⏎",
		"out":                        "V",
		"a student":                  "ADi 140⏎",
		"a game begun":               "G10⏎",
		"a game begun twice":         "Gw⏎ Gg⏎",
		"a game stopped":             "x ⇤ Gw because tired⏎",
		"frames caught up":           "Z9/ 43 X⏎",
		"a change":                   "7⏎ / , , 0⏎",
		"a frame handed over":        "7⏎ / , @Bo⏎",
		"a ball that can not be":     "7⏎ -⏎ x x , , , x Y⏎",
		"a missing ball":             "x x 7⏎ / , , , 7⏎ Y/⏎ x",
		"added, and gone again":      "x x x , , 0⏎ Y-⏎ , , , x Y⏎",
		"the next game":              "Z" + strings.Repeat("X", 12) + "⏎ @Ada⏎ x",
		"a drill's delivery changed": "G10⏎ ⏎ , b7⏎",
	} {
		t.Run(name, func(t *testing.T) {
			l := beginLesson(t, "Ada 172, Bo 120")
			views := []view{l.view()}
			for _, k := range scriptOf(keys) {
				n := len(l.log)
				if l.press(whole(k)); len(l.log) != n {
					views = append(views, l.view())
				}
			}
			done := len(views) - 1
			for i := range done {
				records(views[done-1-i]).sameAs(t, "taken back", records(l.press("⌫").view()))
			}
			for i := range done {
				records(views[i+1]).sameAs(t, "done again", records(l.press("U").view()))
			}
			l = l.restart()
			for i := range done {
				records(views[done-1-i]).sameAs(t, "taken back after a restart", records(l.press("⌫").view()))
			}
		})
	}
}

// records leaves of a view what is kept in records.
func records(v view) view {
	v.Up, v.Calls = model.Up{}, nil
	return v
}

func TestTakingBackGoesToTheStart(t *testing.T) {
	l := beginLesson(t, "Ada 172")
	l.press("x ⌫ ⌫")
	if len(l.Seats()) != 0 || l.Deliveries() != 0 {
		t.Error("something is left")
	}
	l.refuse("⌫", "this is the start of the evening")
	l.press("U U")
	l.refuse("U", "nothing was taken back since")
	if _, err := l.Redo(); !errors.Is(err, model.ErrNothingToRedo) {
		t.Error(err)
	}
	l.press("⌫ 7⏎")
	l.refuse("U", "nothing was taken back since")
}

// Ids go on where they were: what is recorded after something was taken back is not mistaken for it.
func TestTakenBackIdsAreNotUsedAgain(t *testing.T) {
	l := beginLesson(t, "Ada 172").press("x")
	first := l.Sheet("Ada").Deliveries[0].ID
	if again := l.press("⌫ 7⏎").Sheet("Ada").Deliveries[0].ID; again == first {
		t.Errorf("%s is used again", again)
	}
}

// The one whose action is taken back is up, whoever was.
func TestTakingBackPutsUp(t *testing.T) {
	l := beginLesson(t, "Ada 172, Bo 120|Cy 220").press("b x ␣ x ⇤ ⇤")
	if l.press("⌫"); l.UpStudent() != "Cy" {
		t.Errorf("%s is up", l.UpStudent())
	}
	if l.press("⌫"); l.UpStudent() != "Ada" || l.Call().Letters.String() != "BAAA" {
		t.Errorf("%s is up with %v", l.UpStudent(), l.Call().Letters)
	}
	// A call that was begun for the next ball comes back when the first is done again.
	l = beginLesson(t, "Ada 172").press("70⏎ b ⌫")
	if c := l.Call(); c.Letters.String() != "AAAA" || c.Pins.Left.String() != "7-10" {
		t.Errorf("the first ball's call is %+v", c)
	}
	if c := l.press("U").Call(); c.Letters.String() != "BAAA" || c.Pins.Left != 0 {
		t.Errorf("the second ball's call is %+v", c)
	}
}

// evenings draws what coaches do, in any order.
func evenings(t *rapid.T) string {
	keys := []string{
		"x", "x", "x", "⏎", "7", "70⏎", "=7", "-⏎", "/", "b", "t", "i", "o", "B", "z", "!", "h", "p", "l", "D",
		"⇥", "⇤", "␣", "@Ada⏎", "@Bo⏎", "@Di⏎", "⌫", "⌫", "U", ",", "←", "→", "⎋", "OB+⏎", "Nnote⏎", "Cslow⏎", "C⏎",
		"L17 34 8@43 16 -1⏎", "L. 33⏎", "M7 17 34⏎", "M8 15⏎", "W", "V", "P9⏎", "P7⏎", "P11 all⏎", "Z9/ 43⏎", "Z-F⏎", "ZX⏎", "AEve 150⏎",
		"Gg because tired⏎", "Gw because tired⏎", "Y/⏎", "Y-⏎", "Y⏎",
		", , x Y⏎", ", , , =7 Y2⏎", ", , -⏎ Y/⏎", ", , , x Y⏎", ", , , 7⏎ Y-⏎", "G2 corner 10 because tired⏎", "G because tired⏎", "G3 because tired⏎",
	}
	return strings.Join(rapid.SliceOfN(rapid.SampledFrom(keys), 1, 120).Draw(t, "keys"), " ")
}

// Whatever is done, the records folded from the steps are the evening's (see lesson.check); all of it can be taken back
// to the start and done again, with the same records and the same calls, also after a restart.
func TestAnyEvening(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		l := beginLesson(rt, "Ada 172, Bo 120, Cy|Di 220, Flo 95")
		for _, k := range scriptOf(evenings(rt)) {
			before := l.view()
			asked := l.offer
			if l.run(whole(k)) != 0 || l.offer != asked {
				before.sameAs(rt, k+" was refused and changed something", l.view())
			}
			l.wellFormed(rt)
		}
		l.Leave()
		again := l.restart()
		resumed, live := records(again.view()), records(l.view())
		live.sameAs(rt, "resumed", resumed)
		l.sameOrder(rt, again)
		gone := []view{records(l.view())}
		for range len(l.log) {
			last := l.log[len(l.log)-1]
			l.press("⌫")
			again.press("⌫")
			gone = append(gone, records(l.view()))
			gone[len(gone)-1].sameAs(rt, "taken back after a restart", records(again.view()))
			l.sameOrder(rt, again)
			if last.How == model.NotRecorded {
				continue
			}
			if diff := gocmp.Diff(l.CallOf(last.Student), again.CallOf(last.Student)); diff != "" {
				rt.Fatalf("the call of %s after a restart (-live +restarted):\n%s", last.Student, diff)
			}
		}
		if len(l.kept) != 1 || len(l.tallies) != 0 || l.Deliveries() != 0 {
			rt.Fatalf("%d records are left, %d deliveries", len(l.kept), l.Deliveries())
		}
		for i := len(gone) - 2; i >= 0; i-- {
			gone[i].sameAs(rt, "done again", records(l.press("U").view()))
		}
	})
}

// wellFormed checks what holds of every evening.
func (l *lesson) wellFormed(t *rapid.T) {
	load := 0
	ids := map[model.ID]bool{}
	for _, seat := range l.Seats() {
		load += l.Load(seat.Student)
		for i, s := range l.Sheets(seat.Student) {
			if s.Game.Student != seat.Student || i > 0 && s.Game.Number <= l.Sheets(seat.Student)[i-1].Game.Number {
				t.Fatalf("%s has %+v as number %d", seat.Student, s.Game, i)
			}
			if i < len(l.Sheets(seat.Student))-1 && !s.Ended() && s.Game.Kind != model.KindGame {
				t.Fatalf("%s has %+v unended before another", seat.Student, s.Game)
			}
			for j, d := range s.Deliveries {
				if d.Seq != j+1 || d.Game != s.Game.ID || ids[d.ID] {
					t.Fatalf("delivery %d of %s is %+v", j+1, s.Game.ID, d)
				}
				ids[d.ID] = true
			}
		}
	}
	if load != l.Deliveries() || load != len(ids) {
		t.Fatalf("a load of %d for %d deliveries with %d ids", load, l.Deliveries(), len(ids))
	}
	if up := l.UpStudent(); up != "" {
		if seat, ok := l.SeatOf(up); !ok || seat.Pair() != l.PairInView() {
			t.Fatalf("%s is up on %v", up, l.PairInView())
		}
	}
}

// sameOrder checks that a lesson has its balls in the same order of recording after a restart.
func (l *lesson) sameOrder(t *rapid.T, again *lesson) {
	for _, p := range l.Session().Pairs {
		if diff := gocmp.Diff(l.PairTonight(p), again.PairTonight(p)); diff != "" {
			t.Fatalf("recorded on %s (-live +restarted):\n%s", p, diff)
		}
	}
}
