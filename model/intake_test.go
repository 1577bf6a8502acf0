package model_test

import (
	"strings"
	"testing"
	"time"

	"coach.settee/model"
)

func TestAnIntake(t *testing.T) {
	for name, c := range map[string]struct {
		intake model.Intake
		words  string
	}{
		"none":              {model.Intake{}, ""},
		"a date alone":      {model.Intake{On: "2026-03-04"}, ""},
		"a leap day":        {model.Intake{On: "2028-02-29"}, ""},
		"no date":           {model.Intake{Motion: model.Swing}, "without a date"},
		"only a hurt":       {model.Intake{Hurts: "left knee"}, "without a date"},
		"no such day":       {model.Intake{On: "2026-02-29"}, "write a date as 2026-03-11"},
		"another writing":   {model.Intake{On: "4.3.2026"}, "write a date as 2026-03-11"},
		"no motion":         {model.Intake{On: "2026-03-04", Motion: "push"}, "motion"},
		"no direction":      {model.Intake{On: "2026-03-04", Direction: "up"}, "direction"},
		"no place of hand":  {model.Intake{On: "2026-03-04", HandAt: "under"}, "hand"},
		"no timing":         {model.Intake{On: "2026-03-04", Timing: "on-time"}, "timing"},
		"no way to learn":   {model.Intake{On: "2026-03-04", Learns: "reading"}, "learning"},
		"a hurt of 2 lines": {model.Intake{On: "2026-03-04", Hurts: "knee\nwrist"}, "control character"},
		"two that are none": {model.Intake{On: "2026-03-04", Motion: "push", Timing: "never"}, "never"},
	} {
		err := model.Student{ID: "ada", Name: "Ada", Hand: model.RightHand, Intake: c.intake}.Validate()
		switch {
		case c.words == "" && err != nil:
			t.Errorf("%s: %v", name, err)
		case c.words != "" && (err == nil || !strings.Contains(err.Error(), c.words)):
			t.Errorf("%s is refused with %v, want words like %q", name, err, c.words)
		}
	}
}

func TestEveryWordOfAnIntakeIsTaken(t *testing.T) {
	s := model.Student{ID: "ada", Name: "Ada", Hand: model.RightHand}
	for i := range 3 {
		s.Intake = model.Intake{
			On: "2026-03-04", Motion: model.Motions[i], Direction: model.Directions[i], HandAt: model.HandsAt[i],
			Timing: model.Timings[i], Learns: model.Learnings[i], Hurts: "left knee on stairs",
		}
		if err := s.Validate(); err != nil {
			t.Errorf("%+v: %v", s.Intake, err)
		}
	}
	for _, n := range []int{
		len(model.Motions), len(model.Directions), len(model.HandsAt), len(model.Timings), len(model.Learnings),
	} {
		if n != 3 {
			t.Errorf("%d words of a kind, want 3", n)
		}
	}
}

func TestAnIntakeIsTaken(t *testing.T) {
	now := time.Date(2026, 3, 4, 23, 30, 0, 0, time.FixedZone("", -5*3600))
	got := model.Intake{Timing: model.Late, Hurts: "sore after school"}
	for _, tt := range []struct{ limits, want string }{{"", "sore after school"}, {"left knee", "left knee"}} {
		s := model.Student{Name: "Ada", Limits: tt.limits}.WithIntake(got, now)
		if s.Limits != tt.want || s.Intake.On != "2026-03-04" || s.Intake.Timing != model.Late || s.Name != "Ada" {
			t.Errorf("%+v", s)
		}
	}
}
