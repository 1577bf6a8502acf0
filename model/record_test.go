package model_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// checked is a record with words of its refusal, "" where it is taken.
type checked struct {
	name   string
	record model.Record
	words  string
}

// bad is a text that is no text.
const bad = "a\x1bb"

func check(t *testing.T, tests []checked) {
	t.Helper()
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			err := tt.record.Validate()
			if (err == nil) != (tt.words == "") || err != nil && !strings.Contains(err.Error(), tt.words) {
				t.Errorf("%v, want words like %q", err, tt.words)
			}
		})
	}
}

func TestStudentRecords(t *testing.T) {
	student := func(change func(*model.Student)) model.Record {
		s := model.Student{
			ID: "ada", Name: "Ada", Hand: model.LeftHand, Style: model.NoThumb, Average: model.Known(172), Level: model.Elite,
			Bar: model.GradeB, Goal: 17, Weights: model.Weights{25, 25, 25, 25}, Tone: model.Plain, Watched: model.AllAxes,
			Start: model.Letters{model.A, model.B}, Balls: []string{"blue"}, Focus: "feet", LoadLimit: 60,
		}
		change(&s)
		return s
	}
	check(t, []checked{
		{"a student", student(func(*model.Student) {}), ""},
		{"a student of a name only", model.Student{ID: "a", Name: "A", Hand: model.RightHand}, ""},
		{"a student without an id", student(func(s *model.Student) { s.ID = "" }), "ids have 1 to 40"},
		{"a student without a name", student(func(s *model.Student) { s.Name = " " }), "the name is empty"},
		{"a student without a hand", student(func(s *model.Student) { s.Hand = "" }), "use right or left"},
		{"an unknown style", student(func(s *model.Student) { s.Style = "x" }), "use one-hand, two-hand or no-thumb"},
		{"an average too high", student(func(s *model.Student) { s.Average = model.Known(301) }), "averages are 0 to 300"},
		{"an unknown level", student(func(s *model.Student) { s.Level = "x" }), "is no level"},
		{"an unknown tone", student(func(s *model.Student) { s.Tone = "x" }), "is no tone"},
		{"weights", student(func(s *model.Student) { s.Weights[0]++ }), "must sum to 100"},
		{"a goal too high", student(func(s *model.Student) { s.Goal = 21 }), "goals are 0.5 to 10"},
		{"an unknown bar", student(func(s *model.Student) { s.Bar = 13 }), "one of them is none"},
		{"an unknown axis", student(func(s *model.Student) { s.Watched = 16 }), "one of them is none"},
		{"an unknown letter", student(func(s *model.Student) { s.Start[3] = 9 }), "one of them is none"},
		{"a load limit", student(func(s *model.Student) { s.LoadLimit = -1 }), "a load limit of -1"},
		{"a ball's name", student(func(s *model.Student) { s.Balls = []string{"blue", bad} }), "control character"},
		{"limits", student(func(s *model.Student) { s.Limits = bad }), "control character"},
	})
}

func TestSessionRecords(t *testing.T) {
	k := model.Known[float64]
	session := func(change func(*model.Session)) model.Record {
		s := model.Session{
			ID: "s", At: evening, Place: "Parkside", Pairs: []model.Pair{{7, 8}, {199, 200}},
			Roster: []model.Seat{{Student: "ada", Lane: 8, Order: 1, Cue: "slow", Next: "2026-03-11"}, {Student: "bo", Lane: 200, Order: 1}},
		}
		change(&s)
		return s
	}
	check(t, []checked{
		{"a session", session(func(*model.Session) {}), ""},
		{"a session without an id", session(func(s *model.Session) { s.ID = "" }), "ids have 1 to 40"},
		{"a place", session(func(s *model.Session) { s.Place = bad }), "control character"},
		{"lanes that are no pair", session(func(s *model.Session) { s.Pairs[0] = model.Pair{8, 9} }), "an odd lane and the next"},
		{"lane 0", session(func(s *model.Session) { s.Pairs[0] = model.Pair{-1, 0} }), "an odd lane and the next"},
		{"a lane too high", session(func(s *model.Session) { s.Pairs[0] = model.Pair{201, 202} }), "up to 200"},
		{"a pair twice", session(func(s *model.Session) { s.Pairs[1] = s.Pairs[0] }), "there twice"},
		{"nine pairs", session(func(s *model.Session) {
			for lane := 1; len(s.Pairs) < 9; lane += 2 {
				s.Pairs = append(s.Pairs, model.PairOf(lane+50))
			}
		}), "9 pairs: an evening takes up to 8"},
		{"seventeen students", session(func(s *model.Session) { s.Roster = make([]model.Seat, 17) }), "17 students: an evening takes up to 16"},
		{"a student on no pair", session(func(s *model.Session) { s.Roster[0].Lane = 9 }), "none of the evening's pairs"},
		{"a student twice", session(func(s *model.Session) { s.Roster[1].Student = "ada" }), "in the roster twice"},
		{"a seat of nobody", session(func(s *model.Session) { s.Roster[1].Student = "" }), "ids have 1 to 40"},
		{"a place in the order", session(func(s *model.Session) { s.Roster[0].Order = 0 }), "places count from 1"},
		{"a seat's cue", session(func(s *model.Session) { s.Roster[0].Cue = bad }), "control character"},
		{"homework", session(func(s *model.Session) { s.Roster[0].Homework = bad }), "control character"},
		{"the lines aimed at", session(func(s *model.Session) {
			s.Roster[0].Aimed = [2]model.Line{{Arrows: k(0), BreakpointFt: k(20)}, {Slide: k(45), Breakpoint: k(8), BreakpointFt: k(60)}}
		}), ""},
		{"a board too high", session(func(s *model.Session) { s.Roster[0].Aimed[1].Slide = k(45.5) }), "on lane 8: board 45.5"},
		{"a board below none", session(func(s *model.Session) { s.Roster[0].Aimed[0].Arrows = k(-1) }), "on lane 7: board -1"},
		{"a board that is no number", session(func(s *model.Session) { s.Roster[1].Aimed[1].Breakpoint = k(math.NaN()) }), "on lane 200: board NaN"},
		{"a breakpoint too near", session(func(s *model.Session) { s.Roster[0].Aimed[0].BreakpointFt = k(19) }), "at 19 feet: 20 to 60 feet"},
		{"a breakpoint behind the pins", session(func(s *model.Session) { s.Roster[0].Aimed[0].BreakpointFt = k(61) }), "at 61 feet"},
		{"the next meeting", session(func(s *model.Session) { s.Roster[0].Next = "2026-02-30" }), "write a date"},
	})
}

