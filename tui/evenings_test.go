package tui

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"coach.settee/model"
	"coach.settee/store"
)

// keptEvening gives the evening on the screen as a store would have it, for another app to start from.
func keptEvening(d *appTest) model.Kept {
	e := d.evening
	k := model.Kept{Session: e.Session(), Up: e.Up()}
	byOrder := map[int]model.Delivery{}
	for _, step := range d.recorder.steps {
		if step.Undo {
			k.Log = k.Log[:len(k.Log)-1]
		} else if len(step.Changes) > 0 && step.Action.N > 0 {
			k.Log = append(k.Log, step.Action.Entry())
		}
	}
	for _, seat := range e.Seats() {
		k.Students = append(k.Students, e.Student(seat.Student))
		for _, s := range e.Sheets(seat.Student) {
			k.Games = append(k.Games, s.Game)
			for _, x := range s.Deliveries {
				byOrder[serialOf(x.ID)] = x
			}
		}
	}
	for n := 1; n < 1000; n++ {
		if x, ok := byOrder[n]; ok {
			k.Deliveries = append(k.Deliveries, x)
			k.Serial = n
		}
	}
	return k
}

func TestSetUp(t *testing.T) {
	t.Run("from nothing to the first delivery in 40 keys", func(t *testing.T) {
		d := startApp(t, &fakeReader{})
		keys := "7<enter>Ada 120<enter>Bo 172<enter><enter>x"
		if n := len(keysOf(keys)); n > 40 {
			t.Errorf("%d keys", n)
		}
		d.press(keys)
		if diff := cmp.Diff([]string{"Ada 1.1 10 AAAA"}, d.spoken()); diff != "" {
			t.Error(diff)
		}
		if s := d.evening.Session(); !s.Rotate || !s.At.Equal(testTime) || !s.Open() {
			t.Errorf("%+v", s)
		}
	})
	t.Run("an evening begun by keys of one read", func(t *testing.T) {
		d := startApp(t, &fakeReader{}).press("<esc>")
		d.burst("n7\rAda 120\rBo 172\r\rx")
		if diff := cmp.Diff([]string{"Ada 1.1 10 AAAA"}, d.spoken()); diff != "" {
			t.Error(diff)
		}
	})
	t.Run("pair by pair, an empty line for the next", func(t *testing.T) {
		d := startApp(t, &fakeReader{}).press("7 9 11<enter>Ada 120<enter>Bo<enter><enter>")
		d.says("student on 9/10")
		d.press("<enter>Cy 90 l<enter><enter>")
		got := map[string]string{}
		for _, seat := range d.evening.Seats() {
			s := d.evening.Student(seat.Student)
			got[s.Name] = fmt.Sprint(seat.Lane, " ", s.Average.Value, " ", s.Hand)
		}
		want := map[string]string{"Ada": "7 120 right", "Bo": "8 0 right", "Cy": "11 90 left"}
		if diff := cmp.Diff(want, got); diff != "" || d.screen != screen(d.board) {
			t.Errorf("%s\n%s", diff, d.show())
		}
	})
	t.Run("what cannot be is refused and kept in the line", func(t *testing.T) {
		d := startApp(t, &fakeReader{}).press("7seven<enter>")
		d.says("names no lane", "seven")
		d.press("<ctrl+u>7<enter>Ada 999<enter>").says("averages are 0 to 300", "Ada 999")
	})
	t.Run("esc drops the line, and the screen says how to go on", func(t *testing.T) {
		d := startApp(t, &fakeReader{}).press("<esc>")
		d.says("n   begins one", "q   leaves")
		d.press("<esc>").says("no evening is open: n begins one")
		d.press("x").says("no evening is open")
		d.press("u").says("no evening is open")
		d.press("n7<enter>").says("student on 7/8")
		d.press("<esc>").says("Nobody is here yet: a adds a student")
		d.press("<esc>").says("A adds a student")
		d.press("b").says("nobody is up: add a student with A")
		d.press("=").says("nobody is up")
		d.press("G").says("nobody is up")
		d.press("AAda 120<enter>x")
		if len(d.spoken()) != 1 {
			t.Error(d.show())
		}
	})
	t.Run("a student who is known is the same again", func(t *testing.T) {
		ada := model.Student{ID: "ada", Name: "Ada", Hand: model.LeftHand, Average: model.Known(131), Focus: "tempo"}
		d := startApp(t, &fakeReader{students: []model.Student{ada}}).press("7<enter>ada<enter><enter>")
		if diff := cmp.Diff(ada, d.evening.Student("ada")); diff != "" {
			t.Error(diff)
		}
		d.press("<bs>")
		if diff := cmp.Diff(ada, d.students["ada"]); diff != "" {
			t.Errorf("taking back the place changed the student: %s", diff)
		}
	})
	t.Run("a store that cannot be read is an error", func(t *testing.T) {
		_, err := New(testConfig(newFakeRecorder(), &fakeReader{err: errors.New("damaged")}))
		if err == nil || !strings.Contains(err.Error(), "damaged") {
			t.Error(err)
		}
	})
}

