package model_test

import (
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"coach.settee/model"
)

// anyStudent makes a student as profiles are typed.
func anyStudent(t *rapid.T) model.Student {
	text := func(name string) string {
		return model.CleanText(rapid.StringOfN(rapid.RuneFrom([]rune("aZé ,.-7'ل🎳")), 0, 20, -1).Draw(t, name))
	}
	number := func(name string, low, high float64) model.Optional[float64] {
		if rapid.Bool().Draw(t, name+" known") {
			return model.Known(rapid.Float64Range(low, high).Draw(t, name))
		}
		return model.Optional[float64]{}
	}
	s := model.Student{
		ID: "ada", Name: "A" + rapid.StringMatching(`[a-zø-]{0,6}( [A-Z]{1,5})?`).Draw(t, "name"),
		Hand:      rapid.SampledFrom([]model.Hand{model.RightHand, model.LeftHand}).Draw(t, "hand"),
		Style:     rapid.SampledFrom([]model.Style{"", model.OneHand, model.TwoHand, model.NoThumb}).Draw(t, "style"),
		AverageOn: text("average on"),
		Level:     rapid.SampledFrom(append([]model.Level{""}, model.Levels[:]...)).Draw(t, "level"),
		Bar:       model.ShotGrade(rapid.IntRange(0, int(model.GradeA)).Draw(t, "bar")),
		Goal:      model.Goal(rapid.IntRange(0, 20).Draw(t, "goal")),
		Tone:      rapid.SampledFrom([]model.Tone{"", model.Gentle, model.Plain, model.Blunt}).Draw(t, "tone"),
		Watched:   model.AxisSet(rapid.IntRange(0, int(model.AllAxes)).Draw(t, "watched")),
		Focus:     text("focus"), Limits: text("limits"), Notes: text("notes"),
		LoadLimit:   rapid.IntRange(0, 1000).Draw(t, "load"),
		Minor:       rapid.Bool().Draw(t, "minor"),
		SlideOffset: number("offset", -40, 40), SpeedMPH: number("speed", 1, 40), RevRPM: number("revs", 0, 1000),
		AxisRotation: number("rotation", 0, 180),
	}
	if rapid.Bool().Draw(t, "average known") {
		s.Average = model.Known(rapid.IntRange(0, 300).Draw(t, "average"))
	}
	for i := range s.Start {
		s.Start[i] = model.Letter(rapid.IntRange(0, int(model.A)).Draw(t, "start"))
	}
	if rapid.Bool().Draw(t, "weighted") {
		cuts := rapid.SliceOfN(rapid.IntRange(0, 100), 3, 3).Draw(t, "weights")
		slices.Sort(cuts)
		s.Weights = model.Weights{cuts[0], cuts[1] - cuts[0], cuts[2] - cuts[1], 100 - cuts[2]}
	}
	if balls := rapid.SliceOfNDistinct(rapid.StringMatching(`[a-cA-C12é][a-c1 ]{0,3}[a-c12]`), 0, 4, rapid.ID).Draw(t, "balls"); len(balls) > 0 {
		s.Balls = balls
		s.BallUp = rapid.SampledFrom(append([]string{""}, balls...)).Draw(t, "up")
	}
	pins := rapid.SliceOfNDistinct(rapid.IntRange(1, 10), 0, 4, rapid.ID[int]).Draw(t, "pins")
	slices.Sort(pins)
	for _, pin := range pins {
		l := model.Line{Arrows: number("arrows", 0, 45), Slide: number("slide", 0, 45), Breakpoint: number("breakpoint", 0, 45)}
		if rapid.Bool().Draw(t, "as the pin") {
			l.Arrows = model.Known(float64(pin))
		}
		if l.Breakpoint.Known && rapid.Bool().Draw(t, "how far") {
			l.BreakpointFt = number("feet", 20, 60)
		}
		if !l.IsZero() {
			s.SpareLines = append(s.SpareLines, model.SpareLine{Pin: pin, Line: l})
		}
	}
	return s
}

func TestProfileReadsWhatItWrites(t *testing.T) {
	fields := model.ProfileFields()
	rapid.Check(t, func(t *rapid.T) {
		s := anyStudent(t)
		if err := s.Validate(); err != nil {
			t.Fatal(err)
		}
		for _, f := range fields {
			// As it is, and with blanks, by which it is read anew.
			for _, text := range []string{f.Text(s), " " + f.Text(s) + "  "} {
				if got, err := f.Set(s, text); err != nil || !reflect.DeepEqual(got, s) {
					t.Fatalf("%s %q: %v\n%+v\nof\n%+v", f.Name, text, err, got, s)
				}
			}
		}
	})
}

func TestProfileTakesOffWhatIsEmpty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyStudent(t)
		for _, f := range model.ProfileFields() {
			got, err := f.Set(s, "")
			switch {
			case f.Name == "name" || f.Name == "hand":
				if err == nil {
					t.Fatalf("%s was taken off", f.Name)
				}
				continue
			case err != nil:
				t.Fatalf("%s: %v", f.Name, err)
			}
			if text := f.Text(got); text != "" && (f.Name != "minor" || text != "no") {
				t.Fatalf("%s is still %q", f.Name, text)
			}
			s = got
		}
		if want := (model.Student{ID: s.ID, Name: s.Name, Hand: s.Hand, SpareLines: s.SpareLines}); !reflect.DeepEqual(s, want) {
			t.Fatalf("left: %+v", s)
		}
		for _, l := range s.SpareLines {
			if l.Pin == 7 || l.Pin == 10 {
				t.Fatalf("left: %+v", l)
			}
		}
	})
}

func TestProfileWithstandsAnyText(t *testing.T) {
	fields := model.ProfileFields()
	parts := []string{
		"-", "+", ".", ",", "@", "/", "°", "%", "A", "b", "all", "right", "no", "NaN", "Inf", "1e9", "0x10", "7", "100", "25", "0.5",
		"99999999999999999999", "9223372036854775807", "\x1b[31m", "\x00", "\u202e", "\u200b", "\u2028", "\xff\xfe", "é", "٣", "½", "",
		" ", "\n", "blue", "Ada",
	}
	rapid.Check(t, func(t *rapid.T) {
		s := anyStudent(t)
		f := rapid.SampledFrom(fields).Draw(t, "field")
		text := rapid.String().Draw(t, "text")
		for range rapid.IntRange(0, 6).Draw(t, "parts") {
			text += rapid.SampledFrom(parts).Draw(t, "part")
		}
		got, err := f.Set(s, text)
		if err != nil {
			if err.Error() == "" || model.ValidateText(err.Error()) != nil || !reflect.DeepEqual(got, s) {
				t.Fatalf("%s refuses %q with %q and gives %+v", f.Name, text, err, got)
			}
			return
		}
		if err := got.Validate(); err != nil {
			t.Fatalf("%s takes %q: %v", f.Name, text, err)
		}
		if again, err := f.Set(got, f.Text(got)+" "); err != nil || !reflect.DeepEqual(again, got) {
			t.Fatalf("%s takes %q, shows %q and then gives %v, %+v", f.Name, text, f.Text(got), err, again)
		}
	})
}
