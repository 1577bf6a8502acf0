package tui

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"coach.settee/model"
)

// TestKeysToDeliveries is the table of keys: what is pressed with Ada (new, 120 gives developing) and Bo up in turn, and
// the deliveries that come of it.
func TestKeysToDeliveries(t *testing.T) {
	for _, c := range []struct {
		name, keys string
		want       []string
	}{
		{"a strike", "x", []string{"Ada 1.1 10 AAAA"}},
		{"letters lowered and raised", "bbtrfFx", []string{"Ada 1.1 10 CBBA"}},
		{"raising below A", "bbBx", []string{"Ada 1.1 10 BAAA"}},
		{"pins left, then the spare", "b70<enter>x", []string{"Ada 1.1 8 left 7-10 BAAA", "Ada 1.2 2 AAAA"}},
		{"a pin named twice is not named", "770<enter>", []string{"Ada 1.1 9 left 10 AAAA"}},
		{"the spare sign", "0<enter>/", []string{"Ada 1.1 9 left 10 AAAA", "Ada 1.2 1 AAAA"}},
		{"no pin, then the spare sign on ten", "-<enter>/", []string{"Ada 1.1 0 left 1-2-3-4-5-6-7-8-9-10 AAAA", "Ada 1.2 10 AAAA"}},
		{"a count without names", "=7=2", []string{"Ada 1.1 7 AAAA", "Ada 1.2 2 AAAA"}},
		{"after a count any pins are named", "=747<enter>", []string{"Ada 1.1 7 AAAA", "Ada 1.2 1 left 4-7 AAAA"}},
		{"any key drops the count", "=x", []string{"Ada 1.1 10 AAAA"}},
		{"any key drops the count, then digits are pins", "=b7<enter>", []string{"Ada 1.1 9 left 7 BAAA"}},
		{"a foul fells nothing", "!x", []string{"Ada 1.1 foul left 1-2-3-4-5-6-7-8-9-10 AAAA"}},
		{"a foul taken off", "!!x", []string{"Ada 1.1 10 AAAA"}},
		{"unseen", "zx", []string{"Ada 1.1 10 unseen"}},
		{"a letter key makes it seen", "zbx", []string{"Ada 1.1 10 BAAA"}},
		{"target inside", "ix", []string{"Ada 1.1 10 ABAA in 1"}},
		{"target outside, four boards of a tolerance of three", "oooox", []string{"Ada 1.1 10 ACAA out 4"}},
		{"the pocket", "px", []string{"Ada 1.1 10 AAAA pocket"}},
		{"high, nose, Brooklyn", "hhhx", []string{"Ada 1.1 10 AAAA brooklyn"}},
		{"light, missed", "llx", []string{"Ada 1.1 10 AAAA missed"}},
		{"the rotation", "xx", []string{"Ada 1.1 10 AAAA", "Bo 1.1 10 AAAA"}},
		{"a call begun stays with its student", "bb<tab>xx", []string{"Bo 1.1 10 AAAA", "Ada 1.1 10 CAAA"}},
		{"esc clears a call begun", "bb7<esc>x", []string{"Ada 1.1 10 AAAA"}},
		{"a dead ball is thrown again", "Dx", []string{"Ada 1.1 dead", "Ada 1.1 10 AAAA"}},
		{"taken back as before the recording key", "bx<bs>fx", []string{"Ada 1.1 10 BAAB"}},
		{"taken back and done again", "bxx<bs><bs>UU", []string{"Ada 1.1 10 BAAA", "Bo 1.1 10 AAAA"}},
		{"reopened and changed", "xx,bb<enter>", []string{"Ada 1.1 10 AAAA", "Bo 1.1 10 CAAA"}},
		{"reopened and left", "xx,bb<esc>x", []string{"Ada 1.1 10 AAAA", "Bo 1.1 10 AAAA", "Ada 2.1 10 AAAA"}},
		{"a wrong leave with what followed it", "7<enter>-<enter>,,0<enter>",
			[]string{"Ada 1.1 8 left 7-10 AAAA", "Ada 1.2 0 left 7-10 AAAA"}},
		{"reopened, the pins", "70<enter>,0<enter>", []string{"Ada 1.1 9 left 7 AAAA"}},
		{"further back by the arrows, and forth", "=7=2,<left>b<enter>,<up><down>f<enter>",
			[]string{"Ada 1.1 7 BAAA", "Ada 1.2 2 AAAB"}},
		{"handed to another", "x,@bo<enter>", []string{"Bo 1.1 10 AAAA"}},
		{"own call after the pins", "x,Ob+<enter><enter>", []string{"Ada 1.1 10 AAAA B+"}},
		{"own call before", "OA-<enter>x", []string{"Ada 1.1 10 AAAA A-"}},
		{"a cue from then on", "x<shift+tab>Cslow feet<enter>x", []string{"Ada 1.1 10 AAAA", "Ada 2.1 10 AAAA slow feet"}},
		{"a note", "Nlate<enter>x", []string{"Ada 1.1 10 AAAA late"}},
		{"catching up", "Z9/ 43 X<enter>", []string{"Ada 1.1 9 unseen", "Ada 1.2 1 unseen", "Ada 2.1 4 unseen", "Ada 2.2 3 unseen", "Ada 3.1 10 unseen"}},
		{"by name", "@bo<enter>x", []string{"Bo 1.1 10 AAAA"}},
		{"out of the rotation", "Vxx", []string{"Bo 1.1 10 AAAA", "Bo 2.1 10 AAAA"}},
		{"a warm-up ball without pins", "Gw<enter><enter>", []string{"Ada 0.0 ? AAAA"}},
		{"a drill at the 10 pin", "G10 corner 10<enter>x", []string{"Ada 0.0 1 AAAA"}},
		{"an unfinished game is stopped for a reason", "x@ada<enter>Gg<enter>tired<enter>x", []string{"Ada 1.1 10 AAAA", "Ada 1.1 10 AAAA"}},
		{"a board key from the menu", "<esc>x", []string{"Ada 1.1 10 AAAA"}},
		{"a board key from the help", "?bx", []string{"Ada 1.1 10 BAAA"}},
		{"esc leaves the help", "?<esc>bx", []string{"Ada 1.1 10 BAAA"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := onBoard(t, "Ada 120", "Bo 172").press(c.keys)
			if diff := cmp.Diff(c.want, d.spoken()); diff != "" {
				t.Errorf("%s (-want +got):\n%s\n%s", c.keys, diff, d.show())
			}
			same(t, d)
		})
	}
}

