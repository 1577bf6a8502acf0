package model_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"coach.settee/model"
)

// refused checks that something was refused with words like those given and changed nothing since a view.
func (l *lesson) refused(before view, err error, words string) {
	l.t.Helper()
	if err == nil || !strings.Contains(err.Error(), words) {
		l.t.Errorf("refused with %v, want words like %q", err, words)
	}
	before.sameAs(l.t, "what was refused changed something", l.view())
}

// titles says what each student bowls: "Ada drill corner (0), Bo game 1 (2)", with the deliveries in it.
func (l *lesson) titles() string {
	var out []string
	for _, seat := range l.Seats() {
		for _, s := range l.Sheets(seat.Student) {
			out = append(out, fmt.Sprintf("%s %d %s (%d)%s", seat.Student, s.Game.Number, l.TitleOf(s.Game), len(s.Deliveries), s.Game.Stopped))
		}
	}
	return strings.Join(out, ", ")
}

func drill(l *lesson, text string) model.Plan {
	l.t.Helper()
	p, err := model.ParsePlan(text, model.Plan{})
	if err != nil {
		l.t.Fatal(err)
	}
	return p
}

func TestEveryoneBegins(t *testing.T) {
	t.Run("as one action, but for who is out", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo | Cy, Di")
		l.mustKeep(l.PutUp("Cy"))
		l.press("V")
		l.mustKeep(l.PutUp("Ada"))
		before := l.view()
		l.mustKeep(l.BeginForAll(drill(l, "10 corner 10")))
		l.said("3 of 4 begin drill corner")
		begun := l.view()
		if got, want := l.titles(), "Ada 1 drill corner (0), Bo 1 drill corner (0), Di 1 drill corner (0)"; got != want {
			t.Errorf("they bowl %s, want %s", got, want)
		}
		if got := l.UpStudent(); got != "Ada" {
			t.Errorf("%s is up", got)
		}
		l = l.restart()
		l.press("⌫")
		if got := l.titles(); got != "" {
			t.Errorf("taken back, they bowl %s", got)
		}
		if last, _ := l.Last(); last.N != before.Last.N {
			t.Errorf("%d actions are left, want %d", last.N, before.Last.N)
		}
		l.press("U")
		begun.sameAs(t, "done again", l.view())
	})
	t.Run("what else is begun ends, without balls it goes", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo, Cy")
		for id, keys := range map[model.ID]string{"Ada": "Gw⏎ x", "Bo": "G5 spares⏎", "Cy": "G1 one⏎ x"} {
			l.mustKeep(l.PutUp(id))
			l.press(keys)
		}
		if got, want := l.titles(), "Ada 1 warm-up (1), Bo 1 drill spares (0), Cy 1 drill one (1)"; got != want {
			t.Errorf("they bowl %s, want %s", got, want)
		}
		l.mustKeep(l.BeginForAll(drill(l, "g")))
		want := "Ada 1 warm-up (1)done, Ada 2 game 1 (0), Bo 1 game 1 (0), Cy 1 drill one (1), Cy 2 game 1 (0)"
		if got := l.titles(); got != want {
			t.Errorf("they bowl %s, want %s", got, want)
		}
		l.mustKeep(l.BeginForAll(drill(l, "w")))
		want = "Ada 1 warm-up (1)done, Ada 2 warm-up (0), Bo 1 warm-up (0), Cy 1 drill one (1), Cy 2 warm-up (0)"
		if got := l.titles(); got != want {
			t.Errorf("they bowl %s, want %s", got, want)
		}
	})
	t.Run("a game is named for each kind", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo")
		for text, words := range map[string]string{"g": "a game", "w": "warm-up", "10": "drill"} {
			l.mustKeep(l.BeginForAll(drill(l, text)))
			l.said("everyone begins " + words)
		}
	})
}

