package model_test

import (
	"strings"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"

	"coach.settee/model"
)

func TestParsingASpareLine(t *testing.T) {
	inForce := func(pin int) model.Line {
		if pin == 10 {
			return aim(t, "20 32 12@40")
		}
		return model.Line{}
	}
	for text, want := range map[string]model.SpareLine{
		"7 17 34":          {Pin: 7, Line: aim(t, "17 34")},
		" 1  17 34 8@43 ":  {Pin: 1, Line: aim(t, "17 34 8@43")},
		"7 . 34":           {Pin: 7, Line: aim(t, ". 34")},
		"10 21":            {Pin: 10, Line: aim(t, "21 32 12@40")},
		"10 . 33":          {Pin: 10, Line: aim(t, "20 33 12@40")},
		"10 .":             {Pin: 10, Line: aim(t, "20 32 12@40")},
		"10":               {Pin: 10},
		"7":                {Pin: 7},
		"10 21.5 32 13@41": {Pin: 10, Line: aim(t, "21.5 32 13@41")},
	} {
		got, err := model.ParseSpareLine(text, inForce)
		if diff := gocmp.Diff(want, got); err != nil || diff != "" {
			t.Errorf("%q: %v (-want +got):\n%s", text, err, diff)
		}
	}
	for text, words := range map[string]string{
		"":                "no pin is named: 10 21 32 is",
		"0 21 32":         `"0" is no pin: the pin, 1 to 10, comes first`,
		"11":              `"11" is no pin`,
		"10.5 21":         `"10.5" is no pin`,
		". 21 32":         `"." is no pin`,
		"10 46 32":        "no board at the arrows",
		"7 .":             "no line is named",
		"7 . . .@43":      "a breakpoint's distance without its board",
		"10 21 32 8@43 1": `"1" is one too many`,
	} {
		if got, err := model.ParseSpareLine(text, inForce); err == nil || !strings.Contains(err.Error(), words) ||
			got != (model.SpareLine{}) {
			t.Errorf("%q is read as %+v, %v", text, got, err)
		}
	}
}

func TestSettingSpareLines(t *testing.T) {
	l := beginLesson(t, "Ada 172, Bo")
	ada := l.UpStudent()
	l.press("x")
	set := func(pin int, line string) {
		t.Helper()
		l.mustKeep(l.SetSpareLine(ada, pin, aim(t, line)))
		l.check()
	}
	words := func() string {
		last, _ := l.Last()
		return last.What
	}
	kept := func(want ...model.SpareLine) {
		t.Helper()
		if diff := gocmp.Diff(want, l.Student(ada).SpareLines); diff != "" {
			t.Errorf("(-want +got):\n%s", diff)
		}
	}
	seven, ten := model.SpareLine{Pin: 7, Line: aim(t, "15 20")}, model.SpareLine{Pin: 10, Line: aim(t, "21 32")}
	set(10, "21 32")
	kept(ten)
	if words() != "own line of Ada for the 10 pin: at 21 from 32" {
		t.Error(words())
	}
	set(7, "15 20")
	kept(seven, ten)
	set(10, "20 31 12@40")
	kept(seven, model.SpareLine{Pin: 10, Line: aim(t, "20 31 12@40")})
	l.mustKeep(l.Undo())
	kept(seven, ten)

	before := l.view()
	for _, same := range []model.SpareLine{ten, {Pin: 6}} {
		step, err := l.SetSpareLine(ada, same.Pin, same.Line)
		if err != nil || len(step.Changes) != 0 {
			t.Errorf("what is kept for the %d once more gives %+v and %v", same.Pin, step, err)
		}
		l.mustKeep(step, err)
	}
	before.sameAs(t, "what is kept once more", l.view())

	l = l.restart()
	kept(seven, ten)
	set(7, "")
	kept(ten)
	if words() != "own line of Ada for the 7 pin taken off" {
		t.Error(words())
	}
	set(10, "")
	kept()
	for range 4 {
		l.mustKeep(l.Undo())
	}
	kept()
	l.check()
	l.mustKeep(l.Redo())
	kept(ten)
	if got := l.Student(ada); got.SpareLine(10) != ten.Line || !got.SpareLine(7).IsZero() {
		t.Errorf("%+v", got.SpareLines)
	}
}

func TestSettingSpareLinesRefused(t *testing.T) {
	l := beginLesson(t, "Ada 172").press("x")
	k := model.Known[float64]
	line := aim(t, "21 32")
	before := l.view()
	for _, tt := range []struct {
		name    string
		student model.ID
		pin     int
		line    model.Line
		words   string
	}{
		{"nobody", "Bo", 10, line, "not in tonight's roster"},
		{"pin 0", "Ada", 0, line, "the 0 pin: pins are 1 to 10"},
		{"pin 11", "Ada", 11, line, "the 11 pin: pins are 1 to 10"},
		{"pin 11 taken off", "Ada", 11, model.Line{}, "the 11 pin: pins are 1 to 10"},
		{"a board too high", "Ada", 10, model.Line{Slide: k(46)}, "the own line for the 10 pin: board 46: boards are 1 to 39"},
		{"a distance of no board", "Ada", 10, model.Line{Slide: k(30), BreakpointFt: k(43)}, "without its board"},
	} {
		if _, err := l.SetSpareLine(tt.student, tt.pin, tt.line); err == nil || !strings.Contains(err.Error(), tt.words) {
			t.Errorf("%s: %v, want words like %q", tt.name, err, tt.words)
		}
		before.sameAs(t, tt.name, l.view())
	}
}

func TestStudentsWithSpareLines(t *testing.T) {
	k := model.Known[float64]
	line := model.Line{Arrows: k(21), Slide: k(32)}
	for words, lines := range map[string][]model.SpareLine{
		"":                           {{1, line}, {7, line}, {10, line}},
		"the 7 pin has two":          {{7, line}, {7, line}},
		"order of the pins":          {{10, line}, {7, line}},
		"the 0 pin":                  {{0, line}},
		"the 11 pin":                 {{11, line}},
		"6 pin: no line is named":    {{6, model.Line{}}},
		"10 pin: board -1":           {{10, model.Line{Arrows: k(-1)}}},
		"distance without its board": {{10, model.Line{BreakpointFt: k(43)}}},
	} {
		err := model.Student{ID: "s", Name: "Bo", Hand: model.RightHand, SpareLines: lines}.Validate()
		if (err == nil) != (words == "") || err != nil && !strings.Contains(err.Error(), words) {
			t.Errorf("%+v: %v, want words like %q", lines, err, words)
		}
	}
}
