package model_test

import (
	"math/big"
	"testing"

	"coach.settee/model"
)

// scale is the usual scale of grade points in tenths (Quinebaug Valley Community College handbook, 2006: A 4.0, A- 3.7,
// B+ 3.3, B 3.0, B- 2.7, C+ 2.3, C 2.0, C- 1.7, D+ 1.3, D 1.0, D- 0.7, F 0.0), lowest first.
var scale = []struct {
	name   string
	tenths int64
}{
	{"F", 0}, {"D-", 7}, {"D", 10}, {"D+", 13}, {"C-", 17}, {"C", 20}, {"C+", 23}, {"B-", 27}, {"B", 30}, {"B+", 33},
	{"A-", 37}, {"A", 40},
}

// nearest states the rule of grading a second time: the mean of the letter points by the weights of the watched axes, as
// a fraction, and the grade nearest to it, the lower one where two are as near. It is "" where no weight is watched.
func nearest(l model.Letters, w model.Weights) string {
	worth := map[model.Letter]int64{model.A: 4, model.B: 3, model.C: 2, model.D: 1, model.F: 0}
	var points, watched int64
	for i, letter := range l {
		if letter != model.NoLetter {
			points += int64(w[i]) * worth[letter]
			watched += int64(w[i])
		}
	}
	if watched == 0 {
		return ""
	}
	mean := big.NewRat(points, watched)
	best, name := big.NewRat(100, 1), ""
	for _, s := range scale {
		away := new(big.Rat).Sub(mean, big.NewRat(s.tenths, 10))
		if away.Abs(away); away.Cmp(best) < 0 {
			best, name = away, s.name
		}
	}
	return name
}

// everyLetters lists every way to give letters, an axis that is not watched included: 6^4.
func everyLetters() []model.Letters {
	var all []model.Letters
	for b := model.NoLetter; b <= model.A; b++ {
		for t := model.NoLetter; t <= model.A; t++ {
			for r := model.NoLetter; r <= model.A; r++ {
				for f := model.NoLetter; f <= model.A; f++ {
					all = append(all, model.Letters{b, t, r, f})
				}
			}
		}
	}
	return all
}

func levelWeights() []model.Weights {
	weights := []model.Weights{{100, 0, 0, 0}, {0, 50, 50, 0}, {1, 33, 33, 33}}
	for _, l := range model.Levels {
		weights = append(weights, l.Defaults().Weights)
	}
	return weights
}

func TestGradeIsTheNearestOnTheScale(t *testing.T) {
	for _, w := range levelWeights() {
		for _, l := range everyLetters() {
			if got, want := model.Grade(l, w).String(), nearest(l, w); got != want {
				t.Errorf("%v by %v is %q, want %q", l, w, got, want)
			}
		}
	}
}

// Weights off the levels move a mean anywhere, so that every cut is met from both sides.
func TestGradeUnderEveryWeight(t *testing.T) {
	letters := []model.Letters{
		{model.A, model.F, model.NoLetter, model.NoLetter}, {model.A, model.B, model.D, model.C},
		{model.B, model.NoLetter, model.F, model.D}, {model.C, model.A, model.NoLetter, model.F},
	}
	for a := 0; a <= 100; a++ {
		for b := 0; a+b <= 100; b++ {
			w := model.Weights{a, b, (100 - a - b) / 2, 100 - a - b - (100-a-b)/2}
			for _, l := range letters {
				if got, want := model.Grade(l, w).String(), nearest(l, w); got != want {
					t.Fatalf("%v by %v is %q, want %q", l, w, got, want)
				}
			}
		}
	}
}

