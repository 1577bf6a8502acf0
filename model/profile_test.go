package model_test

import (
	"reflect"
	"strings"
	"testing"

	"coach.settee/model"
)

// profileField gives the field of that name.
func profileField(t *testing.T, name string) model.ProfileField {
	t.Helper()
	for _, f := range model.ProfileFields() {
		if f.Name == name {
			return f
		}
	}
	t.Fatalf("there is no field %q", name)
	return model.ProfileField{}
}

func TestProfileFieldsInTheirOrder(t *testing.T) {
	const want = "name, hand, style, entering average, average on, level, bar, goal, weights, watched axes, starting letters, tone, " +
		"ball speed, rev rate, axis rotation, balls carried, ball up, 7 pin, 10 pin, slide offset, focus, limits*, load limit, " +
		"minor, notes*"
	var names []string
	for _, f := range model.ProfileFields() {
		name := f.Name
		if f.Private {
			name += "*"
		}
		if f.Hint == "" || f.Text == nil || f.Shown == nil || f.Set == nil {
			t.Errorf("%s lacks something", f.Name)
		}
		names = append(names, name)
	}
	if got := strings.Join(names, ", "); got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
}

func TestProfileIsTyped(t *testing.T) {
	tests := []struct{ field, typed, text, shown string }{
		{"name", "  Ada   Marsh ", "Ada Marsh", "Ada Marsh"},
		{"hand", "l", "left", "left"},
		{"hand", "Left-handed", "left", "left"},
		{"hand", "R", "right", "right"},
		{"style", "2", "two-hand", "two-hand"},
		{"style", "two", "two-hand", "two-hand"},
		{"style", "Two Handed", "two-hand", "two-hand"},
		{"style", "1", "one-hand", "one-hand"},
		{"style", "no thumb", "no-thumb", "no-thumb"},
		{"style", "", "", ""},
		{"entering average", "0", "0", "0"},
		{"entering average", "300", "300", "300"},
		{"entering average", "", "", ""},
		{"average on", "house oil,\t40 feet", "house oil, 40 feet", "house oil, 40 feet"},
		{"level", "adv", "advanced", "advanced"},
		{"level", "ELITE", "elite", "elite"},
		{"level", "", "", "regular, the average's"},
		{"bar", "b+", "B+", "B+"},
		{"bar", "A −", "A-", "A-"},
		{"bar", "", "", "A-, as usual"},
		{"goal", "8.5", "8.5", "8.5"},
		{"goal", "8,5", "8.5", "8.5"},
		{"goal", "10", "10", "10"},
		{"goal", "", "", "5, the level's"},
		{"weights", "40/30/20/10", "40 30 20 10", "40 30 20 10"},
		{"weights", "40%, 30%, 20%, 10%", "40 30 20 10", "40 30 20 10"},
		{"weights", "0 0 100 0", "0 0 100 0", "0 0 100 0"},
		{"weights", "", "", "25 30 25 20, the level's"},
		{"watched axes", "b t", "balance, target", "balance, target"},
		{"watched axes", "fr", "release, finish", "release, finish"},
		{"watched axes", "Release and bal", "balance, release", "balance, release"},
		{"watched axes", "all", "all", "all"},
		{"watched axes", "", "", "all, as usual"},
		{"starting letters", "a b/a c", "ABAC", "ABAC"},
		{"starting letters", ".b..", ".B..", "ABAA"},
		{"starting letters", "", "", "AAAA, as usual"},
		{"tone", "G", "gentle", "gentle"},
		{"tone", "blunt", "blunt", "blunt"},
		{"tone", "", "", "plain, the level's"},
		{"ball speed", "16,5 mph", "16.5", "16.5 mph"},
		{"ball speed", "", "", ""},
		{"rev rate", "320RPM", "320", "320 rpm"},
		{"axis rotation", "45°", "45", "45 degrees"},
		{"slide offset", "-1.5", "-1.5", "-1.5 boards"},
		{"slide offset", "+6", "6", "6 boards"},
		{"balls carried", " dull blue 15 ,, plastic ,", "dull blue 15, plastic", "dull blue 15, plastic"},
		{"ball up", "2", "plastic", "plastic"},
		{"ball up", "PLA", "plastic", "plastic"},
		{"ball up", "plastic", "plastic", "plastic"},
		{"ball up", "", "", ""},
		{"7 pin", "17 34 8@43", "17 34 8@43", "at 17 from 34 through 8@43"},
		{"7 pin", "", "", ""},
		{"10 pin", "21,5 32", "21.5 32", "at 21.5 from 32"},
		{"10 pin", ". 32", ". 32", "from 32"},
		{"10 pin", ". . 8", ". . 8", "through 8"},
		{"10 pin", "10 1 2", "1 2", "at 1 from 2"},
		{"10 pin", "10 21,5 32", "21.5 32", "at 21.5 from 32"},
		{"10 pin", "10 21 32 8@43", "21 32 8@43", "at 21 from 32 through 8@43"},
		{"10 pin", "10 10 32 8", "10 10 32 8", "at 10 from 32 through 8"},
		{"10 pin", "10 32 8@43", "10 32 8@43", "at 10 from 32 through 8@43"},
		{"10 pin", "10 32", "10 32", "at 10 from 32"},
		{"10 pin", "7 17 34", "7 17 34", "at 7 from 17 through 34"},
		{"7 pin", "7 17 34", "17 34", "at 17 from 34"},
		{"focus", "free\nswing", "free swing", "free swing"},
		{"limits", "sore left knee", "sore left knee", "sore left knee"},
		{"load limit", "60", "60", "60"},
		{"load limit", "", "", ""},
		{"minor", "Y", "yes", "yes"},
		{"minor", "no", "no", "no"},
		{"minor", "", "no", "no"},
		{"notes", "likes\u202e numbers", "likes numbers", "likes numbers"},
	}
	for _, tt := range tests {
		t.Run(tt.field+" "+tt.typed, func(t *testing.T) {
			s := model.Student{
				ID: "ada", Name: "Ada", Hand: model.RightHand, Average: model.Known(176), Balls: []string{"blue", "plastic"},
				BallUp: "blue", LoadLimit: 20, Style: model.OneHand, SpeedMPH: model.Known(15.0), Focus: "feet",
			}
			f := profileField(t, tt.field)
			got, err := f.Set(s, tt.typed)
			if err != nil || got.Validate() != nil {
				t.Fatal(err, got.Validate())
			}
			if f.Text(got) != tt.text || f.Shown(got) != tt.shown {
				t.Errorf("%q, shown %q, want %q, shown %q", f.Text(got), f.Shown(got), tt.text, tt.shown)
			}
		})
	}
}

