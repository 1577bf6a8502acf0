package model_test

import (
	"errors"
	"strings"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"

	"coach.settee/model"
)

func TestReopening(t *testing.T) {
	tests := []struct{ name, keys, want string }{
		{"a letter is lowered", "x , b⏎", "1.1 10/none BAAA+"},
		{"letters begin as they were called", "bb x , B⏎", "1.1 10/none BAAA+"},
		{"another leave of as many pins", "7⏎ , 70⏎", "1.1 9/10 AAAA+"},
		{"another leave after the spare", "7⏎ / , , 70⏎", "1.1 9/10 AAAA+, 1.2 1/none AAAA+"},
		{"a strike was none", "x , 0⏎", "1.1 9/10 AAAA+"},
		{"nine were a strike", "0⏎ , x", "1.1 10/none AAAA+"},
		{"a count is named", "=7 , 470⏎", "1.1 7/4-7-10 AAAA+"},
		{"pins named are counted", "470⏎ , =8", "1.1 8/? AAAA+"},
		{"a count is left as it was", "=7 , b⏎", "1.1 7/? BAAA+"},
		{"no pin down after all", "7⏎ , -⏎", "1.1 0/all AAAA+"},
		{"none down was nine", "-⏎ , 7⏎", "1.1 9/7 AAAA+"},
		{"a spare was missed", "7⏎ / , -⏎", "1.1 9/7 AAAA+, 1.2 0/7 AAAA+"},
		{"a spare is made", "7⏎ -⏎ , /", "1.1 9/7 AAAA+, 1.2 1/none AAAA+"},
		{"a foul it was", "7⏎ , !⏎", "1.1 F/all AAAA+"},
		{"no foul it was", "!x , !7⏎", "1.1 9/7 AAAA+"},
		{"unseen it was", "b x , z⏎", "1.1 10/none u"},
		{"seen it was", "z x , z⏎", "1.1 10/none AAAA+"},
		{"seen by its letter", "z x , b⏎", "1.1 10/none BAAA+"},
		{"further back in the game", "x x x , , , t⏎", "1.1 10/none ABAA+, 2.1 10/none AAAA+, 3.1 10/none AAAA+"},
		{"and forth", "x x x , , , → t⏎", "1.1 10/none AAAA+, 2.1 10/none ABAA+, 3.1 10/none AAAA+"},
		{"left as it was", "x , bb ⎋", "1.1 10/none AAAA+"},
		{"left by going back", "x 7⏎ , ← ⎋", "1.1 10/none AAAA+, 2.1 9/7 AAAA+"},
		{"a drill", "G10⏎ 70⏎ , 7⏎", "0.0 9/10 AAAA+"},
		{"a drill without pins", "G10⏎ ⏎ , b⏎", "0.0 ?/? BAAA+"},
		{"a drill's pins are named later", "G10⏎ ⏎ , 7⏎", "0.0 9/7 AAAA+"},
		{"a dead ball stays dead", "D x , , Nwhy⏎ ⏎", "1.1 D, 1.1 10/none AAAA+"},
		{"another leave of a spare that was missed", "7⏎ -⏎ , , 70⏎", "1.1 9/10 AAAA+, 1.2 0/10 AAAA+"},
		{"another leave before a foul", "7⏎ !x , , 70⏎", "1.1 9/10 AAAA+, 1.2 F/10 AAAA+"},
		{"more pins were left of a spare", "7⏎ / x , , , 0⏎", "1.1 8/7-10 AAAA+, 1.2 2/none AAAA+, 2.1 10/none AAAA+"},
		{"more pins were left of a spare that was missed", "7⏎ -⏎ , , 0⏎", "1.1 8/7-10 AAAA+, 1.2 0/7-10 AAAA+"},
		{"a leave that was not named is named", "=8 -⏎ , , 70⏎", "1.1 8/7-10 AAAA+, 1.2 0/7-10 AAAA+"},
		{"pins named of an unknown leave stay", "=8 70⏎ , , b⏎", "1.1 8/? BAAA+, 1.2 0/7-10 AAAA+"},
		{"more left of a spare in the tenth", "ZXXXXXXXXX⏎ x 7⏎ / , , 0⏎", "10.1 10/none AAAA+, 10.2 8/7-10 AAAA+, 10.3 2/none AAAA+"},
		{"a pin that a later ball left", "70⏎ 7⏎ , , 76⏎", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l := beginLesson(t, "Ada 172")
			if tt.want == "" {
				l.refuse(tt.keys, "that would make a later ball impossible")
				return
			}
			if got := l.press(tt.keys).deliveries("Ada"); !strings.HasSuffix(got, tt.want) {
				t.Errorf("%s, want %s", got, tt.want)
			}
			if _, open := l.Editing(); open {
				t.Error("a delivery is still open")
			}
		})
	}
}