func TestResume(t *testing.T) {
	before := onBoard(t, "Ada 120", "Bo 172", "Cy 90").press("bx70<enter>x @cy<enter>=7Cslow feet<enter>")
	kept := keptEvening(before)
	older := model.Kept{Session: model.Session{ID: "older", At: testTime.Add(-48 * time.Hour), Place: "Parkside", Pairs: []model.Pair{{1, 2}}}}
	d := startApp(t, &fakeReader{evenings: []model.Kept{older, kept}})
	t.Run("the newest open evening is on the board as it was", func(t *testing.T) {
		d.says("resumed: 4 March 2026", "kept 4")
		if diff := cmp.Diff(before.spoken(), d.spoken()); diff != "" {
			t.Error(diff)
		}
		if d.evening.UpStudent() != before.evening.UpStudent() {
			t.Error("another student is up")
		}
	})
	t.Run("the others are listed and turned to", func(t *testing.T) {
		d.press("e").says("also open: 2 March 2026, Parkside (o turns to it)")
		d.press("o").says("resumed: 2 March 2026", "Parkside", "kept 0")
		d.press("e").says("also open: 4 March 2026")
		d.press("o").says("resumed: 4 March 2026", "kept 4")
	})
	t.Run("not with a call begun", func(t *testing.T) {
		d.press("beo").says("a call is begun for Cy")
		d.press("<esc><esc>")
	})
	t.Run("taking back goes to the start of the evening", func(t *testing.T) {
		for range 12 {
			d.press("<bs>")
		}
		d.says("this is the start of the evening")
		if n := d.evening.Deliveries(); n != 0 {
			t.Errorf("%d deliveries", n)
		}
	})
	t.Run("an evening that cannot be resumed is said", func(t *testing.T) {
		broken := kept
		broken.Deliveries = append([]model.Delivery(nil), kept.Deliveries...)
		broken.Deliveries[0].Pins = model.Known(11)
		d := startApp(t, &fakeReader{evenings: []model.Kept{broken}})
		d.says("cannot be resumed")
		d.press("n").says("lanes tonight")
	})
	t.Run("closed ones are left alone", func(t *testing.T) {
		closed := kept
		closed.Session.Closed = testTime
		startApp(t, &fakeReader{evenings: []model.Kept{closed}}).says("lanes tonight")
	})
}

// TestReopenedIsGradedAsItWas: a delivery reopened is graded by the weights and the bar it was recorded with.
func TestReopenedIsGradedAsItWas(t *testing.T) {
	kept := keptEvening(onBoard(t, "Ada 172").press("bx"))
	kept.Students[0].Weights, kept.Students[0].Bar = model.Weights{100, 0, 0, 0}, model.GradeA
	d := startApp(t, &fakeReader{evenings: []model.Kept{kept}})
	d.send(sizeMsg(100, 30))
	d.press(",").says("grade A-, good")
	d.press("<esc>b").says("grade B")
	d.silent("grade B, good")
}

// TestTurningAtOnce: a key in the same read as the one that turns acts on the evening turned to.
func TestTurningAtOnce(t *testing.T) {
	first := keptEvening(onBoard(t, "Ada 120", "Bo 172").press("xx"))
	second := keptEvening(onBoard(t, "Cy 90").press("x"))
	second.Session.ID, second.Session.At = "older", testTime.Add(-time.Hour)
	for i := range second.Games {
		second.Games[i].Session = "older"
	}
	for _, c := range []struct {
		keys  string
		begun model.Call
	}{
		{"oo", model.Call{Side: model.Outside}},
		{"op", model.Call{Hit: model.Pocket}},
	} {
		t.Run(c.keys, func(t *testing.T) {
			d := startApp(t, &fakeReader{evenings: []model.Kept{second, first}}).press("e")
			d.burst(c.keys)
			if d.evening.Session().ID != "older" || len(d.open) != 1 || d.open[0].ID != first.Session.ID {
				t.Errorf("%s is on the screen, %v are open", d.evening.Session().ID, d.open)
			}
			if got := d.evening.Call(); got.Side != c.begun.Side || got.Hit != c.begun.Hit {
				t.Errorf("the key behind it gives %+v", got)
			}
		})
	}
}

