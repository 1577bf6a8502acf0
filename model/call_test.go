package model_test

import (
	"fmt"
	"strings"
	"testing"

	"coach.settee/model"
)

// averageOf gives an average of each level.
var averageOf = map[model.Level]int{
	model.New: 100, model.Developing: 140, model.Regular: 172, model.Advanced: 200, model.Elite: 220,
}

func TestLetterKeys(t *testing.T) {
	tests := []struct {
		keys, letters string
		touched       bool
	}{
		{"", "AAAA", false},
		{"b", "BAAA", true},
		{"btrf", "BBBB", true},
		{"bbtB", "BBAA", true},
		{"bbbb", "FAAA", true},
		{"bB", "AAAA", true},
	}
	for _, tt := range tests {
		t.Run(tt.keys, func(t *testing.T) {
			c := beginLesson(t, "Ada 172").press(tt.keys).Call()
			if c.Letters.String() != tt.letters || c.Touched != tt.touched {
				t.Errorf("%v, touched %v", c.Letters, c.Touched)
			}
		})
	}
	beginLesson(t, "Ada 172").refuse("B", "balance is A already")
	beginLesson(t, "Ada 172").refuse("ffff f", "finish is F already")
}

// watching gives a lesson with one student, of whom only some axes are watched from some letters on.
func watching(t *testing.T, start model.Letters, watched ...model.Axis) *lesson {
	l := beginLesson(t, "")
	s := model.Student{ID: "Ada", Name: "Ada", Hand: model.RightHand, Average: model.Known(172), Start: start}
	for _, a := range watched {
		s.Watched = s.Watched.With(a)
	}
	l.mustKeep(l.Seat(s, 7))
	return l
}

func TestAxesThatAreNotWatched(t *testing.T) {
	const a, b, no = model.A, model.B, model.NoLetter
	tests := []struct {
		name, keys string
		start      model.Letters
		want       string
	}{
		{"stay empty", "", model.Letters{}, "·A··"},
		{"lowered are watched a step below the start", "b", model.Letters{}, "BA··"},
		{"raised are watched at the start", "B", model.Letters{}, "AA··"},
		{"raised are watched at their own start", "B", model.Letters{b, a, a, a}, "BA··"},
		{"lowered from their own start", "b", model.Letters{b, a, a, a}, "CA··"},
		{"a start that is not given is A", "b", model.Letters{no, b, no, no}, "BB··"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l := watching(t, tt.start, model.Target).press(tt.keys)
			if got := l.Call().Letters.String(); got != tt.want {
				t.Errorf("%s, want %s", got, tt.want)
			}
			l.press("x")
			if got := l.Call().Letters.Watched(); got != model.AxisSet(0).With(model.Target) {
				t.Errorf("the next delivery watches %b", got)
			}
		})
	}
	t.Run("a side makes target watched", func(t *testing.T) {
		c := watching(t, model.Letters{}, model.Balance).press("i").Call()
		if c.Letters.String() != "AB··" || c.Side != model.Inside || c.SideBoards != 1 {
			t.Errorf("%v %s by %d", c.Letters, c.Side, c.SideBoards)
		}
	})
}

// Boards a step: new 5, developing 3, regular 2, advanced and elite 1 (common practice, no source).
func TestSides(t *testing.T) {
	letters := map[model.Level]string{
		model.New:        "BBBBBCCCCCDDDDDFFF",
		model.Developing: "BBBCCCDDDFFFFFFFFF",
		model.Regular:    "BBCCDDFFFFFFFFFFFF",
		model.Advanced:   "BCDFFFFFFFFFFFFFFF",
		model.Elite:      "BCDFFFFFFFFFFFFFFF",
	}
	for level, row := range letters {
		t.Run(string(level), func(t *testing.T) {
			for n := 1; n <= len(row); n++ {
				l := beginLesson(t, fmt.Sprintf("Ada %d", averageOf[level]))
				c := l.press(strings.Repeat("o", n)).Call()
				if got := c.Letters[model.Target].String(); got != row[n-1:n] || c.SideBoards != n || c.Side != model.Outside {
					t.Errorf("%d boards give %s, %s by %d; want %s", n, got, c.Side, c.SideBoards, row[n-1:n])
				}
				if !c.Touched {
					t.Error("a side lowers target: the call is touched")
				}
			}
		})
	}
	tests := []struct {
		name, keys, want string
		boards           int
	}{
		{"the other side gives back what the first lowered", "ooo i", "AB", 1},
		{"and back again", "i o i", "AB", 1},
		{"what the letter key lowered stays", "t oo i", "AC", 1},
		{"no better than A", "o T i", "AB", 1},
		{"at F no step is taken, none given back", "tttt ooo i", "AF", 1},
		{"one step to F is given back", "ttt ooo i", "AF", 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c := beginLesson(t, "Ada 220").press(tt.keys).Call()
			if got := c.Letters.String()[:2]; got != tt.want || c.SideBoards != tt.boards || c.Side != model.Inside {
				t.Errorf("%s, %s by %d", got, c.Side, c.SideBoards)
			}
		})
	}
}

