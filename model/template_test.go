package model_test

import (
	"strings"
	"testing"
	"time"

	gocmp "github.com/google/go-cmp/cmp"

	"coach.settee/model"
)

// arranged gives an evening with everything set that an evening can have.
func arranged(t *testing.T) (model.Session, map[model.ID]model.Student) {
	t.Helper()
	l := beginLesson(t, "Ada 172, Bo, Cy | Di, Eve")
	board := func(n float64) model.Optional[float64] { return model.Known(n) }
	for _, set := range []func() (model.Step, error){
		func() (model.Step, error) { return l.SetPlace("Parkside") },
		func() (model.Step, error) { return l.SetPattern("41") },
		func() (model.Step, error) { return l.SetPatternKind("house") },
		func() (model.Step, error) { return l.SetArrows("14") },
		func() (model.Step, error) { return l.SetBefore("a youth league") },
		func() (model.Step, error) { return l.SetOiled("16:00", time.UTC) },
		l.ToggleRotate, l.ToggleBlock,
		func() (model.Step, error) { return l.ToggleAlternate("Bo") },
		func() (model.Step, error) { return l.WatchTonight("Ada", axesOf(model.Balance)) },
		func() (model.Step, error) { return l.SetTonight("Ada", "spares") },
		func() (model.Step, error) { return l.SetHomework("Ada", "ten at the 10 pin") },
		func() (model.Step, error) { return l.SetSentence("Ada", "well held") },
		func() (model.Step, error) { return l.SetNext("2026-03-11", "Ada", "Bo") },
		func() (model.Step, error) { return l.Aim("Ada", 7, model.Line{Arrows: board(17)}, "") },
		func() (model.Step, error) { return l.SetCue("quiet head") },
		func() (model.Step, error) { return l.MoveInOrder("Cy", -1) },
		l.ToggleOut,
		func() (model.Step, error) { return l.Close(l.at()) },
	} {
		l.mustKeep(set())
	}
	students := map[model.ID]model.Student{}
	for _, seat := range l.Seats() {
		students[seat.Student] = l.Student(seat.Student)
	}
	return l.Session(), students
}

var nextTuesday = time.Date(2026, 3, 10, 19, 0, 0, 5, time.FixedZone("west", -5*3600))

func TestAnEveningLikeAnother(t *testing.T) {
	like, students := arranged(t)
	was := gocmp.Diff(model.Session{}, like)
	e, step, without, err := model.NewEveningLike(like, "next", nextTuesday, students)
	if err != nil || len(without) != 0 {
		t.Fatalf("without %v, %v", without, err)
	}
	want := model.Session{
		ID: "next", At: time.Date(2026, 3, 11, 0, 0, 0, 0, time.UTC), Place: "Parkside", PatternFt: model.Known(41.0),
		PatternKind: "house", ArrowsFt: model.Known(14.0), Pairs: []model.Pair{{7, 8}, {9, 10}}, Rotate: false, Block: true,
		Roster: []model.Seat{
			{Student: "Ada", Lane: 7, Order: 1, Alternate: true, Watched: axesOf(model.Balance)},
			{Student: "Cy", Lane: 7, Order: 2, Alternate: true},
			{Student: "Bo", Lane: 7, Order: 3},
			{Student: "Di", Lane: 9, Order: 1, Alternate: true},
			{Student: "Eve", Lane: 9, Order: 2, Alternate: true},
		},
	}
	if diff := gocmp.Diff(want, e.Session()); diff != "" {
		t.Errorf("the evening (-want +got):\n%s", diff)
	}
	wantStep := model.Step{
		Session: "next", Changes: []model.Change{{Ref: want.Ref(), After: want}},
		Up: model.Up{Lane: 7, OnPair: map[int]model.ID{7: "Ada", 9: "Di"}},
	}
	if diff := gocmp.Diff(wantStep, step); diff != "" {
		t.Errorf("what is kept (-want +got):\n%s", diff)
	}
	if diff := gocmp.Diff(wantStep.Up, e.Up()); diff != "" {
		t.Errorf("who is up (-want +got):\n%s", diff)
	}
	if got := e.Student("Ada"); got.Name != "Ada" || e.ChosenFor("Ada").Watched != axesOf(model.Balance) {
		t.Errorf("Ada is %+v", got)
	}
	if _, err := e.Undo(); err == nil {
		t.Error("the evening's beginning was taken back")
	}
	if _, err := e.RecordAllDown(nextTuesday); err != nil {
		t.Error(err)
	}
	if _, err := e.MovePair(11, true); err != nil {
		t.Error(err)
	}
	if gocmp.Diff(model.Session{}, like) != was {
		t.Error("the earlier evening was changed")
	}
}

