package model_test

import (
	"strings"
	"testing"

	"coach.settee/model"
)

// A correction of how many balls a frame has changes that frame alone: every other ball keeps frame, ball, lane and letters.
func TestReframing(t *testing.T) {
	tests := []struct{ name, before, keys, asked, want string }{
		{"an open frame was a strike", "7⏎ b -⏎ t x", ", , , x Y⏎", "frame 1 has fewer balls",
			"1.1 10/none AAAA+, 2.1 10/none ABAA+"},
		{"a spare was a strike", "7⏎ / =5 =2", ", , , , x Y⏎", "frame 1 has fewer balls",
			"1.1 10/none AAAA+, 2.1 5/? AAAA+, 2.2 2/? AAAA+"},
		{"with a dead ball between", "7⏎ D -⏎ x", ", , , , x Y⏎", "frame 1 has fewer balls",
			"1.1 10/none AAAA+, 2.1 10/none AAAA+"},
		{"a strike was a spare", "b x t x", ", , 7⏎ Y/⏎", "frame 1, ball 2 is missing",
			"1.1 9/7 BAAA+, 1.2 1/none u, 2.1 10/none ABAA+"},
		{"a spare told by the board's key", "x x", ", , 7⏎ Yx⏎", "frame 1, ball 2 is missing",
			"1.1 9/7 AAAA+, 1.2 1/none u, 2.1 10/none AAAA+"},
		{"a strike was an open frame", "x 7⏎ r -⏎", ", , , =8 Y1⏎", "frame 1, ball 2 is missing",
			"1.1 8/? AAAA+, 1.2 1/? u, 2.1 9/7 AAAA+, 2.2 0/7 AABA+"},
		{"a strike was a gutter ball and a foul", "x x", ", , -⏎ YF⏎", "frame 1, ball 2 is missing",
			"1.1 0/all AAAA+, 1.2 F/all u, 2.1 10/none AAAA+"},
		{"one of several strikes", "x x x", ", , 0⏎ Y-⏎", "frame 2, ball 2 is missing",
			"1.1 10/none AAAA+, 2.1 9/10 AAAA+, 2.2 0/10 u, 3.1 10/none AAAA+"},
		{"a dead ball of the next frame stays there", "x D x", ", , , 0⏎ Y/⏎", "frame 1, ball 2 is missing",
			"1.1 9/10 AAAA+, 1.2 1/none u, 2.1 D, 2.1 10/none AAAA+"},
		{"the last ball of the game going on", "x x", ", 0⏎", "", "1.1 10/none AAAA+, 2.1 9/10 AAAA+"},
		{"a mark in the tenth of the game going on", ninth + "7⏎ -⏎", ", /", "", tenth + "10.1 9/7 AAAA+, 10.2 1/none AAAA+"},
		{"a spare in the tenth was missed", ninth + "7⏎ / b x", ", , -⏎ Y⏎", "frame 10 has fewer balls",
			tenth + "10.1 9/7 AAAA+, 10.2 0/7 AAAA+"},
		{"a spare in the tenth was a strike", ninth + "7⏎ / x", ", , , x Y⏎", "frame 10 has fewer balls", tenth + "10.1 10/none AAAA+"},
		{"the tenth's strikes after a nine", ninth + "x b x t x", ", , , 7⏎", "",
			tenth + "10.1 9/7 AAAA+, 10.2 1/none BAAA+, 10.3 10/none ABAA+"},
		{"a tenth that has balls too many", ninth + "x =7 =2", ", , , 7⏎ Y⏎", "frame 10 has fewer balls", tenth + "10.1 9/7 AAAA+"},
		{"the fill ball after a leave", ninth + "x 70⏎ /", ", , , -⏎ Y⏎", "frame 10 has fewer balls",
			tenth + "10.1 0/all AAAA+, 10.2 8/7-10 AAAA+"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l := alone(t).press(tt.before)
			before := records(l.view())
			l.press(tt.keys)
			switch {
			case tt.asked == "" && l.offer != nil:
				t.Errorf("asked: %v", l.offer)
			case tt.asked != "" && (l.offer == nil || !strings.Contains(l.offer.Error(), tt.asked)):
				t.Errorf("asked: %v", l.offer)
			}
			if got := l.deliveries("Ada"); got != tt.want {
				t.Errorf("%s\nwant %s", got, tt.want)
			}
			sound(t, l)
			after := records(l.view())
			before.sameAs(t, "taken back", records(l.press("⌫").view()))
			after.sameAs(t, "done again", records(l.press("U").view()))
			before.sameAs(t, "taken back after a restart", records(l.restart().press("⌫").view()))
		})
	}
}

