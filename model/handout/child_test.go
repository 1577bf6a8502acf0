package handout_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"coach.settee/model"
	"coach.settee/model/handout"
)

var tones = []model.Tone{model.Gentle, model.Plain, model.Blunt}

// A beginner has dots, and nothing of what letters are made from, whatever the tone; the next level has it, but for gentle.
func TestBeginnersHaveDots(t *testing.T) {
	told := []string{`class="bars"`, `class="results"`, "cost", " board)", " boards)", "graded A", "A in "}
	for _, level := range []model.Level{model.New, model.Developing} {
		for _, tone := range tones {
			in := regular(t)
			s := &in.Figures.Student
			s.Level, s.Tone, s.Focus = level, tone, "release"
			for _, list := range [][]model.DatedSheet{in.Figures.Over, in.Figures.Earlier} {
				for _, x := range list {
					for i := range x.Deliveries {
						x.Deliveries[i].Level = level
					}
				}
			}
			text := strings.Join(visible(t, html(t, in)), "\n")
			if dots, want := strings.Contains(text, "○"), level == model.New || tone == model.Gentle; dots != want {
				t.Errorf("%s, %s: dots %v", level, tone, dots)
			} else if !want {
				continue
			}
			for _, page := range []string{html(t, in), handout.Text(in)} {
				_, page, _ = strings.Cut(page, "</style>")
				if page == "" {
					page = handout.Text(in)
				}
				for _, words := range told {
					if strings.Contains(page, words) {
						t.Errorf("%s, %s: the page has %q", level, tone, words)
					}
				}
				if hit := letterGrade.FindString(page); hit != "" {
					t.Errorf("%s, %s: the page shows the letter %q", level, tone, hit)
				}
			}
		}
	}
}

// A child of any level is spoken to by the first name and never bluntly, and the page is for the guardian too.
func TestChildrenAreSpokenTo(t *testing.T) {
	for _, of := range []func(testing.TB) handout.Input{newMinor, regular, elite, little} {
		for _, tone := range tones {
			in := of(t)
			s := &in.Figures.Student
			s.Name, s.Minor, s.Tone, s.Limits = "Milo Ferrant", true, tone, "left knee strapped"
			text, lines := handout.Text(in), visible(t, html(t, in))
			for _, page := range []string{text, strings.Join(lines, " ")} {
				for _, words := range []string{"Ferrant", "knee", "Lucky", "Luck ", "Goal not reached", "Too few"} {
					if strings.Contains(page, words) {
						t.Errorf("%s: the page says %q", tone, words)
					}
				}
				if !strings.Contains(page, "guardian of Milo") || !strings.Contains(page, "guardian's consent") {
					t.Errorf("%s: nothing for the guardian in\n%s", tone, page)
				}
			}
			if !regexp.MustCompile(`(?m)^Milo, (you|it) `).MatchString(text) || !slices.Contains(lines, "Milo") {
				t.Errorf("%s: the child is not spoken to in\n%s", tone, text)
			}
		}
	}
}

// An expert of age, told bluntly, is still called lucky.
func TestExpertsAreTold(t *testing.T) {
	if text := handout.Text(elite(t)); !strings.Contains(text, "Lucky strikes: 14 of 25.") || strings.Contains(text, "Kazimir,") {
		t.Errorf("no luck in\n%s", text)
	}
}
