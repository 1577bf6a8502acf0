package model_test

import (
	"fmt"
	"strings"
	"testing"

	"coach.settee/model"
)

func TestGames(t *testing.T) {
	eight := strings.Repeat("x", 8)
	nine := strings.Repeat("x", 9)
	tests := []struct {
		name, keys string
		score, max int
		want       string // the deliveries from the last frame on, or all of them
	}{
		{"a spare", "70⏎/", 0, 290, "1.1 8/7-10 AAAA+, 1.2 2/none AAAA+"},
		{"an open frame", "70⏎-⏎", 8, 278, "1.1 8/7-10 AAAA+, 1.2 0/7-10 AAAA+"},
		{"a gutter ball, then all ten are a spare", "-⏎x", 0, 290, "1.1 0/all AAAA+, 1.2 10/none AAAA+"},
		{"a foul, then all ten are a spare", "!x x", 0, 290, "1.1 F/all AAAA+, 1.2 10/none AAAA+"},
		{"a gutter ball, then the sign of a spare", "-⏎/", 0, 290, "1.1 0/all AAAA+, 1.2 10/none AAAA+"},
		{"a foul, then the sign of a spare", "!x/", 0, 290, "1.1 F/all AAAA+, 1.2 10/none AAAA+"},
		{"two fouls", "!x!x", 0, 270, "1.1 F/all AAAA+, 1.2 F/all AAAA+"},
		{"a dead ball is thrown again", "DxD70⏎D/", 20, 280,
			"1.1 D, 1.1 10/none AAAA+, 2.1 D, 2.1 8/7-10 AAAA+, 2.2 D, 2.2 2/none AAAA+"},
		{"three strikes in the tenth", nine + "xxx", 300, 300,
			"10.1 10/none AAAA+, 10.2 10/none AAAA+, 10.3 10/none AAAA+"},
		{"two strikes and a count in the tenth", nine + "xx7⏎", 299, 299,
			"10.1 10/none AAAA+, 10.2 10/none AAAA+, 10.3 9/7 AAAA+"},
		{"a strike and a spare in the tenth", nine + "x7⏎/", 289, 289,
			"10.1 10/none AAAA+, 10.2 9/7 AAAA+, 10.3 1/none AAAA+"},
		{"a strike and an open rack in the tenth", nine + "x7⏎-⏎", 288, 288,
			"10.1 10/none AAAA+, 10.2 9/7 AAAA+, 10.3 0/7 AAAA+"},
		{"a strike, a gutter ball and ten in the tenth", nine + "x-⏎/", 280, 280,
			"10.1 10/none AAAA+, 10.2 0/all AAAA+, 10.3 10/none AAAA+"},
		{"a spare and a strike in the tenth", nine + "7⏎/x", 279, 279,
			"10.1 9/7 AAAA+, 10.2 1/none AAAA+, 10.3 10/none AAAA+"},
		{"a gutter ball, ten, and a strike in the tenth", nine + "-⏎xx", 270, 270,
			"10.1 0/all AAAA+, 10.2 10/none AAAA+, 10.3 10/none AAAA+"},
		{"an open tenth", nine + "70⏎7⏎", 266, 266, "10.1 8/7-10 AAAA+, 10.2 1/7 AAAA+"},
		{"a foul in the tenth", nine + "!x!x", 240, 240, "10.1 F/all AAAA+, 10.2 F/all AAAA+"},
		{"a dead ball in the tenth", nine + "xDxx", 300, 300,
			"10.1 10/none AAAA+, 10.2 D, 10.2 10/none AAAA+, 10.3 10/none AAAA+"},
		{"eight strikes so far", eight, 180, 300, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l := beginLesson(t, "Ada 172").press(tt.keys)
			s := l.Sheet("Ada")
			if got := brief(s.Deliveries); !strings.HasSuffix(got, tt.want) || tt.want != "" && len(s.Deliveries) < 9 && got != tt.want {
				t.Errorf("%s, want %s", got, tt.want)
			}
			if s.Tally.Score != tt.score || s.Tally.Max != tt.max {
				t.Errorf("score %d of at most %d, want %d of %d", s.Tally.Score, s.Tally.Max, tt.score, tt.max)
			}
			if complete := tt.score == tt.max; s.Tally.Complete != complete || l.Sheet("Ada").Ended() != complete {
				t.Errorf("complete is %v", s.Tally.Complete)
			}
		})
	}
}

