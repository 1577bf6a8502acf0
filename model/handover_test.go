package model_test

import (
	"slices"
	"strings"
	"testing"

	"coach.settee/model"
)

// handedOver are frames handed over, with what either has then and who is up.
var handedOver = []struct {
	name, students, keys, ada, bo string
	up                            model.ID
}{
	{
		"a strike, to one without a game", "Ada 172, Bo 120", "x , @Bo⏎",
		"", "1.1 10/none AAAA+", "Ada",
	},
	{
		"a whole frame, opened at its second ball", "Ada 172, Bo 120", "b70⏎ / , @Bo⏎",
		"", "1.1 8/7-10 BAAA+, 1.2 2/none AAAA+", "Ada",
	},
	{
		"a whole frame, opened at its first ball", "Ada 172, Bo 120", "70⏎ / , , @Bo⏎",
		"", "1.1 8/7-10 AAAA+, 1.2 2/none AAAA+", "Ada",
	},
	{
		"the last frame of a game", "Ada 172, Bo 120", "x 7⏎/ x , @Bo⏎",
		"1.1 10/none AAAA+", "1.1 9/7 AAAA+, 1.2 1/none AAAA+, 2.1 10/none AAAA+", "Ada",
	},
	{
		"an unfinished frame: the other is in mid-frame and up", "Ada 172, Bo 120", "7⏎ , @Bo⏎",
		"", "1.1 9/7 AAAA+", "Bo",
	},
	{
		"an unfinished frame after others", "Ada 172, Bo 120", "x x 7⏎ , @Bo⏎",
		"1.1 10/none AAAA+", "1.1 10/none AAAA+, 2.1 9/7 AAAA+", "Bo",
	},
	{
		"a frame from the middle of both games takes its place by the order bowled", "Ada 172, Bo 120",
		"7⏎/ x 8⏎/ 9⏎/ x , , , @Bo⏎",
		"1.1 9/7 AAAA+, 1.2 1/none AAAA+, 2.1 10/none AAAA+",
		"1.1 10/none AAAA+, 2.1 9/8 AAAA+, 2.2 1/none AAAA+, 3.1 9/9 AAAA+, 3.2 1/none AAAA+", "Bo",
	},
	{
		"with its dead balls", "Ada 172, Bo 120", "D x , @Bo⏎",
		"", "1.1 D, 1.1 10/none AAAA+", "Ada",
	},
	{
		"a first game that goes back to nothing, bowled again", "Ada 172, Bo 120", "x , @Bo⏎ 7⏎",
		"1.1 9/7 AAAA+", "1.1 10/none AAAA+", "Ada",
	},
	{
		"from another pair", "Ada 172|Bo 120", "␣ x , @Ada⏎",
		"1.1 10/none AAAA+", "", "Bo",
	},
}

func TestHandingOver(t *testing.T) {
	for _, tt := range handedOver {
		t.Run(tt.name, func(t *testing.T) {
			l := beginLesson(t, tt.students)
			before, done := l.view(), len(l.log)
			l.press(tt.keys)
			if ada, bo := l.deliveries("Ada"), l.deliveries("Bo"); ada != tt.ada || bo != tt.bo {
				t.Errorf("Ada has %s\nBo has %s", ada, bo)
			}
			if l.UpStudent() != tt.up {
				t.Errorf("%s is up", l.UpStudent())
			}
			for range len(l.log) - done {
				l.press("⌫")
			}
			after := l.view()
			before.Calls, before.Up = after.Calls, after.Up
			before.sameAs(t, "all taken back", after)
		})
	}
}

func TestHandingOverIsGradedForTheOther(t *testing.T) {
	l := beginLesson(t, "Ada 172, Bo 220").press("Cslow⏎ ⇥ Cquiet eyes⏎ ⇥ OC⏎ Nloud⏎ t h x , @Bo⏎")
	d := l.Sheet("Bo").Deliveries[0]
	elite := model.Elite.Defaults()
	if d.Weights != elite.Weights || d.Level != model.Elite || d.Bar != model.GradeAMinus || d.Cue != "quiet eyes" {
		t.Errorf("graded with %+v", d)
	}
	if d.Letters.String() != "ABAA" || !d.Touched || d.Hit != model.High || d.Own != model.GradeC || d.Note != "loud" {
		t.Errorf("the call is %+v", d)
	}
	if y := l.Sheet("Bo").Tally; y.Good != 1 || y.Racks != 1 || l.Sheet("Ada") != nil {
		t.Errorf("%+v", y)
	}
}