func TestHits(t *testing.T) {
	for keys, want := range map[string]model.Hit{
		"": "", "p": model.Pocket, "pp": model.Pocket,
		"h": model.High, "hh": model.Nose, "hhh": model.Brooklyn, "hhhh": model.High,
		"l": model.Light, "ll": model.Missed, "lll": model.Light,
		"hl": model.Light, "lh": model.High, "hhp": model.Pocket, "ph": model.High, "hhlh": model.High,
	} {
		l := beginLesson(t, "Ada 172").press(keys)
		if c := l.Call(); c.Hit != want || c.Touched || c.Letters.String() != "AAAA" {
			t.Errorf("%q gives %q, letters %v, touched %v", keys, c.Hit, c.Letters, c.Touched)
		}
		l.press("x")
		if d := l.Sheet("Ada").Deliveries[0]; d.Hit != want || !d.Good() {
			t.Errorf("%q is kept as %q", keys, d.Hit)
		}
	}
	if model.Missed.String() != "missed the head pin" || model.Brooklyn.String() != "Brooklyn" || model.Light.String() != "light" {
		t.Error("a hit is not said in the words of the lanes")
	}
}

func TestPins(t *testing.T) {
	tests := []struct{ name, keys, want string }{
		{"named", "70⏎", "1.1 8/7-10 AAAA+"},
		{"taken off again", "7077⏎", "1.1 8/7-10 AAAA+"},
		{"all ten named fell none", "1234567890⏎", "1.1 0/all AAAA+"},
		{"no pin down", "-⏎", "1.1 0/all AAAA+"},
		{"pins named after no pin down count", "-7⏎", "1.1 9/7 AAAA+"},
		{"no pin down after pins were named counts", "7-⏎", "1.1 0/all AAAA+"},
		{"all of them whatever was named", "70x", "1.1 10/none AAAA+"},
		{"felled without names", "=7", "1.1 7/? AAAA+"},
		{"none felled", "=0", "1.1 0/all AAAA+"},
		{"a spare shot", "70⏎ 7⏎", "1.1 8/7-10 AAAA+, 1.2 1/7 AAAA+"},
		{"a spare", "70⏎ /", "1.1 8/7-10 AAAA+, 1.2 2/none AAAA+"},
		{"a spare with the same key as a strike", "70⏎ x", "1.1 8/7-10 AAAA+, 1.2 2/none AAAA+"},
		{"a spare missed", "70⏎ -⏎", "1.1 8/7-10 AAAA+, 1.2 0/7-10 AAAA+"},
		{"any pins after an unknown leave", "=7 46⏎", "1.1 7/? AAAA+, 1.2 1/4-6 AAAA+"},
		{"as many as are left", "=7 468⏎", "1.1 7/? AAAA+, 1.2 0/4-6-8 AAAA+"},
		{"a spare after an unknown leave", "=7 /", "1.1 7/? AAAA+, 1.2 3/none AAAA+"},
		{"none felled after an unknown leave", "=7 =0", "1.1 7/? AAAA+, 1.2 0/? AAAA+"},
		{"some felled after an unknown leave", "=7 =2", "1.1 7/? AAAA+, 1.2 2/? AAAA+"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := beginLesson(t, "Ada 172").press(tt.keys).deliveries("Ada"); got != tt.want {
				t.Errorf("%s, want %s", got, tt.want)
			}
		})
	}
	refusals := []struct{ name, keys, words string }{
		{"nothing named", "⏎", "x all down, - none, or name the pins"},
		{"nothing named any more", "77⏎", "x all down"},
		{"a pin that was not standing", "70⏎ 4", "pin 4 was not standing: 7-10"},
		{"more pins than are left", "=7 4689", "only 3 pins are left"},
		{"one pin is left", "=9 12", "only 1 pin is left"},
		{"a spare on a full rack", "/", "on a full rack x is a strike"},
		{"all that stands is not counted", "70⏎ =2", "2 pins are standing"},
		{"more than stands", "70⏎ =9", "2 pins are standing"},
		{"all of one pin", "7⏎ =1", "1 pin is standing"},
	}
	for _, tt := range refusals {
		t.Run(tt.name, func(t *testing.T) { beginLesson(t, "Ada 172").refuse(tt.keys, tt.words) })
	}
	t.Run("a number that no key gives", func(t *testing.T) {
		for _, n := range []int{-1, 10, 11} {
			l := beginLesson(t, "Ada 172").press("G10⏎")
			if _, err := l.RecordCount(l.at(), n); err == nil {
				t.Errorf("%d felled was taken", n)
			}
		}
	})
}