func TestReopeningRefused(t *testing.T) {
	tests := []struct{ name, keys, words string }{
		{"nothing is recorded", ",", "nothing is recorded yet"},
		{"before the first", "x ,,", "this is the first delivery of game 1"},
		{"after the last", "x , →", "this is the last delivery of game 1"},
		{"no delivery open", "x ←", "no delivery is open"},
		{"changed and gone on from", "x x , b,", "enter keeps it, esc leaves it"},
		{"changed and another put up", "x , b ⇥", "enter keeps it, esc leaves it"},
		{"changed and another pair", "x , b ␣", "enter keeps it, esc leaves it"},
		{"changed and handed over", "x , b @Bo⏎", "enter keeps it, esc leaves it"},
		{"changed and taken back", "x , b ⌫", "enter keeps it, esc leaves it"},
		{"a later ball would be impossible", "x =7 =2 , , =9", "frame 2, ball 2: 2 pins cannot fall where 1 stands): correct that one first"},
		{"a dead ball is called before", "x , D", "called before the next one"},
		{"a spare on a full rack", "x , /", "on a full rack"},
		{"a pin that did not stand", "7⏎ / , 8", "pin 8 was not standing"},
		{"nothing named any more", "7⏎ , 7⏎", "x all down"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { beginLesson(t, "Ada 172|Bo 120").refuse(tt.keys, tt.words) })
	}
	t.Run("nothing changed keeps nothing", func(t *testing.T) {
		l := beginLesson(t, "Ada 172, Bo 120").press("b 7⏎ , ")
		if _, err := l.RecordNamed(l.at()); !errors.Is(err, model.ErrUnchanged) {
			t.Errorf("error %v", err)
		}
		if _, open := l.Editing(); open {
			t.Error("it is still open")
		}
	})
	t.Run("by name", func(t *testing.T) {
		l := beginLesson(t, "Ada 172, Bo 120").press("x 7⏎")
		game := l.Sheet("Ada")
		if err := l.ReopenDelivery("none", game.Deliveries[0].ID); err == nil {
			t.Error("a game of another evening was opened")
		}
		if err := l.ReopenDelivery(game.Game.ID, l.Sheet("Bo").Deliveries[0].ID); err == nil {
			t.Error("a delivery of another game was opened")
		}
		if err := l.ReopenDelivery(game.Game.ID, game.Deliveries[0].ID); err != nil {
			t.Error(err)
		}
		l.press("t⏎")
		if got := l.deliveries("Ada"); got != "1.1 10/none ABAA+" {
			t.Error(got)
		}
	})
}