const (
	ninth = "ZXXXXXXXXX⏎ "
	tenth = "1.1 10/none u, 2.1 10/none u, 3.1 10/none u, 4.1 10/none u, 5.1 10/none u, 6.1 10/none u, 7.1 10/none u, " +
		"8.1 10/none u, 9.1 10/none u, "
)

// sound checks that a game's balls are in the order of recording, live and after a restart.
func sound(t *testing.T, l *lesson) {
	t.Helper()
	for what, e := range map[string]*model.Evening{"live": l.Evening, "after a restart": l.restart().Evening} {
		for _, seat := range e.Seats() {
			var game, recorded []model.ID
			for _, s := range e.Sheets(seat.Student) {
				for _, d := range s.Deliveries {
					game = append(game, d.ID)
				}
			}
			for _, b := range e.PairTonight(seat.Pair()) {
				if b.Student == seat.Student {
					recorded = append(recorded, b.Delivery.ID)
				}
			}
			if strings.Join(words(game), " ") != strings.Join(words(recorded), " ") {
				t.Errorf("%s: %s bowled %v, in the order of recording %v", what, seat.Student, game, recorded)
			}
		}
	}
}

func words(ids []model.ID) []string {
	out := make([]string, len(ids))
	for i, id := range ids {
		out[i] = string(id)
	}
	return out
}

func TestReframingRefused(t *testing.T) {
	for _, tt := range []struct{ name, keys, words string }{
		{"nothing typed", "x x , , 0⏎ Y⏎", "frame 1, ball 2 is missing"},
		{"more than the frame takes", "x x , , 0⏎ Y/5⏎", "more than frame 1 takes: 1 ball is missing of it"},
		{"more than stands", "x x , , 70⏎ Y3⏎", "frame 1, ball 2: 3 pins cannot fall where 2 stand"},
		{"a strike after a spare shot", "x x , , 0⏎ YXX⏎", "more than frame 1 takes"},
		{"asked and left", "x x , , 0⏎ ⎋ Y/⏎", "no longer open as it was"},
		{"asked and changed since", "x x , , 0⏎ b Y/⏎", "no longer open as it was"},
		{"a ball of the frame that is impossible", "x =7 =2 x , , , =9", "frame 2, ball 2: 2 pins cannot fall where 1 stands"},
		{"a leave of the frame that is impossible", "70⏎ 7⏎ x , , , 76⏎", "frame 1, ball 2: pin 7 was not standing"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			alone(t).refuse(tt.keys, tt.words)
		})
	}
}

