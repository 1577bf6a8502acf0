package handout_test

import (
	"slices"
	"strings"
	"testing"

	"coach.settee/model"
	"coach.settee/model/handout"
	"coach.settee/model/insight"
	"coach.settee/model/tenpin"
)

// After a game there are no figures of spares, of whatever kind, and nothing is said to cost so many pins; from ten tries on
// they are told, and a leave from five.
func TestFewSparesAreLeftOut(t *testing.T) {
	page := func(games int) string {
		in := handout.Input{At: eveningAt(0)}
		in.Figures.Student = plain
		for n := range games {
			x := bowl(t, plain, 0, n+1, "9- 9- 9- 9- 9- 9- (8)- X X XXX", "AAAA")
			for i := range x.Deliveries {
				if x.Racks[i].Count == 1 {
					x.Racks[i].Standing = tenpin.Standing(tenpin.Pins(10))
				}
			}
			in.Figures.Over = append(in.Figures.Over, x)
		}
		return handout.Text(in)
	}
	for _, words := range []string{"single pins", "spares ", "splits", "a game"} {
		if text := page(1); strings.Contains(text, words) {
			t.Errorf("one game tells %q:\n%s", words, text)
		}
	}
	if text := page(1); !strings.Contains(text, "missed most: the 10 pin, 6 times of 6") {
		t.Errorf("no leave in\n%s", text)
	}
	if text := page(2); !strings.Contains(text, "Work on: spares. 12 of 12 single pins were missed, about") ||
		!strings.Contains(text, "spares 0 of 14: single pins 0 of 12; missed") {
		t.Errorf("two games tell nothing of the spares:\n%s", text)
	}
}

// The card has the strike line and the corner pins whatever is known; the rest is to be filled in.
func TestTheCardIsFilledIn(t *testing.T) {
	in := handout.Input{At: eveningAt(0)}
	in.Figures.Student = plain
	in.Figures.Over = []model.DatedSheet{bowl(t, plain, 0, 1, strings.Repeat("9- ", 10), "AAAA")}
	says := func(words ...string) {
		t.Helper()
		text, pictures := handout.Text(in), strings.Count(html(t, in), `<figure class="shot">`)
		for _, w := range words {
			if !slices.Contains(strings.Split(text, "\n"), w) {
				t.Errorf("no line %q in\n%s", w, text)
			}
		}
		if blanks := strings.Count(html(t, in), `<u aria-label="to fill in">`); blanks != strings.Count(text, "___") || pictures != len(words) {
			t.Errorf("%d places to fill in and %d pictures on the page of\n%s", blanks, pictures, text)
		}
	}
	const computed = "10 pin: feet 32, eyes 21 (4th to 5th arrow); straight ball, a place to begin"
	says("strike, lanes 7 and 8: feet ___, eyes ___", "7 pin: feet ___, eyes ___", computed)
	for i, d := range in.Figures.Over[0].Deliveries {
		if d.Lane == 7 {
			in.Figures.Over[0].Deliveries[i].Aimed = line(15, 27)
		}
	}
	says("strike, lane 7: feet 27, eyes 15 (3rd arrow)", "strike, lane 8: feet ___, eyes ___",
		"7 pin: feet 22, eyes 15 (3rd arrow); moved from the strike line", computed)
	in.Figures.Over = nil
	says("strike: feet ___, eyes ___", "7 pin: feet ___, eyes ___", computed)
	in.Seat = model.Seat{Student: plain.ID, Lane: 9, Aimed: [2]model.Line{{Arrows: model.Known(12.0)}}}
	says("strike, lane 9: feet ___, eyes 12 (2nd to 3rd arrow)", "strike, lane 10: feet ___, eyes ___", "7 pin: feet 5 right, target stays; from the strike line",
		computed)
}

// The legend has what occurs, and where nobody saw a ball there is nothing to work on.
func TestUnseenPages(t *testing.T) {
	in := handout.Input{At: eveningAt(0)}
	in.Figures = insight.Input{Student: plain, Over: []model.DatedSheet{bowl(t, plain, 0, 1, strings.Repeat("9- ", 10), "")}}
	text := handout.Text(in)
	for _, words := range []string{"(●", "(○", "(B+", "Work on", "Next:", "Keep", "eep going", "seen."} {
		if strings.Contains(text, words) {
			t.Errorf("%q of an evening that nobody saw:\n%s", words, text)
		}
	}
	if !strings.Contains(text, "(– unseen)") {
		t.Errorf("no legend in\n%s", text)
	}
	in.Seat.Cue = "soft hand"
	if page := strings.Join(visible(t, html(t, in)), "\n"); !strings.Contains(page, "Say to yourself\nsoft hand") || strings.Contains(page, "Work on") {
		t.Errorf("the cue is not there:\n%s", page)
	}
}

// The coach's words are told whole up to what the page takes.
func TestTheCoachsWordsAreWhole(t *testing.T) {
	words := func(n int) string { return strings.Repeat("a", n-5) + " last" }
	in := handout.Input{At: eveningAt(0)}
	in.Figures.Student = plain
	in.Seat = model.Seat{
		Student: plain.ID, Sentence: words(handout.MaxSentence), Homework: words(handout.MaxHomework), Focus: words(handout.MaxFocus),
		Cue: words(handout.MaxCue),
	}
	if text := handout.Text(in); strings.Count(text, " last\n") != 4 || strings.Contains(text, "…") {
		t.Errorf("something is cut in\n%s", text)
	}
	in.Seat.Sentence = words(handout.MaxSentence + 1)
	if text := handout.Text(in); !strings.Contains(text, "a…\n") || strings.Count(text, " last\n") != 3 {
		t.Errorf("what is too long is not cut in\n%s", text)
	}
}
