package model_test

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"coach.settee/model"
)

// axesOf gives a set of axes.
func axesOf(axes ...model.Axis) model.AxisSet {
	var set model.AxisSet
	for _, a := range axes {
		set = set.With(a)
	}
	return set
}

// seat gives a student's seat.
func (l *lesson) seat(id model.ID) model.Seat {
	seat, _ := l.SeatOf(id)
	return seat
}

func (l *lesson) said(words string) {
	l.t.Helper()
	if last, _ := l.Last(); last.What != words {
		l.t.Errorf("the last action is %q, want %q", last.What, words)
	}
}

func TestWhatIsSetForTonight(t *testing.T) {
	for name, c := range map[string]struct {
		set       func(*lesson, string) (model.Step, error)
		of        func(*lesson) string
		said, off string
	}{
		"the focus": {
			set: func(l *lesson, text string) (model.Step, error) { return l.SetTonight("Ada", text) },
			of:  func(l *lesson) string { return l.FocusOf("Ada") },
			// The student's own focus is in force where none is set for the evening.
			said: "tonight's focus of Ada: ten slow ones", off: "tonight's focus of Ada taken off",
		},
		"homework": {
			set:  func(l *lesson, text string) (model.Step, error) { return l.SetHomework("Ada", text) },
			of:   func(l *lesson) string { return l.seat("Ada").Homework },
			said: "homework of Ada: ten slow ones", off: "homework of Ada taken off",
		},
		"the sentence": {
			set:  func(l *lesson, text string) (model.Step, error) { return l.SetSentence("Ada", text) },
			of:   func(l *lesson) string { return l.seat("Ada").Sentence },
			said: "sentence of Ada: ten slow ones", off: "sentence of Ada taken off",
		},
	} {
		t.Run(name, func(t *testing.T) {
			l := beginLesson(t, "Ada 172, Bo")
			l.press("x")
			l.mustKeep(c.set(l, "ten slow ones"))
			l.said(c.said)
			if got := c.of(l); got != "ten slow ones" {
				t.Errorf("it is %q", got)
			}
			if step, err := c.set(l, "ten slow ones"); err != nil || len(step.Changes) != 0 {
				t.Errorf("the same once more gives %v and %v", step, err)
			}
			if _, err := c.set(l, "two\nlines"); err == nil {
				t.Error("a text of two lines was taken")
			}
			l.mustKeep(c.set(l, ""))
			l.said(c.off)
			if got := c.of(l); got != "" {
				t.Errorf("taken off, it is %q", got)
			}
			l = l.restart()
			l.mustKeep(l.Undo())
			if got := c.of(l); got != "ten slow ones" {
				t.Errorf("taken back after a restart, it is %q", got)
			}
			l.mustKeep(l.Undo())
			l.mustKeep(l.Redo())
			if got := c.of(l); got != "ten slow ones" {
				t.Errorf("done again, it is %q", got)
			}
		})
	}
	t.Run("of nobody", func(t *testing.T) {
		l := beginLesson(t, "Ada")
		for _, set := range []func(model.ID, string) (model.Step, error){l.SetTonight, l.SetHomework, l.SetSentence} {
			if _, err := set("Zoe", "x"); err == nil {
				t.Error("it was set for somebody who is not here")
			}
		}
	})
}

func TestTheFocusChosenLastHolds(t *testing.T) {
	l := beginLesson(t, "Ada 172, Bo")
	l.mustKeep(l.SetFocus("Ada", "a slower start"))
	l.mustKeep(l.SetTonight("Ada", "spares"))
	if got := l.FocusOf("Ada"); got != "spares" {
		t.Errorf("tonight's focus is %q", got)
	}
	focus := func(what, tonight, own string) {
		t.Helper()
		if l.FocusOf("Ada") != tonight || l.Student("Ada").Focus != own {
			t.Errorf("%s: %q tonight and %q of her own, want %q and %q", what, l.FocusOf("Ada"), l.Student("Ada").Focus, tonight, own)
		}
	}
	l.mustKeep(l.SetFocus("Ada", "finish"))
	focus("another chosen", "finish", "finish")
	l.mustKeep(l.Undo())
	focus("taken back in one", "spares", "a slower start")
	l.mustKeep(l.SetFocus("Ada", "a slower start"))
	focus("the same chosen again", "a slower start", "a slower start")
	l = l.restart()
	l.mustKeep(l.Undo())
	focus("taken back after a restart", "spares", "a slower start")

	now := l.Student("Ada")
	now.Focus = "tempo"
	l.mustKeep(l.ChangeStudent(now, "Ada works on: tempo"))
	focus("chosen with the record", "tempo", "tempo")
	l.mustKeep(l.Undo())
	now = l.Student("Ada")
	now.Notes = "left early"
	l.mustKeep(l.ChangeStudent(now, "note on Ada"))
	focus("something else of the record", "spares", "a slower start")

	l.mustKeep(l.Close(l.at()))
	l.mustKeep(l.SetFocus("Ada", "release"))
	focus("chosen after closing, the evening keeps the one it had", "spares", "release")
}