// Full racks of a game are 10 to 12; every other ball is a spare shot.
func TestFullRacks(t *testing.T) {
	nine := strings.Repeat("x", 9)
	tests := []struct {
		name, keys             string
		racks, strikes         int
		spares, made, load     int
		good, seen, spareShots int
	}{
		{"twelve strikes", nine + "xxx", 12, 12, 0, 0, 12, 12, 12, 0},
		{"an open tenth", nine + "7⏎-⏎", 10, 9, 1, 0, 11, 10, 10, 1},
		{"a spare in the tenth", nine + "7⏎/x", 11, 10, 1, 1, 12, 11, 11, 1},
		{"a strike and a count in the tenth", nine + "x7⏎/", 11, 10, 1, 1, 12, 11, 11, 1},
		{"a gutter ball is a full rack, the next ball at ten a spare shot", "-⏎x", 1, 0, 1, 1, 2, 1, 1, 1},
		{"so is a foul", "!xx", 1, 0, 1, 1, 2, 1, 1, 1},
		{"dead balls count for the load only", "DDx", 1, 1, 0, 0, 3, 1, 1, 0},
		{"an unseen spare shot", "7⏎z/", 1, 0, 1, 1, 2, 1, 1, 0},
		{"a poor shot", "bbx", 1, 1, 0, 0, 1, 0, 1, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			y := beginLesson(t, "Ada 172").press(tt.keys).Sheet("Ada").Tally
			got := []int{y.Racks, y.Strikes, y.SpareTried, y.SpareMade, y.Load, y.Good, y.Seen, y.SpareSeen}
			want := []int{tt.racks, tt.strikes, tt.spares, tt.made, tt.load, tt.good, tt.seen, tt.spareShots}
			if fmt.Sprint(got) != fmt.Sprint(want) {
				t.Errorf("racks, strikes, spares tried and made, load, good, seen, spare shots seen: %v, want %v", got, want)
			}
		})
	}
	t.Run("points by axis are of the seen full racks", func(t *testing.T) {
		y := beginLesson(t, "Ada 172").press("b7⏎ bb/ zx tr x").Sheet("Ada").Tally
		if y.AxisPoints != [4]int{7, 7, 7, 8} || y.AxisSeen != [4]int{2, 2, 2, 2} {
			t.Errorf("%v of %v", y.AxisPoints, y.AxisSeen)
		}
	})
}

func TestDrills(t *testing.T) {
	tests := []struct{ name, keys, want string }{
		{"at a full rack", "G10⏎ x 70⏎ -⏎", "0.0 10/none AAAA+, 0.0 8/7-10 AAAA+, 0.0 0/all AAAA+"},
		{"at named pins made or not", "G10 corner 10⏎ x -⏎ b/ 0⏎",
			"0.0 1/none AAAA+, 0.0 0/10 AAAA+, 0.0 1/none BAAA+, 0.0 0/10 AAAA+"},
		{"without pins", "G10 slow feet⏎ ⏎ bb⏎ z⏎", "0.0 ?/? AAAA+, 0.0 ?/? CAAA, 0.0 ?/? u"},
		{"counted", "G10 3-6-10⏎ =2 =0", "0.0 2/? AAAA+, 0.0 0/3-6-10 AAAA+"},
		{"a foul", "G10⏎ !⏎ !x", "0.0 F/all AAAA+, 0.0 F/all AAAA+"},
		{"a dead ball", "G10⏎ D x", "0.0 D, 0.0 10/none AAAA+"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := beginLesson(t, "Ada 172").press(tt.keys).deliveries("Ada"); got != tt.want {
				t.Errorf("%s, want %s", got, tt.want)
			}
		})
	}
	t.Run("counts its full racks, or its spare shots at fewer pins", func(t *testing.T) {
		y := beginLesson(t, "Ada 172").press("G10⏎ x ⏎ bb7⏎ zx").Sheet("Ada").Tally
		if y.Racks != 4 || y.Seen != 3 || y.Good != 2 || y.SpareSeen != 0 || y.Score != 0 || y.Max != 0 {
			t.Errorf("%+v", y)
		}
		y = beginLesson(t, "Ada 172").press("G10 10⏎ x ⏎ bb-⏎").Sheet("Ada").Tally
		if y.Racks != 0 || y.SpareSeen != 3 || y.SpareGood != 2 || y.SpareTried != 2 || y.SpareMade != 1 {
			t.Errorf("%+v", y)
		}
	})
	t.Run("is over at its length, dead balls not counted", func(t *testing.T) {
		l := beginLesson(t, "Ada 172").press("G2 line⏎ x D x")
		if s := l.Sheet("Ada"); !s.Finished() || !s.Tally.Complete || s.Game.Length != 2 {
			t.Errorf("%+v", s.Tally)
		}
		l.press("x")
		if s := l.Sheet("Ada"); s.Game.Number != 2 || s.Game.Kind != model.KindDrill || s.Game.Name != "line" || s.Game.Length != 2 {
			t.Errorf("the next call began %+v", s.Game)
		}
	})
	beginLesson(t, "Ada 172").refuse("G10 corner 10⏎ 7", "pin 7 was not standing: 10")
	beginLesson(t, "Ada 172").refuse("G10⏎ /", "on a full rack")
}