func TestProfileRefusals(t *testing.T) {
	tests := []struct{ field, typed, words string }{
		{"name", " ", "the name is empty: give a name"},
		{"name", strings.Repeat("a", 81), "a name of 81 characters: names have up to 80"},
		{"hand", "", `the hand "": use right or left`},
		{"hand", "both", `the hand "both": use right or left`},
		{"style", "three", `the style "three": use one-hand, two-hand or no-thumb`},
		{"entering average", "400", "an average of 400: averages are 0 to 300"},
		{"entering average", "176.5", "an average of 176.5: averages are whole pins, 0 to 300, with the fraction dropped"},
		{"entering average", "-5", "an average of -5: averages are whole pins"},
		{"level", "pro", `"pro" is no level: use new, developing, regular, advanced or elite`},
		{"bar", "E", `"E" is no shot grade: use A, A-, B+ and so on to F`},
		{"goal", "8.3", "a goal of 8.3: goals are 0.5 to 10 in halves"},
		{"goal", "0", "a goal of 0: goals are 0.5 to 10 in halves"},
		{"goal", "10.5", "a goal of 10.5: goals are 0.5 to 10 in halves"},
		{"goal", "many", `"many" is no goal: goals are 0.5 to 10 in halves`},
		{"weights", "25 30 25 15", "the weights sum to 95: they must sum to 100"},
		{"weights", "50 50", "2 weights: the weights are four, of balance, target, release and finish: 25 30 25 20"},
		{"weights", "25 30 -25 20", "the weight of release is -25: weights are whole per cents, 0 to 100"},
		{"weights", "9223372036854775807 9223372036854775807 102 0", "the weight of balance is 9223372036854775807"},
		{"watched axes", "power", `"power" is no axis: use balance, target, release or finish, or b t r f`},
		{"watched axes", ",", `"," names no axis`},
		{"starting letters", "AAB", "3 letters: the starting letters are four, of balance, target, release and finish: AABA"},
		{"starting letters", "AAEA", `"E" is no letter: use A, B, C, D or F`},
		{"tone", "rude", `"rude" is no tone: use gentle, plain or blunt`},
		{"ball speed", "41", `"41" is no ball speed: it is in miles an hour, 1 to 40`},
		{"ball speed", "25 km/h", `"25 km/h" is no ball speed: it is in miles an hour`},
		{"ball speed", "NaN", `"NaN" is no ball speed: it is in`},
		{"rev rate", "1001", `"1001" is no rev rate: it is in turns a minute, 0 to 1000`},
		{"axis rotation", "-20", `"-20" is no axis rotation: it is in degrees, 0 to 180`},
		{"slide offset", "-41", `"-41" is no slide offset: it is in boards`},
		{"balls carried", "blue, blue", `the ball "blue" is named twice: tell the two apart`},
		{"balls carried", numbered(201), "201 balls: name up to 200"},
		{"ball up", "red", `"red" is none of the balls carried: blue 14, blue 15`},
		{"ball up", "blue", `2 balls begin with "blue": use a number, 1 to 2`},
		{"ball up", "3", `"3" is none of the balls carried`},
		{"7 pin", "50", `"50" is no board at the arrows`},
		{"10 pin", "21 32 8@43 16", `"16" is one too many: arrows, slide, breakpoint`},
		{"10 pin", ".", "no line is named"},
		{"load limit", "0", "a load limit of 0: it is a number of deliveries, 1 to 1000"},
		{"load limit", "2.5", "a load limit of 2.5: it is a number of deliveries"},
		{"minor", "perhaps", `"perhaps" is neither yes nor no`},
		{"notes", strings.Repeat("a", 2001), "a text of 2001 characters: texts have up to 2000"},
	}
	for _, tt := range tests {
		t.Run(tt.field+" "+tt.words, func(t *testing.T) {
			s := model.Student{ID: "ada", Name: "Ada", Hand: model.LeftHand, Balls: []string{"blue 14", "blue 15"}}
			got, err := profileField(t, tt.field).Set(s, tt.typed)
			if err == nil || !strings.HasPrefix(err.Error(), tt.words) {
				t.Errorf("%v, want %s", err, tt.words)
			}
			if !reflect.DeepEqual(got, s) {
				t.Errorf("refused, and changed to %+v", got)
			}
		})
	}
}

