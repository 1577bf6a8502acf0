package model_test

import (
	"fmt"
	"strings"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"

	"coach.settee/model"
)

func TestParsingAnAim(t *testing.T) {
	k := model.Known[float64]
	for text, want := range map[string]model.Line{
		"":            {},
		"17":          {Arrows: k(17)},
		" 17.5  34 ":  {Arrows: k(17.5), Slide: k(34)},
		"17 34 8":     {Arrows: k(17), Slide: k(34), Breakpoint: k(8)},
		"17 34 8@43":  {Arrows: k(17), Slide: k(34), Breakpoint: k(8), BreakpointFt: k(43)},
		". 34":        {Slide: k(34)},
		"0 . 45@60":   {Arrows: k(0), Breakpoint: k(45), BreakpointFt: k(60)},
		"17 34 . ":    {Arrows: k(17), Slide: k(34)},
		"17 34 8@20 ": {Arrows: k(17), Slide: k(34), Breakpoint: k(8), BreakpointFt: k(20)},
	} {
		got, err := model.ParseAim(text, model.Line{})
		if diff := gocmp.Diff(want, got); err != nil || diff != "" {
			t.Errorf("%q: %v (-want +got):\n%s", text, err, diff)
		}
	}
	for text, words := range map[string]string{
		"46":            `"46" is no board at the arrows`,
		"17 x":          "no board at the slide",
		"17 34 @43":     "no board at the breakpoint",
		"17 34 8@61":    "no distance of a breakpoint: 20 to 60 feet",
		"17 34 8@43 16": `"16" is one too many: arrows, slide, breakpoint`,
		"+1":            "no board at the arrows",
		"17 -1":         "no board at the slide",
		"17 34 .@43":    "a breakpoint's distance without its board",
	} {
		if got, err := model.ParseAim(text, model.Line{}); err == nil || !strings.Contains(err.Error(), words) || !got.IsZero() {
			t.Errorf("%q is read as %+v, %v", text, got, err)
		}
	}
}

func TestParsingAnAimFromTheLineInForce(t *testing.T) {
	k := model.Known[float64]
	inForce := model.Line{Arrows: k(17), Slide: k(34), Breakpoint: k(8), BreakpointFt: k(43)}
	for text, want := range map[string]string{
		"": "17 34 8@43", ".": "17 34 8@43", "16": "16 34 8@43", ". 36": "17 36 8@43", ". . .": "17 34 8@43",
		". . 9": "17 34 9@43", ". . .@45": "17 34 8@45", "15 . 9@40": "15 34 9@40", "15 30 .": "15 30 8@43",
	} {
		got, err := model.ParseAim(text, inForce)
		if diff := gocmp.Diff(aim(t, want), got); err != nil || diff != "" {
			t.Errorf("%q: %v (-want +got):\n%s", text, err, diff)
		}
	}
	if got, err := model.ParseAim("16", model.Line{Breakpoint: k(8)}); err != nil || got != aim(t, "16 . 8") {
		t.Errorf("of a line without a slide: %+v, %v", got, err)
	}
}

// aim reads a line to aim at.
func aim(t tester, text string) model.Line {
	t.Helper()
	line, err := model.ParseAim(text, model.Line{})
	if err != nil {
		t.Fatal(err)
	}
	return line
}

// aimed gives lane and arrows aimed at of the deliveries of a student's last game, "-" for no line.
func (l *lesson) aimed(student model.ID) string {
	var out []string
	for _, d := range l.Sheet(student).Deliveries {
		arrows := "-"
		if d.Aimed.Arrows.Known {
			arrows = fmt.Sprint(d.Aimed.Arrows.Value)
		}
		out = append(out, fmt.Sprintf("%d:%s", d.Lane, arrows))
	}
	return strings.Join(out, " ")
}

