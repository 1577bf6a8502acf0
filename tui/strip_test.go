package tui

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"coach.settee/model"
)

// TestStripCorrects is the table of corrections on the strip: what Ada and Bo bowled, what is pressed on the strip, and the
// deliveries that come of it.
func TestStripCorrects(t *testing.T) {
	for _, c := range []struct {
		name, bowled, keys string
		want               []string
	}{
		{"a letter of the last one", "x", "gb<enter>", []string{"Ada 1.1 10 BAAA"}},
		{"raised again", "bbx", "gB<enter>", []string{"Ada 1.1 10 BAAA"}},
		{"esc leaves it as it was", "x", "gbb<esc>", []string{"Ada 1.1 10 AAAA"}},
		{"enter opens, enter keeps", "x", "g<enter>f<enter>", []string{"Ada 1.1 10 AAAB"}},
		{"an earlier one, further up", "=7=2", "g<up>t<enter>", []string{"Ada 1.1 7 ABAA", "Ada 1.2 2 AAAA"}},
		{"the pins of it", "70<enter>x", "g<up>0<enter>", []string{"Ada 1.1 9 left 7 AAAA", "Ada 1.2 1 AAAA"}},
		{"a strike at one key", "-<enter>", "gx", []string{"Ada 1.1 10 AAAA"}},
		{"a count", "=7", "g=5", []string{"Ada 1.1 5 AAAA"}},
		{"another key drops the count", "=7", "g=r<enter>", []string{"Ada 1.1 7 AABA"}},
		{"a foul", "x", "g!<enter>", []string{"Ada 1.1 foul left 1-2-3-4-5-6-7-8-9-10 AAAA"}},
		{"unseen", "bx", "gz<enter>", []string{"Ada 1.1 10 unseen"}},
		{"seen after all", "zx", "gr<enter>", []string{"Ada 1.1 10 AABA"}},
		{"side and hit", "x", "giihh<enter>", []string{"Ada 1.1 10 ABAA in 2 nose"}},
		{"own call, cue and note", "x", "gOB+<enter><enter>Cslow<enter><enter>Nlate<enter><enter>", []string{"Ada 1.1 10 AAAA B+ slow late"}},
		{"another student's", "xx@ada<enter>", "g<tab>f<enter>", []string{"Ada 1.1 10 AAAA", "Bo 1.1 10 AAAB"}},
		{"a student by name", "xx@ada<enter>", "g@bo<enter>f<enter>", []string{"Ada 1.1 10 AAAA", "Bo 1.1 10 AAAB"}},
		{"handed to another", "x", "g<enter>@bo<enter>", []string{"Bo 1.1 10 AAAA"}},
		{"taken back", "x", "gb<enter><bs>", []string{"Ada 1.1 10 AAAA"}},
		{"taken back and done again", "x", "gb<enter><bs>U", []string{"Ada 1.1 10 BAAA"}},
		{"of what is open on the board", "=7=2,,", "gb<enter>", []string{"Ada 1.1 7 BAAA", "Ada 1.2 2 AAAA"}},
		{"then the board goes on", "x@ada<enter>", "gb<enter><esc>rx", []string{"Ada 1.1 10 BAAA", "Ada 2.1 10 AABA"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := onBoard(t, "Ada 120", "Bo 172").press(c.bowled + "@ada<enter>")
			if strings.HasSuffix(c.bowled, ",") {
				d = onBoard(t, "Ada 120", "Bo 172").press(c.bowled)
			}
			d.press(c.keys)
			if diff := cmp.Diff(c.want, d.spoken()); diff != "" {
				t.Errorf("%s (-want +got):\n%s\n%s", c.keys, diff, d.show())
			}
			same(t, d)
		})
	}
}

// TestStripRefuses: what cannot be done is said, nothing is kept of it.
func TestStripRefuses(t *testing.T) {
	for _, c := range []struct{ name, bowled, keys, words string }{
		{"a change that makes a later ball impossible", "=7=2", "g<up>=9",
			"later ball impossible (frame 1, ball 2: 2 pins"},
		{"walking from a changed one", "x", "gb<up>", "this delivery is changed"},
		{"another game from a changed one", "x", "gb<left>", "this delivery is changed"},
		{"another student from a changed one", "x", "gb<tab>", "this delivery is changed"},
		{"figures from a changed one", "x", "gbm", "this delivery is changed"},
		{"taking back with a change", "x", "gb<bs>", "this delivery is changed"},
		{"a dead ball", "D", "gb", "dead ball"},
		{"nothing bowled", "", "gb", "nothing is bowled here"},
		{"a key on a page of figures", "x", "gmb", "esc shows the strip again"},
		{"the board's keys", "x", "gD", "the board's"},
		{"the board's reopening", "x", "g,", "the board's"},
		{"raising A", "x", "gB", "A already"},
		{"a number of games", "x", "gn0<enter>", "from 1 to 200"},
		{"too many games", "x", "gn201<enter>", "from 1 to 200"},
		{"nobody of that name", "x", "g@zed<enter>", "nobody that is kept is called"},
		{"nothing to redo", "x", "gU", "nothing to do again"},
		{"a key without meaning", "x", "gX", "no meaning here"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := onBoard(t, "Ada 120", "Bo 172").press(c.bowled)
			if c.bowled != "" {
				d.press("@ada<enter>")
			}
			steps := len(d.recorder.steps)
			d.press(c.keys).says(c.words)
			if n := len(d.recorder.steps); n != steps {
				t.Errorf("%d steps are kept", n-steps)
			}
			same(t, d)
		})
	}
	t.Run("a delivery opened in vain is not left open", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("xgB")
		if _, open := d.evening.Editing(); open {
			t.Error("it is open")
		}
	})
}

