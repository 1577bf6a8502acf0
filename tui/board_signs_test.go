package tui

import (
	"testing"

	"coach.settee/model"
)

func TestCostIsTheLowestLetter(t *testing.T) {
	const a, b, c, d = model.A, model.B, model.C, model.D
	for name, x := range map[string]struct {
		letters model.Letters
		side    model.Side
		cost    string
	}{
		"balance alone":                   {model.Letters{b, a, a, a}, "", "b"},
		"the lowest of three":             {model.Letters{b, c, d, a}, "", "r"},
		"the earlier of two":              {model.Letters{a, c, c, b}, "", "t"},
		"target with a side":              {model.Letters{a, c, b, a}, model.Inside, "in"},
		"target outside":                  {model.Letters{a, d, a, a}, model.Outside, "out"},
		"a side beside something worse":   {model.Letters{a, b, c, a}, model.Inside, "r"},
		"an axis not watched costs none":  {model.Letters{model.NoLetter, a, a, c}, "", "f"},
		"the first axis watched, not all": {model.Letters{model.NoLetter, model.NoLetter, c, c}, "", "r"},
	} {
		t.Run(name, func(t *testing.T) {
			if got := costOf(x.letters, x.side); got != x.cost {
				t.Errorf("%s", got)
			}
		})
	}
}

func TestCallBegunIsSaidInItsKeys(t *testing.T) {
	e := alone(t)
	for _, x := range []struct{ keys, words string }{
		{"b", "b-"}, {"b", "b--"}, {"ii", "b-- in2"}, {"f!", "b-- in2 f- foul"}, {"70", "b-- in2 f- foul left 7-10"},
	} {
		for i := range x.keys {
			e.key(x.keys[i])
		}
		if got := begunWords(e.Call(), e.Student("ada").Chosen()); got != x.words {
			t.Errorf("%q, not %q", got, x.words)
		}
	}
}

func TestMarksGiveUpParenthesesFirst(t *testing.T) {
	for _, x := range []struct {
		marks string
		cells int
		want  string
	}{
		{"(8)/", 4, "(8)/"}, {"(8)/", 3, "(8/"}, {"(8)/", 2, "8/"}, {"X(7)/", 5, "X(7)/"}, {"(8)/(7)", 5, "(8/(7"}, {"X", 0, ""},
	} {
		if got := marksIn(x.marks, x.cells); got != x.want {
			t.Errorf("%s in %d cells: %q", x.marks, x.cells, got)
		}
	}
}

func TestOnlyWhatIsCertainIsWhole(t *testing.T) {
	for chance, want := range map[float64]string{0: "0%", 0.001: "<1%", 0.5: "50%", 0.9384: "94%", 0.999: ">99%", 1: "100%"} {
		if got := percent(chance); got != want {
			t.Errorf("%v: %s", chance, got)
		}
	}
}

// TestDotOfTheFrameIsItsFullRack bowls a frame whose spare shot costs, a frame begun with a dead ball, and a tenth of
// three full racks of which only the first shows.
func TestDotOfTheFrameIsItsFullRack(t *testing.T) {
	e := alone(t)
	e.play("ada", "7.bbx"+"Drr=8=1"+"xxxxxxx"+"xttxx")
	f := e.picture().framesOf(e.picture().students()[0], columnsFor(80, 1, 2))
	for i, want := range map[int]string{0: "●", 1: "r", 9: "●"} {
		if got := f.frames[i].sign; got != want {
			t.Errorf("frame %d: %q", i+1, got)
		}
	}
	if e.Sheet("ada").Tally.Good != 10 {
		t.Errorf("%d good: the tenth's other racks count too", e.Sheet("ada").Tally.Good)
	}
}

func TestStudentAtALine(t *testing.T) {
	p := midEvening(t).picture()
	for line, want := range map[int]model.ID{0: "", 1: "ada", 2: "ada", 3: "bo", 5: "", 6: "cyd", 14: "finn", 15: "", 20: "", -1: ""} {
		if got, ok := p.studentAt(80, 21, line); got != want || ok != (want != "") {
			t.Errorf("line %d: %q", line, got)
		}
	}
}
