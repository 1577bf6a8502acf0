package tui

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"

	"coach.settee/model"
)

func TestGlanceScreens(t *testing.T) {
	sizes := [][2]int{{60, 16}, {80, 24}, {100, 30}, {160, 50}}
	for name, e := range map[string]eveningTest{
		"evening": midEvening(t), "whole": wholeEvening(t), "sixteen": fullHouse(t), "same_names": sameNames(t),
	} {
		d := lineApp(t, e).press("v")
		for _, s := range sizes {
			d.send(sizeMsg(s[0], s[1]))
			golden(t, fmt.Sprintf("glance_%s_%dx%d", name, s[0], s[1]), d.View())
		}
	}
	d := lineApp(t, midEvening(t)).press("v")
	d.theme = themeFor(termenv.Ascii, true, true)
	golden(t, "glance_ascii_80x24", d.View())
	d.theme = themeFor(termenv.TrueColor, true, false)
	golden(t, "glance_dark_true_80x24", strings.ReplaceAll(d.View(), "\x1b", "^"))
}

// sameNames is two students of one first name, one with a limit, the other out.
func sameNames(t *testing.T) eveningTest {
	e := newEveningTest(t, 7)
	e.seat("01A", "Ada Marsh", 120, 7)
	e.must(e.Seat(model.Student{ID: "02B", Name: "Ada Moss", Hand: model.RightHand, Limits: "left knee", Notes: "shy"}, 7))
	e.must(e.PutUp("02B"))
	e.must(e.ToggleOut())
	return e
}

// TestGlanceAtEverySize: the window is filled, every tile lies whole inside it, and who is up is said once, with a frame.
func TestGlanceAtEverySize(t *testing.T) {
	if testing.Short() {
		t.Skip("left out with -short: a sweep in one goroutine")
	}
	names := newEveningTest(t, 7, 9, 11, 101)
	for i, name := range hostileNames {
		names.seat(model.ID(fmt.Sprintf("h%02d", i)), name, 150, []int{7, 9, 11, 101}[i%4])
	}
	for name, e := range map[string]eveningTest{
		"evening": midEvening(t), "drills": wholeEvening(t), "sixteen": fullHouse(t), "names": names, "alone": alone(t),
	} {
		for _, ascii := range []bool{false, true} {
			t.Run(fmt.Sprintf("%s, ascii %v", name, ascii), func(t *testing.T) {
				d := lineApp(t, e).press("v")
				d.theme = themeFor(termenv.Ascii, true, ascii)
				for w := minWidth; w <= 200; w += 1 + w/25 {
					for h := minHeight; h <= 60; h += 1 + h/12 {
						d.send(sizeMsg(w, h))
						filled(t, d, w, h)
						tilesHold(t, d, map[bool]string{false: "▶", true: ">"}[ascii])
					}
				}
			})
		}
	}
}

func tilesHold(t *testing.T, d *appTest, mark string) {
	t.Helper()
	w, h := d.w, d.bodyHeight()
	p := d.glance.picture(d.App)
	g := p.layOut(w, h)
	rows := (len(p.tiles) + g.columns - 1) / g.columns
	if rows*g.high > h || g.columns*(g.outer()+between) > w {
		t.Fatalf("%d rows of %d lines, %d columns of %d cells at %dx%d", rows, g.high, g.columns, g.outer(), d.w, d.h)
	}
	names := p.names(g.letters)
	for i := range p.tiles {
		p.tiles[i].name = names[i]
		if slices.Index(names, names[i]) != i {
			t.Fatalf("two are called %s at %dx%d", names[i], d.w, d.h)
		}
		if head := p.name(p.tiles[i], g); g.name.lines == 0 && !strings.Contains(head[0], names[i]) {
			t.Fatalf("%q is cut to %q at %dx%d", names[i], head[0], d.w, d.h)
		}
		room := g.high
		if g.frame {
			room -= 2
		}
		if need := len(p.name(p.tiles[i], g)) + len(p.content(p.tiles[i], g)); need > room {
			t.Fatalf("%d lines in a tile of %d at %dx%d", need, room, d.w, d.h)
		}
	}
	screen := d.show()
	if strings.Count(screen, mark) != 1 {
		t.Fatalf("who is up is not said once at %dx%d:\n%s", d.w, d.h, screen)
	}
	for _, l := range strings.Split(screen, "\n") {
		before, after, ok := strings.Cut(l, mark)
		edge := map[bool]string{false: "█", true: "#"}[d.theme.ascii]
		if ok && (!strings.Contains(before, edge) || !strings.Contains(after, edge)) {
			t.Fatalf("no frame at %dx%d: %s", d.w, d.h, l)
		}
	}
}