func TestHandingOverTakesTheOthersBall(t *testing.T) {
	l := beginLesson(t, "Ada 172, Bo 120")
	for id, ball := range map[model.ID]string{"Ada": "blue", "Bo": "grey"} {
		now := l.Student(id)
		now.Balls, now.BallUp = []string{ball}, ball
		l.mustKeep(l.ChangeStudent(now, "ball of "+now.Name))
	}
	l.mustKeep(l.PutUp("Ada"))
	l.press("70⏎ /")
	if got := l.Sheet("Ada").Deliveries[0].Bowled; got != "blue" {
		t.Fatalf("Ada bowled with %q", got)
	}
	l.press(", @Bo⏎")
	for _, d := range l.Sheet("Bo").Deliveries {
		if d.Bowled != "grey" {
			t.Errorf("ball %d of Bo's frame is bowled with %q", d.Ball, d.Bowled)
		}
	}
}

// The frame is bowled on the lane on which the other bowls that frame, which need not be the one it was recorded on.
func TestHandingOverKeepsToTheLanes(t *testing.T) {
	tests := []struct {
		keys  string
		lanes []int
	}{
		{"7⏎/ 7⏎/ 7⏎/ , @Bo⏎", []int{8, 8, 7, 7}},
		{"7⏎/ 7⏎/ 7⏎/ , , , @Bo⏎", []int{8, 8, 8, 8}},
		{"7⏎/ , @Bo⏎", []int{8, 8}},
	}
	for _, tt := range tests {
		l := beginLesson(t, "Ada 172, Bo 120").press("⇥ W ⇤" + tt.keys)
		var got []int
		for _, d := range l.Sheet("Bo").Deliveries {
			got = append(got, d.Lane)
		}
		if !slices.Equal(got, tt.lanes) {
			t.Errorf("%s: on lanes %v, want %v", tt.keys, got, tt.lanes)
		}
	}
}

func TestHandingOverRefused(t *testing.T) {
	nine := strings.Repeat("x", 9)
	tests := []struct{ name, keys, words string }{
		{"nobody of that name", "x , @Cy⏎", "not in tonight's roster"},
		{"to the same", "x , @Ada⏎", "it is Ada's already"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { beginLesson(t, "Ada 172, Bo 120").refuse(tt.keys, tt.words) })
	}
	t.Run("no delivery open", func(t *testing.T) {
		if _, err := beginLesson(t, "Ada 172, Bo 120").press("x").HandOver("Bo"); err == nil {
			t.Error("taken")
		}
	})
	t.Run("the other's game would have a frame too many", func(t *testing.T) {
		l := beginLesson(t, "Ada 172, Bo 120")
		l.mustKeep(l.ToggleRotate())
		l.press("7⏎/ ⇥" + strings.Repeat("7⏎/", 9) + "7⏎-⏎")
		if err := l.ReopenDelivery(l.Sheet("Ada").Game.ID, l.Sheet("Ada").Deliveries[0].ID); err != nil {
			t.Fatal(err)
		}
		// It was bowled before Bo's game: it can only be that game's first frame.
		l.refuse("@Bo⏎", "it does not fit into what Bo bowled")
	})
	t.Run("the other's tenth would change its shape", func(t *testing.T) {
		l := beginLesson(t, "Ada 172, Bo 120")
		l.mustKeep(l.ToggleRotate())
		l.press("x ⇥" + nine + ", ⎋")
		if err := l.ReopenDelivery(l.Sheet("Ada").Game.ID, l.Sheet("Ada").Deliveries[0].ID); err != nil {
			t.Fatal(err)
		}
		l.press("@Bo⏎")
		if s := l.Sheet("Bo"); len(s.Deliveries) != 10 || !s.MidFrame() || s.Tally.Score != 240 {
			t.Errorf("%+v", s.Tally)
		}
	})
}

// alone gives a lesson of two in which the same stays up.
func alone(t *testing.T) *lesson {
	t.Helper()
	l := beginLesson(t, "Ada 172, Bo 120")
	l.mustKeep(l.ToggleRotate())
	return l
}

