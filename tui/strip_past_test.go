package tui

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"coach.settee/model"
	"coach.settee/store"
)

// lastWeek is an app with an evening of Ada and Bo of the week before, which is closed; tonight is not begun.
func lastWeek(t *testing.T, keys string) *appTest {
	t.Helper()
	was := onBoard(t, "Ada 120", "Bo 172").press(keys)
	k := keptEvening(was)
	k.Session.At = testTime.AddDate(0, 0, -7)
	k.Session.Closed = k.Session.At.Add(1)
	k.Log = nil
	reader := &fakeReader{students: k.Students, evenings: []model.Kept{k}, played: map[model.ID][]store.Played{}}
	for _, seat := range was.evening.Seats() {
		for _, x := range was.evening.Sheets(seat.Student) {
			reader.played[seat.Student] = append(reader.played[seat.Student], store.Played{Game: x.Game, At: k.Session.At, Tally: x.Tally})
		}
	}
	d := startApp(t, reader)
	minted := 0
	d.conf.NewID = func() model.ID { minted++; return model.ID(fmt.Sprintf("new%d", minted)) }
	return d
}

func TestStripOfAPastEvening(t *testing.T) {
	t.Run("without an evening the last one kept", func(t *testing.T) {
		d := lastWeek(t, "=7=2x").press("<esc>g")
		d.says("Ada  25 February 2026  game 1 of 1", "▶ 1.2")
		d.press("<esc>").says("No evening is on the board")
	})
	t.Run("without anything kept it says so", func(t *testing.T) {
		d := startApp(t, &fakeReader{}).press("<esc>g")
		d.says("nothing is bowled yet")
		if d.screen != screen(d.session) {
			t.Error("another screen is there")
		}
	})
	t.Run("before the first game, and forward to tonight again", func(t *testing.T) {
		d := lastWeek(t, "=7=2x").press("7<enter>Ada<enter>Bo<enter><enter>x@ada<enter>g<left>")
		d.says("another evening: 25 February 2026", "25 February 2026  game 1")
		d.press("<right>").says("tonight again", "▶ 1.1")
		d.press("<left><left>").says("nothing earlier is kept of Ada")
		d.press("<tab>").says(" Bo  25 February 2026")
	})
	t.Run("a correction is kept in that evening, and tonight stays as it is", func(t *testing.T) {
		d := lastWeek(t, "=7=2x").press("7<enter>Ada<enter>Bo<enter><enter>x")
		up, tonight := d.evening.Up(), eveningRecords(d.evening)
		d.press("g<left>b<enter>")
		step := d.recorder.steps[len(d.recorder.steps)-1]
		if step.Session != "id1" || len(step.Changes) != 1 || step.Changes[0].Ref.Kind != model.DeliveryRecord {
			t.Errorf("%+v", step)
		}
		d.press("<bs>").says("taken back")
		if last := d.recorder.steps[len(d.recorder.steps)-1]; !last.Undo || last.Session != "id1" {
			t.Errorf("%+v", last)
		}
		d.press("U").says("done again")
		if diff := cmp.Diff(tonight, eveningRecords(d.evening), cmpopts.EquateEmpty()); diff != "" {
			t.Error(diff)
		}
		if diff := cmp.Diff(up, d.evening.Up()); diff != "" {
			t.Errorf("somebody else is up tonight: %s", diff)
		}
		d.press("<right><left>").says("  BAAA")
	})
	t.Run("only corrections are taken back", func(t *testing.T) {
		d := lastWeek(t, "=7=2x").press("<esc>g")
		d.press("<bs>").says("only corrections made since the evening was closed are taken back")
		d.press("b<enter><bs>").says("taken back")
		d.press("<bs>").says("only corrections")
		if d.strip.evening.Session().Open() {
			t.Error("it is open again")
		}
	})
	t.Run("a frame handed over is taken back too", func(t *testing.T) {
		d := lastWeek(t, "=7=2").press("<esc>g<enter>@bo<enter>")
		d.says(" Bo  25 February 2026", "▶ 1.2")
		d.press("<bs>").says("taken back", " Ada  25 February 2026")
	})
	t.Run("one changed is in the way of going", func(t *testing.T) {
		d := lastWeek(t, "=7=2x").press("<esc>gbe")
		d.says("this delivery is changed")
		d.press("<esc>e").says("No evening is on the board")
	})
	t.Run("the evening just closed, and its corrections before its closing", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("=7=2exyygb<enter><esc>")
		d.press("<bs>").says("taken back: Ada, game 1, frame 1 changed")
		if d.evening != nil {
			t.Fatal("it is open")
		}
		if d.press("<bs>"); d.evening == nil || !d.evening.Session().Open() {
			t.Error("it is not open again")
		}
		same(t, d)
	})
	t.Run("what is not on disk is not read over", func(t *testing.T) {
		d := lastWeek(t, "=7=2x").press("7<enter>Ada<enter><enter>")
		d.slow = true
		d.press("xg<left>").says("not everything is kept yet")
	})
	t.Run("a store that fails says so", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("x")
		d.reader.err = errFull
		d.press("g").says("earlier games cannot be read", "figures go by this evening")
		d.press("<left>").says("the evenings of Ada cannot be read")
		d.press("m").says("this game ─")
	})
}

// TestStripReadsEarlierGames: what hangs on earlier games says so until they are there, and then has them.
func TestStripReadsEarlierGames(t *testing.T) {
	e := midEvening(t)
	d := stripOf(t, e, "ada")
	d.strip.figures.history.read = false
	d.send(sizeMsg(160, 50))
	d.strip.figures.history.read = false
	d.says("over the evening: reading earlier games")
	d.press("mmm").says("reading earlier games")
	d.strip.figures.history.of = historyKey{}
	d.reader.history = map[model.ID]store.History{"ada": {Over: weeksBefore(e, "ada", "before", 1)}}
	d.press("<tab><shift+tab>").says("2 games")
	if got := d.strip.report().Games; got != 2 {
		t.Errorf("%d games", got)
	}
}

