package tui

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"

	"coach.settee/model"
)

// TestLineKeys is the table of keys on the line's screen: what is pressed, and the lines aimed at on lanes 7 and 8.
func TestLineKeys(t *testing.T) {
	for _, c := range []struct{ name, keys, on7, on8, words string }{
		{"the move is not taken by looking", "y", "12 22 8@43", "12 22 8@43", "lane 8 plays high"},
		{"the move is taken on the lane turned to", "y<right><enter>", "12 22 8@43", "12 23 6.1@43", "Bo Winter on lane 8: feet 1 left"},
		{"and taken back", "y<right><enter><bs>", "12 22 8@43", "12 22 8@43", "taken back: Bo Winter on lane 8"},
		{"and done again", "y<right><enter><bs>U", "12 22 8@43", "12 23 6.1@43", "done again: Bo Winter on lane 8"},
		{"the line is set by hand", "yc13 24 9@42<enter>", "13 24 9@42", "12 22 8@43", "aims at 13 from 24 through 9@42 on lane 7"},
		{"a part of it", "yc13<enter>", "13 22 8@43", "12 22 8@43", "line 13 22 8@43"},
		{"another part of it", "yc. 24<enter>", "12 24 8@43", "12 22 8@43", "line 12 24 8@43"},
		{"what is left out is told", "yc", "12 22 8@43", "12 22 8@43", "arrows slide breakpoint (. or left out as now: 12 22"},
		{"with a caution against one ball", "y<right>c16 26<enter>", "12 22 8@43", "16 26 8@43", "set; but feet and target alike"},
		{"dropped", "yc13<esc>", "12 22 8@43", "12 22 8@43", "dropped"},
		{"no such line", "yc13 24 9@42 17<enter>", "12 22 8@43", "12 22 8@43", "one too many"},
		{"nothing typed", "yc<enter>", "12 22 8@43", "12 22 8@43", "the line stays as it is"},
		{"staying is no move", "y<enter>", "12 22 8@43", "12 22 8@43", "the advice is to stay"},
		{"a key of grading", "yx", "12 22 8@43", "12 22 8@43", "that key is the board's"},
		{"another one", "y=", "12 22 8@43", "12 22 8@43", "that key is the board's"},
		{"the other student, by name", "y@cy<enter>", "12 22 8@43", "12 22 8@43", "Cyd Okafor  lane 8"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := lineApp(t, movedEvening(t)).press(c.keys)
			d.says(c.words)
			for on, want := range map[int]string{7: c.on7, 8: c.on8} {
				if got := lineWords(d.evening.AimOf("bo", on)); got != want {
					t.Errorf("lane %d is aimed at %q, wanted %q", on, got, want)
				}
			}
		})
	}
}

// What is done again turns to whose it was, though somebody else is up.
func TestLineFollowsWhatIsDoneAgain(t *testing.T) {
	d := lineApp(t, movedEvening(t)).press("y<tab>")
	other := d.line.student
	if other == d.evening.UpStudent() {
		t.Fatal("nobody else is looked at")
	}
	d.press("c17 34<enter><bs>U")
	if d.line.student != other {
		t.Errorf("%s is looked at, not %s", d.line.student, other)
	}
}

// Keys of one message act on what those before them have turned to.
func TestLineKeysJoined(t *testing.T) {
	d := lineApp(t, movedEvening(t))
	d.send(keyMsg("yc"))
	d.says("(. or left out as now: 12 22")
}