func TestTheNextMeeting(t *testing.T) {
	l := beginLesson(t, "Ada, Bo | Cy, Di")
	l.mustKeep(l.SetNext("2026-03-11", "Bo"))
	l.said("next meeting of Bo on 2026-03-11")
	l.mustKeep(l.SetNext("2026-03-12", "Ada", "Bo", "Cy"))
	l.said("next meeting of Ada, Bo, Cy on 2026-03-12")
	l.mustKeep(l.SetNext("2026-03-13", "Ada", "Bo", "Cy", "Di"))
	l.said("next meeting of 4 students on 2026-03-13")
	if step, err := l.SetNext("2026-03-13", "Ada", "Di"); err != nil || len(step.Changes) != 0 {
		t.Errorf("the same once more gives %v and %v", step, err)
	}
	l.mustKeep(l.SetNext("", "Di"))
	l.said("next meeting of Di taken off")
	dates := func() string {
		return strings.Join([]string{l.seat("Ada").Next, l.seat("Bo").Next, l.seat("Cy").Next, l.seat("Di").Next}, " ")
	}
	if got := dates(); got != "2026-03-13 2026-03-13 2026-03-13 " {
		t.Errorf("the dates are %q", got)
	}
	for range 3 {
		l.mustKeep(l.Undo())
	}
	if got := dates(); got != " 2026-03-11  " {
		t.Errorf("taken back, the dates are %q", got)
	}
	for date, students := range map[string][]model.ID{
		"2026-02-30": {"Ada"}, "soon": {"Ada"}, "2025-03-11": {"Ada"}, "2026-03-11": {"Ada", "Zoe"}, "2026-03-18": nil,
	} {
		if _, err := l.SetNext(date, students...); err == nil {
			t.Errorf("the next meeting of %v on %q was taken", students, date)
		}
	}
}

func TestWatchingTonight(t *testing.T) {
	two := axesOf(model.Balance, model.Release)
	t.Run("calls begin with letters on those axes, deliveries keep theirs", func(t *testing.T) {
		l := beginLesson(t, "Ada 172")
		l.press("x")
		l.mustKeep(l.WatchTonight("Ada", two))
		l.said("Ada: watching balance, release tonight")
		l.press("r x")
		l.mustKeep(l.WatchTonight("Ada", 0))
		l.said("Ada: watching what is watched otherwise")
		l.press("x")
		want := "1.1 10/none AAAA+, 2.1 10/none A-B-, 3.1 10/none AAAA+"
		if got := l.deliveries("Ada"); strings.ReplaceAll(got, "·", "-") != want {
			t.Errorf("bowled %s, want %s", got, want)
		}
	})
	t.Run("a call begun is in the way, one taken back is not", func(t *testing.T) {
		l := beginLesson(t, "Ada 172, Bo")
		l.press("r")
		if _, err := l.WatchTonight("Ada", two); err == nil || !strings.Contains(err.Error(), "a call is begun for Ada") {
			t.Errorf("refused with %v", err)
		}
		l.press("⎋ !!")
		l.mustKeep(l.WatchTonight("Ada", two))
		if l.Begun("Ada") {
			t.Errorf("a call is begun: %v", l.CallOf("Ada"))
		}
		if got, want := l.CallOf("Ada").Letters, l.ChosenFor("Ada").StartLetters(); got != want {
			t.Errorf("the letters are %v, want %v", got, want)
		}
	})
	t.Run("taken back and done again, also after a restart", func(t *testing.T) {
		l := beginLesson(t, "Ada 172, Bo")
		l.mustKeep(l.WatchTonight("Ada", two))
		l.press("x x")
		bowled := l.view()
		l = l.restart()
		bowled.sameAs(t, "after a restart", l.view())
		l.press("⌫⌫⌫")
		if got := l.ChosenFor("Ada").Watched; got != model.AllAxes {
			t.Errorf("watched is %v", got)
		}
		l.press("UUU")
		bowled.sameAs(t, "done again", l.view())
	})
	t.Run("refused and needless", func(t *testing.T) {
		l := beginLesson(t, "Ada 172")
		if step, err := l.WatchTonight("Ada", 0); err != nil || len(step.Changes) != 0 {
			t.Errorf("nothing set, nothing taken off gives %v and %v", step, err)
		}
		for id, axes := range map[model.ID]model.AxisSet{"Zoe": two, "Ada": 1 << 7} {
			if _, err := l.WatchTonight(id, axes); err == nil {
				t.Errorf("watching %d for %s was taken", axes, id)
			}
		}
	})
}