// TestStripHoldsToTheFirstEvening: what is bowled tonight, however much, is no part of the first evening, unless it is the
// first itself.
func TestStripHoldsToTheFirstEvening(t *testing.T) {
	d := stripGolden(t, "cyd")
	first := d.reader.history["cyd"].First
	if got := d.strip.figures.reports[pageStrip].in.First; !slices.Equal(got, first) {
		t.Errorf("%d sheets of the first evening, want %d", len(got), len(first))
	}
	d.reader.history["cyd"] = store.History{}
	d.strip.figures.history.of = historyKey{}
	d.press("<tab><shift+tab>")
	for _, g := range d.strip.figures.reports[pageStrip].in.First {
		if g.Game.Session != d.evening.Session().ID {
			t.Errorf("%s is in the first evening", g.Game.ID)
		}
	}
	if len(d.strip.figures.reports[pageStrip].in.First) == 0 {
		t.Error("tonight is the first evening, but is not there")
	}
}

// stripOf turns an app to the strip of a student of an evening.
func stripOf(t *testing.T, e eveningTest, id model.ID) *appTest {
	t.Helper()
	d := startApp(t, &fakeReader{}).press("<esc>")
	d.turnTo(e.Evening)
	d.screen = d.board
	e.must(e.PutUp(id))
	return d.press("g")
}

// secrets are what a student's view never shows: levels, tones, limits and the names of others.
var secrets = []string{"new", "developing", "regular", "advanced", "elite", "gentle", "plain", "blunt", "Winter", "Okafor", "Lind", "Tanaka", "Bo ", "knee"}

func TestStudentView(t *testing.T) {
	for _, c := range []struct {
		id     model.ID
		gentle bool
	}{{"ada", true}, {"dov", true}, {"finn", true}, {"cyd", false}, {"eve", false}} {
		t.Run(string(c.id), func(t *testing.T) {
			e := midEvening(t)
			d := stripOf(t, e, c.id).press("v")
			for _, size := range sizes {
				d.send(sizeMsg(size.w, size.h))
				for _, secret := range secrets {
					if name := e.Student(c.id).Name; !strings.Contains(name, strings.TrimSpace(secret)) {
						d.silent(secret)
					}
				}
				d.silent("last:")
				d.silent("%")
				for _, word := range strings.FieldsFunc(d.show(), func(r rune) bool { return !strings.ContainsRune(lettersAndSigns, r) }) {
					if c.gentle && (strings.Trim(word, "+-'") == "D" || strings.Trim(word, "+-'") == "F" || word == "AAAA") {
						t.Errorf("%s is on the screen:\n%s", word, d.show())
					}
				}
			}
			if !c.gentle {
				d.says("● A-")
			}
		})
	}
	t.Run("no other key acts, and that is said", func(t *testing.T) {
		d := stripOf(t, midEvening(t), "cyd").press("v")
		picture := func() string { return strings.Join(strings.Split(d.show(), "\n")[:22], "\n") }
		steps, screen := len(d.recorder.steps), picture()
		for _, key := range []string{"b", "x", "7", "e", "g", "?", "<f1>", "m", "k", "n", "w", "j", "<tab>", "@", "<bs>", "U", "<enter>", "D", "O"} {
			if d.press(key).says("does nothing here: v goes back to the coach's view"); picture() != screen {
				t.Errorf("%s changes the screen:\n%s", key, d.show())
			}
		}
		if len(d.recorder.steps) != steps {
			t.Error("something is kept")
		}
		d.press("v").says("Cyd Okafor")
		d.press("v<esc>").says("Cyd Okafor")
	})
	t.Run("arrows go from dot to dot and from game to game", func(t *testing.T) {
		e := wholeEvening(t)
		d := stripOf(t, e, "cyd").press("v<left>")
		d.says("game 2", "▶10")
		d.press("<up><up><up>").says("▶9")
		d.press("<left>").says("game 1")
		d.press("<right><right>").says("game 3")
	})
	t.Run("grades and causes are there in the smallest window", func(t *testing.T) {
		d := stripOf(t, wholeEvening(t), "cyd").press("v<left>")
		d.send(sizeMsg(minWidth, minHeight))
		d.says("r B+")
		d.says("release cost 1.5 of 2")
	})
	t.Run("what does not fit is a page further", func(t *testing.T) {
		e := wholeEvening(t)
		e.must(e.SetFocus("cyd", strings.Repeat("a long sentence ", 20)))
		d := stripOf(t, e, "cyd").press("<left>v")
		d.send(sizeMsg(minWidth, minHeight))
		d.says("lines more below: pgdn")
		d.silent("release cost")
		d.press("<pgdown>").says("release cost 1.5 of 2")
		d.silent("more below")
		d.press("<pgup>").says("Cyd  game 2")
	})
	t.Run("too little seen is no matter for the student", func(t *testing.T) {
		d := onBoard(t, "Eve 214").press("xxgv")
		d.says("  keep going")
		d.silent("Too few")
		d.silent("to try")
	})
	t.Run("it can be left from", func(t *testing.T) {
		d := stripOf(t, midEvening(t), "cyd").press("vq")
		d.says("leave?")
		if d.press("q"); !d.quit {
			t.Error("there is no way out")
		}
	})
}

const lettersAndSigns = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz+-'"
