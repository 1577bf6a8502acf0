package model_test

import (
	"strings"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"

	"coach.settee/model"
)

func TestLinePrompt(t *testing.T) {
	k := model.Known[float64]
	last := model.LineCall{
		Line:     model.Line{Arrows: k(15), Slide: k(30), Breakpoint: k(7), BreakpointFt: k(42)},
		SpeedMPH: k(16),
	}
	tests := []struct {
		text string
		want model.LineCall
	}{
		{"", model.LineCall{}},
		{"17", model.LineCall{Line: model.Line{Arrows: k(17)}}},
		{"17.5 34", model.LineCall{Line: model.Line{Arrows: k(17.5), Slide: k(34)}}},
		{"17 34 8", model.LineCall{Line: model.Line{Arrows: k(17), Slide: k(34), Breakpoint: k(8)}}},
		{"17 34 8@43 16.1", model.LineCall{
			Line: model.Line{Arrows: k(17), Slide: k(34), Breakpoint: k(8), BreakpointFt: k(43)}, SpeedMPH: k(16.1),
		}},
		{". . . .", last},
		{". 31", model.LineCall{Line: model.Line{Arrows: k(15), Slide: k(31)}}},
		{". . .@44", model.LineCall{Line: model.Line{Arrows: k(15), Slide: k(30), Breakpoint: k(7), BreakpointFt: k(44)}}},
		{"+1.5", model.LineCall{HitBoards: k(1.5)}},
		{"17 -2 34", model.LineCall{Line: model.Line{Arrows: k(17), Slide: k(34)}, HitBoards: k(-2)}},
		{"-0", model.LineCall{HitBoards: k(0)}},
		{"0 45", model.LineCall{Line: model.Line{Arrows: k(0), Slide: k(45)}}},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			got, err := model.ParseLine(tt.text, last)
			if diff := gocmp.Diff(tt.want, got); err != nil || diff != "" {
				t.Errorf("%v (-want +got):\n%s", err, diff)
			}
		})
	}
}

func TestLinePromptRefused(t *testing.T) {
	last := model.LineCall{Line: model.Line{Arrows: model.Known(15.0)}}
	for text, words := range map[string]string{
		"46":           `"46" is no board at the arrows`,
		"x":            "no board at the arrows",
		"17 NaN":       "no board at the slide",
		"1e1":          "no board at the arrows",
		"0x10":         "no board at the arrows",
		"1.2.3":        "no board at the arrows",
		"17 34 @43":    "no board at the breakpoint",
		"17 34 8@":     "no distance of a breakpoint",
		"17 34 8@70":   "no distance of a breakpoint",
		"17 34 8@19":   "no distance of a breakpoint",
		"17 34 8@4@3":  "no distance of a breakpoint",
		"17 34 8 0.5":  "no speed",
		"17 34 8 41":   "no speed",
		"17 34 8 fast": "no speed",
		"17 34 8 16 1": "one too many",
		"+":            "no hit in boards",
		"-":            "no hit in boards",
		"+Inf":         "no hit in boards",
		"--1":          "no hit in boards",
		"+20.5":        "no hit in boards",
		"+1 -1":        "a second hit",
	} {
		if got, err := model.ParseLine(text, last); err == nil || !strings.Contains(err.Error(), words) || got != (model.LineCall{}) {
			t.Errorf("%q is read as %+v, %v", text, got, err)
		}
	}
}

func TestLineKeepsTheLastOnTheLane(t *testing.T) {
	k := model.Known[float64]
	tests := []struct {
		name, keys string
		want       model.Line
		speed      model.Optional[float64]
	}{
		{"of the same lane", "L17 34 8@43 16⏎ x L9 9⏎ x L. . . .⏎ x",
			model.Line{Arrows: k(17), Slide: k(34), Breakpoint: k(8), BreakpointFt: k(43)}, k(16)},
		{"each part for itself", "L17 34⏎ x x L18⏎ x x L. .⏎ x", model.Line{Arrows: k(18), Slide: k(34)}, model.Optional[float64]{}},
		{"unknown where there is none", "L. 33⏎ x", model.Line{Slide: k(33)}, model.Optional[float64]{}},
		{"of an earlier game", "L17⏎ x x Gg because tired⏎ L.⏎ x", model.Line{Arrows: k(17)}, model.Optional[float64]{}},
		{"what is not named stays as it was said", "L17 34 8@43⏎ L18⏎ x",
			model.Line{Arrows: k(18), Slide: k(34), Breakpoint: k(8), BreakpointFt: k(43)}, model.Optional[float64]{}},
		{"another breakpoint has no distance of the one before", "L17 34 8@43⏎ L17 34 9⏎ x",
			model.Line{Arrows: k(17), Slide: k(34), Breakpoint: k(9)}, model.Optional[float64]{}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			ds := beginLesson(t, "Ada 172").press(tt.keys).Sheet("Ada").Deliveries
			if d := ds[len(ds)-1]; d.Line != tt.want || d.SpeedMPH != tt.speed {
				t.Errorf("%+v at %v", d.Line, d.SpeedMPH)
			}
		})
	}
	t.Run("before the delivery that is open", func(t *testing.T) {
		l := beginLesson(t, "Ada 172").press("L17⏎ x x x x L20⏎ x , , , L.⏎ ⏎")
		if d := l.Sheet("Ada").Deliveries[2]; d.Line.Arrows != k(17) {
			t.Errorf("%+v", d.Line)
		}
	})
	beginLesson(t, "Ada 172").refuse("L99⏎", "no board at the arrows")
}

// Of a hit in a word and one in boards that lie on different sides the one that is said last is kept.
func TestHitSaidTwice(t *testing.T) {
	k := model.Known[float64]
	none := model.Optional[float64]{}
	for _, tt := range []struct {
		keys   string
		hit    model.Hit
		boards model.Optional[float64]
	}{
		{"h L+1⏎ x", model.High, k(1)}, {"L-0.5⏎ h x", model.High, k(-.5)}, {"L-1⏎ h x", model.High, none},
		{"h L-1⏎ x", "", k(-1)}, {"L+1⏎ l x", model.Light, none}, {"p L+1⏎ x", model.Pocket, k(1)},
		{"p L+1.5⏎ x", "", k(1.5)}, {"L+3⏎ p x", model.Pocket, none}, {"L+9⏎ ll x", model.Missed, none},
	} {
		d := beginLesson(t, "Ada 172").press(tt.keys).Sheet("Ada").Deliveries[0]
		if d.Hit != tt.hit || d.HitBoards != tt.boards {
			t.Errorf("%s: %q at %v", tt.keys, d.Hit, d.HitBoards)
		}
	}
}
