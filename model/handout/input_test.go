package handout_test

import (
	"strings"
	"testing"
	"time"

	"coach.settee/model"
	"coach.settee/model/handout"
)

// A page is of the seat that was kept when the evening was closed, and its times are those of the place.
func TestInputOfAnEvening(t *testing.T) {
	zone := time.FixedZone("there", 2*60*60)
	s := plain
	s.Focus = "release"
	seat := model.Seat{
		Student: s.ID, Lane: 7, Order: 2, Focus: "slow feet first", Sentence: "You waited for it.", Homework: "slow walk, 3 times 10, Monday",
		Next: "2026-03-11",
	}
	evening := model.Session{
		ID: "s", At: time.Date(2026, 3, 4, 23, 0, 0, 0, time.UTC), Place: "Lakeside", Pairs: []model.Pair{{7, 8}},
		Roster: []model.Seat{{Student: "bo", Lane: 7, Order: 1, Sentence: "Not for Ada."}, seat},
	}
	over := []model.DatedSheet{bowl(t, s, 2, 1, strings.Repeat("9- ", 10), "AACA")}
	page := handout.Text(handout.NewInput(s, evening, zone, over, nil, over))
	for _, words := range []string{
		"Thursday 5 March 2026 · Lakeside", "Your coach: You waited for it.", "Work on: slow feet first", "Homework: slow walk, 3 times 10, Monday",
		"Next time: Wednesday 11 March 2026",
	} {
		if !strings.Contains(page, words) {
			t.Errorf("%q is not on the page:\n%s", words, page)
		}
	}
	for _, words := range []string{"Not for Ada", "Work on: release"} {
		if strings.Contains(page, words) {
			t.Errorf("%q is on the page:\n%s", words, page)
		}
	}
	evening.Roster[1].Focus = ""
	if page := handout.Text(handout.NewInput(s, evening, zone, over, nil, over)); !strings.Contains(page, "Work on: release") {
		t.Errorf("without a focus of the evening the student's own is not on the page:\n%s", page)
	}
	evening.Roster = evening.Roster[:1]
	if page := handout.Text(handout.NewInput(s, evening, zone, over, nil, over)); strings.Contains(page, "Next time") {
		t.Errorf("a student without a seat has one's date:\n%s", page)
	}
}
