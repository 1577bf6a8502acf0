package tui

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"coach.settee/model"
	"coach.settee/store"
)

// TestReframing is the table of corrections of how many balls a frame has, on the board and on the strip: what Ada bowled,
// what is pressed, what is asked, what is answered, and what comes of it. Balls put in have the last ids.
func TestReframing(t *testing.T) {
	for _, c := range []struct {
		name, bowled, keys, asked, answer, said string
		want                                    []string
	}{
		{"an open frame was a strike", "9<enter>b-<enter>x", "x",
			"frame 1 is then over: its second ball (-, A-, good) goes too: y, any other key does not", "y",
			"frame 1, ball 1 was 9 left 9, is X; 1 ball taken out; score 0, was 9",
			[]string{"Ada 1.1 10 AAAA", "Ada 2.1 10 AAAA"}},
		{"a spare was a strike", "9<enter>/=5=3", "x", "its second ball (/, A, good) goes too", "y", "score 26, was 23",
			[]string{"Ada 1.1 10 AAAA", "Ada 2.1 5 AAAA", "Ada 2.2 3 AAAA"}},
		{"any other key does not", "9<enter>/x", "x", "is then over", "b<esc>", "left as it was",
			[]string{"Ada 1.1 9 left 9 AAAA", "Ada 1.2 1 AAAA", "Ada 2.1 10 AAAA"}},
		{"a strike was a spare", "xx", "9<enter>", "frame 1 needs its second ball: / or -", "/<enter>",
			"frame 1, ball 1 was X, is 9 left 9; 1 ball put in, unseen; score 20, was 0",
			[]string{"Ada 1.1 9 left 9 AAAA", "Ada 2.1 10 AAAA", "Ada 1.2 1 unseen"}},
		{"a strike was an open frame", "xx", "=7", "frame 1 needs its second ball: / - or 1-2", "2<enter>", "was X, is 7",
			[]string{"Ada 1.1 7 AAAA", "Ada 2.1 10 AAAA", "Ada 1.2 2 unseen"}},
		{"a ball that cannot be is asked for again", "xx", "=7", "frame 1 needs its second ball", "5<enter>",
			"frame 1, ball 2: 5 pins cannot fall where 3 stand", []string{"Ada 1.1 10 AAAA", "Ada 2.1 10 AAAA"}},
		{"esc leaves the delivery open", "xx", "9<enter>", "needs its second ball", "<esc>", "dropped",
			[]string{"Ada 1.1 10 AAAA", "Ada 2.1 10 AAAA"}},
		{"the last ball waits for the next", "x", "9<enter>", "", "", "frame 1, ball 1 was X, is 9 left 9",
			[]string{"Ada 1.1 9 left 9 AAAA"}},
	} {
		for _, where := range []string{"strip", "board"} {
			t.Run(where+", "+c.name, func(t *testing.T) {
				d := onBoard(t, "Ada 120").press(c.bowled)
				if where == "strip" {
					d.press("g<home>")
				} else {
					d.press(strings.Repeat(",", len(d.spoken())))
				}
				d.press(c.keys)
				saysAcross(d, c.asked)
				if d.press(c.answer); c.answer == "<esc>" {
					if edit, open := d.inHand().Editing(); !open || edit.Delivery != d.inHand().Sheets(edit.Student)[0].Deliveries[0].ID {
						t.Error("the delivery is not open")
					}
				}
				saysAcross(d, c.said)
				if diff := cmp.Diff(c.want, d.spoken()); diff != "" {
					t.Errorf("(-want +got):\n%s\n%s", diff, d.show())
				}
				same(t, d)
			})
		}
	}
	t.Run("one action, taken back and done again", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("xxg<home>9<enter>/<enter>")
		after := eveningRecords(d.evening)
		d.press("<bs>").says("taken back: Ada, game 1, frame 1 changed", "▶ 1.1 X")
		d.press("U")
		if diff := cmp.Diff(after, eveningRecords(d.evening)); diff != "" {
			t.Error(diff)
		}
		same(t, d)
	})
}