// TestGlanceTellsTheSameFirstNameApart at every width, in words that begin with it.
func TestGlanceTellsTheSameFirstNameApart(t *testing.T) {
	d := lineApp(t, sameNames(t)).press("v")
	p := d.glance.picture(d.App)
	for w := minWidth; w <= 200; w++ {
		g := p.layOut(w, 20)
		names := p.names(g.letters)
		if names[0] == names[1] || !strings.HasPrefix(names[0], "Ada") || !strings.HasPrefix(names[1], "Ada") {
			t.Fatalf("%q at %d", names, w)
		}
	}
}

// TestGlanceFigures: no window draws the counts smaller than the board does, and more room never makes them smaller.
func TestGlanceFigures(t *testing.T) {
	d := lineApp(t, midEvening(t)).press("v")
	p := d.glance.picture(d.App)
	for w := minWidth; w <= 200; w += 7 {
		before := 0
		for h := minHeight - chrome; h <= 60; h++ {
			lines := p.layOut(w, h).figure.lines
			rows := p.board.students()
			plan, _ := p.board.layOut(rows, w, h)
			if lines < before || lines < min(plan.row, largeFont.lines) {
				t.Fatalf("figures of %d lines in %dx%d, %d in less, %d on the board", lines, w, h, before, plan.row)
			}
			before = lines
		}
	}
}

// TestGlanceChangesByItself: what is called shows at once, whoever's it is, with dots to each one's own goal.
func TestGlanceChangesByItself(t *testing.T) {
	d := onBoard(t, "Ada 120", "Bo 172").press("v")
	d.says("○ ○ ○ ○ ", "○ ○ ○ ○ ○").silent("●")
	d.press("x").says("● ○ ○ ○ ").silent("● ○ ○ ○ ○")
	d.press("bbx").says("Bo", "○ ○ ○ ○ ○").silent("● ○ ○ ○ ○")
	d.press("x").says("● ● ○ ○")
	d.press("<bs>").says("taken back", "● ○ ○ ○ ")
	d.press("U").says("● ● ○ ○")
	t.Run("beyond the goal", func(t *testing.T) {
		lineApp(t, midEvening(t)).press("v").says("● ● ● ● +2")
	})
	t.Run("in the order of the lanes, whatever the counts", func(t *testing.T) {
		screen := lineApp(t, midEvening(t)).press("v").show()
		last := -1
		for _, name := range []string{"Ada", "Bo", "Cyd", "Dov", "Eve", "Finnegan"} {
			at := strings.Index(screen, name)
			if at <= last && name != "Dov" || at < 0 {
				t.Errorf("%s is at %d, after %d", name, at, last)
			}
			last = at
		}
	})
}

// TestGlanceKeys: the keys of grading are the board's, what opens a line or a delivery is not there.
func TestGlanceKeys(t *testing.T) {
	for _, c := range []struct{ name, keys, call, words string }{
		{"a strike", "vx", "Ada 1.1 10 AAAA", "last: Ada"},
		{"letters and pins", "vbi70<enter>", "Ada 1.1 8 left 7-10 BBAA in 1", "last: Ada"},
		{"a count", "vi7<enter>=0", "Ada 1.2 0 left 7 AAAA", "last: Ada"},
		{"none down", "v-<enter>", "Ada 1.1 0 left 1-2-3-4-5-6-7-8-9-10 AAAA", "last: Ada"},
		{"what is begun is said", "vbb7", "", "Ada: b-- left 7"},
		{"esc clears it first", "vb<esc>", "", "the call begun for Ada is cleared"},
		{"a line is not opened", "vN", "", "that key is the board's: esc goes back to it"},
		{"nor what is noted", "vI", "", "that key is the board's"},
		{"nor a student added", "vA", "", "that key is the board's"},
		{"an unknown key", "vX", "", "X has no meaning here"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := onBoard(t, "Ada 120", "Bo 172").press(c.keys).says(c.words)
			calls := d.spoken()
			if c.call == "" && len(calls) != 0 || c.call != "" && (len(calls) == 0 || calls[len(calls)-1] != c.call) {
				t.Errorf("recorded is %q", calls)
			}
			if d.prompt != nil || d.screen != screen(d.glance) {
				t.Errorf("the screen is %s, a line open %v", d.screen.title(), d.prompt != nil)
			}
		})
	}
	t.Run("esc goes back to the board", func(t *testing.T) {
		if d := onBoard(t, "Ada 120").press("v<esc>"); d.screen != screen(d.board) {
			t.Errorf("the screen is %s", d.screen.title())
		}
	})
	t.Run("the next student, and the next pair", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172", "Cy 90").press("v<tab>")
		d.upIs("Bo").press(" ").upIs("Cy")
	})
	t.Run("an open delivery is not graded unseen", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172").press("x,bv")
		for _, k := range []string{"x", "b", "<enter>", "v", ",", "<bs>"} {
			d.press(k).says("▶")
			if e, open := d.evening.Editing(); !open || e.Call.Letters[model.Balance] != model.B || d.screen != screen(d.glance) {
				t.Errorf("%s acts", k)
			}
		}
		if d.press("<esc>"); d.screen != screen(d.glance) {
			t.Error("esc leaves the delivery and the screen")
		}
		if got := d.spoken(); len(got) != 1 || got[0] != "Ada 1.1 10 AAAA" {
			t.Errorf("recorded is %q", got)
		}
	})
	t.Run("a click puts up, the wheel does not", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172").press("v")
		d.send(tea.MouseMsg{X: 60, Y: 10, Action: tea.MouseActionPress, Button: tea.MouseButtonLeft})
		d.upIs("Bo")
		d.send(tea.MouseMsg{X: 60, Y: 10, Action: tea.MouseActionPress, Button: tea.MouseButtonWheelDown})
		d.upIs("Bo")
	})
}