// TestLineViews: the other lane and other students are looked at, nobody is moved or put up.
func TestLineViews(t *testing.T) {
	d := lineApp(t, movedEvening(t)).press("y")
	d.says("Bo Winter  lane 7, the next ball")
	steps := len(d.recorder.steps)
	d.press("<right>").says("lane 8, the other lane", "FEET")
	d.press("<left>").says("lane 7, the next ball", "rests on six balls")
	d.press("<tab>").says("Cyd Okafor  lane 8, the next ball")
	d.press("<shift+tab>s").says("Bo Winter  lane 7, the next ball  spares", "the 10 pin")
	d.press("m").says("moves tonight", "no ball was thrown after a change of line")
	d.press("m").says("lane 7, the next ball  line")
	if d.evening.UpStudent() != "bo" || len(d.recorder.steps) != steps {
		t.Error("looking changed the evening")
	}
	d.press("s<end>").says("3:2: feet three boards")
	d.press("<home>").says("from the strike line")
	d.press("<esc>").says("line 12 22 8@43")
	d.press("<end>").says("Friction is")
	if d.press("<esc>"); d.screen != screen(d.board) {
		t.Error("the board is not there")
	}
	t.Run("of the student marked on the evening's screen", func(t *testing.T) {
		lineApp(t, movedEvening(t)).press("e<down>y").says("Cyd Okafor  lane 8")
	})
	t.Run("of the student of the strip", func(t *testing.T) {
		lineApp(t, movedEvening(t)).press("g<tab>y").says("Cyd Okafor  lane 8")
	})
	t.Run("a click puts nobody up", func(t *testing.T) {
		d := lineApp(t, movedEvening(t)).press("y")
		for line := range 22 {
			d.send(clickAt(4, line))
		}
		if d.evening.UpStudent() != "bo" {
			t.Error("another student is up")
		}
	})
	t.Run("nobody here", func(t *testing.T) {
		d := startApp(t, &fakeReader{}).press("7<enter><enter>y")
		d.says("nobody is here yet")
		if d.press("c"); d.prompt != nil {
			t.Error("a line is asked for")
		}
	})
	t.Run("no evening", func(t *testing.T) {
		startApp(t, &fakeReader{}).press("<esc>y").says("no evening is open")
	})
}

// TestLineFollows: the screen follows what is bowled, corrected and taken back.
func TestLineFollows(t *testing.T) {
	d := lineApp(t, movedEvening(t)).press("y")
	d.says("rests on six balls")
	d.press("<esc>L12 22 8@43 +0<enter>xy@bo<enter>").says("rests on seven balls")
	d.press("<bs>").says("rests on six balls", "lane 7, the next ball")
	before := d.line.known.book
	d.press("<right><left>")
	if d.line.known.book != before {
		t.Error("turning to the other lane learns all again")
	}
}

// TestLineTellsOfALaneThatMoves: a lane that has begun to play higher is said, with the ball from which it did.
func TestLineTellsOfALaneThatMoves(t *testing.T) {
	e := lineEvening(t)
	e.aim("bo", "12 22 8@43")
	e.throws("bo", 0, 0, .5, 0, 0, .5, 0, 0, 0, .5, 0, 0, 6, 6, 6, 6, 6, 6, 6, 6)
	d := lineApp(t, e).press("y")
	d.send(sizeMsg(160, 50))
	var words string
	for _, w := range d.line.known.wear {
		if w.Moved.Known {
			words = w.Moved.Value.Words
		}
	}
	if words == "" {
		t.Fatal("no lane is said to have moved")
	}
	d.says("! " + words)
}

// TestLineTellsWhatWasNotRead: balls that are counted at the arrows by their aim alone are told.
func TestLineTellsWhatWasNotRead(t *testing.T) {
	e := movedEvening(t)
	d := lineApp(t, e).press("y")
	d.send(sizeMsg(160, 50))
	d.says("over which boards balls went at the arrows")
	d.silent("as aimed, not read")
	e.must(e.PutUp("bo"))
	e.must(e.RecordAllDown(testTime))
	d = lineApp(t, e).press("y")
	d.send(sizeMsg(160, 50))
	d.says("at the arrows, 1 of 11", "as aimed, not read")
}

// TestLinePath: the path is drawn where the record has what it takes, else it is said what is missing.
func TestLinePath(t *testing.T) {
	d := lineApp(t, movedEvening(t)).press("y")
	d.send(sizeMsg(160, 50))
	d.says(": a path computed from the record", "Friction is a guess")
	d.press("<tab>")
	d.silent("a path computed")
	d.says("no path is computed without speed, rev rate, axis rotation")
	d.press("<tab>ei<enter><esc>y").says("no path is computed without the oil's length")
}