// A game after which another was begun has no next ball: a correction may not leave it unfinished.
func TestAGameThatIsOverStaysSoWhereAnotherWasBegun(t *testing.T) {
	open := func(t *testing.T, l *lesson, game, delivery int) *lesson {
		t.Helper()
		s := l.Sheets("Ada")[game]
		if err := l.ReopenDelivery(s.Game.ID, s.Deliveries[delivery].ID); err != nil {
			t.Fatal(err)
		}
		return l
	}
	whole := "ZXXXXXXXXX⏎ 7⏎ -⏎"
	t.Run("an open tenth, handed over", func(t *testing.T) {
		open(t, alone(t).press(whole+"x"), 0, 10).refuse("@Bo⏎", "game 1 of Ada would be unfinished though game 2 has begun")
		if l := open(t, alone(t).press(whole), 0, 10).press("@Bo⏎"); l.Sheet("Ada").Ended() {
			t.Errorf("Ada has %s", l.deliveries("Ada"))
		}
	})
	t.Run("a letter, and pins that leave it over", func(t *testing.T) {
		l := open(t, alone(t).press(whole+"x"), 0, 9).press("b=8")
		if s := l.Sheets("Ada")[0]; !s.Finished() || s.Tally.Score != 264 {
			t.Errorf("%+v", s.Tally)
		}
	})
	t.Run("a game that was stopped", func(t *testing.T) {
		l := open(t, alone(t).press("x 7⏎ / Gg because tired⏎ x"), 0, 1).press("-⏎")
		if s := l.Sheets("Ada")[0]; s.Game.Stopped != "tired" || s.Deliveries[1].Pins.Value != 0 {
			t.Errorf("%+v", s.Deliveries)
		}
	})
	t.Run("a drill of a length", func(t *testing.T) {
		open(t, alone(t).press("G2⏎ x x Gw⏎ ⏎"), 0, 1).refuse("@Bo⏎", "drill of Ada would be unfinished though warm-up has begun")
	})
}

// What comes after a change is scored anew, and every tally with it.
func TestChangeScoresTheGameAnew(t *testing.T) {
	t.Run("the score and the tallies", func(t *testing.T) {
		l := beginLesson(t, "Ada 172").press("x 7⏎ -⏎ x")
		if y := l.Sheet("Ada").Tally; y.Score != 28 || y.Strikes != 2 {
			t.Fatalf("%+v", y)
		}
		l.press(", , , , -⏎ Y6⏎")
		if y := l.Sheet("Ada").Tally; y.Score != 15 || y.Strikes != 1 || y.Racks != 3 || y.SpareMade != 0 || y.SpareTried != 2 {
			t.Errorf("%+v", y)
		}
		l.press("⌫")
		if y := l.Sheet("Ada").Tally; y.Score != 28 || y.Strikes != 2 || y.Racks != 3 {
			t.Errorf("taken back: %+v", y)
		}
	})
	t.Run("the end of a game comes and goes", func(t *testing.T) {
		l := beginLesson(t, "Ada 172").press(strings.Repeat("x", 10) + "7⏎ -⏎")
		if !l.Sheet("Ada").Finished() {
			t.Fatal("the game is not over")
		}
		l.press(", , x")
		if got := l.deliveries("Ada"); !strings.HasSuffix(got, "10.2 10/none AAAA+, 10.3 0/all AAAA+") {
			t.Error(got)
		}
		l = beginLesson(t, "Ada 172").press(strings.Repeat("x", 9) + "7⏎ -⏎ , /")
		if s := l.Sheet("Ada"); s.Finished() || !s.MidFrame() {
			t.Error("a spare in the tenth earns another ball")
		}
		if l.press("x").Sheet("Ada").Tally.Score != 279 {
			t.Errorf("score %d", l.Sheet("Ada").Tally.Score)
		}
	})
	t.Run("nobody else's ball is touched", func(t *testing.T) {
		l := beginLesson(t, "Ada 172, Bo 120").press("x 7⏎ -⏎ x")
		before := l.Sheets("Bo")[0].Deliveries
		l.press("@Ada⏎")
		if err := l.ReopenDelivery(l.Sheet("Ada").Game.ID, l.Sheet("Ada").Deliveries[0].ID); err != nil {
			t.Fatal(err)
		}
		l.press("bb⏎")
		if diff := gocmp.Diff(before, l.Sheets("Bo")[0].Deliveries); diff != "" {
			t.Error(diff)
		}
	})
}

