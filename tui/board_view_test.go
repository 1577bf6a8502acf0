package tui

import (
	"fmt"
	"strings"
	"testing"

	"github.com/muesli/termenv"

	"coach.settee/model"
)

var sizes = []struct{ w, h int }{{60, 16}, {80, 24}, {100, 30}, {160, 50}}

// chrome is the lines that a screen has besides the board: header, status, hints.
const chrome = 3

func goldens(t *testing.T, name string, p boardPicture) {
	t.Helper()
	for _, s := range sizes {
		golden(t, fmt.Sprintf("board_%s_%dx%d", name, s.w, s.h), p.draw(s.w, s.h-chrome))
	}
}

func TestBoardMidEvening(t *testing.T) {
	e := midEvening(t)
	e.play("cyd", "b")
	e.play("ada", "tti")
	e.must(e.SetCue("slow feet, tall finish"))
	e.play("bo", "bh0")
	e.must(e.SetCue("quiet shoulder"))
	e.done(e.SetOwn(model.GradeBPlus))
	e.done(e.SetLine("17 34 8@43 16.1 +1.5"))
	e.done(e.SetNote("ball came off the hand late, talk about the swing"))
	p := e.picture()
	s := e.Sheet("finn")
	p.Pending = map[model.ID]bool{s.Deliveries[len(s.Deliveries)-1].ID: true}
	goldens(t, "evening", p)
}

func TestBoardReopened(t *testing.T) {
	e := midEvening(t)
	e.play("bo", "b")
	e.play("ada", "")
	s := e.Sheet("ada")
	e.done(e.ReopenDelivery(s.Game.ID, s.Deliveries[4].ID))
	goldens(t, "reopened", e.picture())
}

func TestBoardDrills(t *testing.T) {
	e := newEveningTest(t, 7, 9)
	e.seat("ada", "Ada Marsh", 120, 7)
	e.seat("bo", "Bo Winter", 172, 7)
	e.seat("cyd", "Cyd Okafor", 195, 9)
	e.seat("dov", "Dov Lind", 88, 9)
	for id, plan := range map[model.ID]model.Plan{
		"ada": {Kind: model.KindDrill, Name: "corner", Length: 10, Pins: 1 << 9},
		"bo":  {Kind: model.KindDrill, Name: "one-step", Length: 12},
		"cyd": {Kind: model.KindWarmup},
		"dov": {Kind: model.KindDrill, Name: "free arm"},
	} {
		e.must(e.PutUp(id))
		e.must(e.Begin(plan, ""))
	}
	e.play("bo", "x0.xbb=8x-.zx")
	e.play("cyd", "..xD")
	e.play("dov", ".b.=9")
	e.play("ada", "xx0.bb0.xi")
	goldens(t, "drills", e.picture())
}

func TestBoardEmpty(t *testing.T) {
	goldens(t, "empty", newEveningTest(t, 7, 9).picture())
}

func TestBoardSixteen(t *testing.T) {
	e := fullHouse(t)
	e.must(e.PutUp("s09"))
	goldens(t, "sixteen", e.picture())
}

// hostileNames are names that terminals draw in ways of their own.
var hostileNames = []string{
	"e\u0301le\u0301onore D\u0308avis", "山田花子 みどり", "שירה לוי", "عائشة بنت", "👩‍👩‍👧‍👦 Family", "❤️ Heart✔️", "🇩🇪 Flag", "👍🏽 Thumb",
	"देवनागरी लिपि", "นำ้ ทองคำ", "Zero\u200bWidth\u2060 Join\u200der", "Soft\u00adHyphen", "1️⃣ Keycap", "Wolfeschlegelsteinhausenbergerdorff",
	"ﷺ﷽", "a\u0300\u0301\u0302\u0303\u0304\u0305 Zalgo",
}

func TestBoardHostileNames(t *testing.T) {
	e := newEveningTest(t, 7, 9, 11, 101)
	for i, name := range hostileNames {
		if i%2 == 0 {
			e.seat(model.ID(fmt.Sprintf("h%02d", i)), name, 150, []int{7, 9, 11, 101}[i/2%4])
		}
	}
	e.must(e.PutUp("h08"))
	e.must(e.SetCue("tall 👩‍👩‍👧 山田 finish"))
	goldens(t, "names", e.picture())
}

func TestBoardSameNames(t *testing.T) {
	e := newEveningTest(t, 7, 9)
	e.seat("01A", "Ada Marsh", 120, 7)
	e.seat("02B", "Ada Marsh", 172, 7)
	e.seat("03C", "Ada Moss", 120, 9)
	e.must(e.Seat(model.Student{ID: "04DXY", Name: "ada marsh", Hand: model.RightHand, Limits: "knee"}, 9))
	e.must(e.PutUp("04DXY"))
	e.must(e.ToggleOut())
	e.must(e.PutUp("02B"))
	goldens(t, "same_names", e.picture())
}

func TestBoardInASCII(t *testing.T) {
	e := midEvening(t)
	e.play("ada", "tti")
	e.play("bo", "b70")
	p := e.picture()
	p.Theme = themeFor(termenv.Ascii, true, true)
	goldens(t, "ascii", p)
}

// TestBoardColours keeps the styles: the control sequences are written as ^[.
func TestBoardColours(t *testing.T) {
	for name, dark := range map[string]bool{"dark": true, "light": false} {
		for profile, colours := range map[string]termenv.Profile{"true": termenv.TrueColor, "16": termenv.ANSI} {
			e := midEvening(t)
			e.play("ada", "tti")
			e.play("bo", "b70")
			p := e.picture()
			p.Theme = themeFor(colours, dark, false)
			golden(t, "board_"+name+"_"+profile+"_80x24", strings.ReplaceAll(p.draw(80, 24-chrome), "\x1b", "^"))
		}
	}
}

func BenchmarkBoard(b *testing.B) {
	e := newEveningTest(b, 7, 9, 11, 13)
	for i := range 8 {
		id := model.ID(fmt.Sprintf("s%d", i))
		e.seat(id, fmt.Sprintf("Student%c Lane", 'A'+i), 160, 7+2*(i/2))
		e.play(id, "x7.xb=9=0xxi4.xr8.xx0.x")
	}
	p := e.picture()
	p.Theme = themeFor(termenv.TrueColor, true, false)
	b.ReportAllocs()
	for b.Loop() {
		p.draw(160, 50-chrome)
	}
}