func TestADeadBallKeepsNoJudgement(t *testing.T) {
	l := beginLesson(t, "Ada 172").press("b o o p OB⏎ L17 34 8@43 16 -1⏎ Nsensor⏎ D")
	got := l.Sheet("Ada").Deliveries[0]
	if got.Seen || got.Touched || got.Letters != (model.Letters{}) || got.Side != "" || got.SideBoards != 0 || got.Hit != "" || got.HitBoards.Known {
		t.Errorf("it is judged: %+v", got)
	}
	if !got.Line.Arrows.Known || !got.SpeedMPH.Known || got.Own != model.GradeB || got.Note != "sensor" {
		t.Errorf("what was thrown is not kept: %+v", got)
	}
	l.press("⌫")
	if c := l.Call(); c.Side != model.Outside || c.SideBoards != 2 || c.Hit != model.Pocket || !c.HitBoards.Known {
		t.Errorf("taken back, the call is %+v", c)
	}
}

func TestWarmUp(t *testing.T) {
	l := beginLesson(t, "Ada 172").press("Gw⏎ ⏎ x bb70⏎ D !⏎")
	if got := l.deliveries("Ada"); got != "0.0 ?/? AAAA+, 0.0 10/none AAAA+, 0.0 8/7-10 CAAA, 0.0 D, 0.0 F/all AAAA+" {
		t.Error(got)
	}
	if y := l.Sheet("Ada").Tally; y != (model.Tally{Load: 5}) {
		t.Errorf("a warm-up counts for the load only: %+v", y)
	}
	l.press("Gg⏎ x")
	if l.Load("Ada") != 6 || len(l.Sheets("Ada")) != 2 || l.Sheets("Ada")[0].Game.Stopped == "" {
		t.Errorf("load %d, %+v", l.Load("Ada"), l.Sheets("Ada")[0].Game)
	}
	if s := l.Sheet("Ada"); s.Game.Kind != model.KindGame || s.Game.Number != 2 || brief(s.Deliveries) != "1.1 10/none AAAA+" {
		t.Errorf("%+v", s.Game)
	}
}

