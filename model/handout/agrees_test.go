package handout_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"coach.settee/model"
	"coach.settee/model/handout"
	"coach.settee/model/insight"
)

// seen gives a game of ten full racks without a strike, of which so many were good, not good, and not seen.
func seen(t testing.TB, s model.Student, number, good, other, unseen int) model.DatedSheet {
	var letters []string
	for _, of := range []struct {
		n       int
		letters string
	}{{good, "AAAA"}, {other, "AACA"}, {unseen, ""}} {
		for range of.n {
			letters = append(letters, of.letters, "AAAA")
		}
	}
	return bowl(t, s, 0, number, strings.Repeat("9- ", good+other+unseen), letters...)
}

// The goal of the regular is five: a game counts where that is decided, whatever was not seen, and the sentence says of which
// games it is.
func TestTheGoalAsTheRingsShowIt(t *testing.T) {
	for _, c := range []struct {
		name  string
		games [][3]int
		want  string
	}{
		{"one", [][3]int{{5, 5, 0}}, "5 good of 10 shots seen. The goal was reached."},
		{"one, not", [][3]int{{4, 6, 0}}, "4 good of 10 shots seen. The goal was not reached."},
		{"reached with racks unseen", [][3]int{{9, 1, 0}, {8, 1, 1}}, "17 good of 19 shots seen. The goal was reached in 2 of 2 games."},
		{"out of reach with racks unseen", [][3]int{{6, 4, 0}, {3, 6, 1}}, "9 good of 19 shots seen. The goal was reached in 1 of 2 games."},
		{"within reach of what was unseen", [][3]int{{6, 4, 0}, {4, 5, 1}}, "10 good of 19 shots seen. The goal was reached in game 1."},
		{"nothing decided", [][3]int{{4, 5, 1}}, "4 good of 9 shots seen."},
		{"none reached, one undecided", [][3]int{{4, 5, 1}, {1, 9, 0}}, "5 good of 19 shots seen."},
		{"a game that nobody saw", [][3]int{{0, 0, 10}, {6, 4, 0}}, "6 good of 10 shots seen. The goal was reached."},
		{"open, and there already", [][3]int{{5, 5, 0}, {5, 1, 0}}, "10 good of 16 shots seen. The goal was reached in 2 of 2 games."},
		{"open, and not yet", [][3]int{{5, 5, 0}, {6, 4, 0}, {0, 1, 0}}, "11 good of 21 shots seen. The goal was reached in games 1 and 2."},
		{"a single shot", [][3]int{{1, 0, 0}}, "1 good of 1 shot seen."},
	} {
		in := handout.Input{At: eveningAt(0)}
		in.Figures.Student = plain
		for i, g := range c.games {
			in.Figures.Over = append(in.Figures.Over, seen(t, plain, i+1, g[0], g[1], g[2]))
		}
		if text := handout.Text(in); !strings.Contains(text, "\n"+c.want+"\n") {
			t.Errorf("%s: want %q in\n%s", c.name, c.want, text)
		}
		in.Figures.Student.Tone = model.Gentle
		gently := map[string]string{"reached with racks unseen": " in both games", "one": "", "open, and not yet": " in games 1 and 2"}
		if where, ok := gently[c.name]; ok && !strings.Contains(handout.Text(in), "\nYou reached your goal"+where+": well done.\n") {
			t.Errorf("%s, gently: want %q in\n%s", c.name, where, handout.Text(in))
		}
	}
}

// The first sentence, what to keep and what to work on are three things: no axis is spoken of twice, a run is nothing to
// keep, and what is shown to have gone down did not hold up.
func TestOneThingEach(t *testing.T) {
	axis := regexp.MustCompile(`(?i)\b(balance|target|release|finish|spares|single pins)\b`)
	kept, worked := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		in := anyEvening(t, rapid.SampledFrom(tones).Draw(t, "tone"))
		in.Figures.Student.Focus = rapid.SampledFrom([]string{"", "release", "the same finish under pressure", "quiet hand"}).Draw(t, "focus")
		text := handout.Text(in)
		lead, _, _ := strings.Cut(strings.SplitN(text, "\n\n", 3)[1], "\n")
		if strings.HasPrefix(lead, "Keep: ") || strings.HasPrefix(lead, "Work on: ") {
			lead = ""
		}
		keep, work := lineOf(text, "Keep: "), lineOf(text, "Work on: ")
		if strings.Contains(keep, "run") {
			t.Fatalf("%q, and to keep %q", lead, keep)
		}
		for _, of := range axis.FindAllString(lead, -1) {
			if of = strings.ToLower(of); strings.Contains(keep, of) || strings.Contains(work, of) {
				t.Fatalf("%q, to keep %q, to work on %q", lead, keep, work)
			}
		}
		if keep == "" {
			return
		}
		kept++
		held := axis.FindString(keep)
		if held == "" || strings.Contains(work, held) || held == "release" && strings.Contains(work, "hand") {
			t.Fatalf("to keep %q, to work on %q", keep, work)
		}
		if work != "" {
			worked++
		}
		if fell := regexp.MustCompile(`(?m)^` + held + ` .*: (\d+)%, was (\d+)%`).FindStringSubmatch(text); fell != nil {
			var now, before int
			fmt.Sscan(fell[1], &now)
			fmt.Sscan(fell[2], &before)
			if now < before {
				t.Fatalf("to keep %q, and\n%s", keep, fell[0])
			}
		}
	})
	if kept == 0 || worked == 0 {
		t.Errorf("%d pages with something to keep were looked at, %d with both", kept, worked)
	}
}

// lineOf gives the line of a text that begins so, without its beginning.
func lineOf(text, begins string) string {
	_, after, _ := strings.Cut(text, "\n"+begins)
	line, _, _ := strings.Cut(after, "\n")
	return line
}

// One of a thing has no s, in the page and in the text, whatever was bowled.
func TestOneHasNoPlural(t *testing.T) {
	ones := regexp.MustCompile(`\b1 (strikes|shots|spares|games|balls|boards|pins|times)\b|\bframes (\d|10\.\d)\.$|\bgames \d+\.`)
	rapid.Check(t, func(t *rapid.T) {
		in := anyEvening(t, rapid.SampledFrom(tones).Draw(t, "tone"))
		for _, page := range append(visible(t, html(t, in)), strings.Split(handout.Text(in), "\n")...) {
			if hit := ones.FindString(page); hit != "" {
				t.Fatalf("%q in %q", hit, page)
			}
		}
	})
}

// Lucky strikes of a run are named in the singular where there is one.
func TestOneLuckyStrike(t *testing.T) {
	s := model.Student{ID: "kaz", Name: "Kaz", Average: model.Known(221)}
	in := handout.Input{At: eveningAt(0)}
	in.Figures = insight.Input{Student: s, Over: []model.DatedSheet{bowl(t, s, 0, 1, "X X X 9- 9- 9- 9- 9- 9- 9-", "AAAA", "AACA", "AAAA", "AAAA",
		"AAAA", "AAAA", "AAAA", "AAAA", "AAAA", "AAAA", "AAAA", "AAAA", "AAAA", "AAAA", "AAAA", "AAAA", "AAAA")}}
	if text := handout.Text(in); !strings.Contains(text, "\nGame 1: 3 strikes in a row, lucky in frame 2.\n") {
		t.Errorf("no lucky strike in\n%s", text)
	}
}