// same tells that the steps handed over make the records that the evening has.
func same(t tester, d *appTest) {
	t.Helper()
	if diff := cmp.Diff(eveningRecords(d.evening), tidy(d.recorder.records, d.evening), cmpopts.EquateEmpty()); diff != "" {
		t.Errorf("the steps do not make the evening's records (-evening +steps):\n%s", diff)
	}
}

func TestJoinedKeys(t *testing.T) {
	t.Run("keys joined in one message are all keys", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172")
		d.send(keyMsg("bbx"))
		d.burst("rfx70\r")
		want := []string{"Ada 1.1 10 CAAA", "Bo 1.1 10 AABB", "Ada 2.1 8 left 7-10 AAAA"}
		if diff := cmp.Diff(want, d.spoken()); diff != "" {
			t.Error(diff)
		}
	})
	t.Run("alt and a key is esc, then the key", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("bb")
		msg := keyMsg("x")
		msg.Alt = true
		d.send(msg)
		if diff := cmp.Diff([]string{"Ada 1.1 10 AAAA"}, d.spoken()); diff != "" {
			t.Error(diff)
		}
	})
	t.Run("a prompt with its line in one read", func(t *testing.T) {
		d := onBoard(t, "Ada 120")
		d.burst("Cslow feet\rx")
		if diff := cmp.Diff([]string{"Ada 1.1 10 AAAA slow feet"}, d.spoken()); diff != "" {
			t.Error(diff)
		}
	})
	t.Run("a prompt whose line is cut by a read", func(t *testing.T) {
		d := onBoard(t, "Ada 120")
		d.burst("xCslow f")
		d.burst("eet\rx")
		if diff := cmp.Diff([]string{"Ada 1.1 10 AAAA", "Ada 2.1 10 AAAA slow feet"}, d.spoken()); diff != "" {
			t.Error(diff)
		}
	})
	t.Run("blanks at a piece's ends stay", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("C")
		d.burst("slow")
		d.burst(" feet ")
		d.burst("now ")
		d.press("<enter>x")
		if diff := cmp.Diff([]string{"Ada 1.1 10 AAAA slow feet now"}, d.spoken()); diff != "" {
			t.Error(diff)
		}
	})
	t.Run("a ball, a plan and a reason in one read", func(t *testing.T) {
		d := onBoard(t, "Ada 120")
		d.burst("xGw\rtired arm\r\r")
		if diff := cmp.Diff([]string{"Ada 1.1 10 AAAA", "Ada 0.0 ? AAAA"}, d.spoken()); diff != "" {
			t.Error(diff)
		}
	})
	t.Run("a plan and a reason in one read", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("x")
		d.burst("Gw\rtired arm\r\r")
		if diff := cmp.Diff([]string{"Ada 1.1 10 AAAA", "Ada 0.0 ? AAAA"}, d.spoken()); diff != "" {
			t.Error(diff)
		}
	})
}

