package tui

import (
	"testing"

	"coach.settee/model"
)

// TestOwnSpareLines: on the spare table c keeps the student's own line for a pin, in place of one read tonight.
func TestOwnSpareLines(t *testing.T) {
	for _, c := range []struct{ name, keys, ten, seven, words string }{
		{"what there was", "ysm", "20 31", "", "moves tonight"},
		{"asked for", "ysc", "20 31", "", "Bo Winter's own line: pin arrows slide, 10 21 32"},
		{"kept", "ysc10 21 32<enter>", "21 32", "", "own line of Bo Winter for the 10 pin: at 21 from 32"},
		{"with its breakpoint", "ysc10 21 32 14@40<enter>", "21 32 14@40", "", "through 14@40"},
		{"a part of it", "ysc10 . 32<enter>", "20 32", "", "feet 10 left, target 8 left; own line, kept"},
		{"as it is", "ysc10 20<enter>", "20 31", "", "the own line for the 10 pin stays as it is"},
		{"taken off", "ysc10<enter>", "", "", "computed for a straight ball"},
		{"taken back", "ysc10<enter><bs>", "20 31", "", "feet 9 left, target 8 left; own line, kept"},
		{"done again", "ysc10<enter><bs>U", "", "", "done again: own line of Bo Winter for the 10 pin taken off"},
		{"none to take off", "ysc7<enter>", "20 31", "", "no own line is kept for the 7 pin"},
		{"read tonight", "ys", "20 31", "", "feet 5 right, target 1 left; as read tonight"},
		{"what was read, kept", "ysc7 .<enter>", "20 31", "13 17", "feet 5 right, target 1 left; own line, kept"},
		{"in its place", "ysc7 14 18<enter>", "20 31", "14 18", "feet 4 right, target 2 left; own line, kept"},
		{"no pin", "ysc17 34 8@43<enter>", "20 31", "", "comes first"},
		{"dropped", "ysc7 14 18<esc>", "20 31", "", "dropped"},
		{"nothing to keep", "ysc5 .<enter>", "20 31", "", "no line is named"},
		{"of the other student", "ys<tab>c10 21 32<enter>", "20 31", "", "own line of Cyd Okafor for the 10 pin"},
		{"on the page of moves the line aimed at", "ymc13<enter>", "20 31", "", "Bo Winter aims at 13"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := lineApp(t, sparesEvening(t)).press(c.keys)
			d.says(c.words)
			for pin, want := range map[int]string{10: c.ten, 7: c.seven} {
				if got := lineWords(d.evening.Student("bo").SpareLine(pin)); got != want {
					t.Errorf("for the %d pin %q is kept, wanted %q", pin, got, want)
				}
			}
		})
	}
}

// TestAMoveOfNoLine: two clean misses alike ask for a move where no line is set; it is said that c sets one first.
func TestAMoveOfNoLine(t *testing.T) {
	begin := func() *appTest {
		e := lineEvening(t)
		for range 4 {
			e.must(e.PutUp("bo"))
			e.done(e.SetLine("+3"))
			e.must(e.RecordAllDown(testTime))
		}
		return lineApp(t, e)
	}
	d := begin().press("y")
	d.says("FEET", "c sets the line first", "no line set: c sets it")
	d.press("<enter>").says("no line is set that could be moved: c sets it")
	if got := d.evening.AimOf("bo", 7); !got.IsZero() {
		t.Errorf("lane 7 is aimed at %q", lineWords(got))
	}
	d.press("c<enter>").says("no line is named")
	d.press("12 22<enter>")
	d.silent("c sets the line first")
	if got := lineWords(d.evening.AimOf("bo", 7)); got != "12 22" {
		t.Errorf("lane 7 is aimed at %q", got)
	}
	d = begin().press("yc. . 8@43<enter>")
	d.says("c sets the line first")
	d.press("<enter>").says("no line is set that could be moved")
	if got := lineWords(d.evening.AimOf("bo", 7)); got != ". . 8@43" {
		t.Errorf("lane 7 is aimed at %q", got)
	}
}

// sparesEvening has an own line for the 10 pin kept of Bo, who has made the 7 pin.
func sparesEvening(t testing.TB) eveningTest {
	t.Helper()
	e := movedEvening(t)
	l, err := model.ParseAim("20 31", model.Line{})
	e.done(err)
	e.must(e.SetSpareLine("bo", 10, l))
	e.must(e.PutUp("bo"))
	e.done(e.TogglePin(7))
	e.must(e.RecordNamed(testTime))
	e.done(e.SetLine("13 17"))
	e.must(e.RecordSpare(testTime))
	e.throws("bo", 3.5)
	return e
}
