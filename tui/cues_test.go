package tui

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"coach.settee/model"
)

// bookWords writes down the book that the steps handed over make.
func bookWords(d *appTest) []string {
	var out []string
	for _, r := range d.recorder.records {
		if c, ok := r.(model.Cue); ok {
			out = append(out, cueWords(c))
		}
	}
	slices.Sort(out)
	return out
}

// rowWords writes down the rows of the screen, with the one marked.
func rowWords(d *appTest) []string {
	var out []string
	for i, r := range d.cues.rows {
		words := r.heading() + ": " + r.Text
		if i == d.cues.at {
			words = "▶ " + words
		}
		out = append(out, words)
	}
	return out
}

func TestBookOfCues(t *testing.T) {
	const two = "car soft hand<enter>ab tall<enter>"
	for _, c := range []struct {
		name, keys string
		want       []string
		says       string
	}{
		{"a cue is added by axis", "car soft hand<enter>", []string{"soft hand (release)"}, "cue added: soft hand (release)"},
		{"the axis by its name", "caFinish  hold  it <enter>", []string{"hold it (finish)"}, "cue added"},
		{"the axis as a capital", "caT eyes<enter>", []string{"eyes (target)"}, "cue added"},
		{"the words are changed", two + "<enter><bs><bs>ller<enter>", []string{"soft hand (release)", "taller (balance)"},
			"cue changed: taller (balance), was tall (balance)"},
		{"the axis is changed", two + "<enter><home><del>f<enter>", []string{"soft hand (release)", "tall (finish)"}, "tall (finish)"},
		{"nothing is changed", two + "<enter><enter>", []string{"soft hand (release)", "tall (balance)"}, "the cue is as it was"},
		{"a cue is taken out", two + "D", []string{"soft hand (release)"}, "cue taken out: tall (balance)"},
		{"and comes back", two + "D<bs>", []string{"soft hand (release)", "tall (balance)"}, "taken back: cue taken out"},
		{"everything is taken back", two + "D<bs><bs><bs>", nil, "taken back: cue added: soft hand"},
		{"and done again", two + "D<bs><bs>UU", []string{"soft hand (release)"}, "done again: cue taken out"},
		{"the book is emptied", two + "Ey", nil, "book of cues emptied"},
		{"emptied as one change", two + "Ey<bs>", []string{"soft hand (release)", "tall (balance)"}, "taken back: book of cues emptied"},
		{"not emptied by another key", two + "E<down>", []string{"soft hand (release)", "tall (balance)"}, "2 cues"},
		{"a prompt is dropped", "car soft<esc>", nil, "dropped"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := onBoard(t, "Ada 120").press(c.keys)
			if diff := cmp.Diff(c.want, bookWords(d)); diff != "" {
				t.Error(diff)
			}
			d.says(c.says)
			if d.status.refused {
				t.Error("it is said as a refusal")
			}
			if len(d.cues.book) != len(c.want) {
				t.Errorf("the screen has %d cues", len(d.cues.book))
			}
			same(t, withoutBook(d))
		})
	}
}

// withoutBook leaves the records of the evening.
func withoutBook(d *appTest) *appTest {
	for ref := range d.recorder.records {
		if ref.Kind == model.CueRecord {
			delete(d.recorder.records, ref)
		}
	}
	return d
}

func TestBookRefuses(t *testing.T) {
	for _, c := range []struct{ name, keys, words string }{
		{"nothing typed", "ca<enter>", "nothing typed: r soft hand"},
		{"no axis", "casoft hand<enter>", `"soft" is no axis: b balance`},
		{"no words", "car<enter>", "the words of the cue come after the axis"},
		{"a cue that is there", "car soft hand<enter>ar Soft Hand<enter>", "soft hand (release) is in the book already"},
		{"changed to one that is there", "car soft<enter>ar hand<enter><home><enter><ctrl+u>r soft<enter>", "soft (release) is in the book already"},
		{"to change nothing", "c<enter>", "the book is empty: a adds a cue, S puts in the starting set"},
		{"to take out nothing", "cD", "the book is empty"},
		{"to use nothing", "cu", "the book is empty"},
		{"to take in nothing", "ct", "the book is empty"},
		{"to mark nothing", "c<down>", "the book is empty"},
		{"to take in what is there", "car soft<enter>t", "that cue is in the book already"},
		{"to empty an empty book", "cE", "the book is empty already"},
		{"the starting set over others", "car soft<enter>S", "there are cues in the book: E empties it first"},
		{"to take back nothing", "c<bs>", "nothing to take back"},
		{"to do nothing again", "cU", "nothing to do again"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := onBoard(t, "Ada 120").press(c.keys)
			d.says(c.words)
			if !d.status.refused {
				t.Error("it is not said as a refusal")
			}
		})
	}
}