func TestGoodShot(t *testing.T) {
	const a, b, c, d, f, no = model.A, model.B, model.C, model.D, model.F, model.NoLetter
	equal := model.Weights{25, 25, 25, 25}
	lax := model.GradeF
	tests := []struct {
		name    string
		letters model.Letters
		weights model.Weights
		bar     model.ShotGrade
		grade   model.ShotGrade
		good    bool
	}{
		{"all A", model.Letters{a, a, a, a}, equal, model.GradeAMinus, model.GradeA, true},
		{"one B among A's", model.Letters{a, a, b, a}, equal, model.GradeAMinus, model.GradeAMinus, true},
		{"two B's", model.Letters{b, a, b, a}, equal, model.GradeAMinus, model.GradeBPlus, false},
		{"one C", model.Letters{a, c, a, a}, equal, model.GradeAMinus, model.GradeBPlus, false},
		{"one C and a lower bar", model.Letters{a, c, a, a}, equal, model.GradeBPlus, model.GradeBPlus, true},
		{"a bar of A", model.Letters{a, a, b, a}, equal, model.GradeA, model.GradeAMinus, false},
		{"an axis at D is never good", model.Letters{a, a, a, d}, equal, lax, model.GradeBPlus, false},
		{"an axis at F is never good", model.Letters{f, a, a, a}, equal, lax, model.GradeB, false},
		{"a D on an axis of no weight", model.Letters{a, a, a, d}, model.Weights{40, 40, 20, 0}, lax, model.GradeA, false},
		{"axes that are not watched do not count", model.Letters{no, a, no, no}, equal, model.GradeAMinus, model.GradeA, true},
		{"a B on the one watched axis", model.Letters{no, b, no, no}, equal, model.GradeAMinus, model.GradeB, false},
		{"nothing watched", model.Letters{no, no, no, no}, equal, lax, model.Ungraded, false},
		{"only an axis of no weight watched", model.Letters{no, no, no, a}, model.Weights{40, 40, 20, 0}, lax, model.Ungraded, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := model.Grade(tt.letters, tt.weights); got != tt.grade {
				t.Errorf("grade %v, want %v", got, tt.grade)
			}
			if got := model.IsGood(tt.letters, tt.weights, tt.bar); got != tt.good {
				t.Errorf("good is %v, want %v", got, tt.good)
			}
		})
	}
}

func TestGoodIsOfSeenLiveBallsOnly(t *testing.T) {
	d := model.Delivery{
		Letters: model.Letters{model.A, model.A, model.A, model.A}, Weights: model.Weights{25, 25, 25, 25},
		Bar: model.GradeAMinus, Seen: true,
	}
	if !d.Good() || d.Grade() != model.GradeA {
		t.Errorf("all A's seen: good %v, grade %v", d.Good(), d.Grade())
	}
	unseen, dead := d, d
	unseen.Seen, dead.Dead = false, true
	if unseen.Good() || unseen.Grade() != model.Ungraded {
		t.Errorf("unseen: good %v, grade %v", unseen.Good(), unseen.Grade())
	}
	if dead.Good() {
		t.Error("a dead ball is good")
	}
}

func TestGradeNames(t *testing.T) {
	for i, s := range scale {
		g, err := model.ParseShotGrade(s.name)
		if err != nil || g != model.GradeF+model.ShotGrade(i) || g.String() != s.name {
			t.Errorf("%q is read as %v, %v", s.name, g, err)
		}
		if got, want := g.Points(), float64(s.tenths)/10; got != want {
			t.Errorf("%s is worth %v, want %v", s.name, got, want)
		}
	}
	for _, g := range []model.ShotGrade{model.Ungraded, model.GradeA + 1} {
		if g.Points() != 0 {
			t.Errorf("%v is worth %v", g, g.Points())
		}
	}
	for _, text := range []string{"", "E", "A+", "F+", "F-", "a", "A -", "4"} {
		if g, err := model.ParseShotGrade(text); err == nil {
			t.Errorf("%q is read as %v", text, g)
		}
	}
}

func TestLetters(t *testing.T) {
	names := []string{"F", "D", "C", "B", "A"}
	for i, name := range names {
		l, err := model.ParseLetter(name)
		if err != nil || l.String() != name || l.Points() != i {
			t.Errorf("%q is read as %v worth %d, %v", name, l, l.Points(), err)
		}
		if got := l.Lower(1).String(); got != names[max(0, i-1)] {
			t.Errorf("%s lowered is %s", name, got)
		}
		if got := l.Lower(9); got != model.F {
			t.Errorf("%s lowered by nine is %v", name, got)
		}
		if got := l.Raise().String(); got != names[min(4, i+1)] {
			t.Errorf("%s raised is %s", name, got)
		}
	}
	if no, err := model.ParseLetter(""); err != nil || no != model.NoLetter || no.Lower(1) != no || no.Raise() != no {
		t.Error("no letter stays none")
	}
	if _, err := model.ParseLetter("E"); err == nil {
		t.Error("E was taken for a letter")
	}
	l := model.Letters{model.A, model.NoLetter, model.F, model.NoLetter}
	if l.Watched() != model.AxisSet(0).With(model.Balance).With(model.Release) || l.String() != "A·F·" {
		t.Errorf("%v watches %b", l, l.Watched())
	}
}

