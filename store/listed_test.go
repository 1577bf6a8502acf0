package store

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"coach.settee/model"
	"github.com/google/go-cmp/cmp"
	bolt "go.etcd.io/bbolt"
	"pgregory.net/rapid"
)

// countOf counts an evening's deliveries one by one.
func countOf(t testing.TB, s *Store, session model.ID) EveningCount {
	t.Helper()
	e := reopened(t, s, session)
	n := EveningCount{Session: session}
	for _, seat := range e.Seats() {
		bowled := false
		for _, sheet := range e.Sheets(seat.Student) {
			n.Deliveries += len(sheet.Deliveries)
			bowled = bowled || len(sheet.Deliveries) > 0
			if sheet.Game.Kind != model.KindGame || len(sheet.Deliveries) == 0 {
				continue
			}
			n.Games++
			for i, d := range sheet.Deliveries {
				if d.Dead || !d.Seen || !sheet.Racks[i].Full {
					continue
				}
				n.Seen++
				if d.Good() {
					n.Good++
				}
			}
		}
		if bowled {
			n.Students++
		}
	}
	return n
}

// lastEveningOf gives the student's last of some evenings with a ball before one of them, or of all of them.
func lastEveningOf(evenings [][]model.DatedSheet, before func(model.DatedSheet) bool) (last model.DatedSheet, ok bool) {
	for _, evening := range evenings {
		for _, sheet := range evening {
			if before(sheet) && len(sheet.Deliveries) > 0 {
				last, ok = sheet, true
			}
		}
	}
	return last, ok
}

// checkLeft compares what was left before each session, and before one that is not kept, with what the evenings hold.
func checkLeft(t testing.TB, s *Store, student model.ID) {
	t.Helper()
	heads := headsOf(t, s)
	evenings := eveningsOf(t, s, student)
	for i := range len(heads) + 1 {
		session, before := model.ID("tomorrow"), func(model.DatedSheet) bool { return true }
		if i < len(heads) {
			session = heads[i].id
			before = func(d model.DatedSheet) bool {
				return slices.ContainsFunc(heads[:i], func(h sessionHead) bool { return h.id == d.Game.Session })
			}
		}
		got, ok, err := s.Left(student, session)
		last, want := lastEveningOf(evenings, before)
		if err != nil || ok != want || !want && got != (model.Left{}) {
			t.Fatalf("before %s: %+v, %v, %v; there should be something: %v", session, got, ok, err, want)
		}
		if !want {
			continue
		}
		seat, _ := reopened(t, s, last.Game.Session).SeatOf(student)
		if got != (model.Left{At: last.At, Seat: seat}) {
			t.Fatalf("before %s is left %+v, not %+v of %v", session, got, seat, last.At)
		}
	}
}

func headsOf(t testing.TB, s *Store) (heads []sessionHead) {
	t.Helper()
	if err := s.view(func(tx *bolt.Tx) (err error) { heads, err = headsIn(tx); return err }); err != nil {
		t.Fatal(err)
	}
	return heads
}

// checkBowled compares what was bowled in the last n evenings with what the evenings hold.
func checkBowled(t testing.TB, s *Store, n int) {
	t.Helper()
	last := map[model.ID]bool{}
	for _, head := range slices.Backward(headsOf(t, s)) {
		if len(last) < n && countOf(t, s, head.id).Deliveries > 0 {
			last[head.id] = true
		}
	}
	students, err := s.Students()
	if err != nil {
		t.Fatal(err)
	}
	var want [][]model.DatedSheet
	for _, student := range students {
		sheets := slices.DeleteFunc(slices.Concat(eveningsOf(t, s, student.ID)...), func(d model.DatedSheet) bool {
			return !last[d.Game.Session] || len(d.Deliveries) == 0
		})
		if len(sheets) > 0 {
			want = append(want, sheets)
		}
	}
	got, err := s.Bowled(n)
	if err != nil || len(got) != len(want) {
		t.Fatalf("%d students bowled in the last %d evenings, there are %d, %v", len(got), n, len(want), err)
	}
	for i := range want {
		sameSheets(t, string(want[i][0].Game.Student), got[i], want[i])
	}
}