func TestHelpOfCues(t *testing.T) {
	d := onBoard(t, "Ada 120").press("c?")
	d.says("The book of cues", "take a cue that was said into the book")
	d.silent("after =")
	d.press("<esc><esc>?").says("The shot")
}

func TestStartingSet(t *testing.T) {
	d := startApp(t, &fakeReader{}).press("<esc>c")
	d.says("The book is empty.", "a adds a cue", "S puts in a starting set")
	d.press("S").says("starting set put into the book")
	var want []string
	for _, c := range model.StartingCues(func() model.ID { return "x" }) {
		want = append(want, cueWords(c))
	}
	slices.Sort(want)
	if diff := cmp.Diff(want, bookWords(d)); diff != "" || len(want) < model.AxisCount {
		t.Error(diff, len(want))
	}
	if d.cues.at != 0 || !strings.HasPrefix(rowWords(d)[0], "▶ balance: ") {
		t.Error(rowWords(d))
	}
	d.press("<bs>").says("The book is empty.", "taken back: starting set")
	d.press("Uq")
	if !d.quit {
		t.Error("it does not leave")
	}
}

// TestBookIsReadAndHeld: what is kept is there at the start, by axis and then by text, and the mark stays on its cue.
func TestBookIsReadAndHeld(t *testing.T) {
	d := startApp(t, &fakeReader{cues: []model.Cue{
		{ID: "a", Axis: model.Finish, Text: "hold"}, {ID: "b", Axis: model.Balance, Text: "tall"}, {ID: "c", Axis: model.Balance, Text: "slow"},
	}}).press("<esc>c")
	rows := func(want ...string) {
		t.Helper()
		if diff := cmp.Diff(want, rowWords(d)); diff != "" {
			t.Error(diff)
		}
	}
	rows("▶ balance: slow", "balance: tall", "finish: hold")
	d.press("<end>")
	rows("balance: slow", "balance: tall", "▶ finish: hold")
	d.press("ab after<enter>")
	rows("▶ balance: after", "balance: slow", "balance: tall", "finish: hold")
	d.press("<down><down><down><down>D")
	rows("balance: after", "balance: slow", "▶ balance: tall")
	d.press("<up>").press("<bs>")
	rows("balance: after", "▶ balance: slow", "balance: tall", "finish: hold")
	if _, err := New(testConfig(newFakeRecorder(), &brokenBook{})); err == nil || !strings.Contains(err.Error(), "the book of cues cannot be read") {
		t.Error(err)
	}
}

type brokenBook struct{ fakeReader }

func (*brokenBook) Cues() ([]model.Cue, error) { return nil, errors.New("no disk") }

func TestCueIsUsed(t *testing.T) {
	d := onBoard(t, "Ada 120", "Bo 172").press("car soft hand<enter>u")
	d.says("cue for Ada: soft hand")
	d.press("<esc>x<shift+tab>").says("soft hand")
	if diff := cmp.Diff([]string{"Ada 1.1 10 AAAA soft hand"}, d.spoken()); diff != "" {
		t.Error(diff)
	}
	d.press("<bs><bs>").says("taken back: cue for Ada")
	t.Run("of a delivery that is open", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172").press("x,car soft hand<enter>u")
		d.says("cue for Ada, frame 1: soft hand")
		d.press("<esc><enter>")
		if diff := cmp.Diff([]string{"Ada 1.1 10 AAAA soft hand"}, d.spoken()); diff != "" {
			t.Error(diff)
		}
	})
	t.Run("without an evening", func(t *testing.T) {
		startApp(t, &fakeReader{}).press("<esc>car soft<enter>u").says("no evening is open")
	})
	t.Run("with nobody up", func(t *testing.T) {
		startApp(t, &fakeReader{}).press("7<enter><enter>car soft<enter>u").says("nobody is up")
	})
}

// cuedEvening is an evening in which two cues were given to one student.
func cuedEvening(t testing.TB) [][]model.DatedSheet {
	e := newEveningTest(t, 7)
	e.seat("ada", "Ada Marsh", 172, 7)
	e.play("ada", "bbxrrxxbbxrrx")
	e.must(e.SetCue("soft hand"))
	e.play("ada", "xxxbbxx")
	e.must(e.SetCue("quiet shoulder"))
	e.play("ada", "x")
	e.must(e.SetCue("soft hand"))
	e.play("ada", "x")
	return [][]model.DatedSheet{dated(e.Evening, "ada")}
}