func TestHandingOverAcrossGames(t *testing.T) {
	game := strings.Repeat("x", 12)
	t.Run("after a finished game it begins the next", func(t *testing.T) {
		l := alone(t).press("⇥" + game + "⇥ 7⏎ , @Bo⏎")
		if s := l.Sheets("Bo"); len(s) != 2 || s[1].Game.Number != 2 || brief(s[1].Deliveries) != "1.1 9/7 AAAA+" || len(l.Sheets("Ada")) != 0 {
			t.Errorf("%d games", len(s))
		}
	})
	t.Run("between a finished game and the next it is the next one's first frame", func(t *testing.T) {
		l := alone(t).press("⇥" + game + "⇥ x ⇥ 7⏎/")
		if err := l.ReopenDelivery(l.Sheet("Ada").Game.ID, l.Sheet("Ada").Deliveries[0].ID); err != nil {
			t.Fatal(err)
		}
		l.press("@Bo⏎")
		if s := l.Sheets("Bo"); len(s) != 2 || brief(s[1].Deliveries) != "1.1 10/none AAAA+, 2.1 9/7 AAAA+, 2.2 1/none AAAA+" {
			t.Errorf("%d games, the last %s", len(s), l.deliveries("Bo"))
		}
	})
	t.Run("a later game's only frame goes with its game", func(t *testing.T) {
		l := alone(t).press(game + "7⏎ , @Bo⏎")
		if s := l.Sheets("Ada"); len(s) != 1 || !s[0].Finished() {
			t.Errorf("Ada has %d games", len(s))
		}
		if l.press("x").Sheet("Ada").Game.Number != 2 {
			t.Error("the next game is not the second")
		}
	})
}

func TestHandingOverAcrossKinds(t *testing.T) {
	t.Run("a drill's delivery goes into the other's game", func(t *testing.T) {
		l := alone(t).press("⇥ x ⇥ G10⏎ b7⏎ , @Bo⏎")
		if got := l.deliveries("Bo"); got != "1.1 10/none AAAA+, 2.1 9/7 BAAA+" || len(l.Sheets("Bo")) != 1 {
			t.Errorf("%s in %d games", got, len(l.Sheets("Bo")))
		}
		if s := l.Sheet("Ada"); s == nil || s.Game.Kind != model.KindDrill || len(s.Deliveries) != 0 {
			t.Error("the drill that was begun for Ada is gone")
		}
	})
	t.Run("a drill's delivery without pins does not", func(t *testing.T) {
		alone(t).press("⇥ x ⇥ G10⏎").refuse("⏎ , @Bo⏎", "it does not fit into what Bo bowled")
	})
	t.Run("a game's frame goes into the other's drill, its spare shot without pins", func(t *testing.T) {
		l := alone(t).press("⇥ G10⏎ x ⇥ 7⏎ / , @Bo⏎")
		if got := l.deliveries("Bo"); got != "0.0 10/none AAAA+, 0.0 9/7 AAAA+, 0.0 ?/? AAAA+" {
			t.Error(got)
		}
		if len(l.Sheets("Ada")) != 0 {
			t.Error("Ada has a game")
		}
	})
	t.Run("a drill's delivery begins the same drill for one who has bowled nothing", func(t *testing.T) {
		l := alone(t).press("G10 line⏎ x x , @Bo⏎")
		if s := l.Sheet("Bo"); s.Game.Kind != model.KindDrill || s.Game.Name != "line" || len(s.Deliveries) != 1 {
			t.Errorf("%+v", s.Game)
		}
		if got := l.deliveries("Ada"); got != "0.0 10/none AAAA+" {
			t.Error(got)
		}
	})
	t.Run("what was begun before the ball takes it", func(t *testing.T) {
		l := alone(t).press("⇥ Gw⏎ ⇥ x , @Bo⏎")
		if got := l.deliveries("Bo"); got != "0.0 10/none AAAA+" || l.Sheet("Bo").Game.Kind != model.KindWarmup {
			t.Errorf("%s", got)
		}
	})
}

// Taking a hand-over back puts up the one whose balls they are again, and doing it again who was up then.
func TestHandingOverTakenBackPutsUp(t *testing.T) {
	for _, tt := range []struct{ name, keys string }{
		{"to one who has not bowled, another up", "x @Cy⏎ , @Bo⏎"},
		{"an unfinished frame", "7⏎ , @Bo⏎"},
		{"to one with a game", "x x x x , @Bo⏎"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			l := beginLesson(t, "Ada 172, Bo 120, Cy 150").press(tt.keys)
			if last, _ := l.Last(); !strings.Contains(last.What, "handed to Bo") {
				t.Fatal("nothing is handed over")
			}
			up, again := l.UpStudent(), l.restart()
			if l.press("⌫"); l.UpStudent() != "Ada" {
				t.Errorf("%s is up", l.UpStudent())
			}
			if again.press("⌫"); again.UpStudent() != "Ada" {
				t.Errorf("after a restart %s is up", again.UpStudent())
			}
			if l.press("U"); l.UpStudent() != up {
				t.Errorf("done again, %s is up, not %s", l.UpStudent(), up)
			}
		})
	}
}