// saysAcross tells that words are on the screen, be it over the end of a line.
func saysAcross(d *appTest, words string) {
	d.t.Helper()
	if !strings.Contains(strings.Join(strings.Fields(d.show()), " "), words) {
		d.t.Errorf("%q is not on the screen:\n%s", words, d.show())
	}
}

// TestReframingWeeksLater corrects a strike that was a spare in an evening that is past, in the middle and at the end.
func TestReframingWeeksLater(t *testing.T) {
	d := lastWeek(t, "ZXXXXXXXXX<enter>@ada<enter>7<enter>-<enter>x").press("<esc>g@ada<enter><home>")
	d.press("9<enter>").says("frame 1 needs its second ball")
	saysAcross(d.press("/<enter>"), "frame 1, ball 1 was X, is 9 left 9; 1 ball put in, unseen")
	d.press("<end>/")
	saysAcross(d, "frame 10 needs its third ball: X - or 1-9")
	saysAcross(d.press("5<enter>"), "frame 10, ball 2 was -, is /; 1 ball put in, unseen")
	if x := d.strip.sheet(); !x.Finished() || x.Deliveries[1].Lane != x.Deliveries[0].Lane {
		t.Errorf("%+v", x.Deliveries)
	}
	d.press("<bs><bs><bs>").says("only corrections made since the evening was closed are taken back")
	if x := d.strip.sheet(); !x.Finished() || x.Tally.Load != 11 {
		t.Errorf("%+v", x.Tally)
	}
}

func TestChangeWords(t *testing.T) {
	for _, c := range []struct{ name, keys, words string }{
		{"letters", "r<enter>", "frame 1, ball 1: letters AABA, were AAAA"},
		{"what was not seen", "z<enter>", "frame 1, ball 1: letters unseen, were AAAA"},
		{"pins", "=8", "frame 1, ball 1 was 9 left 10, is 8"},
		{"a foul", "!<enter>", "frame 1, ball 1 was 9 left 10, is F"},
		{"a side", "ii<enter>", "letters ABAA, were AAAA; side in 2, was none"},
		{"a hit", "h<enter>", "frame 1, ball 1: hit high, was none"},
		{"an own call", "OB+<enter><enter>", "own call B+, was none"},
		{"a cue and a note", "Cslow<enter>Nlate<enter><enter>", "cue slow, was none; note changed"},
		{"a line", "L17<enter><enter>", "line changed"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := onBoard(t, "Ada 120").press("0<enter>g" + c.keys)
			saysAcross(d, c.words)
			saysAcross(onBoard(t, "Ada 120").press("0<enter>,"+c.keys), c.words)
		})
	}
}

// TestStripFindsAnyone: a name finds whoever is kept, at the last evening in which that student bowled.
func TestStripFindsAnyone(t *testing.T) {
	d := lastWeek(t, "=7=2x")
	d.reader.played["cy"] = nil
	d.students["cy"] = model.Student{ID: "cy", Name: "Cy Bowman", Hand: model.RightHand}
	d.students["bo2"] = model.Student{ID: "bo2", Name: "Bo", Hand: model.RightHand}
	d.press("7<enter>Ada<enter><enter>xg")
	d.press("@bo<enter>").says("may be Bo #")
	id := ""
	for other, s := range d.students {
		if s.Name == "Bo" && other != "bo2" {
			id = string(other)
		}
	}
	d.press("<ctrl+u>bo #"+id+"<enter>").says(" Bo  25 February 2026  game 1", "another evening: 25 February 2026")
	d.press("@ada<enter>").says(" Ada  25 February 2026")
	d.press("@cy<enter>").says("nothing is kept of Cy Bowman yet")
	d.press("<esc>@zed<enter>").says(`nobody that is kept is called "zed"`)
	d.press("<esc>@bo #" + id + "<enter>").says(" Bo  25 February")
	d.press("b@ada<enter>").says("hand it from Bo to", "enter keeps it, esc leaves it as it was")
	d.press("<esc><esc>")
	d.reader.played["bo2"] = []store.Played{}
	d.press("@bo #bo2<enter>").says("nothing is kept of Bo yet")
}