// TestLineOfALefthander: the lane is drawn as it lies, boards are counted and moves told from the student's own side.
func TestLineOfALefthander(t *testing.T) {
	e := lineEvening(t)
	e.aim("cyd", "12 22 8@43")
	e.throws("cyd", .5, 2.5, 1, 3, .5, 3.5)
	e.aim("bo", "12 22 8@43")
	e.throws("bo", .5, 2.5, 1, 3, .5, 3.5)
	d := lineApp(t, e)
	right := d.press("y<right>").line.picture(d.App, 100, 25)
	right.k.drawn.Computed = nil
	left := d.press("<tab><right>").line.picture(d.App, 100, 25)
	if right.k.advice.Move != left.k.advice.Move || !right.k.advisesMove() {
		t.Fatalf("the same balls move %v and %v", right.k.advice.Move, left.k.advice.Move)
	}
	lines := func(p linePicture) []string {
		return strings.Split(ansi.Strip(strings.Join(p.laneLines(25), "\n")), "\n")
	}
	rows, mirrored := lines(right), lines(left)
	for i := range rows[2 : len(rows)-belowFoul] {
		row, of := []rune(rows[2+i])[feetCells:], []rune(mirrored[2+i])[feetCells:]
		for at := range row {
			if row[at] != of[len(of)-1-at] {
				t.Fatalf("line %d is not the mirror image:\n%s\n%s", i, string(row), string(of))
			}
		}
	}
	if !strings.Contains(rows[len(rows)-3], "35   30   25   20   15   10   5") ||
		!strings.Contains(mirrored[len(rows)-3], "5    10   15   20   25   30   35") {
		t.Errorf("the boards are counted from the wrong side:\n%s\n%s", rows[len(rows)-3], mirrored[len(rows)-3])
	}
}

// lineGoldens are the screens that are kept, by the evening, the student and the keys pressed after y.
var lineGoldens = []struct {
	name    string
	evening func(testing.TB) eveningTest
	id      model.ID
	keys    string
}{
	{"right", movedEvening, "bo", ""},
	{"left", movedEvening, "cyd", ""},
	{"move", movedEvening, "bo", "<right>"},
	{"stay", stayEvening, "bo", ""},
	{"silent", lineEvening, "cyd", ""},
	{"spares", movedEvening, "bo", "s"},
	{"own_spares", sparesEvening, "bo", "s"},
	{"moves", takenEvening, "bo", "m"},
}

func TestLineScreens(t *testing.T) {
	for _, c := range lineGoldens {
		t.Run(c.name, func(t *testing.T) {
			e := c.evening(t)
			e.must(e.PutUp(c.id))
			d := lineApp(t, e).press("@" + string(c.id) + "<enter>y" + c.keys)
			for _, s := range sizes {
				d.send(sizeMsg(s.w, s.h))
				golden(t, fmt.Sprintf("line_%s_%dx%d", c.name, s.w, s.h), d.View())
				plain := d.show()
				d.theme = themeFor(termenv.TrueColor, true, false)
				filled(t, d, s.w, s.h)
				if d.show() != plain {
					t.Errorf("%s differs with colours at %dx%d", c.name, s.w, s.h)
				}
				d.theme = plainTheme()
			}
		})
	}
	t.Run("ascii", func(t *testing.T) {
		d := lineApp(t, movedEvening(t)).press("y<right>")
		d.theme = themeFor(termenv.Ascii, true, true)
		golden(t, "line_ascii_80x24", d.View())
	})
	t.Run("light", func(t *testing.T) {
		d := lineApp(t, movedEvening(t)).press("y<right>")
		d.theme = themeFor(termenv.TrueColor, false, false)
		golden(t, "line_light_true_80x24", strings.ReplaceAll(d.View(), "\x1b", "^"))
	})
}

// BenchmarkLine opens the line's screen and draws it, in an evening of twelve students with 36 balls each on one pair; and
// again after a ball more.
func BenchmarkLine(b *testing.B) {
	e := newEveningTest(b, 7)
	e.must(e.SetPattern("41"))
	for i := range 12 {
		id := model.ID(fmt.Sprintf("s%02d", i))
		e.seat(id, fmt.Sprintf("Student%c Lane", 'A'+i), 170, 7+i%2)
		e.aim(id, "12 22 8@43")
		for range 3 {
			e.throws(id, .5, 2.5, 1, 3, .5, 3.5, 0, 1, 2, -1, 0, .5)
		}
	}
	d := lineApp(b, e)
	for name, last := range map[string]lineKnown{"open": {}, "ball": d.press("y").line.known} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				d.screen, d.line.known = d.board, last
				d.line.known.on.steps++
				d.Update(keyMsg("y"))
				_ = d.View()
			}
		})
	}
}