func TestGameRecords(t *testing.T) {
	game := func(change func(*model.Game)) model.Record {
		g := model.Game{ID: "s-1", Session: "s", Student: "ada", Number: 1, Kind: model.KindDrill, Name: "corner", Length: 10, Pins: 1 << 9}
		change(&g)
		return g
	}
	check(t, []checked{
		{"a game", game(func(*model.Game) {}), ""},
		{"a game without a session", game(func(g *model.Game) { g.Session = "" }), "ids have 1 to 40"},
		{"a game of nobody", game(func(g *model.Game) { g.Student = "a b" }), "none of A-Z"},
		{"number 0", game(func(g *model.Game) { g.Number = 0 }), "count from 1"},
		{"an unknown kind", game(func(g *model.Game) { g.Kind = "match" }), "use game, drill or warmup"},
		{"a game with a length", game(func(g *model.Game) { g.Kind, g.Pins = model.KindGame, 0 }), "only a drill has"},
		{"a warm-up with pins", game(func(g *model.Game) { g.Kind, g.Length = model.KindWarmup, 0 }), "only a drill has"},
		{"a drill too long", game(func(g *model.Game) { g.Length = 501 }), "1 to 500"},
		{"a pin beyond ten", game(func(g *model.Game) { g.Pins = 1 << 10 }), "beyond 10"},
		{"a reason", game(func(g *model.Game) { g.Stopped = bad }), "control character"},
	})
}

func TestDeliveryRecords(t *testing.T) {
	delivery := func(change func(*model.Delivery)) model.Record {
		d := model.Delivery{
			ID: "s-2", Game: "s-1", Seq: 1, At: evening, Lane: 7, Frame: 10, Ball: 3, Seen: true, Touched: true,
			Letters: model.Letters{model.A, model.F}, Weights: model.Weights{25, 25, 25, 25}, Bar: model.GradeAMinus,
			Level: model.New, Pins: model.Known(9), Side: model.Inside, SideBoards: 2, Hit: model.Nose, Own: model.GradeC,
		}
		change(&d)
		return d
	}
	deadBall := func(change func(*model.Delivery)) model.Record {
		return delivery(func(d *model.Delivery) {
			d.Dead, d.Seen, d.Touched, d.Letters = true, false, false, model.Letters{}
			d.Side, d.SideBoards, d.Pins = "", 0, model.Optional[int]{}
			change(d)
		})
	}
	check(t, []checked{
		{"a delivery", delivery(func(*model.Delivery) {}), ""},
		{"a delivery without a game", delivery(func(d *model.Delivery) { d.Game = "" }), "ids have 1 to 40"},
		{"seq 0", delivery(func(d *model.Delivery) { d.Seq = 0 }), "count from 1"},
		{"no lane", delivery(func(d *model.Delivery) { d.Lane = 0 }), "lanes are 1 to 200"},
		{"frame 11", delivery(func(d *model.Delivery) { d.Frame = 11 }), "frames are 1 to 10"},
		{"a fourth ball", delivery(func(d *model.Delivery) { d.Ball = 4 }), "balls 1 to 3"},
		{"a ball of no frame", delivery(func(d *model.Delivery) { d.Frame = 0 }), "frames are 1 to 10"},
		{"eleven pins", delivery(func(d *model.Delivery) { d.Pins = model.Known(11) }), "fells 0 to 10"},
		{"pins of a foul", delivery(func(d *model.Delivery) { d.Foul = true }), "a foul with pins"},
		{"letters unseen", delivery(func(d *model.Delivery) {
			d.Seen, d.Touched, d.Side, d.SideBoards = false, false, "", 0
		}), "letters on a delivery that was not seen"},
		{"a side unseen", delivery(func(d *model.Delivery) {
			d.Seen, d.Touched, d.Letters = false, false, model.Letters{}
		}), "a side on a delivery that was not seen"},
		{"a dead ball", deadBall(func(*model.Delivery) {}), ""},
		{"a dead ball with letters", deadBall(func(d *model.Delivery) {
			d.Letters = model.Letters{model.A}
		}), "letters on a delivery that was not seen"},
		{"a dead ball that was graded", deadBall(func(d *model.Delivery) { d.Seen = true }), "counts for nothing"},
		{"a dead ball with pins", deadBall(func(d *model.Delivery) { d.Pins = model.Known(0) }), "counts for nothing"},
		{"a dead ball that leaves pins", deadBall(func(d *model.Delivery) { d.After = tenpin.Standing(0) }), "counts for nothing"},
		{"a dead foul", deadBall(func(d *model.Delivery) { d.Foul = true }), "counts for nothing"},
		{"no bar", delivery(func(d *model.Delivery) { d.Bar = model.Ungraded }), "without a bar"},
		{"an unknown own call", delivery(func(d *model.Delivery) { d.Own = 13 }), "one of them is none"},
		{"an unknown letter of a ball", delivery(func(d *model.Delivery) { d.Letters[0] = 6 }), "one of them is none"},
		{"boards of no side", delivery(func(d *model.Delivery) { d.Side = "" }), "a side that is not given"},
		{"an unknown side", delivery(func(d *model.Delivery) { d.Side = "left" }), "is no side"},
		{"an unknown hit", delivery(func(d *model.Delivery) { d.Hit = "flush" }), "is no hit"},
		{"no level", delivery(func(d *model.Delivery) { d.Level = "" }), "is no level"},
		{"no weights", delivery(func(d *model.Delivery) { d.Weights = model.Weights{} }), "must sum to 100"},
		{"a note", delivery(func(d *model.Delivery) { d.Note = bad }), "control character"},
	})
}