func TestBeginning(t *testing.T) {
	game := strings.Repeat("x", 12)
	t.Run("after a finished game the next call begins the next", func(t *testing.T) {
		l := beginLesson(t, "Ada 172").press(game)
		if r := l.Rack("Ada"); r.Frame != 1 || r.Ball != 1 || !r.Full || l.LaneOf("Ada") != 7 {
			t.Errorf("the next ball finds %+v on lane %d", r, l.LaneOf("Ada"))
		}
		if len(l.Sheets("Ada")) != 1 {
			t.Error("the next game began before its first ball")
		}
		l.press("70⏎")
		if s := l.Sheet("Ada"); s.Game.Number != 2 || s.Game.Kind != model.KindGame || brief(s.Deliveries) != "1.1 8/7-10 AAAA+" {
			t.Errorf("%+v: %s", s.Game, brief(s.Deliveries))
		}
	})
	t.Run("an unfinished game is stopped with a reason and not averaged", func(t *testing.T) {
		l := beginLesson(t, "Ada 172").press("x")
		if !l.Unfinished() {
			t.Fatal("the game is not unfinished")
		}
		l.refuse("Gg⏎", "say why it is stopped")
		l.press("Gw because the wrist⏎")
		if s := l.Sheets("Ada")[0]; s.Game.Stopped != "the wrist" || s.Tally.Complete || !s.Ended() || s.Finished() {
			t.Errorf("%+v, %+v", s.Game, s.Tally)
		}
		if s := l.Sheet("Ada"); s.Game.Kind != model.KindWarmup || s.Game.Number != 2 {
			t.Errorf("%+v", s.Game)
		}
	})
	t.Run("nothing is left of what was begun and changed for another", func(t *testing.T) {
		l := beginLesson(t, "Ada 172").press("Gw⏎ G10⏎ Gg⏎ x")
		if s := l.Sheets("Ada"); len(s) != 1 || s[0].Game.Kind != model.KindGame || s[0].Game.Number != 1 {
			t.Errorf("%d games, the last %+v", len(s), l.Sheet("Ada").Game)
		}
	})
	t.Run("empty is the same kind again", func(t *testing.T) {
		l := beginLesson(t, "Ada 172").press("G10 corner 10⏎ x G⏎ x")
		if s := l.Sheets("Ada"); len(s) != 2 || s[1].Game.Name != "corner" || s[1].Game.Length != 10 || s[0].Game.Stopped == "" {
			t.Errorf("%d games, the last %+v", len(s), l.Sheet("Ada").Game)
		}
	})
}

func TestBeginningRefused(t *testing.T) {
	t.Run("a call begun is in the way", func(t *testing.T) {
		beginLesson(t, "Ada 172").refuse("b Gw⏎", "a call is begun for Ada")
	})
	t.Run("a delivery open is in the way", func(t *testing.T) {
		beginLesson(t, "Ada 172").refuse("x , G5⏎", "enter or esc first")
	})
	t.Run("one who is out begins nothing", func(t *testing.T) {
		beginLesson(t, "Ada 172").refuse("V Gw⏎", "Ada is out: V brings back in")
	})
	t.Run("nobody is up", func(t *testing.T) {
		l := beginLesson(t, "")
		for _, keys := range []string{"x", "⏎", "b", "i", "h", "7", "-", "=3", "/", "D", "Gw⏎", "Ccue⏎", "ZX⏎", "V", "W", "P9⏎", "⇥", "OB⏎"} {
			l.refuse(keys, "")
		}
	})
	t.Run("a student who is out", func(t *testing.T) {
		beginLesson(t, "Ada 172").refuse("V x", "Ada is out: V brings back in")
	})
	t.Run("a closed evening takes no more balls", func(t *testing.T) {
		l := beginLesson(t, "Ada 172").press("70⏎")
		l.mustKeep(l.Close(l.at()))
		for _, keys := range []string{"x", "Gg because done⏎", "Z/⏎", "D"} {
			l.refuse(keys, "closed")
		}
		l.press(", b⏎ ⌫ ⌫ x")
	})
}

func TestWhatIsInForce(t *testing.T) {
	l := beginLesson(t, "Ada 172").press("x Cslow feet⏎ OB+⏎ Nquiet⏎ L17.5 34 8@43 16.1 +1.5⏎ x C⏎ x")
	ds := l.Sheet("Ada").Deliveries
	if ds[0].Cue != "" || ds[1].Cue != "slow feet" || ds[2].Cue != "" {
		t.Errorf("cues %q, %q, %q", ds[0].Cue, ds[1].Cue, ds[2].Cue)
	}
	d := ds[1]
	if d.Own != model.GradeBPlus || d.Note != "quiet" || d.SpeedMPH != model.Known(16.1) || d.HitBoards != model.Known(1.5) {
		t.Errorf("%+v", d)
	}
	if d.Line.Arrows != model.Known(17.5) || d.Line.BreakpointFt != model.Known(43.0) {
		t.Errorf("%+v", d.Line)
	}
	if next := ds[2]; next.Own != model.Ungraded || next.Note != "" || !next.Line.IsZero() {
		t.Errorf("what was said of one ball is said of the next: %+v", next)
	}
	if d.Weights != (model.Weights{25, 30, 25, 20}) || d.Bar != model.GradeAMinus || d.Level != model.Regular {
		t.Errorf("graded with %v %v %v", d.Weights, d.Bar, d.Level)
	}
	if got := []int{ds[0].Lane, ds[1].Lane, ds[2].Lane}; fmt.Sprint(got) != "[7 8 7]" {
		t.Errorf("on lanes %v", got)
	}
}

