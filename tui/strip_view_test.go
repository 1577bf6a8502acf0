package tui

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/muesli/termenv"

	"coach.settee/model"
	"coach.settee/model/insight"
	"coach.settee/store"
)

// wholeEvening is midEvening with a warm-up, drills, second games, cues, own calls and notes, and an advanced student.
func wholeEvening(t testing.TB) eveningTest {
	t.Helper()
	e := newEveningTest(t, 7, 9)
	e.seat("ada", "Ada Marsh", 120, 7)
	e.seat("bo", "Bo Winter", 172, 7)
	e.seat("cyd", "Cyd Okafor", 195, 9)
	e.must(e.PutUp("bo"))
	e.must(e.Begin(model.Plan{Kind: model.KindWarmup}, ""))
	e.play("bo", "..xD")
	e.must(e.Begin(model.Plan{Kind: model.KindDrill, Name: "corner", Length: 12, Pins: 1 << 9}, ""))
	e.play("bo", "xx0.bb0.xi0.xzxD")
	for _, id := range []model.ID{"ada", "bo", "cyd"} {
		e.must(e.PutUp(id))
		e.must(e.Begin(model.Plan{Kind: model.KindGame}, ""))
		e.play(id, "x0.xbb6.xz3.x7.xpirx=8=1ohhxxrr70.=1bxx6.xpx")
	}
	e.must(e.PutUp("cyd"))
	e.must(e.SetCue("soft hand"))
	e.play("cyd", "xxb0.xfprxDxx")
	e.done(e.SetOwn(model.GradeBPlus))
	e.done(e.SetLine("17 34 8@43 16.1 +1.5"))
	e.done(e.SetNote("ball came off the hand late, talk about the swing"))
	e.play("cyd", "rri70.")
	e.play("cyd", "0.xxtx")
	return e
}

// stripHistory is what was kept of a student in earlier weeks, the level changed in between.
func stripHistory(t testing.TB, id model.ID) store.History {
	t.Helper()
	var h store.History
	for week := 8; week >= 1; week-- {
		e := newEveningTest(t, 9)
		e.seat(id, "Cyd Okafor", map[bool]int{true: 188, false: 195}[week > 3], 9)
		e.play(id, []string{"x0.xbb6.xz3.x7.xrx=8=1xxxrr70.=1bxx6.x", "xxx0.xbxx7.xrx0.xxx0.xx"}[week%2])
		h.Over = append(h.Over, weeksBefore(e, id, model.ID(fmt.Sprintf("week%d", week)), week)...)
	}
	h.Earlier, h.First = h.Over, h.Over[:1]
	return h
}

// stripGoldens are the screens that are kept, by the student and the keys pressed after g.
var stripGoldens = []struct {
	name string
	id   model.ID
	keys string
}{
	{"game", "cyd", "<left><home><down><down><down>"},
	{"game_unfinished", "cyd", "<up><up><up>"},
	{"warmup", "bo", "<left><left><left>"},
	{"drill", "bo", "<left><left>"},
	{"open", "cyd", "<up><up><up>tt"},
	{"evening", "cyd", "mm"},
	{"last", "cyd", "mmm"},
	{"statistics", "cyd", "k"},
	{"student_gentle", "ada", "<left>v"},
	{"student_plain", "cyd", "<left>v"},
	{"student_blunt", "eve", "v"},
	{"empty", "dov", ""},
}

func TestStripScreens(t *testing.T) {
	for _, c := range stripGoldens {
		t.Run(c.name, func(t *testing.T) {
			d := stripGolden(t, c.id).press(c.keys)
			for _, s := range sizes {
				d.send(sizeMsg(s.w, s.h))
				golden(t, fmt.Sprintf("strip_%s_%dx%d", c.name, s.w, s.h), d.View())
			}
		})
	}
	t.Run("colours change no width", func(t *testing.T) {
		for _, c := range stripGoldens {
			d := stripGolden(t, c.id).press(c.keys)
			plain := map[string]string{}
			for _, theme := range []*theme{themeFor(termenv.Ascii, true, false), themeFor(termenv.TrueColor, true, false)} {
				d.theme = theme
				for _, s := range sizes {
					d.send(sizeMsg(s.w, s.h))
					filled(t, d, s.w, s.h)
					key := fmt.Sprint(s)
					if was, ok := plain[key]; ok && was != d.show() {
						t.Errorf("%s differs with colours at %dx%d", c.name, s.w, s.h)
					}
					plain[key] = d.show()
				}
			}
		}
	})
	t.Run("ascii", func(t *testing.T) {
		d := stripGolden(t, "cyd")
		d.theme = themeFor(termenv.Ascii, true, true)
		golden(t, "strip_ascii_80x24", d.View())
		golden(t, "strip_ascii_last_80x24", d.press("mmm").View())
	})
	t.Run("light", func(t *testing.T) {
		d := stripGolden(t, "cyd")
		d.theme = themeFor(termenv.TrueColor, false, false)
		golden(t, "strip_light_true_80x24", strings.ReplaceAll(d.View(), "\x1b", "^"))
	})
}