// numbered gives a list of so many different names.
func numbered(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(string(rune('一'+i)) + ",")
	}
	return b.String()
}

func TestLevelFollowsTheAverageUntilChosen(t *testing.T) {
	s := model.Student{ID: "ada", Name: "Ada", Hand: model.RightHand}
	average, level := profileField(t, "entering average"), profileField(t, "level")
	set := func(f model.ProfileField, text, want string) {
		t.Helper()
		var err error
		if s, err = f.Set(s, text); err != nil || level.Shown(s) != want {
			t.Errorf("%s %q: level %q (%v), want %q", f.Name, text, level.Shown(s), err, want)
		}
	}
	set(average, "", "new, without an average")
	set(average, "119", "new, the average's")
	set(average, "120", "developing, the average's")
	set(level, "advanced", "advanced")
	set(average, "150", "advanced")
	set(level, "", "developing, the average's")
	set(average, "210", "elite, the average's")
}

func TestMinorsToneIsBluntOnlyWhereTyped(t *testing.T) {
	s := model.Student{ID: "ada", Name: "Ada", Hand: model.RightHand, Average: model.Known(215)}
	minor, tone := profileField(t, "minor"), profileField(t, "tone")
	set := func(f model.ProfileField, text, want string) {
		t.Helper()
		var err error
		if s, err = f.Set(s, text); err != nil || tone.Shown(s) != want {
			t.Errorf("%s %q: tone %q (%v), want %q", f.Name, text, tone.Shown(s), err, want)
		}
	}
	set(minor, "no", "blunt, the level's")
	set(minor, "yes", "plain, a minor's")
	set(tone, "blunt", "blunt")
	set(tone, "", "plain, a minor's")
}

func TestBallUpGoesWithTheBallsCarried(t *testing.T) {
	s := model.Student{ID: "ada", Name: "Ada", Hand: model.RightHand, Balls: []string{"blue", "red"}, BallUp: "red"}
	balls := profileField(t, "balls carried")
	kept, err := balls.Set(s, "green, red")
	if err != nil || kept.BallUp != "red" {
		t.Errorf("up %q (%v), want red", kept.BallUp, err)
	}
	gone, err := balls.Set(s, "green, blue")
	if err != nil || gone.BallUp != "" {
		t.Errorf("up %q (%v), want none", gone.BallUp, err)
	}
	if s.Balls[0] != "blue" || s.BallUp != "red" {
		t.Errorf("the student before became %+v", s)
	}
}

func TestOwnLinesOfOtherPinsStay(t *testing.T) {
	line := model.Line{Arrows: model.Known(12.0)}
	s := model.Student{
		ID: "ada", Name: "Ada", Hand: model.RightHand, SpareLines: []model.SpareLine{{Pin: 6, Line: line}, {Pin: 9, Line: line}},
	}
	now, err := profileField(t, "7 pin").Set(s, "15 20")
	if err != nil || now.SpareLine(6) != line || now.SpareLine(9) != line || now.SpareLine(7).IsZero() {
		t.Errorf("%+v, %v", now.SpareLines, err)
	}
	now, err = profileField(t, "7 pin").Set(now, "")
	if err != nil || !reflect.DeepEqual(now, s) {
		t.Errorf("%+v, %v", now.SpareLines, err)
	}
}