func TestCatchingUp(t *testing.T) {
	tests := []struct{ name, keys, want string }{
		{"from the start", "Z9/ 43 X⏎",
			"1.1 9/? u, 1.2 1/none u, 2.1 4/? u, 2.2 3/? u, 3.1 10/none u"},
		{"from mid-frame", "70⏎ Z/ X⏎", "1.1 8/7-10 AAAA+, 1.2 2/none u, 2.1 10/none u"},
		{"one ball", "Z7⏎", "1.1 7/? u"},
		{"gutter balls and fouls", "Z-- F/ -F⏎",
			"1.1 0/all u, 1.2 0/all u, 2.1 F/all u, 2.2 10/none u, 3.1 0/all u, 3.2 F/all u"},
		{"a split", "Z(8)1⏎", "1.1 8/? u, 1.2 1/? u"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := beginLesson(t, "Ada 172").press(tt.keys).deliveries("Ada"); got != tt.want {
				t.Errorf("%s, want %s", got, tt.want)
			}
		})
	}
	refusals := []struct{ name, keys, words string }{
		{"a spare on a first ball", "Z/⏎", "a spare on a first ball"},
		{"more pins than stand", "7⏎ Z2⏎", "2 pins cannot fall where 1 stands"},
		{"a bad sign after good ones", "x Z9/ 43 Q⏎", "no sign of the notation"},
		{"nothing typed", "Z ⏎", "nothing typed"},
		{"past the end of the game", strings.Repeat("x", 11) + "ZXX⏎", "after the game's end"},
		{"in a drill", "G10⏎ Z7⏎", "for games"},
		{"with a call begun", "b Z7⏎", "a call is begun"},
		{"with a delivery open", "x , Z7⏎", "enter or esc first"},
		{"one who is out", "V Z7⏎", "Ada is out: V brings back in"},
	}
	for _, tt := range refusals {
		t.Run(tt.name, func(t *testing.T) { beginLesson(t, "Ada 172").refuse(tt.keys, tt.words) })
	}
	t.Run("a whole game, then the next", func(t *testing.T) {
		l := beginLesson(t, "Ada 172").press("ZXXXXXXXXXXXX⏎ Z9/⏎")
		if s := l.Sheets("Ada"); len(s) != 2 || s[0].Tally.Score != 300 || s[0].Tally.Seen != 0 || s[1].Tally.Racks != 1 {
			t.Errorf("%d games", len(s))
		}
	})
	t.Run("one key takes it all back", func(t *testing.T) {
		l := beginLesson(t, "Ada 172, Bo 120")
		before := l.view()
		l.press("Z9/ 43⏎ ⌫")
		before.sameAs(t, "taken back", l.view())
	})
	t.Run("the frames go by lanes, and the next student is up", func(t *testing.T) {
		l := beginLesson(t, "Ada 172, Bo 120").press("Z9/ 43 X⏎")
		var lanes []int
		for _, d := range l.Sheet("Ada").Deliveries {
			lanes = append(lanes, d.Lane)
		}
		if fmt.Sprint(lanes) != "[7 7 8 8 7]" || l.UpStudent() != "Bo" {
			t.Errorf("on lanes %v, %s is up", lanes, l.UpStudent())
		}
	})
}

// A refusal in the middle of a game leaves no number behind it: the order of recording goes on as before.
func TestRefusedCallLeavesNoTrace(t *testing.T) {
	l := beginLesson(t, "Ada 172, Bo 120").press("70⏎ 7")
	// The pin named is no longer one that stood, once the first ball is found to have left another.
	l.press(", 7⏎ @Ada⏎")
	l.refuse("⏎", "pin 7 was not standing")
	l.press("⎋ / @Bo⏎ x ,")
	if edit, _ := l.Editing(); edit.Student != "Bo" {
		t.Errorf("the last recorded delivery is %s's", edit.Student)
	}
	l.press("⎋").restart()
}
