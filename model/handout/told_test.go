package handout_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"coach.settee/model"
	"coach.settee/model/handout"
	"coach.settee/model/insight"
	"coach.settee/model/tenpin"
)

// tonight gives the page of a plain student with a past of four games and an evening of one, as text.
func tonight(t *testing.T, s model.Student, notation, past, now string) string {
	t.Helper()
	var earlier []model.DatedSheet
	for n := range 4 {
		earlier = append(earlier, bowl(t, s, n/2, n%2+1, "9- 9- 9- 9- 9- 9- 9- 9- 9- 9-", past))
	}
	over := []model.DatedSheet{bowl(t, s, 2, 1, notation, now)}
	return handout.Text(handout.Input{
		At: eveningAt(2), Figures: insight.Input{Student: s, Over: over, Earlier: earlier, First: earlier[:2]},
	})
}

var plain = model.Student{ID: "ada", Name: "Ada Marsh", Hand: model.RightHand, Average: model.Known(172)}

// Ten shots are enough for a share, nine are not: what has too little behind it is not there at all.
func TestTooLittleIsLeftOut(t *testing.T) {
	whole := []string{"release graded A: 0%, was 100% (tonight 0 of 10, before 40 of 40)", "What cost the other 10 shots: release cost 10 of 10",
		"Good shots: 0 strikes, 0 not; the others: 0 strikes, 10 not", "At the start 10 of 10 good, tonight 0 of 10."}
	ten := tonight(t, plain, strings.Repeat("9- ", 10), "AAAA", "AACA")
	nine := tonight(t, plain, strings.Repeat("9- ", 9), "AAAA", "AACA")
	for i, words := range whole {
		if i == 0 {
			words = "good shots: 0%, was 100% (tonight 0 of 10, before 40 of 40)"
		}
		if !strings.Contains(ten, words) {
			t.Errorf("ten shots do not tell %q:\n%s", words, ten)
		}
		head, _, _ := strings.Cut(words, ":")
		head, _, _ = strings.Cut(head, "tonight")
		if strings.Contains(nine, "\n"+head) {
			t.Errorf("nine shots tell %q:\n%s", head, nine)
		}
	}
	for _, hedge := range []string{"too few", "unknown", "not known"} {
		if strings.Contains(nine, hedge) {
			t.Errorf("the page hedges with %q", hedge)
		}
	}
}

// What is worked on goes before the good shots, and what stayed as it was has not moved.
func TestTheNumberThatMoved(t *testing.T) {
	game := strings.Repeat("9- ", 10)
	s := plain
	s.Focus = "release"
	for _, test := range []struct {
		student   model.Student
		past, now string
		want      string
	}{
		{s, "AAAA", "AACA", "release graded A: 0%, was 100%"},
		{plain, "AAAA", "AACA", "good shots: 0%, was 100%"},
		{plain, "AABA", "AAAA", "release graded A: 100%, was 0%"},
		{plain, "AAAA", "AAAA", ""},
		{gentle(s), "AAAA", "AACA", ""},
		{gentle(s), "AACA", "AAAA", "release just right: 10 in 10, was 0 in 10"},
	} {
		text := tonight(t, test.student, game, test.past, test.now)
		if moved := strings.Contains(text, ", was "); !strings.Contains(text, test.want) || moved != (test.want != "") {
			t.Errorf("%s, then %s: want %q in\n%s", test.past, test.now, test.want, text)
		}
	}
}

func gentle(s model.Student) model.Student {
	s.Tone = model.Gentle
	return s
}

// The strike line is the one left at the seat, else that of the last ball on the lane; the 7 pin is the student's own, the
// one made tonight, or moved from the strike line.
func TestFeetAndEyes(t *testing.T) {
	s := plain
	over := []model.DatedSheet{bowl(t, s, 0, 1, strings.Repeat("9- ", 10), "AAAA")}
	aims(line(12, 22), line(11, 21), over...)
	in := handout.Input{At: eveningAt(0), Figures: insight.Input{Student: s, Over: over, First: over}}
	in.Seat = model.Seat{Student: s.ID, Lane: 7, Aimed: [2]model.Line{line(15, 27)}}
	says := func(words ...string) {
		t.Helper()
		text := strings.Split(handout.Text(in), "\n")
		for _, w := range words {
			if !slices.Contains(text, w) {
				t.Errorf("no line %q in\n%s", w, strings.Join(text, "\n"))
			}
		}
	}
	// By 3-6-9 walked along the line a 7 pin is 4.5 boards of laydown; the table's move for both lanes is 5.
	says("strike, lane 7: feet 27, eyes 15 (3rd arrow)", "strike, lane 8: feet 21, eyes 11 (2nd to 3rd arrow)",
		"7 pin: feet 22 / 16, eyes 15 / 11; moved from the strike line, lane 7 / lane 8")
	made := over[0].Deliveries[3]
	over[0].Racks[3].Standing = tenpin.Standing(tenpin.Pins(7))
	made.Pins, made.Line = model.Known(1), line(16, 24)
	over[0].Deliveries[3] = made
	says("7 pin: feet 24, eyes 16 (3rd to 4th arrow); as you made it tonight")
	in.Figures.Student.SpareLines = []model.SpareLine{{Pin: 7, Line: line(14, 20)}}
	in.Seat.Aimed[1] = line(15, 27)
	says("strike, lanes 7 and 8: feet 27, eyes 15 (3rd arrow)", "7 pin: feet 20, eyes 14 (2nd to 3rd arrow); your own line")
}

// A date is that of the place.
func TestTheDateIsThatOfThePlace(t *testing.T) {
	in := newMinor(t)
	in.At = in.At.In(time.FixedZone("", 7*60*60))
	if text := handout.Text(in); !strings.Contains(text, "Thursday 5 March 2026") {
		t.Errorf("no local date in\n%s", text)
	}
}