// With another game begun after it, or with the evening closed, what a game has become short of is asked for.
func TestReframingAGameThatIsOver(t *testing.T) {
	whole := ninth + "7⏎ -⏎ "
	open := func(t *testing.T, l *lesson, delivery int) *lesson {
		t.Helper()
		s := l.Sheets("Ada")[0]
		if err := l.ReopenDelivery(s.Game.ID, s.Deliveries[delivery].ID); err != nil {
			t.Fatal(err)
		}
		return l
	}
	closed := func(t *testing.T, l *lesson) *lesson {
		t.Helper()
		l.mustKeep(l.Close(l.at()))
		return l.restart()
	}
	for name, begin := range map[string]func(t *testing.T) *lesson{
		"another begun":  func(t *testing.T) *lesson { return alone(t).press(whole + "@Bo⏎ x @Ada⏎ b x") },
		"evening closed": func(t *testing.T) *lesson { return closed(t, alone(t).press(whole+"@Bo⏎ x")) },
	} {
		for _, tt := range []struct {
			name, keys, want string
			ball             int
		}{
			{"a spare after all", "/ Y6⏎", "10.1 9/7 AAAA+, 10.2 1/none AAAA+, 10.3 6/? u", 10},
			{"a strike after all", "x Y/⏎", "10.1 10/none AAAA+, 10.2 0/all AAAA+, 10.3 10/none u", 9},
		} {
			t.Run(name+", "+tt.name, func(t *testing.T) {
				l := open(t, begin(t), tt.ball).press(strings.Fields(tt.keys)[0])
				if l.offer == nil || l.offer.Finds.Ball != 3 {
					t.Fatalf("asked: %v", l.offer)
				}
				if tt.name == "a spare after all" {
					l.refuse("Y⏎", "frame 10, ball 3 is missing")
					l.refuse("Y6/⏎", "after the game's end")
				}
				l.press(strings.Fields(tt.keys)[1])
				s := l.Sheets("Ada")[0]
				if got := brief(s.Deliveries); got != tenth+tt.want || !s.Finished() {
					t.Errorf("%s\nwant %s", got, tt.want)
				}
				sound(t, l)
				last := l.Sheet("Ada").Game.ID
				if name == "evening closed" {
					last = l.Sheet("Bo").Game.ID
				}
				for what, l := range map[string]*lesson{"live": l, "after a restart": l.restart()} {
					l.press(",")
					if edit, _ := l.Editing(); edit.Game != last {
						t.Errorf("%s: the last ball recorded is of %s, want %s", what, edit.Game, last)
					}
				}
			})
		}
	}
	t.Run("two balls of a tenth", func(t *testing.T) {
		l := open(t, alone(t).press(ninth+"x =7 =2 @Ada⏎ x"), 9)
		l.press("0⏎")
		if r := l.offer; r == nil || len(r.Gone) != 2 || r.Finds.Ball != 2 || r.Finds.Count != 1 {
			t.Fatalf("%+v", r)
		}
		l.refuse("Y/⏎", "frame 10, ball 3 is missing")
		l.press("Y/5⏎")
		if s := l.Sheets("Ada")[0]; brief(s.Deliveries[9:]) != "10.1 9/10 AAAA+, 10.2 1/none u, 10.3 5/? u" || s.Tally.Score != 274 {
			t.Errorf("%s, %d", brief(s.Deliveries[9:]), s.Tally.Score)
		}
		sound(t, l)
	})
}

// A ball that was missing is bowled with what the ball corrected was bowled with, and nobody's turn comes of it.
func TestABallPutIn(t *testing.T) {
	l := beginLesson(t, "Ada 172, Bo 120").press("Cslow⏎ x Cquiet⏎ x @Ada⏎ Cfree⏎ x b")
	up := l.UpStudent()
	l.press(", , =9")
	if l.offer == nil {
		t.Fatal("nothing is asked")
	}
	l.press("Y/⏎")
	first, put := l.Sheet("Ada").Deliveries[0], l.Sheet("Ada").Deliveries[1]
	if put.Lane != first.Lane || put.Weights != first.Weights || put.Bar != first.Bar || put.Level != first.Level ||
		put.Cue != "slow" || put.Seen || put.At != first.At {
		t.Errorf("%+v, the ball before it is %+v", put, first)
	}
	if got := l.thrown(7); got != "Ada 7+0*, Ada 7+1, Bo 7+2*, Ada 8+0*" {
		t.Error(got)
	}
	if l.UpStudent() != up || l.CallOf(up).Letters.String() != "BAAA" || l.LaneOf("Ada") != 7 {
		t.Errorf("%s is up with %v, Ada's next ball is on lane %d", l.UpStudent(), l.CallOf(up).Letters, l.LaneOf("Ada"))
	}
	if again := l.restart(); again.UpStudent() != up || again.thrown(7) != l.thrown(7) {
		t.Errorf("after a restart %s is up, thrown was %s", again.UpStudent(), again.thrown(7))
	}
	sound(t, l)
	// It can be graded after all, and given up again.
	l.press(", , t⏎ , , , x Y⏎")
	if got := l.deliveries("Ada"); got != "1.1 10/none AAAA+, 2.1 10/none AAAA+" {
		t.Error(got)
	}
	again := l.restart().press("⌫")
	if got := again.deliveries("Ada"); got != "1.1 9/? AAAA+, 1.2 1/none ABAA+, 2.1 10/none AAAA+" {
		t.Error(got)
	}
	sound(t, again)
	sound(t, again.press("⌫ ⌫"))
}
