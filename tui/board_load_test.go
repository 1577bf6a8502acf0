package tui

import (
	"fmt"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"coach.settee/model"
)

// limited starts an evening with Ada, who is to throw up to ten balls, and Bo.
func limited(t tester, change func(*model.Student)) *appTest {
	ada := model.Student{ID: "ada", Name: "Ada Marsh", Hand: model.RightHand, Average: model.Known(120), LoadLimit: 10}
	if change != nil {
		change(&ada)
	}
	return startApp(t, &fakeReader{students: []model.Student{ada}}).press("7<enter>Ada Marsh<enter>Bo 172<enter><enter>@ada<enter>")
}

// bearsSign tells whether Ada's row bears the sign that there is something to mind.
func bearsSign(d *appTest) bool {
	for _, line := range strings.Split(d.show(), "\n") {
		if strings.Contains(line, "7 Ada") {
			return strings.Contains(line, "!")
		}
	}
	return false
}

func TestLoadIsSaid(t *testing.T) {
	const near, reached = "load of Ada Marsh 8 of 10", "load of Ada Marsh 10 of 10: common practice, rest or stop; the coach decides"
	d := limited(t, nil).press("Gw<enter>")
	ball := func() *appTest { return d.press("@ada<enter><enter>") }
	for range 7 {
		ball().silent("load")
	}
	ball().says(near, "load 8")
	ball().silent("load of Ada")
	ball().says(reached)
	d.press("@ada<enter>").says("load 10 of 10: common practice, rest or stop", "the coach decides")
	if !bearsSign(d) {
		t.Error("the row bears no sign")
	}
	ball().silent("load of Ada")
	d.press("@ada<enter>").says("load 11 of 10")
	if n := d.evening.Load("ada"); n != 11 {
		t.Errorf("%d balls: a load forbids none", n)
	}
	d.press("<bs><bs><bs><bs>")
	if d.press("@ada<enter>"); bearsSign(d) {
		t.Error("the row bears the sign below the limit")
	}
	t.Run("dead balls count, and what is caught up", func(t *testing.T) {
		d := limited(t, nil).press("DDDD")
		d.silent("load")
		d.press("@ada<enter>Z9/ 9/<enter>").says(near)
		d.press("@ada<enter>Z9/ 9/<enter>").says("load of Ada Marsh 12 of 10: common practice")
	})
	t.Run("with what else is new", func(t *testing.T) {
		d := limited(t, func(s *model.Student) { s.LoadLimit = 12 }).press(strings.Repeat("x@ada<enter>", 11))
		d.press("x").says("is over, 300", "; load of", "Ada Marsh 12 of 12")
	})
	t.Run("without a limit", func(t *testing.T) {
		d := limited(t, func(s *model.Student) { s.LoadLimit = 0 }).press(strings.Repeat("D", 40))
		d.silent("load")
	})
}

// TestLoadLeavesTheGame: in rows of two lines what is bowled stays, and the sign alone tells of a load at its limit.
func TestLoadLeavesTheGame(t *testing.T) {
	d := limited(t, nil).press("eaCy 90<enter>Di 190<enter>Eve 150<enter>Fay 160<enter><enter><esc>@ada<enter>")
	load := func(balls int, sign bool) {
		t.Helper()
		for d.evening.Load("ada") < balls {
			d.press("@ada<enter>D")
		}
		d.press("@bo<enter><f5>")
		for _, h := range []int{24, 22} {
			d.send(sizeMsg(80, h))
			if d.silent("load"); bearsSign(d) != sign {
				t.Errorf("%d balls: the sign is there: %v", balls, !sign)
			}
			_, row, _ := strings.Cut(d.show(), " Ada")
			if !strings.Contains(strings.Join(strings.Split(row, "\n")[:2], " "), "game 1") {
				t.Errorf("%d balls: the row does not say the game:\n%s", balls, d.show())
			}
		}
	}
	load(8, false)
	load(10, true)
	d.send(sizeMsg(80, 24))
	d.press("@ada<enter><f5>").says("load 10 of 10: common practice")
}