func checkListed(t testing.TB, s *Store) {
	t.Helper()
	for _, head := range headsOf(t, s) {
		got, err := s.EveningCount(head.id)
		if diff := cmp.Diff(countOf(t, s, head.id), got); diff != "" || err != nil {
			t.Fatalf("evening %s: %s%v", head.id, diff, err)
		}
	}
	students, err := s.Students()
	if err != nil {
		t.Fatal(err)
	}
	for _, student := range students {
		checkLeft(t, s, student.ID)
	}
	for n := range 5 {
		checkBowled(t, s, n)
	}
}

func TestTheListOfEveningsIsWhatTheEveningsHold(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		dir, err := os.MkdirTemp(t.TempDir(), "")
		if err != nil {
			t.Fatal(err)
		}
		s := mustOpen(t, randomStore(rt, dir))
		checkListed(t, s)
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	})
}

func TestTheListOfASeason(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	c := fill(t, s, 1700, 100)
	checkListed(t, s)
	n, err := s.EveningCount(c.session())
	if err != nil || n.Students < 2 || n.Games < 2 || n.Deliveries != 100 || n.Good == 0 || n.Seen <= n.Good {
		t.Errorf("the last evening has %+v, %v", n, err)
	}
	left, ok, err := s.Left(invented(0).ID, "tomorrow")
	if err != nil || !ok || left.Seat.Cue != "quiet last step" || left.At.IsZero() {
		t.Errorf("left is %+v, %v, %v", left, ok, err)
	}
	if all, err := s.Bowled(1000); err != nil || len(all) != 8 {
		t.Errorf("%d students bowled, %v", len(all), err)
	}
}

func TestTheListOfWhatIsNotKept(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	fill(t, s, 100, 100)
	if n, err := s.EveningCount("elsewhere"); !errors.Is(err, ErrNoSession) || n != (EveningCount{}) {
		t.Errorf("an evening that is not kept has %+v, %v", n, err)
	}
	if left, ok, err := s.Left("nobody", "elsewhere"); ok || err != nil || left != (model.Left{}) {
		t.Errorf("nobody left %+v, %v, %v", left, ok, err)
	}
}

// TestAnEveningWithoutABallLeavesNothing has the student there, and in a game, and never bowling.
func TestAnEveningWithoutABallLeavesNothing(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	c := newCoach(t, 1, func(step model.Step) { keepEach(t, s, []model.Step{step}) })
	c.begin(2)
	c.do(c.evening.RecordAllDown(c.at))
	bowled := c.session()
	c.close()
	c.begin(2)
	c.do(c.evening.Begin(model.Plan{Kind: model.KindGame}, ""))
	c.close()
	c.begin(2)
	e := reopened(t, s, bowled)
	up := e.Seats()[0].Student
	if len(e.Sheets(up)) == 0 {
		up = e.Seats()[1].Student
	}
	left, ok, err := s.Left(up, c.session())
	if err != nil || !ok || !left.At.Equal(e.Session().At) {
		t.Errorf("left is %+v, %v, %v, the evening with a ball began at %v", left, ok, err, e.Session().At)
	}
	if _, ok, err = s.Left(up, bowled); ok || err != nil {
		t.Errorf("something was left before the first evening: %v", err)
	}
	if all, err := s.Bowled(1); err != nil || len(all) != 1 || all[0][0].Game.Session != bowled {
		t.Errorf("bowled was %+v, %v", all, err)
	}
	if n, err := s.EveningCount(c.session()); err != nil || n != (EveningCount{Session: c.session()}) {
		t.Errorf("an evening without a ball has %+v, %v", n, err)
	}
}