// Ada is alone on 7/8 and bowls her frames on 7 and 8 in turn.
func TestWhatDeliveriesAreAimedAt(t *testing.T) {
	for _, tt := range []struct{ name, keys, want string }{
		{"nothing is set", "x x", "7:- 8:-"},
		{"from the next ball, on its own lane", "x M7 17 34⏎ x x x", "7:- 8:- 7:17 8:-"},
		{"both lanes", "M7 17⏎ M8 15⏎ 7⏎/ 7⏎/", "7:17 7:17 8:15 8:15"},
		{"another line takes its place", "M7 17 34⏎ x x M7 15⏎ x x x", "7:17 8:- 7:15 8:- 7:15"},
		{"set and taken back", "M7 17⏎ x x M7 15⏎ ⌫ x", "7:17 8:- 7:17"},
		{"taken back and done again", "M7 17⏎ x x M7 15⏎ ⌫ U x", "7:17 8:- 7:15"},
		{"a ball taken back and bowled again", "M7 17⏎ x ⌫ M7 15⏎ x", "7:15"},
		{"caught up", "M7 17⏎ M8 15⏎ ZX 9/ X⏎", "7:17 8:15 8:15 7:17"},
		{"a dead ball", "M7 17⏎ D x", "7:17 7:17"},
		{"a change of lanes keeps both", "M7 17⏎ M8 15⏎ x W x x", "7:17 7:17 8:15"},
		{"a correction leaves it", "M7 17⏎ x M7 15⏎ , 7⏎", "7:17"},
		{"another pair has none", "M7 17⏎ M8 15⏎ x P9⏎ x x", "7:17 9:- 10:-"},
		{"back on the pair, as last there", "M7 17⏎ M8 15⏎ x P9⏎ M10 11⏎ x P7⏎ x x x", "7:17 9:- 7:17 8:- 7:17"},
		{"back on the pair by taking back", "M8 15⏎ x P9⏎ ⌫ x", "7:- 8:15"},
		{"everyone to another pair", "M7 17⏎ x P9 all⏎ x x", "7:17 10:- 9:-"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			l := beginLesson(t, "Ada 172")
			l.press(tt.keys)
			if got := l.aimed("Ada"); got != tt.want {
				t.Errorf("aimed at %s, want %s", got, tt.want)
			}
			again := l.restart()
			next := l.LaneOf("Ada")
			if l.AimOf("Ada", next) != again.AimOf("Ada", next) {
				t.Errorf("a restart aims at %+v", again.AimOf("Ada", next))
			}
			want := l.AimOf("Ada", next)
			again.press("x")
			ds := again.Sheet("Ada").Deliveries
			if got := ds[len(ds)-1]; got.Aimed != want || got.Lane != next {
				t.Errorf("the next ball is aimed at %+v on %d, want %+v on %d", got.Aimed, got.Lane, want, next)
			}
		})
	}
}

func TestAiming(t *testing.T) {
	l := beginLesson(t, "Ada 172, Bo 120|Cy 220")
	words := func() string {
		last, _ := l.Last()
		return l.Describe(last)
	}
	l.mustKeep(l.Aim("Ada", 8, aim(t, "17 34"), ""))
	if got := words(); got != "Ada aims at 17 from 34 on lane 8" {
		t.Error(got)
	}
	l.mustKeep(l.Aim("Cy", 9, aim(t, "17.5 34 8@43"), ""))
	if got := words(); got != "Cy aims at 17.5 from 34 through 8@43 on lane 9" {
		t.Error(got)
	}
	l.mustKeep(l.Aim("Ada", 8, aim(t, "16 36"), "feet 2 left, target 1 left"))
	if got := words(); got != "Ada on lane 8: feet 2 left, target 1 left" {
		t.Error(got)
	}
	if seat, _ := l.SeatOf("Ada"); seat.Aimed != [2]model.Line{{}, aim(t, "16 36")} {
		t.Errorf("the seat has %+v", seat.Aimed)
	}
	if got := l.AimOf("Ada", 7); !got.IsZero() {
		t.Errorf("lane 7 has %+v", got)
	}
	if got := l.AimOf("Bo", 8); !got.IsZero() {
		t.Errorf("Bo has %+v", got)
	}
	if got := l.AimOf("nobody", 8); !got.IsZero() {
		t.Errorf("nobody has %+v", got)
	}

	before := l.view()
	step, err := l.Aim("Ada", 8, aim(t, "16 36"), "feet 1 left")
	if err != nil || len(step.Changes) != 0 {
		t.Errorf("the same line once more gives %+v and %v", step, err)
	}
	l.mustKeep(step, err)
	before.sameAs(t, "the same line once more", l.view())
	l.press("@Ada⏎ W x")
	before = l.view()
	l.mustKeep(l.Aim("Ada", 8, aim(t, "16 36"), ""))
	before.sameAs(t, "the line of the last ball there", l.view())
}