// A wrong leave that is noticed after the next student is up is changed, and the one who is up stays so with the call
// begun; where it ends or opens a frame, whose turn it is changes with it.
func TestChangeAndWhoIsUp(t *testing.T) {
	tests := []struct {
		name, keys string
		up         model.ID
	}{
		{"the same number of pins", "x 7⏎ /  x 7⏎ , 70⏎", "Bo"},
		{"another leave of a frame that is over", "7⏎ -⏎ b , , 0 7⏎", "Bo"},
		{"a letter", "x b , t⏎", "Bo"},
		{"a strike was none", "x b , 0⏎", "Ada"},
		{"nine were a strike", "0⏎ , x", "Bo"},
		{"in the other student's frame", "x 7⏎ @Ada⏎ , x", "Ada"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l := beginLesson(t, "Ada 172, Bo 120").press(tt.keys)
			if l.UpStudent() != tt.up {
				t.Errorf("%s is up", l.UpStudent())
			}
			if strings.Contains(tt.keys, "b ,") && l.CallOf("Bo").Letters.String() != "BAAA" {
				t.Error("the call begun for Bo is lost")
			}
		})
	}
	t.Run("without rotation the same stays up", func(t *testing.T) {
		l := beginLesson(t, "Ada 172, Bo 120")
		l.mustKeep(l.ToggleRotate())
		if l.press("0⏎ , x").UpStudent() != "Ada" {
			t.Errorf("%s is up", l.UpStudent())
		}
	})
}

// A delivery keeps the weights, bar and level that it was graded with, also when its letters are changed.
func TestChangeIsGradedAsItWas(t *testing.T) {
	l := beginLesson(t, "Ada 172").press("i x")
	k := l.asKept()
	k.Students[0].Weights, k.Students[0].Bar, k.Students[0].Level = model.Weights{100, 0, 0, 0}, model.GradeA, model.Elite
	e, err := model.Resume(k)
	if err != nil {
		t.Fatal(err)
	}
	if err := e.Reopen(); err != nil {
		t.Fatal(err)
	}
	if g := e.Grading(); g.Weights != (model.Weights{25, 30, 25, 20}) || g.Bar != model.GradeAMinus || g.Level != model.Regular {
		t.Errorf("it is graded with %+v", g)
	}
	// A regular's tolerance is two boards.
	for _, want := range []string{"ABAA", "ACAA"} {
		if err := e.Miss(model.Inside); err != nil || e.Call().Letters.String() != want {
			t.Errorf("%v, want %s, %v", e.Call().Letters, want, err)
		}
	}
	if _, err := e.RecordNamed(l.at()); err != nil {
		t.Fatal(err)
	}
	d := e.Sheet("Ada").Deliveries[0]
	if d.Weights != (model.Weights{25, 30, 25, 20}) || d.Bar != model.GradeAMinus || d.Level != model.Regular || d.SideBoards != 3 {
		t.Errorf("%+v", d)
	}
	if g := e.Grading(); g.Level != model.Elite || g.Tolerance != 1 {
		t.Errorf("the next is graded with %+v", g)
	}
}

func TestEverythingSaidOfADeliveryOpened(t *testing.T) {
	l := beginLesson(t, "Ada 172, Bo 120").press("x b , OB+⏎ Cquiet⏎ Nwell done⏎ L17 34⏎ hh ii ⎋")
	if got := l.Sheet("Ada").Deliveries[0]; got.Own != model.Ungraded || got.Cue != "" {
		t.Errorf("left as it was: %+v", got)
	}
	l.press(", OB+⏎ Cquiet⏎ Nwell done⏎ L17 34⏎ hh iii ⏎")
	d := l.Sheet("Ada").Deliveries[0]
	if d.Own != model.GradeBPlus || d.Cue != "quiet" || d.Note != "well done" || d.Line.Slide != model.Known(34.0) ||
		d.Hit != model.Nose || d.Side != model.Inside || d.SideBoards != 3 || d.Letters.String() != "ACAA" {
		t.Errorf("%+v", d)
	}
	if seat, _ := l.SeatOf("Ada"); seat.Cue != "" {
		t.Errorf("the cue of a ball bowled is in force: %q", seat.Cue)
	}
	if l.CallOf("Bo").Letters.String() != "BAAA" || l.UpStudent() != "Bo" {
		t.Error("Bo's call is not as it was")
	}
	l.press(", o⏎")
	if d := l.Sheet("Ada").Deliveries[0]; d.Side != model.Outside || d.SideBoards != 1 || d.Letters.String() != "ABAA" {
		t.Errorf("the other side: %s by %d, %v", d.Side, d.SideBoards, d.Letters)
	}
}
