package model_test

import (
	"testing"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

func TestPlans(t *testing.T) {
	drill := func(n int, name string, pins ...int) model.Plan {
		return model.Plan{Kind: model.KindDrill, Length: n, Name: name, Pins: tenpin.Pins(pins...)}
	}
	last := drill(12, "slow feet")
	for text, want := range map[string]model.Plan{
		"":                           last,
		"  ":                         last,
		"g":                          {Kind: model.KindGame},
		"G":                          {Kind: model.KindGame},
		" w ":                        {Kind: model.KindWarmup},
		"10":                         drill(10, ""),
		"500":                        drill(500, ""),
		"10 corner":                  drill(10, "corner"),
		"10 corner 10":               drill(10, "corner", 10),
		"10 10":                      drill(10, "", 10),
		"8 slow feet":                drill(8, "slow feet"),
		"8 buckets 2-4-5-8":          drill(8, "buckets", 2, 4, 5, 8),
		"8 buckets 2,4,5":            drill(8, "buckets", 2, 4, 5),
		"8 corners 7 10":             drill(8, "corners", 7, 10),
		"8 3 times 10":               drill(8, "3 times", 10),
		"5 all 1-2-3-4-5-6-7-8-9-10": drill(5, "all"),
		"5 plus +5":                  drill(5, "plus +5"),
		"5 board 11":                 drill(5, "board 11"),
		"5 none 0":                   drill(5, "none 0"),
		"5 - ":                       drill(5, "-"),
	} {
		if got, err := model.ParsePlan(text, last); err != nil || got != want {
			t.Errorf("%q is read as %+v, want %+v, %v", text, got, want, err)
		}
	}
	for _, text := range []string{"x", "0", "-3", "+3", "501", "99999999999999999999", "g 10", "game", "w 5", "corner 10", "1.5", "5 a\x1bb"} {
		if got, err := model.ParsePlan(text, last); err == nil {
			t.Errorf("%q is read as %+v", text, got)
		}
	}
}

func TestLastPlan(t *testing.T) {
	l := beginLesson(t, "Ada 172")
	if got := l.LastPlan(); got != (model.Plan{Kind: model.KindGame}) {
		t.Errorf("at first it is %+v", got)
	}
	want := model.Plan{Kind: model.KindDrill, Length: 10, Name: "corner", Pins: tenpin.Pins(10)}
	if got := l.press("G10 corner 10⏎ x").LastPlan(); got != want {
		t.Errorf("after a drill it is %+v", got)
	}
	if got := beginLesson(t, "").LastPlan(); got != (model.Plan{Kind: model.KindGame}) {
		t.Errorf("with nobody up it is %+v", got)
	}
}