func TestNoted(t *testing.T) {
	knee := func(s *model.Student) { s.Limits = "left knee: no long sets" }
	wrist := func(s *model.Student) { s.Intake = model.Intake{On: "2026-03-04", Hurts: "wrist when turned"} }
	for _, c := range []struct {
		name   string
		change func(*model.Student)
		want   string
		marked bool
	}{
		{"limits", knee, "Ada Marsh: limits: left knee: no long sets", true},
		{"what hurts", wrist, "Ada Marsh: hurts (2026-03-04): wrist when turned", true},
		{"both", func(s *model.Student) { knee(s); wrist(s) }, "limits: left knee: no long sets; hurts (2026-03-04): wrist when turned", true},
		{"nothing", nil, "nothing noted for Ada Marsh", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := limited(t, c.change)
			d.send(sizeMsg(120, 30))
			d.silent(c.want)
			if bearsSign(d) != c.marked {
				t.Errorf("the sign on the row:\n%s", d.show())
			}
			d.press("I").says(c.want)
			if n := len(d.recorder.steps); len(d.press("I<f5>").recorder.steps) != n {
				t.Error("something is kept")
			}
			d.silent(c.want)
			if d.press("I"); d.status.refused {
				t.Error("it is said as a refusal")
			}
		})
	}
	t.Run("more than the line takes", func(t *testing.T) {
		d := limited(t, func(s *model.Student) { s.Limits = strings.Repeat("knee and wrist ", 100) })
		for w := 60; w < 200; w += 7 {
			d.send(sizeMsg(w, 24))
			d.press("I").says("(all: s, Student)")
			filled(t, d, w, 24)
		}
	})
	t.Run("of nobody", func(t *testing.T) {
		startApp(t, &fakeReader{}).press("7<enter><enter>I").says("nobody is up")
	})
}

// careful is an evening in which there is something to mind of each student.
func carefulEvening(t testing.TB) eveningTest {
	e := newEveningTest(t, 7, 9)
	for i, s := range []model.Student{
		{ID: "ada", Name: "Ada Marsh", Limits: "left knee", Focus: "tempo: the same four steps every time"},
		{ID: "bo", Name: "Bo Winter", LoadLimit: 12, Focus: "eyes on the second arrow from the first step to the slide"},
		{ID: "cyd", Name: "Cyd Okafor", LoadLimit: 100},
		{ID: "dov", Name: "Dov Lind", LoadLimit: 10, Intake: model.Intake{On: "2026-03-04", Hurts: "wrist"}},
	} {
		s.Hand, s.Average = model.RightHand, model.Known(140+20*i)
		e.must(e.Seat(s, 7+i/2*2))
	}
	e.play("ada", "x0.x")
	e.play("cyd", strings.Repeat("D", 80)+"x")
	e.play("dov", "x7.xx0.xx7.xx")
	e.play("bo", "x7.xx0.xx7.xx")
	return e
}

func TestBoardCareful(t *testing.T) {
	e := carefulEvening(t)
	e.must(e.PutUp("bo"))
	goldens(t, "careful", e.picture())
	for _, p := range []struct {
		up   model.ID
		w    int
		want bool
	}{{"ada", 100, true}, {"ada", 99, false}, {"bo", 160, true}, {"cyd", 160, false}} {
		e.must(e.PutUp(p.up))
		focus := "focus " + strings.Fields(e.Student(p.up).Focus + " ?")[0]
		if got := strings.Contains(ansi.Strip(e.picture().draw(p.w, 40)), focus); got != p.want {
			t.Errorf("%s at %d: the focus is said: %v", p.up, p.w, got)
		}
	}
	e.must(e.PutUp("ada"))
	e.must(e.SetTonight("ada", "balance"))
	if !strings.Contains(ansi.Strip(e.picture().draw(100, 27)), "focus balance") {
		t.Error("tonight's focus is not said")
	}
	e.must(e.SetCue("soft hand"))
	if strings.Contains(ansi.Strip(e.picture().draw(100, 27)), "focus") {
		t.Error("the focus is said beside a cue")
	}
}

// TestCarefulAtEverySize: the panel says the load wherever it is at its limit, a row of three lines at 80 columns and more.
func TestCarefulAtEverySize(t *testing.T) {
	e := carefulEvening(t)
	e.must(e.PutUp("bo"))
	p := e.picture()
	for w := 60; w <= 200; w++ {
		for h := 16; h <= 60; h++ {
			sizeHolds(t, p, w, h-chrome)
			picture := p.draw(w, h-chrome)
			if !strings.Contains(picture, fmt.Sprintf("load %d of 12", e.Load("bo"))) {
				t.Fatalf("the panel does not say the load at %dx%d:\n%s", w, h, picture)
			}
			if w >= 80 && h >= 24 && !strings.Contains(picture, "load 81") {
				t.Fatalf("the row does not say the load at %dx%d:\n%s", w, h, picture)
			}
		}
	}
}