func TestPastes(t *testing.T) {
	page := "x 1 x\nSome lines of text, 12345.\nAnother, and another!\n"
	for name, hand := range map[string]func(d *appTest){
		"with brackets":                 func(d *appTest) { d.send(pasteMsg(page)) },
		"of one key, with brackets":     func(d *appTest) { d.send(pasteMsg("x")) },
		"without brackets":              func(d *appTest) { d.burst(page) },
		"without brackets, one message": func(d *appTest) { d.send(keyMsg("xx: x")) },
		"that begins like a prompt":     func(d *appTest) { d.burst("Come here now, all of you: " + page) },
	} {
		t.Run(name+" changes nothing and says so", func(t *testing.T) {
			d := onBoard(t, "Ada 120").press("b")
			steps := len(d.recorder.steps)
			hand(d)
			d.says("a paste changes nothing")
			if len(d.recorder.steps) != steps || d.prompt != nil || d.evening.Call().Letters.String() != "BAAA" {
				t.Errorf("the paste was taken:\n%s", d.show())
			}
		})
	}
	t.Run("in a prompt it goes in as one line", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("C")
		d.send(pasteMsg("slow\nfeet\x1b[31m\t now\r\n"))
		d.press("<enter>x")
		if diff := cmp.Diff([]string{"Ada 1.1 10 AAAA slow feet[31m  now"}, d.spoken()); diff != "" {
			t.Error(diff)
		}
	})
	t.Run("a line that is full says so and keeps what fits", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("N")
		d.send(pasteMsg(strings.Repeat("a", model.MaxText-1) + "bc"))
		d.says("the line is full: it takes up to 2000 characters")
		d.press("<left>").silent("the line is full")
		if d.press("d").says("the line is full"); !strings.HasSuffix(d.prompt.input.Value(), "ab") {
			t.Error("the end of the line is another")
		}
		d.press("<end><bs>d<enter>x")
		if got := d.spoken(); len(got) != 1 || !strings.HasSuffix(got[0], "aad") {
			t.Error("the line is not kept")
		}
	})
	t.Run("a burst in a prompt is text", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("N")
		d.burst("k k k k")
		d.press("<enter>x")
		if diff := cmp.Diff([]string{"Ada 1.1 10 AAAA k k k k"}, d.spoken()); diff != "" {
			t.Error(diff)
		}
	})
}

// TestRefusals: a key that cannot work says why, and nothing is recorded.
func TestRefusals(t *testing.T) {
	for _, c := range []struct{ name, keys, words string }{
		{"nothing named", "<enter>", "x all down, - none, or name the pins"},
		{"a spare sign on a full rack", "/", "on a full rack x is a strike"},
		{"more than stands by count", "=9=1", "= takes fewer than that"},
		{"a pin that was not standing", "0<enter>7", "pin 7 was not standing"},
		{"raising A", "B", "A already"},
		{"lowering F", "bbbbb", "F already"},
		{"nothing to redo", "U", "nothing to do again"},
		{"nothing to reopen", ",", "nothing is recorded yet"},
		{"nothing open to step in", "<left>", "no delivery is open"},
		{"the first delivery", "x,,", "first delivery"},
		{"stepping with a change", "=7=2,b,", "this delivery is changed"},
		{"putting up with a change", "x,b<tab>", "this delivery is changed"},
		{"a change that makes a later ball impossible", "=7=2,,=9", "later ball impossible"},
		{"taking back with a change", "x,b<bs>", "this delivery is changed"},
		{"no other pair", " ", "no other pair has students"},
		{"the same pair", "P8<enter>", "on 7/8 already"},
		{"no lane", "Pten<enter>", "is no lane"},
		{"a lane that is none", "P500<enter>", "lanes are 1 to"},
		{"a lane of no pair of tonight", "P11<enter>", "none of tonight's"},
		{"nobody of that name", "@zed<enter>", "nobody here is called"},
		{"no name", "@<enter>", "a few letters"},
		{"no grade", "OH<enter>", "is no shot grade"},
		{"no board", "L99<enter>", "boards are 1 to 39"},
		{"an empty line", "L<enter>", "nothing typed"},
		{"no notation", "Z9x<enter>", "no strike"},
		{"nothing to catch up", "Z<enter>", "nothing typed"},
		{"catching up with a call begun", "bZ", "a call is begun for Ada"},
		{"catching up with a delivery open", "x,Z", "a delivery is open"},
		{"another game with a call begun", "bG", "a call is begun for Ada"},
		{"no plan", "Gq<enter>", "g is a game, w a warm-up"},
		{"no reason", "x@ada<enter>Gg<enter><enter>", "say why it is stopped"},
		{"a student who is here", "AAda<enter>", "Ada is here already; enter again"},
		{"a student without a name", "A120<enter>", "a name comes first"},
		{"a dead ball with a delivery open", "x,D", "before the next one"},
		{"out with a delivery open", "x,V", "a delivery is open"},
		{"who is out does not bowl", "V@ada<enter>x", "is out: V brings back"},
		{"a key without meaning", "k", "k has no meaning here"},
		{"a letter of another script", "ж", "ж has no meaning here"},
		{"handing to the same", "x,@ada<enter>", "already"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := onBoard(t, "Ada 120", "Bo 172")
			keys := keysOf(c.keys)
			before := 0
			for _, k := range keys {
				before = len(d.recorder.steps)
				d.send(k)
				d.idle()
			}
			d.says(c.words)
			if !d.status.refused {
				t.Error("it is not said as a refusal")
			}
			if n := len(d.recorder.steps); n != before {
				t.Errorf("the refused key has %d steps kept", n-before)
			}
			same(t, d)
		})
	}
	t.Run("a prompt refused keeps its text", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("OQ7<enter>")
		if d.prompt == nil || d.prompt.input.Value() != "Q7" {
			t.Fatalf("the line is gone:\n%s", d.show())
		}
		d.press("<bs><bs>B+<enter>x")
		if diff := cmp.Diff([]string{"Ada 1.1 10 AAAA B+"}, d.spoken()); diff != "" {
			t.Error(diff)
		}
	})
	t.Run("at the start of the evening", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("x<bs><bs><bs>")
		d.says("this is the start of the evening")
	})
}