func TestLettersBeginOnTheAxesWatchedTonight(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		l := beginLesson(rt, "Ada 172, Bo")
		own := model.AxisSet(rapid.IntRange(0, int(model.AllAxes)).Draw(rt, "own"))
		now := l.Student("Ada")
		now.Watched = own
		l.mustKeep(l.ChangeStudent(now, "watched axes of Ada"))
		for range rapid.IntRange(1, 6).Draw(rt, "times") {
			tonight := model.AxisSet(rapid.IntRange(0, int(model.AllAxes)).Draw(rt, "tonight"))
			l.mustKeep(l.WatchTonight("Ada", tonight))
			l.mustKeep(l.PutUp("Ada"))
			want := tonight
			if tonight == 0 {
				want = l.Student("Ada").Chosen().Watched
			}
			l.press(rapid.SampledFrom([]string{"x", "=9 /", "!! x", "x ⌫ x"}).Draw(rt, "keys"))
			ds := l.Sheet("Ada").Deliveries
			for _, a := range model.Axes {
				if got := ds[len(ds)-1].Letters[a] != model.NoLetter; got != want.Has(a) {
					rt.Fatalf("%v lettered: %v, watched are %v", a, got, want)
				}
			}
		}
	})
}

func TestAStudentOfTheEveningIsChanged(t *testing.T) {
	l := beginLesson(t, "Ada 172, Bo 140")
	l.press("x")
	now := l.Student("Ada")
	now.Average, now.Balls, now.BallUp = model.Known(195), []string{"blue", "grey"}, "grey"
	l.mustKeep(l.ChangeStudent(now, "average of Ada: 195"))
	l.said("average of Ada: 195")
	if step, err := l.ChangeStudent(now, "average of Ada: 195"); err != nil || len(step.Changes) != 0 {
		t.Errorf("the same once more gives %v and %v", step, err)
	}
	l.mustKeep(l.PutUp("Ada"))
	l.press("x")
	ds := l.Sheet("Ada").Deliveries
	if ds[0].Level != model.Regular || ds[1].Level != model.Advanced {
		t.Errorf("the levels are %s and %s", ds[0].Level, ds[1].Level)
	}
	if ds[0].Bowled != "" || ds[1].Bowled != "grey" {
		t.Errorf("bowled with %q and %q", ds[0].Bowled, ds[1].Bowled)
	}
	l = l.restart()
	l.press("⌫⌫")
	if got := l.Student("Ada"); got.Average != model.Known(172) || got.BallUp != "" {
		t.Errorf("taken back, she is %+v", got)
	}
	l.press("⎋")
	l.press("UU")
	if got := l.Student("Ada").BallUp; got != "grey" {
		t.Errorf("done again, the ball up is %q", got)
	}

	l.mustKeep(l.PutUp("Bo"))
	l.press("r")
	bo := l.Student("Bo")
	bo.Weights = model.Weights{40, 30, 20, 10}
	if _, err := l.ChangeStudent(bo, "weights of Bo"); err == nil {
		t.Error("weights were changed under a call begun")
	}
	bo = l.Student("Bo")
	bo.Notes = "new shoes"
	l.mustKeep(l.ChangeStudent(bo, "note on Bo"))
	if !l.Begun("Bo") {
		t.Error("the call begun is gone")
	}
	for _, s := range []model.Student{{ID: "Zoe", Name: "Zoe", Hand: model.RightHand}, {ID: "Ada", Hand: model.RightHand}} {
		if _, err := l.ChangeStudent(s, "x"); err == nil {
			t.Errorf("%+v was taken", s)
		}
	}
}

func TestTheBallInUse(t *testing.T) {
	l := beginLesson(t, "Ada 172")
	use := func(ball string) {
		t.Helper()
		now := l.Student("Ada")
		now.Balls, now.BallUp = []string{"blue", "grey"}, ball
		l.mustKeep(l.ChangeStudent(now, "Ada bowls "+ball))
	}
	use("blue")
	l.press("=9 /")
	use("grey")
	l.press("x Z9/ ⏎")
	var balls []string
	for _, d := range l.Sheet("Ada").Deliveries {
		balls = append(balls, d.Bowled)
	}
	if got := strings.Join(balls, " "); got != "blue blue grey grey grey" {
		t.Errorf("bowled with %s", got)
	}
}

func TestAnEveningIsOpenedAgain(t *testing.T) {
	l := beginLesson(t, "Ada 172, Bo")
	if _, err := l.OpenAgain(); err == nil {
		t.Error("an open evening was opened again")
	}
	l.press("x")
	l.mustKeep(l.Close(l.at()))
	l.refuse("x", "closed")
	l = l.restart()
	l.mustKeep(l.OpenAgain())
	l.said("evening opened again")
	l.press("x")
	l.press("⌫⎋⌫")
	if l.Session().Open() {
		t.Error("taken back, it is open")
	}
	l.press("U")
	if !l.Session().Open() || !l.Session().Closed.Equal(time.Time{}) {
		t.Error("done again, it is closed")
	}
}