func TestEveningScreen(t *testing.T) {
	d := onBoard(t, "Ada 120", "Bo 172", "Cy 90", "Di 190").press("x@ada<enter>Cslow feet<enter>e")
	t.Run("who is here", func(t *testing.T) {
		d.says("7/8", "9/10", "Ada", "120", "7, 8 even", "cue: slow feet")
	})
	for _, c := range []struct{ keys, words string }{
		{"pParkside<enter>", "Parkside"},
		{"i41<enter>", "oil: 41 ft"},
		{"ix<enter>", "is no length of oil"},
		{"<esc>r", "next up: by hand"},
		{"b", "drills: in blocks"},
		{"u", "bowls first on 7/8 already"},
		{"d", "Ada bowls in place 2 on 7/8"},
		{"t", "Ada stays on lane 7"},
		{"l13<enter>Eve<enter><enter>", "13/14"},
		{"aFay 100<enter><enter>", "Fay"},
		{"khouse<enter>", "oil: 41 ft, house"},
		{"m1730<enter>", "oiled 17:30"},
		{"jleague night<enter>", "before: league night"},
		{"J15.5<enter>", "arrows: 15.5 ft"},
		{"J99<enter>", "is no distance of the arrows"},
		{"<esc>n", "an evening is open: x closes it first"},
		{"=", "an evening is open: x closes it first"},
		{"o", "no other evening is open"},
		{"H", "H has no meaning here"},
	} {
		t.Run(c.keys, func(t *testing.T) {
			d.press(c.keys).says(c.words)
			same(t, d)
		})
	}
	t.Run("the mark follows the student", func(t *testing.T) {
		for range 10 {
			d.press("<up>")
		}
		for _, name := range []string{"Bo", "Ada", "Fay", "Cy", "Di", "Eve", "Eve"} {
			if got := d.evening.Label(d.session.student(d.App)); got != name {
				t.Errorf("%s is marked, not %s", got, name)
			}
			d.press("<down>")
		}
		d.press("<enter>")
		if d.evening.Label(d.evening.UpStudent()) != "Eve" || d.screen != screen(d.board) {
			t.Error(d.show())
		}
	})
	t.Run("each change is taken back", func(t *testing.T) {
		for range 30 {
			d.press("e<bs><esc>")
		}
		if s := d.evening.Session(); s.Place != "" || len(s.Roster) != 0 || !s.Rotate || s.Block || s.PatternFt.Known {
			t.Errorf("%+v", s)
		}
		for range 30 {
			d.press("eU<esc>")
		}
		d.press("e").says("Parkside", "oil: 41 ft", "Fay", "drills: in blocks")
		same(t, d)
	})
}

func TestClosing(t *testing.T) {
	d := onBoard(t, "Ada 120").press("xexx")
	t.Run("it asks, and any other key does not close", func(t *testing.T) {
		d.says("close anyway? y closes")
		d.press("<down>y")
		if d.evening == nil {
			t.Fatal("closed without being asked")
		}
	})
	t.Run("a call begun is in the way", func(t *testing.T) {
		d.press("<esc><esc><esc>bexxy").says("a call is begun for Ada")
		d.press("<esc><esc><esc>e")
	})
	t.Run("closed, and opened again", func(t *testing.T) {
		d.press("xxy").says("the evening is closed, 1 delivery", "n   begins one")
		if s, ok := d.recorder.records[model.Ref{Kind: model.SessionRecord, ID: "id1"}].(model.Session); !ok || s.Open() {
			t.Errorf("%+v", s)
		}
		d.press("<bs>").says("taken back: evening closed", "Ada")
		d.press("U").says("the evening is closed")
		d.press("<bs><esc>x")
		if len(d.spoken()) != 2 {
			t.Error(d.show())
		}
	})
	t.Run("then another is begun", func(t *testing.T) {
		d.press("exxyn7<enter>Bo<enter><enter>x")
		if got := d.spoken(); len(got) != 1 || got[0] != "Bo 1.1 10 AAAA" {
			t.Error(got)
		}
		if !strings.HasSuffix(d.headerLine(), "kept 1") {
			t.Error(d.headerLine())
		}
	})
}