// upIs tells that a student is up, and that it is said on the screen.
func (d *appTest) upIs(name string) *appTest {
	d.t.Helper()
	if got := d.evening.Label(d.evening.UpStudent()); got != name {
		d.t.Errorf("%s is up, not %s", got, name)
	}
	return d.says("UP")
}

// TestGlanceEmpty: without students or an evening it is said what to press.
func TestGlanceEmpty(t *testing.T) {
	d := startApp(t, &fakeReader{}).press("7<enter><enter>v")
	d.says("nobody is here yet: esc, and A on the board adds a student")
	d.press("v").says("nobody is up here")
	d.press("xb<tab>")
	d = startApp(t, &fakeReader{}).press("<esc>")
	d.App.show(d.glance)
	d.says(errNoEvening.Error())
}

// TestGlanceShamesNobody: nothing private and nothing that compares is on the screen.
func TestGlanceShamesNobody(t *testing.T) {
	for _, s := range [][2]int{{60, 16}, {80, 24}, {160, 50}} {
		d := lineApp(t, sameNames(t)).press("v")
		d.send(sizeMsg(s[0], s[1]))
		for _, w := range []string{"knee", "shy", "!", "new", "developing", "gentle", "score", "chance", "%", "average", "120"} {
			d.silent(w)
		}
	}
}

// TestGlanceStudent: v turns the glance to the student up and back.
func TestGlanceStudent(t *testing.T) {
	d := lineApp(t, midEvening(t)).press("v<tab>v")
	d.says("Bo  game 1", "good, goal 5", "v esc back").silent("Ada")
	for _, other := range []string{"Cyd", "Dov", "Eve", "Finnegan", "last:", "84%"} {
		d.silent(other)
	}
	steps := len(d.recorder.steps)
	d.press("xb7<enter>")
	if len(d.recorder.steps) != steps {
		t.Error("keys grade while the screen is turned to the student")
	}
	for _, back := range []string{"v", "<esc>"} {
		if d.press(back).says("▶ Bo  UP", "Ada"); d.screen != screen(d.glance) {
			t.Errorf("%s goes to %s", back, d.screen.title())
		}
		d.press("v")
	}
	t.Run("gentle: dots, no letters, no chances", func(t *testing.T) {
		d := lineApp(t, midEvening(t)).press("vv").says("Ada  game 1", "●")
		body := ansi.Strip(d.screen.draw(d.App, d.w, d.bodyHeight()))
		for _, w := range strings.Fields(body) {
			if slices.Contains([]string{"D", "F", "B+", "C", "A-"}, w) {
				t.Errorf("the letter %s:\n%s", w, body)
			}
		}
	})
	t.Run("the strip's own view goes back to the strip", func(t *testing.T) {
		d := lineApp(t, midEvening(t)).press("vvv<esc>gvv")
		if d.screen != screen(d.strip) {
			t.Errorf("it goes to %s", d.screen.title())
		}
	})
}

func BenchmarkGlance(b *testing.B) {
	d := lineApp(b, fullHouse(b)).press("v")
	d.send(sizeMsg(160, 50))
	b.ReportAllocs()
	for b.Loop() {
		d.View()
	}
}

// TestGlanceShowsFirstNames: a long name has plain letters rather than a few large ones, and leaves the others theirs.
func TestGlanceShowsFirstNames(t *testing.T) {
	d := longNames(t).press("v")
	for _, s := range [][2]int{{100, 30}, {160, 50}} {
		d.send(sizeMsg(s[0], s[1]))
		d.says("Hedwig-Charlotte")
		p := d.glance.picture(d.App)
		if g := p.layOut(d.w, d.bodyHeight()); g.name.lines == 0 || p.namesIn(g.name, g.inner, g.letters) < 5 {
			t.Errorf("%d lines a name, %d names of 8 in them at %v", g.name.lines, p.namesIn(g.name, g.inner, g.letters), s)
		}
	}
}