func TestAimingRefused(t *testing.T) {
	k := model.Known[float64]
	l := beginLesson(t, "Ada 172|Cy 220").press("x")
	line := aim(t, "17 34")
	for _, tt := range []struct {
		name    string
		student model.ID
		lane    int
		line    model.Line
		what    string
		words   string
	}{
		{"nobody", "Bo", 7, line, "", "not in tonight's roster"},
		{"another pair", "Ada", 9, line, "", "Ada is on 7/8, lane 9 is another pair's"},
		{"no lane", "Ada", 0, line, "", "Ada is on 7/8"},
		{"no line", "Ada", 7, model.Line{}, "", "no line is named"},
		{"a board too high", "Ada", 7, model.Line{Arrows: k(46)}, "", "board 46: boards are 1 to 39"},
		{"a distance too near", "Ada", 7, model.Line{Breakpoint: k(8), BreakpointFt: k(19)}, "", "20 to 60 feet"},
		{"a distance of no board", "Ada", 7, model.Line{Arrows: k(17), BreakpointFt: k(43)}, "", "without its board"},
		{"words of two lines", "Ada", 7, line, "feet\nleft", "control character"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			before := l.view()
			_, err := l.Aim(tt.student, tt.lane, tt.line, tt.what)
			if err == nil || !strings.Contains(err.Error(), tt.words) {
				t.Errorf("%v, want words like %q", err, tt.words)
			}
			before.sameAs(t, tt.name, l.view())
		})
	}
}

// A ball handed over is aimed at what its student had set when it was bowled.
func TestHandingOverAims(t *testing.T) {
	begin := func(t *testing.T) *lesson {
		l := beginLesson(t, "Ada 172, Bo 120")
		l.mustKeep(l.ToggleRotate())
		return l
	}
	for _, tt := range []struct{ name, keys, want string }{
		{"set before", "⇥ M7 17⏎ ⇥ M7 11⏎ x , @Bo⏎", "7:17"},
		{"set after", "x ⇥ M7 17⏎ , @Bo⏎", "7:-"},
		{"changed after", "⇥ M7 17⏎ ⇥ x ⇥ M7 15⏎ M8 9⏎ , @Bo⏎", "7:17"},
		{"a frame of which a part was bowled before it was changed", "⇥ M7 17⏎ ⇥ 7⏎ ⇥ M7 15⏎ ⇥ / , @Bo⏎", "7:17 7:15"},
		{"frames caught up", "⇥ M7 17⏎ ⇥ ZX⏎ ⇥ M7 15⏎ , @Bo⏎", "7:17"},
		{"as last there", "⇥ M7 17⏎ x P9⏎ @Bo⏎ x P7⏎ @Ada⏎ x , @Bo⏎", "7:17 9:- 7:17"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			l := begin(t).press(tt.keys)
			if got := l.aimed("Bo"); got != tt.want {
				t.Errorf("aimed at %s, want %s", got, tt.want)
			}
		})
	}
	t.Run("after a restart", func(t *testing.T) {
		l := begin(t).press("⇥ M7 17⏎ ⇥ x ⇥ M7 15⏎").restart().press(", @Bo⏎")
		if got := l.aimed("Bo"); got != "7:17" {
			t.Errorf("aimed at %s", got)
		}
	})
	t.Run("of an evening whose actions are forgotten", func(t *testing.T) {
		l := begin(t).press("⇥ M7 17⏎ x x ⇥ x ⇥ M7 15⏎")
		k := l.asKept()
		k.Log = nil
		e, err := model.Resume(k)
		if err != nil {
			t.Fatal(err)
		}
		l.Evening, l.log = e, nil
		if l.press(", @Bo⏎"); l.aimed("Bo") != "7:17 8:- 7:17" {
			t.Errorf("aimed at %s", l.aimed("Bo"))
		}
	})
}