// TestPaceOnTheBoard checks that the app hands on what it was given: the figures themselves are checked where they are
// reckoned.
func TestPaceOnTheBoard(t *testing.T) {
	ada := model.Student{ID: "ada", Name: "Ada", Hand: model.RightHand, Average: model.Known(172)}
	game := func(session model.ID, good int, complete bool) store.Played {
		return store.Played{
			Game:  model.Game{Session: session, Kind: model.KindGame},
			Tally: model.Tally{Complete: complete, Racks: 11, Seen: 11, Good: good, Strikes: 4, SpareTried: 7, SpareMade: 4},
		}
	}
	var played []store.Played
	for range 12 {
		played = append(played, game("last week", 9, true), game("last week", 1, false))
	}
	reader := &fakeReader{students: []model.Student{ada}, played: map[model.ID][]store.Played{"ada": played}}
	d := startApp(t, reader).press("7<enter>Ada<enter><enter>")
	t.Run("ten finished games of earlier evenings count", func(t *testing.T) {
		in := d.paces.basisOf(d.evening, "ada").in
		if in.PastGood != 90 || in.PastSeen != 110 || in.Goal != 5 {
			t.Errorf("%+v", in)
		}
		// (40 strikes + 20 tries at .38) of 130, (40 spares + 20 at .58) of 90.
		if got, want := in.Rates.Strike, (40+7.6)/130.; got != want {
			t.Errorf("strikes %v, want %v", got, want)
		}
		if got, want := in.Rates.Spare, (40+11.6)/90.; got != want {
			t.Errorf("spares %v, want %v", got, want)
		}
	})
	t.Run("a game in progress, unseen racks apart", func(t *testing.T) {
		d.press("xbbxzx")
		in := d.paces.basisOf(d.evening, "ada").in
		if in.Good != 1 || in.Seen != 2 || in.Unseen != 1 {
			t.Errorf("%+v", in)
		}
	})
	t.Run("a game finished tonight counts once the next has begun", func(t *testing.T) {
		d.press(strings.Repeat("x", 9))
		if in := d.paces.basisOf(d.evening, "ada").in; in.PastSeen != 110 || in.Good != 10 {
			t.Errorf("%+v", in)
		}
		d.press("x")
		if in := d.paces.basisOf(d.evening, "ada").in; in.PastSeen != 110 || in.PastGood != 91 || in.Good != 1 {
			t.Errorf("%+v", in)
		}
	})
	t.Run("earlier games are read once a student", func(t *testing.T) {
		if diff := cmp.Diff([]model.ID{"ada"}, reader.asked); diff != "" {
			t.Error(diff)
		}
	})
	t.Run("a warm-up has no pace, a drill of a length has one", func(t *testing.T) {
		if d.press("Gw<enter>done<enter>"); len(d.paces.shown) != 0 {
			t.Error("a warm-up has a pace")
		}
		if d.press("G10<enter>"); d.paces.shown["ada"].OpenMax != 10 {
			t.Errorf("%+v", d.paces.shown)
		}
		if d.press("x<bs><bs>G10 10<enter>"); len(d.paces.shown) != 0 {
			t.Errorf("%+v", d.paces.shown)
		}
	})
	t.Run("history that cannot be read is said", func(t *testing.T) {
		reader := &fakeReader{}
		d := startApp(t, reader).press("7<enter>")
		reader.err = errors.New("damaged")
		d.press("Bo<enter>").says("earlier games of Bo cannot be read")
	})
}

// TestNoticeAtTheStart: what the coach is told at the start is whole in the smallest window, and stays until an evening is
// begun.
func TestNoticeAtTheStart(t *testing.T) {
	d := startApp(t, &fakeReader{})
	d.conf.Notice = "copies of an earlier one are in /home/coach/.local/share/settee/settee-backups: settee restore lists them"
	d.send(sizeMsg(minWidth, minHeight))
	noticed := func() bool {
		return strings.Contains(strings.Join(strings.Fields(d.show()), ""), strings.ReplaceAll(d.conf.Notice, " ", ""))
	}
	for _, keys := range []string{"", "7<bs>", "<esc>", "n", "7"} {
		if d.press(keys); !noticed() {
			t.Errorf("after %q it is not on the screen:\n%s", keys, d.show())
		}
	}
	d.press("<enter>Ada 120<enter><enter>xexxy")
	if d.evening != nil || noticed() {
		t.Errorf("it is there after an evening:\n%s", d.show())
	}
}
