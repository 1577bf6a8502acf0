package model_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"coach.settee/model"
)

func TestWhatWasLeft(t *testing.T) {
	aim := func(text string) model.Line {
		line, err := model.ParseAim(text, model.Line{})
		if err != nil {
			t.Fatal(err)
		}
		return line
	}
	for name, c := range map[string]struct {
		seat model.Seat
		own  string
		want string
	}{
		"nothing": {model.Seat{Lane: 7}, "", ""},
		"all": {
			model.Seat{Lane: 7, Homework: "10 pin, 3 times 10", Focus: "quiet head", Aimed: [2]model.Line{aim("17 34"), {}}}, "tempo",
			"10 pin, 3 times 10 (homework); quiet head (focus); 17 from 34 on 7",
		},
		"the focus of the record":     {model.Seat{Lane: 7}, "tempo", "tempo (focus)"},
		"the even lane's line":        {model.Seat{Lane: 7, Aimed: [2]model.Line{{}, aim("17 34 8@43")}}, "", "17 from 34 through 8@43 on 8"},
		"both lanes alike":            {model.Seat{Lane: 10, Aimed: [2]model.Line{aim("12 22.5"), aim("12 22.5")}}, "", "12 from 22.5 on 9/10"},
		"each lane's own":             {model.Seat{Lane: 8, Aimed: [2]model.Line{aim("17 34"), aim("18 34")}}, "", "17 from 34 on 7; 18 from 34 on 8"},
		"feet only":                   {model.Seat{Lane: 7, Aimed: [2]model.Line{aim(". 34"), {}}}, "", "from 34 on 7"},
		"the cue in force":            {model.Seat{Lane: 7, Cue: "slow"}, "tempo", "tempo (focus); slow (cue)"},
		"what is of one evening only": {model.Seat{Lane: 7, Sentence: "well held", Next: "2026-03-11", Out: true}, "", ""},
	} {
		s := model.Student{ID: "ada", Name: "Ada", Hand: model.RightHand, Focus: c.own, Limits: "left knee"}
		if got := (model.Left{At: evening, Seat: c.seat}).Words(s); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

func TestLimitsAreNeverLeft(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringMatching(`[a-z]{0,6}`)
		left := model.Left{Seat: model.Seat{Lane: 7, Homework: word.Draw(t, "homework"), Focus: word.Draw(t, "focus")}}
		s := model.Student{Focus: word.Draw(t, "own"), Limits: "LIMITS", Notes: "NOTES", Intake: model.Intake{Hurts: "HURTS"}}
		got := left.Words(s)
		if got != strings.ToLower(got) || left.Words(model.Student{Focus: s.Focus}) != got {
			t.Fatalf("said was %q", got)
		}
		if (got == "") != (left.Seat.Homework == "" && left.Seat.Focus == "" && s.Focus == "") {
			t.Fatalf("%+v and %q are %q", left.Seat, s.Focus, got)
		}
	})
}