func TestEveryoneCannotBegin(t *testing.T) {
	warmup := model.Plan{Kind: model.KindWarmup}
	for name, c := range map[string]struct {
		students string
		do       func(*lesson)
		plan     model.Plan
		words    string
	}{
		"nobody is here": {"", func(*lesson) {}, warmup, "nobody is here"},
		"everyone is out": {"Ada, Bo", func(l *lesson) {
			l.press("V")
			l.mustKeep(l.PutUp("Bo"))
			l.press("V")
		}, warmup, "everyone is out"},
		"a game is unfinished":  {"Ada, Bo", func(l *lesson) { l.press("x") }, warmup, "Ada is in a game: finish it"},
		"three games are":       {"Ada, Bo, Cy", func(l *lesson) { l.press("x x x") }, warmup, "Ada, Bo and Cy are in a game: "},
		"a call is begun":       {"Ada, Bo", func(l *lesson) { l.press("r") }, warmup, "a call is begun for Ada"},
		"another's call is":     {"Ada, Bo", func(l *lesson) { l.press("r ⇥") }, warmup, "a call is begun for Ada"},
		"a delivery is open":    {"Ada, Bo", func(l *lesson) { l.press("Gw⏎ x ,") }, warmup, "a delivery is open"},
		"the evening is closed": {"Ada, Bo", func(l *lesson) { l.mustKeep(l.Close(l.at())) }, warmup, "closed"},
		"no such kind":          {"Ada, Bo", func(*lesson) {}, model.Plan{Kind: "match"}, "the kind"},
		"a drill too long":      {"Ada, Bo", func(*lesson) {}, model.Plan{Kind: model.KindDrill, Length: 501}, "a drill of 501"},
	} {
		t.Run(name, func(t *testing.T) {
			l := beginLesson(t, c.students)
			c.do(l)
			before := l.view()
			_, err := l.BeginForAll(c.plan)
			l.refused(before, err, c.words)
		})
	}
	t.Run("who is out is in no one's way", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo")
		l.press("x")
		l.mustKeep(l.PutUp("Ada"))
		l.press("V")
		l.mustKeep(l.BeginForAll(warmup))
		if got, want := l.titles(), "Ada 1 game 1 (1), Bo 1 warm-up (0)"; got != want {
			t.Errorf("they bowl %s, want %s", got, want)
		}
	})
	t.Run("ids of what was refused are given again", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo")
		if _, err := l.BeginForAll(model.Plan{Kind: "match"}); err == nil {
			t.Fatal("a match was begun")
		}
		l.mustKeep(l.BeginForAll(warmup))
		if got, want := l.Sheet("Ada").Game.ID, model.SerialID(sessionID, 1); got != want {
			t.Errorf("the first id is %s, want %s", got, want)
		}
	})
}

// Beginning for everyone gives each what beginning one by one gives.
func TestEveryoneBeginsAsEachWould(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		keys := rapid.SliceOfN(rapid.SampledFrom([]string{"x", "=8", "⇥", "Gw⏎", "G3 a⏎", "G1 b⏎", "V", "⌫", "D"}), 0, 25).Draw(rt, "keys")
		text := rapid.SampledFrom([]string{"g", "w", "10 corner 10", "3 a"}).Draw(rt, "plan")
		script := func() *lesson {
			l := beginLesson(rt, "Ada, Bo | Cy")
			for _, k := range keys {
				l.run(k)
			}
			return l
		}
		l, one := script(), script()
		before := l.view()
		step, err := l.BeginForAll(drill(l, text))
		here, each := 0, true
		for _, seat := range one.Seats() {
			if seat.Out {
				continue
			}
			here++
			one.mustKeep(one.PutUp(seat.Student))
			step, err := one.Begin(drill(one, text), "")
			if err != nil {
				each = false
				break
			}
			one.fold(step)
		}
		if err != nil {
			before.sameAs(rt, "what was refused changed something", l.view())
			if here > 0 && each {
				rt.Fatalf("refused with %v, and each can begin", err)
			}
			return
		}
		l.fold(step)
		if here == 0 || !each || l.titles() != one.titles() {
			rt.Fatalf("together: %s\none by one (%v): %s", l.titles(), each, one.titles())
		}
		l = l.restart()
		l.press("⌫")
		before.Calls, before.Up = l.view().Calls, l.view().Up
		before.sameAs(rt, "taken back", l.view())
	})
}
