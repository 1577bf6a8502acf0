package model_test

import (
	"testing"

	gocmp "github.com/google/go-cmp/cmp"

	"coach.settee/model"
)

// A late hand: twenty deliveries of four students on two pairs, of which two are thrown unseen, one has its own call
// entered after the pins, one a leave that is seen to be wrong after the next student is up, and a frame is given to the
// wrong student. It ends in the true record.
func TestLateHand(t *testing.T) {
	l := beginLesson(t, "Ada 172, Bo 120|Cy 220, Di")
	l.press("x")              // 1: Ada, a strike
	l.press("b 0⏎ /")         // 2, 3: Bo leaves the 10 and makes it
	l.press("␣ t x")          // 4: Cy, a strike
	l.press("r 24⏎ -⏎")       // 5, 6: Di leaves the 2-4, misses
	l.press("␣ z x")          // 7: Ada's second frame, not watched
	l.press(", OB⏎ ⏎")        // and her own call of it, after the pins
	l.press("ff 7⏎")          // 8: Bo leaves the 7
	l.press("z /")            // 9: and makes it, not watched
	l.press("␣ 47⏎ -⏎")       // 10, 11: Cy leaves the 4-7 and misses
	l.press(", , 7 4 61 ⏎")   // with Di up: it was the 1-6 that stood
	l.press("x")              // 12: Di, a strike
	l.press("␣ 36⏎ =1")       // 13, 14: Ada leaves the 3-6, fells one
	l.press("D oo x")         // 15: Bo's ball is thrown again; 16: a strike
	l.press("b 9⏎ /")         // 17, 18: a frame that goes to Ada, but it was Cy who bowled
	l.press(", @Cy⏎")         //
	l.press("@Di⏎ ! x hh 8⏎") // 19, 20: Di's foul and what is left of ten
	want := map[model.ID]string{
		"Ada": "1.1 10/none AAAA+, 2.1 10/none u, 3.1 8/3-6 AAAA+, 3.2 1/? AAAA+",
		"Bo":  "1.1 9/10 BAAA+, 1.2 1/none AAAA+, 2.1 9/7 AAAC+, 2.2 1/none u, 3.1 D, 3.1 10/none ABAA+",
		"Cy":  "1.1 10/none ABAA+, 2.1 8/1-6 AAAA+, 2.2 0/1-6 AAAA+, 3.1 9/9 BAAA+, 3.2 1/none AAAA+",
		"Di":  "1.1 8/2-4 AABA+, 1.2 0/2-4 AAAA+, 2.1 10/none AAAA+, 3.1 F/all AAAA+, 3.2 9/8 AAAA+",
	}
	got := map[model.ID]string{}
	for id := range want {
		got[id] = l.deliveries(id)
	}
	if diff := gocmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if l.Deliveries() != 20 {
		t.Errorf("%d deliveries", l.Deliveries())
	}
	if d := l.Sheet("Ada").Deliveries[1]; d.Own != model.GradeB || d.Seen {
		t.Errorf("Ada's second is %+v", d)
	}
	if d := l.Sheet("Cy").Deliveries[3]; d.Level != model.Elite || d.Lane != 9 {
		t.Errorf("the frame handed to Cy is %s on lane %d", d.Level, d.Lane)
	}
	records(l.view()).sameAs(t, "after a restart", records(l.restart().view()))
	for range len(l.log) {
		l.press("⌫")
	}
	if l.Deliveries() != 0 || len(l.kept) != 1 {
		t.Errorf("%d deliveries are left", l.Deliveries())
	}
}