func TestHowCuesWent(t *testing.T) {
	reader := &fakeReader{bowled: cuedEvening(t), cues: []model.Cue{
		{ID: "a", Axis: model.Release, Text: "Soft hand"}, {ID: "b", Axis: model.Balance, Text: "tall"},
	}}
	d := startApp(t, reader).press("<esc>c")
	if diff := cmp.Diff([]string{"▶ balance: tall", "release: Soft hand", "said, not in the book: quiet shoulder"}, rowWords(d)); diff != "" {
		t.Error(diff)
	}
	d.says("said, not in the book", "not said in the games of the last 60 evenings")
	d.press("<down>").says("2 times, 1 evening: ")
	// On one evening nothing is told of whether it helped.
	d.silent("likely")
	d.press("<down>").says("once, 1 evening: ", "t take in")
	d.press("D").says("that cue was said but is not in the book: t takes it in")
	d.press("tq<enter>").says(`"q" is no axis`)
	d.press("<bs>f<enter>").says("cue added: quiet shoulder (finish)")
	if diff := cmp.Diff([]string{"balance: tall", "release: Soft hand", "▶ finish: quiet shoulder"}, rowWords(d)); diff != "" {
		t.Error(diff)
	}
	d.press("<bs>").says("said, not in the book", "t take in")
	t.Run("it is read again each time", func(t *testing.T) {
		d := startApp(t, &fakeReader{}).press("<esc>c")
		d.silent("quiet shoulder")
		d.reader.bowled = cuedEvening(t)
		d.press("<esc>c").says("quiet shoulder")
		d.hearEffects(effectsMsg{asked: 1})
		d.says("quiet shoulder")
	})
	t.Run("it cannot be read", func(t *testing.T) {
		d := startApp(t, &fakeReader{cues: reader.cues}).press("<esc>")
		d.reader.err = errors.New("no disk")
		d.press("c").says("how cues went cannot be read, the book is as it was: no disk", "Soft hand")
		d.silent("reading")
	})
}

// fullBook has cues on each axis, some with much behind them.
func fullBook(t testing.TB) *fakeReader {
	var book []model.Cue
	for i, c := range []model.Cue{
		{Axis: model.Release, Text: "soft hand"}, {Axis: model.Balance, Text: "slow first step"},
		{Axis: model.Target, Text: "eyes on the second arrow"}, {Axis: model.Finish, Text: "hold it"},
		{Axis: model.Finish, Text: "tall at the line"}, {Axis: model.Release, Text: "through the ball"},
		{Axis: model.Balance, Text: "a cue so long that no column takes it whole, and the foot has to say what it is to the end of it"},
	} {
		c.ID = model.ID(fmt.Sprint("c", i))
		book = append(book, c)
	}
	var bowled []model.DatedSheet
	for week := range 4 {
		for _, sheets := range cuedEvening(t) {
			for _, s := range sheets {
				s.At = s.At.AddDate(0, 0, 7*week)
				game := *s.Sheet
				game.Game.Session = model.ID(fmt.Sprint("week", week))
				s.Sheet = &game
				bowled = append(bowled, s)
			}
		}
	}
	return &fakeReader{cues: book, bowled: [][]model.DatedSheet{bowled}}
}

func TestCuesScreens(t *testing.T) {
	for name, keys := range map[string]string{"cues": "<end><up>", "cues_empty": "Ey", "cues_said": "<end>"} {
		for _, s := range [][2]int{{60, 16}, {80, 24}, {160, 50}} {
			t.Run(fmt.Sprintf("%s %dx%d", name, s[0], s[1]), func(t *testing.T) {
				d := startApp(t, fullBook(t)).press("7<enter>Ada Marsh 172<enter><enter>c" + keys)
				d.send(sizeMsg(s[0], s[1]))
				golden(t, fmt.Sprintf("%s_%dx%d", name, s[0], s[1]), d.View())
			})
		}
	}
}

func TestCuesAtEverySize(t *testing.T) {
	reader := fullBook(t)
	for i, name := range hostileNames {
		reader.cues = append(reader.cues, model.Cue{ID: model.ID(fmt.Sprint("h", i)), Axis: model.Finish, Text: strings.Repeat(name+" ", 1+i%3*4)})
	}
	d := startApp(t, reader).press("<esc>c")
	for w := 60; w <= 200; w += 1 + w/40 {
		for h := 16; h <= 60; h += 1 + h/20 {
			d.send(sizeMsg(w, h))
			d.press("<home>")
			for range 3 {
				filled(t, d, w, h)
				if row, _ := d.cues.marked(); !strings.Contains(d.show(), "▶ "+cut(clean(row.Text), 4)[:1]) {
					t.Fatalf("the mark is not in view at %dx%d:\n%s", w, h, d.show())
				}
				d.press("<pgdown>")
			}
		}
	}
	d.press("<home><pgup>")
	if d.cues.at != 0 {
		t.Error(d.cues.at)
	}
	d.press("<end><pgdown>")
	if d.cues.at != len(d.cues.rows)-1 {
		t.Error(d.cues.at)
	}
}