// TestDoneIsSaid: what a key did is said, and not as a refusal.
func TestDoneIsSaid(t *testing.T) {
	for _, c := range []struct{ name, keys, words string }{
		{"an unchanged delivery", "x,<enter>", "nothing was changed"},
		{"esc with a delivery open says so", "x,b<esc>", "left as it was"},
		{"esc with a call begun says so", "b<esc>", "the call begun for Ada is cleared"},
		{"what is taken back is said", "bx<bs>", "taken back: Ada frame 1: strike"},
		{"what is done again is said", "bx<bs>U", "done again: Ada frame 1: strike"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := onBoard(t, "Ada 120", "Bo 172").press(c.keys)
			d.says(c.words)
			if d.status.refused {
				t.Error("it is said as a refusal")
			}
			same(t, d)
		})
	}
}

func TestWordsWithoutHarm(t *testing.T) {
	t.Run("keys of no use", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("b<nul><f5><pgup>")
		if d.evening.Call().Letters.String() != "BAAA" {
			t.Error(d.show())
		}
	})
	t.Run("the next game begins by itself and is said", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press(strings.Repeat("x", 12))
		d.says("game 1 of Ada is over, 300: the next call begins the next game")
		d.press("x").says("Ada has begun game 2")
	})
	t.Run("missed balls that end a game or begin one are said too", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press(strings.Repeat("x", 9))
		d.press("ZXXX<enter>").says("game 1 of Ada is over, 300: the next call begins the next game")
		d.press("ZX<enter>").says("Ada has begun game 2")
		d.press("ZX<enter>").silent("has begun")
	})
	t.Run("the mouse puts up", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172", "Cy 90", "Di 190")
		for y, line := range strings.Split(d.show(), "\n") {
			if strings.Contains(line, "Cy") {
				d.send(clickAt(4, y))
				d.idle()
				break
			}
		}
		if up := d.evening.Label(d.evening.UpStudent()); up != "Cy" {
			t.Errorf("%s is up\n%s", up, d.show())
		}
	})
	t.Run("everyone of a pair moves", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172").press("Pall 11<enter>").says("lane 11 is none of tonight's").press("<enter>")
		for _, seat := range d.evening.Seats() {
			if seat.Pair() != (model.Pair{11, 12}) {
				t.Errorf("%s is on %s", seat.Student, seat.Pair())
			}
		}
	})
	t.Run("a line typed is kept with the delivery", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("L17 34 8@43 16.5 +1.5<enter>x")
		got := d.evening.Sheets(d.evening.UpStudent())[0].Deliveries[0]
		want := model.Line{Arrows: model.Known(17.), Slide: model.Known(34.), Breakpoint: model.Known(8.), BreakpointFt: model.Known(43.)}
		if got.Line != want || got.SpeedMPH != model.Known(16.5) || got.HitBoards != model.Known(1.5) {
			t.Errorf("%+v", got)
		}
	})
}