func TestCueRecords(t *testing.T) {
	cue := func(change func(*model.Cue)) model.Record {
		c := model.Cue{ID: "c", Axis: model.Finish, Text: "hold it"}
		change(&c)
		return c
	}
	check(t, []checked{
		{"a cue", cue(func(*model.Cue) {}), ""},
		{"a cue of no axis", cue(func(c *model.Cue) { c.Axis = 4 }), "a cue of axis 4"},
		{"a cue's text", cue(func(c *model.Cue) { c.Text = bad }), "control character"},
	})
}

func TestBeginningAnEvening(t *testing.T) {
	for name, s := range map[string]model.Session{
		"no lanes":        {ID: "s", At: evening},
		"lanes of no use": {ID: "s", At: evening, Pairs: []model.Pair{{8, 9}}},
		"no id":           {At: evening, Pairs: []model.Pair{{7, 8}}},
	} {
		if _, _, err := model.NewEvening(s); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
	l := beginLesson(t, "Ada 172")
	for name, bad := range map[string]func() (model.Step, error){
		"a lane of another pair": func() (model.Step, error) {
			return l.Seat(model.Student{ID: "Bo", Name: "Bo", Hand: model.RightHand}, 9)
		},
		"a student without a name": func() (model.Step, error) { return l.Seat(model.Student{ID: "Bo"}, 7) },
		"an arrangement that cannot be": func() (model.Step, error) {
			return l.Arrange("no lanes", func(s *model.Session) { s.Pairs = nil })
		},
	} {
		before := l.view()
		if _, err := bad(); err == nil {
			t.Errorf("%s was taken", name)
		}
		before.sameAs(t, name, l.view())
	}
}

func TestClosing(t *testing.T) {
	l := beginLesson(t, "Ada 172, Bo 120").press("x b")
	if _, err := l.Close(l.at()); err == nil || !strings.Contains(err.Error(), "a call is begun for Bo") {
		t.Errorf("closed over a call: %v", err)
	}
	l.press("⎋ , b")
	if _, err := l.Close(l.at()); err == nil || !strings.Contains(err.Error(), "enter keeps it") {
		t.Errorf("closed over a change: %v", err)
	}
	l.press("⎋")
	l.mustKeep(l.Close(l.at()))
	if l.Session().Open() {
		t.Error("the evening is open")
	}
	if _, err := l.Close(l.at()); err == nil || !strings.Contains(err.Error(), "closed already") {
		t.Errorf("closed twice: %v", err)
	}
	if l.press("⌫"); !l.Session().Open() {
		t.Error("closing was not taken back")
	}
}

func TestResumingWhatCannotBe(t *testing.T) {
	k := beginLesson(t, "Ada 172").press("Gw⏎ ⏎ Gg⏎ 7⏎ /").asKept()
	slices.SortFunc(k.Games, func(a, b model.Game) int { return b.Number - a.Number })
	k.Deliveries[2].Pins = model.Known(5)
	if _, err := model.Resume(k); err == nil || !strings.Contains(err.Error(), "Ada, game 1") {
		t.Errorf("%v", err)
	}
}