// TestBigWords: a move is drawn as large as the room takes.
func TestBigWords(t *testing.T) {
	for _, c := range []struct {
		move  string
		w, h  int
		plain bool
		want  int
	}{
		{"feet 2 left, target 1 right", 52, 8, false, 6},
		{"feet 2 left, target 1 right", 33, 8, false, 6},
		{"feet 2 left, target stays", 33, 8, false, 4},
		{"feet 2 left, target 1 right", 33, 4, false, 2},
		{"feet 2 left, target 1 right", 52, 8, true, 2},
		{"feet 12 right, target 10 right", 21, 8, false, 6},
		{"stay", 33, 8, false, 3},
	} {
		lines := bigWords(c.move, c.w, c.h, c.plain)
		if len(lines) != c.want {
			t.Errorf("%s in %dx%d takes %d lines:\n%s", c.move, c.w, c.h, len(lines), strings.Join(lines, "\n"))
		}
		for _, line := range lines {
			if width(line) > c.w {
				t.Errorf("%s in %d cells is %d wide: %s", c.move, c.w, width(line), line)
			}
		}
	}
}

// lineApp shows an evening on the board.
func lineApp(t testing.TB, e eveningTest) *appTest {
	t.Helper()
	d := startApp(t, &fakeReader{}).press("<esc>")
	d.turnTo(e.Evening)
	d.screen = d.board
	if d.evening.UpStudent() != "" {
		e.must(e.PutUp(d.evening.Seats()[0].Student))
	}
	return d
}

// lineEvening is a right-hander and a left-hander who alternate lanes, without a ball.
func lineEvening(t testing.TB) eveningTest {
	t.Helper()
	e := newEveningTest(t, 7)
	e.must(e.SetPattern("41"))
	bo := model.Student{
		ID: "bo", Name: "Bo Winter", Hand: model.RightHand, Average: model.Known(172), SpeedMPH: model.Known(17.0),
		RevRPM: model.Known(300.0), AxisRotation: model.Known(45.0),
	}
	e.must(e.Seat(bo, 7))
	e.must(e.Seat(model.Student{ID: "cyd", Name: "Cyd Okafor", Hand: model.LeftHand, Average: model.Known(195)}, 8))
	return e
}

// movedEvening has lane 8 play high for Bo.
func movedEvening(t testing.TB) eveningTest {
	t.Helper()
	e := lineEvening(t)
	e.aim("bo", "12 22 8@43")
	e.aim("cyd", "14 25 9@42")
	e.throws("bo", .5, 2.5, 1, 3, .5, 3.5)
	e.throws("cyd", 0, .5, 1, 0)
	return e
}

// stayEvening has every ball in the pocket but the last one, on the lane of the next.
func stayEvening(t testing.TB) eveningTest {
	t.Helper()
	e := lineEvening(t)
	e.aim("bo", "12 22 8@43")
	e.throws("bo", 0, 0, .5, 0, 0, -.5, 3, 0)
	return e
}

// takenEvening has Bo move on lane 8, and bowl on.
func takenEvening(t testing.TB) eveningTest {
	t.Helper()
	e := movedEvening(t)
	l, err := model.ParseAim("13 24 8@43", model.Line{})
	e.done(err)
	e.must(e.Aim("bo", 8, l, "feet 2 left, target 1 left"))
	e.throws("bo", 0, .5, 0, 0)
	return e
}

// aim sets a student's line on both lanes.
func (e eveningTest) aim(id model.ID, line string) {
	e.t.Helper()
	l, err := model.ParseAim(line, model.Line{})
	e.done(err)
	for _, on := range []int{7, 8} {
		e.must(e.Aim(id, on, l, ""))
	}
}

// throws has a student throw strikes with target A and release A that hit so many boards from the pocket, over the board
// aimed at or a little beside it.
func (e eveningTest) throws(id model.ID, hits ...float64) {
	e.t.Helper()
	for i, hit := range hits {
		e.must(e.PutUp(id))
		aimed := e.AimOf(id, e.LaneOf(id))
		beside := math.Round(float64(i%3)-1) / 2
		e.done(e.SetLine(fmt.Sprintf("%g %g 8@43 %+g", aimed.Arrows.Value+beside, aimed.Slide.Value, hit)))
		e.must(e.RecordAllDown(testTime))
	}
}