// The table of levels is common practice, no source.
func TestLevels(t *testing.T) {
	tests := []struct {
		level     model.Level
		from, to  int
		weights   model.Weights
		goal      float64
		tone      model.Tone
		tolerance int
	}{
		{model.New, 0, 119, model.Weights{40, 30, 20, 10}, 3, model.Gentle, 5},
		{model.Developing, 120, 159, model.Weights{30, 30, 25, 15}, 4, model.Gentle, 3},
		{model.Regular, 160, 189, model.Weights{25, 30, 25, 20}, 5, model.Plain, 2},
		{model.Advanced, 190, 209, model.Weights{25, 25, 25, 25}, 6, model.Plain, 1},
		{model.Elite, 210, 300, model.Weights{25, 25, 25, 25}, 7, model.Blunt, 1},
	}
	for _, tt := range tests {
		t.Run(string(tt.level), func(t *testing.T) {
			for average := tt.from; average <= tt.to; average++ {
				if got := model.LevelOf(average); got != tt.level {
					t.Errorf("an average of %d is %s", average, got)
				}
			}
			d := tt.level.Defaults()
			if d.Weights != tt.weights || d.Goal.Shots() != tt.goal || d.Tone != tt.tone || d.Tolerance != tt.tolerance {
				t.Errorf("the defaults are %+v", d)
			}
			if err := d.Weights.Validate(); err != nil {
				t.Error(err)
			}
		})
	}
}

func TestChosen(t *testing.T) {
	all := model.Letters{model.A, model.A, model.A, model.A}
	t.Run("nothing chosen, no average", func(t *testing.T) {
		c := model.Student{}.Chosen()
		if c.Level != model.New || c.Bar != model.GradeAMinus || c.Watched != model.AllAxes || c.StartLetters() != all {
			t.Errorf("%+v", c)
		}
	})
	t.Run("the level follows the average until it is chosen", func(t *testing.T) {
		s := model.Student{Average: model.Known(215)}
		if c := s.Chosen(); c.Level != model.Elite || c.Tone != model.Blunt {
			t.Errorf("%+v", c)
		}
		s.Level = model.Regular
		if c := s.Chosen(); c.Level != model.Regular || c.Tone != model.Plain || c.Tolerance != 2 {
			t.Errorf("%+v", c)
		}
	})
	t.Run("a minor's tone is blunt by choice only", func(t *testing.T) {
		s := model.Student{Average: model.Known(215), Minor: true}
		if c := s.Chosen(); c.Tone != model.Plain {
			t.Errorf("tone %s", c.Tone)
		}
		s.Tone = model.Blunt
		if c := s.Chosen(); c.Tone != model.Blunt {
			t.Errorf("tone %s", c.Tone)
		}
	})
	t.Run("the coach's choices", func(t *testing.T) {
		s := model.Student{
			Weights: model.Weights{10, 20, 30, 40}, Bar: model.GradeB, Goal: 17,
			Start: model.Letters{model.B, model.NoLetter, model.C, model.A}, Watched: model.AxisSet(0b0111),
		}
		c := s.Chosen()
		want := model.Letters{model.B, model.A, model.C, model.NoLetter}
		if c.Weights != s.Weights || c.Bar != model.GradeB || c.Goal.Shots() != 8.5 || c.StartLetters() != want {
			t.Errorf("%+v starts at %v", c, c.StartLetters())
		}
	})
}

func TestGoals(t *testing.T) {
	for g := 1; g <= 20; g++ {
		shots := float64(g) / 2
		goal, err := model.GoalOf(shots)
		if err != nil || goal.Shots() != shots || float64(goal.Whole()) < shots || float64(goal.Whole()-1) >= shots {
			t.Errorf("%v is %v shots, shown as %d, %v", shots, goal.Shots(), goal.Whole(), err)
		}
	}
	nan := 0.0
	for _, shots := range []float64{0, -1, 0.25, 8.4, 10.5, 1e300, nan / nan} {
		if goal, err := model.GoalOf(shots); err == nil {
			t.Errorf("%v was taken as %v", shots, goal)
		}
	}
}

func TestWords(t *testing.T) {
	for i, name := range []string{"balance", "target", "release", "finish"} {
		if a, err := model.ParseAxis(name); err != nil || a != model.Axes[i] || a.String() != name {
			t.Errorf("%q is read as %v, %v", name, a, err)
		}
	}
	refused := map[string]error{}
	_, refused["axis"] = model.ParseAxis("power")
	_, refused["level"] = model.ParseLevel("pro")
	_, refused["tone"] = model.ParseTone("loud")
	_, refused["side"] = model.ParseSide("left")
	_, refused["hit"] = model.ParseHit("flush")
	for word, err := range refused {
		if err == nil {
			t.Errorf("an unknown %s was taken", word)
		}
	}
	weights := []model.Weights{{25, 25, 25, 24}, {101, 0, 0, 0}, {-1, 51, 25, 25}, {}}
	for _, w := range weights {
		if w.Validate() == nil {
			t.Errorf("the weights %v were taken", w)
		}
	}
}