// TestEveningsAreListedByTheirTimes keeps an evening after one that was later.
func TestEveningsAreListedByTheirTimes(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	c := newCoach(t, 1, func(step model.Step) { keepEach(t, s, []model.Step{step}) })
	for range 3 {
		c.begin(2)
		c.bowl(20)
		c.close()
		c.at = c.at.AddDate(0, -1, 0)
	}
	checkListed(t, s)
}

// TestTheListReadsNoDelivery damages every delivery: what the tallies tell is told all the same.
func TestTheListReadsNoDelivery(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	c := fill(t, s, 300, 100)
	want := countOf(t, s, c.session())
	for _, row := range deliveryRows(t, s) {
		putRaw(t, s, row.key, []byte{0})
	}
	if got, err := s.EveningCount(c.session()); err != nil || got != want {
		t.Errorf("%+v, not %+v, %v", got, want, err)
	}
	if _, ok, err := s.Left(invented(0).ID, "tomorrow"); err != nil || !ok {
		t.Errorf("left is %v, %v", ok, err)
	}
	if all, err := s.Bowled(1); !errors.Is(err, ErrDamaged) || all != nil {
		t.Errorf("%d students are read of damaged deliveries, %v", len(all), err)
	}
}

func TestANewStoreBeginsWithItsBook(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	book := []model.Cue{{ID: "a", Axis: model.Balance, Text: "quiet head"}, {ID: "b", Axis: model.Finish, Text: "hold it"}}
	cues := func(o Options) []model.Cue {
		t.Helper()
		s, err := Open(path, o)
		if err != nil {
			t.Fatal(err)
		}
		defer s.Close()
		got, err := s.Cues()
		if err != nil {
			t.Fatal(err)
		}
		return got
	}
	if _, err := Open(path, Options{Book: []model.Cue{{ID: "a", Text: "quiet\x1bhead"}}}); err == nil {
		t.Error("a cue with a control character is kept")
	}
	if left, err := os.ReadDir(filepath.Dir(path)); err != nil || len(left) != 0 {
		t.Errorf("left are %v, %v", left, err)
	}
	if diff := cmp.Diff(book, cues(Options{Book: book})); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(book, cues(Options{Book: []model.Cue{{ID: "c", Text: "later"}}})); diff != "" {
		t.Errorf("a store that is there has other cues: %s", diff)
	}
	s := mustOpen(t, path)
	for _, cue := range book {
		if err := s.Keep(model.Step{Changes: []model.Change{{Ref: cue.Ref(), Before: cue}}}); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if got := cues(Options{Book: book}); len(got) != 0 {
		t.Errorf("a book that was emptied has %+v", got)
	}
}

// BenchmarkTheListOfEvenings counts every evening of a large store, as the list of evenings does when it is opened.
func BenchmarkTheListOfEvenings(b *testing.B) {
	s := openTemp(b, Options{NoSync: true})
	fill(b, s, bigStore(b), 2000)
	heads := headsOf(b, s)
	for b.Loop() {
		for _, head := range heads {
			if _, err := s.EveningCount(head.id); err != nil {
				b.Fatal(err)
			}
		}
	}
	b.ReportMetric(float64(len(heads)), "evenings")
}

// BenchmarkWhatWasLeft asks for a whole roster, as an evening does when it starts.
func BenchmarkWhatWasLeft(b *testing.B) {
	s := openTemp(b, Options{NoSync: true})
	fill(b, s, bigStore(b), 2000)
	for b.Loop() {
		for n := range 8 {
			if _, ok, err := s.Left(invented(n).ID, "tomorrow"); err != nil || !ok {
				b.Fatal(ok, err)
			}
		}
	}
}

// BenchmarkTheLastTwentyEvenings reads what the figures of the book of cues go over.
func BenchmarkTheLastTwentyEvenings(b *testing.B) {
	s := openTemp(b, Options{NoSync: true})
	fill(b, s, bigStore(b), 2000)
	n := 0
	for b.Loop() {
		all, err := s.Bowled(20)
		if err != nil {
			b.Fatal(err)
		}
		n = len(slices.Concat(all...))
	}
	b.ReportMetric(float64(n), "sheets")
}