func TestFouls(t *testing.T) {
	tests := []struct{ name, keys, want string }{
		{"all down", "!x", "1.1 F/all AAAA+"},
		{"counted", "!=7", "1.1 F/all AAAA+"},
		{"named", "!70⏎", "1.1 F/all AAAA+"},
		{"nothing named", "!⏎", "1.1 F/all AAAA+"},
		{"no foul after all", "!!x", "1.1 10/none AAAA+"},
		{"graded by its letters", "b!x", "1.1 F/all BAAA+"},
		{"on a spare shot leaves what stood", "70⏎ !/", "1.1 8/7-10 AAAA+, 1.2 F/7-10 AAAA+"},
		{"on a spare shot at an unknown leave", "=7 !x", "1.1 7/? AAAA+, 1.2 F/? AAAA+"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l := beginLesson(t, "Ada 172").press(tt.keys)
			if got := l.deliveries("Ada"); got != tt.want {
				t.Errorf("%s, want %s", got, tt.want)
			}
			if got, want := l.Sheet("Ada").Tally.Fouls, strings.Count(tt.want, "F/"); got != want {
				t.Errorf("%d fouls are counted, want %d", got, want)
			}
		})
	}
}

func TestUnseen(t *testing.T) {
	tests := []struct{ name, keys, want string }{
		{"is scored and never graded", "zx", "1.1 10/none u"},
		{"and seen after all", "zzx", "1.1 10/none AAAA+"},
		{"keeps letters to itself", "bzx", "1.1 10/none u"},
		{"seen after all with its letters", "bzzx", "1.1 10/none BAAA+"},
		{"seen by a letter key", "zbx", "1.1 10/none BAAA+"},
		{"seen by a key that raises, also at A", "zBx", "1.1 10/none AAAA+"},
		{"seen by a key that lowers, also at F", "ffff zf x", "1.1 10/none AAAF"},
		{"seen by a side", "zix", "1.1 10/none ABAA+"},
		{"not seen by a hit", "zhx", "1.1 10/none u"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := beginLesson(t, "Ada 172").press(tt.keys).deliveries("Ada"); got != tt.want {
				t.Errorf("%s, want %s", got, tt.want)
			}
		})
	}
	t.Run("counts neither as good nor as missed", func(t *testing.T) {
		tally := beginLesson(t, "Ada 172").press("zx bbx x").Sheet("Ada").Tally
		if tally.Racks != 3 || tally.Seen != 2 || tally.Good != 1 || tally.Untouched != 1 || tally.Load != 3 {
			t.Errorf("%+v", tally)
		}
	})
	t.Run("has no side of a target that nobody watched", func(t *testing.T) {
		d := beginLesson(t, "Ada 172").press("i z x").Sheet("Ada").Deliveries[0]
		if d.Side != "" || d.SideBoards != 0 || d.Touched {
			t.Errorf("%+v", d)
		}
	})
}

func TestUntouched(t *testing.T) {
	for keys, touched := range map[string]bool{
		"x": false, "px": false, "70⏎": false, "!x": false, "OB⏎x": false, "zzx": false,
		"bx": true, "bBx": true, "ix": true, "zBx": true,
	} {
		l := beginLesson(t, "Ada 172").press(keys)
		if d := l.Sheet("Ada").Deliveries[0]; d.Touched != touched {
			t.Errorf("%q is touched: %v", keys, d.Touched)
		}
		if tally := l.Sheet("Ada").Tally; (tally.Untouched == 1) == touched {
			t.Errorf("%q counts %d untouched", keys, tally.Untouched)
		}
	}
}

// A call begun stays with its student and is recorded for nobody else.
func TestCallsStayWithTheirStudent(t *testing.T) {
	l := beginLesson(t, "Ada 172, Bo 120").press("b h 7 ⇥ t x")
	if got := l.deliveries("Bo"); got != "1.1 10/none ABAA+" {
		t.Errorf("Bo has %s", got)
	}
	if !l.Begun("Ada") || l.Begun("Bo") || l.UpStudent() != "Ada" {
		t.Errorf("begun for Ada %v, for Bo %v, %s is up", l.Begun("Ada"), l.Begun("Bo"), l.UpStudent())
	}
	if got := l.press("⏎").deliveries("Ada"); got != "1.1 9/7 BAAA+" {
		t.Errorf("Ada has %s", got)
	}
	l.press("/")
	if l.press("⇤ b").Clear(); l.Begun(l.UpStudent()) || l.Clear() {
		t.Error("a call that was cleared is still there")
	}
}

func TestChangesOfAStudentHoldFromThenOn(t *testing.T) {
	l := watching(t, model.Letters{}).press("b x")
	was := l.Student("Ada")
	now := was
	now.Weights, now.Bar, now.Level = model.Weights{70, 10, 10, 10}, model.GradeA, model.Advanced
	k := l.asKept()
	k.Students = []model.Student{now}
	e, err := model.Resume(k)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := e.RecordAllDown(l.at()); err != nil {
		t.Fatal(err)
	}
	ds := e.Sheet("Ada").Deliveries
	if first := ds[0]; !first.Good() || first.Level != model.Regular || first.Weights != was.Chosen().Weights {
		t.Errorf("the first is changed: %+v", first)
	}
	if second := ds[1]; second.Level != model.Advanced || second.Weights != now.Weights || second.Bar != model.GradeA {
		t.Errorf("the second has %+v", second)
	}
}