// TestStripSays: where one is and what came of a key is said.
func TestStripSays(t *testing.T) {
	for _, c := range []struct{ name, keys, words string }{
		{"what is open and how to go on", "gb", "frame 1, ball 2 is open"},
		{"what is kept, and the score", "g<up>-<enter>", "frame 1, ball 1 was 7, is -; score 2, was 9"},
		{"nothing changed", "g<enter><enter>", "nothing was changed"},
		{"left as it was", "gb<esc>", "left as it was"},
		{"the first delivery", "g<up><up>", "the first delivery of game 1"},
		{"no earlier evening", "g<left>", "nothing earlier is kept of Ada"},
		{"no later evening", "g<right>", "nothing later is kept of Ada"},
		{"what was taken back", "gb<enter><bs>", "taken back: Ada, game 1, frame 1 changed"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := onBoard(t, "Ada 120", "Bo 172").press("=7=2@ada<enter>" + c.keys)
			d.says(c.words)
			if d.status.refused {
				t.Error("it is said as a refusal")
			}
		})
	}
}

func TestStripTurns(t *testing.T) {
	t.Run("to the student marked on the evening's screen", func(t *testing.T) {
		onBoard(t, "Ada 120", "Bo 172").press("xxe<down>g").says("▶ 1.1", " Bo  game 1")
	})
	t.Run("esc goes back to the board, from figures to the strip first", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("xgmk<down><esc>")
		d.says("this game ─")
		d.silent("with its numbers")
		if d.press("<esc>"); d.screen != screen(d.strip) || d.strip.page != pageStrip || d.strip.numbers {
			t.Error("the strip is not there")
		}
		if d.press("<esc>"); d.screen != screen(d.board) {
			t.Error("the board is not there")
		}
	})
	t.Run("games, drills and warm-ups in order", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("Gw<enter>xG3 corner 10<enter>xxxGg<enter>xg")
		for _, title := range []string{"drill corner", "warm-up"} {
			d.press("<left>").says(title)
		}
		d.press("<right><right>").says("game 1 of 1")
	})
	t.Run("figures round", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("xg")
		for _, words := range []string{"this game ─", "the evening ─", "the last 10 games ─", "▶ 1.1"} {
			d.press("m").says(words)
		}
		d.press("n3<enter>").says("the last 3 games")
		d.press("k").says("every figure with its numbers", "wilson 95%", "k short", "esc back")
		d.press("k").says("the last 3 games ─", "k numbers")
		d.silent("with its numbers")
		d.press("<esc>k").says("this game, every figure")
		d.press("k").says("▶ 1.1")
	})
	t.Run("a click selects", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("=7=2g")
		for y, line := range strings.Split(d.show(), "\n") {
			if strings.Contains(line, " 1.1 7") {
				d.send(clickAt(4, y))
			}
		}
		d.says("▶ 1.1")
	})
	t.Run("what to work on", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("xgwslow feet<enter>")
		d.says("the coach: slow feet")
		same(t, d)
		d.press("w<enter>").silent("the coach")
		same(t, d)
	})
	t.Run("a pasted text corrects nothing", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("xg")
		d.burst("just some words, pasted")
		d.says("a paste changes nothing")
	})
}

// TestStripFollowsTheEvening: what is selected stays selected while the evening changes under it.
func TestStripFollowsTheEvening(t *testing.T) {
	d := onBoard(t, "Ada 120", "Bo 172").press("=7=2@ada<enter>g<bs>")
	d.says("▶ 1.1")
	d.press("<bs>").says("nothing is bowled yet: left the evening before")
	d.press("UU").says("▶ 1.2")
	d.press("<bs><bs><bs><bs><bs><bs><bs>").says("start of the evening")
}

// TestStripFigures: the figures follow a correction at once.
func TestStripFigures(t *testing.T) {
	d := onBoard(t, "Ada 120").press("xxxg")
	d.says("3 of 3 good", "longest run 3")
	d.press("<up>bb<enter>").says("2 of 3 good", "longest run 1", "what cost the other 1")
	d.press("<bs>").says("3 of 3 good")
	report := d.strip.report()
	before := d.strip.figures.reports[pageStrip]
	d.press("<up><down>")
	if !before.in.Same(d.strip.figures.reports[pageStrip].in) || report.Counts.Good.N != 3 {
		t.Error("walking changes what the figures are over")
	}
}

// weeksBefore gives an evening's sheets of a student as a store would have them, in an evening some weeks before.
func weeksBefore(e eveningTest, id, session model.ID, weeks int) []model.DatedSheet {
	var out []model.DatedSheet
	for _, x := range e.Sheets(id) {
		g := x.Game
		g.Session, g.ID = session, session+"-"+g.ID
		sheet, err := model.NewSheet(g, x.Deliveries)
		e.done(err)
		out = append(out, model.DatedSheet{Sheet: sheet, At: testTime.AddDate(0, 0, -7*weeks)})
	}
	return out
}