// TestStripNamesItsNumbers: between the name of a number and the number there are blanks, in every window.
func TestStripNamesItsNumbers(t *testing.T) {
	d := stripGolden(t, "cyd")
	for _, s := range sizes {
		d.send(sizeMsg(s.w, s.h))
		p := d.strip.picture(d.App, s.w, s.h)
		for _, fact := range slices.Concat(worthNumbers(p.report()).facts, consistencyNumbers(p.report()).facts, costNumbers(p.report()).facts) {
			if lines := factLines(fact, s.w-1, d.theme); len(lines) == 1 && !strings.Contains(lines[0], fact[0]+"  ") {
				t.Errorf("%dx%d: %s", s.w, s.h, lines[0])
			}
		}
	}
}

// TestStripShowsLeavesWhole: no leave that is bowled often is cut, in any window.
func TestStripShowsLeavesWhole(t *testing.T) {
	for keys, leave := range map[string]string{"4670<enter>": "6 4-6-7-10 s", "70<enter>": "8 7-10 split", "467<enter>": "7 4-6-7", "1247<enter>": "6 1-2-4-7"} {
		d := onBoard(t, "Ada 120").press(keys + "g")
		for _, s := range sizes {
			d.send(sizeMsg(s.w, s.h))
			d.says("1.1 " + leave)
		}
	}
}

func stripGolden(t *testing.T, id model.ID) *appTest {
	t.Helper()
	e := wholeEvening(t)
	e.seat("eve", "Eve Tanaka", 214, 9)
	e.play("eve", "x0.xxrxrx0.xxpx")
	e.seat("dov", "Dov Lind", 88, 9)
	d := startApp(t, &fakeReader{}).press("<esc>")
	d.reader.history = map[model.ID]store.History{"cyd": stripHistory(t, "cyd")}
	d.turnTo(e.Evening)
	d.screen = d.board
	e.must(e.PutUp(id))
	return d.press("g")
}

// BenchmarkStrip opens the strip and draws it: of a student who has nothing earlier, and of one with the most games that
// the figures are ever over; and the page of those.
func BenchmarkStrip(b *testing.B) {
	for name, games := range map[string]int{"evening": 0, "history": mostGames} {
		d := benchStrip(b, games)
		b.Run("open/"+name, func(b *testing.B) {
			for b.Loop() {
				d.screen = d.board
				d.strip.figures.reports = [pageCount]reckonedReport{}
				d.Update(keyMsg("g"))
				_ = d.View()
			}
		})
		b.Run("last/"+name, func(b *testing.B) {
			d.strip.figures.n = mostGames
			d.press("g")
			for b.Loop() {
				d.strip.page = pageEvening
				d.strip.figures.reports = [pageCount]reckonedReport{}
				d.Update(keyMsg("m"))
				_ = d.View()
			}
		})
	}
}

func benchStrip(b *testing.B, games int) *appTest {
	b.Helper()
	e := wholeEvening(b)
	var h store.History
	for week := games; week >= 1; week-- {
		h.Over = append(h.Over, weeksBefore(e, "cyd", model.ID(fmt.Sprintf("week%d", week)), week)[0])
	}
	if games > 0 {
		h.Earlier, h.First = h.Over[games-insight.EarlierGames:], h.Over[:1]
	}
	d := startApp(b, &fakeReader{})
	d.press("<esc>")
	d.reader.history = map[model.ID]store.History{"cyd": h}
	d.turnTo(e.Evening)
	d.screen = d.board
	e.must(e.PutUp("cyd"))
	return d
}