func TestAnEveningLikeAnotherWithoutSome(t *testing.T) {
	like, students := arranged(t)
	delete(students, "Cy")
	for _, id := range []model.ID{"Ada", "Di", "Eve"} {
		s := students[id]
		s.Archived, s.Name = id != "Ada", s.Name+" Marsh"
		students[id] = s
	}
	like.Roster[0], like.Roster[4] = like.Roster[4], like.Roster[0]
	e, step, without, err := model.NewEveningLike(like, "next", nextTuesday, students)
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(without, ", "); got != "Cy, Di Marsh, Eve Marsh" {
		t.Errorf("without %s", got)
	}
	want := []model.Seat{
		{Student: "Ada", Lane: 7, Order: 1, Alternate: true, Watched: axesOf(model.Balance)},
		{Student: "Bo", Lane: 7, Order: 2},
	}
	if diff := gocmp.Diff(want, e.Seats()); diff != "" {
		t.Errorf("the seats (-want +got):\n%s", diff)
	}
	if diff := gocmp.Diff(model.Up{Lane: 7, OnPair: map[int]model.ID{7: "Ada"}}, step.Up); diff != "" {
		t.Errorf("who is up (-want +got):\n%s", diff)
	}
	for id := range students {
		s := students[id]
		s.Archived = id != "Eve"
		students[id] = s
	}
	if e, _, _, err = model.NewEveningLike(like, "next", nextTuesday, students); err != nil || e.UpStudent() != "Eve" {
		t.Errorf("with Eve alone on the second pair %s is up, %v", e.UpStudent(), err)
	}
	if e, _, _, err = model.NewEveningLike(like, "next", nextTuesday, nil); err != nil || e.UpStudent() != "" || len(e.Seats()) != 0 {
		t.Errorf("with nobody known: %v", err)
	}
	like.Pairs, like.Roster = nil, nil
	if _, _, _, err := model.NewEveningLike(like, "next", nextTuesday, students); err == nil {
		t.Error("an evening without lanes was begun")
	}
}

func TestTheEveningThatTodayIsLike(t *testing.T) {
	zone := time.FixedZone("west", -5*3600)
	evenings := func(days ...int) []model.Session {
		var out []model.Session
		for _, day := range days {
			s := model.Session{At: time.Date(2026, 3, day, 20, 0, 0, 0, zone).UTC(), Place: time.Date(2026, 3, day, 0, 0, 0, 0, zone).Format("Jan 2")}
			out = append(out, s)
		}
		return out
	}
	// The 10th of March 2026 is a Tuesday; at eight in the evening it is Wednesday in UTC.
	now := time.Date(2026, 3, 17, 19, 0, 0, 0, zone)
	for want, earlier := range map[string][]model.Session{
		"":       nil,
		"Mar 10": evenings(3, 5, 10, 11, 12), "Mar 3": evenings(3, 4, 6, 11), "Mar 12": evenings(4, 11, 12), "Mar 5": evenings(5),
		// An evening of the day itself is over already.
		"Feb 24": evenings(-4, 17),
	} {
		if got, ok := model.LikeToday(earlier, now); got.Place != want || ok != (want != "") {
			t.Errorf("today is like %q (%v), want %q", got.Place, ok, want)
		}
	}
}
