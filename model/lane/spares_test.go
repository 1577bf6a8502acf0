package lane_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"coach.settee/model"
	"coach.settee/model/lane"
	"coach.settee/model/tenpin"
)

func spareLine(t *testing.T, in lane.SpareInput, leave ...int) lane.Spare {
	t.Helper()
	table := lane.SpareTable(in)
	i := slices.IndexFunc(table, func(s lane.Spare) bool { return s.Leave == tenpin.Pins(leave...) })
	if i < 0 {
		t.Fatalf("no line for %v", leave)
	}
	return table[i]
}

func strikeLine(slide, arrows float64) model.Line {
	return model.Line{Slide: model.Known(slide), Arrows: model.Known(arrows)}
}

// Worked by hand for a strike ball at 17.5 that rises tan 5 = .0875 boards for each of the 11.277 boards of a foot: at the
// 4, 1.732 ft on, it is at 19.21; feet 4 right move it 4(61.732/15 - 1) = 12.46 to 31.67, the pin stands at 31.28.
// At the 2, .866 ft on, it is at 18.35; feet 3 and target 1 right move it 2 x 60.866/15 - 3 = 5.12 to 23.47, the pin is at 25.64.
// The straight ball from board 26 over 21 has fallen 5 x 62.598/15 = 20.87 to 5.13 at the 10, which stands at 3.08.
func TestSpareTable(t *testing.T) {
	in := lane.SpareInput{Hand: model.RightHand, Strike: strikeLine(27, 15)}
	tests := []struct {
		leave   []int
		from    lane.SpareFrom
		line    model.Line
		move    lane.Move
		outside float64
	}{
		{[]int{1}, lane.FromStrike, strikeLine(27, 15), lane.Move{}, 2.5},
		{[]int{4}, lane.FromStrike, strikeLine(23, 15), lane.Move{Feet: -4}, -.39},
		{[]int{3}, lane.FromStrike, strikeLine(28, 15), lane.Move{Feet: 1}, -.94},
		{[]int{2, 4, 5}, lane.FromStrike, strikeLine(24, 14), lane.Move{Feet: -3, Target: -1}, 2.17},
		{[]int{1, 3, 6, 10}, lane.FromStrike, strikeLine(27, 15), lane.Move{}, 2.5},
		{[]int{10}, lane.Computed, strikeLine(32, 21), lane.Move{Feet: 5, Target: 6}, -2.05},
	}
	for _, tt := range tests {
		s := spareLine(t, in, tt.leave...)
		if s.From != tt.from || s.Line != tt.line || s.Move != model.Known(tt.move) || !s.Outside.Known ||
			math.Abs(s.Outside.Value-tt.outside) > .0051 || !s.Takes || s.Key != tt.leave[0] || s.Gutter {
			t.Errorf("%v: %+v", tt.leave, s)
		}
	}
}

// By hand for a straight ball: the pin that is hit must fly to the other within the angle that two pins' 4.766 inches fill at
// that distance, and the ball's offset is 6.257 boards times the sine. The 5 to the 7, 20.785 inches at 60 degrees: 46.74 to
// 73.26, 4.557 to 5.992 boards. The 1 to the 10, 36 inches at 30 degrees: 22.39 to 37.61, 2.383 to 3.818. A 7 pin's ball has
// 39.5 - (36.916 - 6.257) on the lane; the 2 and the 8 stand in line, so that all 2 x 6.257 do.
func TestSpareRoom(t *testing.T) {
	in := lane.SpareInput{Hand: model.RightHand, EntryDeg: model.Known(0.0)}
	for _, tt := range []struct {
		leave []int
		room  float64
	}{{[]int{5, 7}, 1.435}, {[]int{1, 2, 10}, 1.435}, {[]int{7}, 8.841}, {[]int{2, 8}, 12.514}, {[]int{9}, 12.514}} {
		if s := spareLine(t, in, tt.leave...); math.Abs(s.Room-tt.room) > .1 {
			t.Errorf("%v leaves %v boards, want %v", tt.leave, s.Room, tt.room)
		}
	}
}

// On which side of the key pin the ball passes is common practice, no source.
func TestSparesOnTheUsualSide(t *testing.T) {
	in := lane.SpareInput{Hand: model.RightHand, Strike: strikeLine(27, 15)}
	for _, tt := range []struct {
		leave []int
		right bool
	}{
		{[]int{1, 2, 4}, false}, {[]int{1, 3, 6}, true}, {[]int{2, 4, 5}, true}, {[]int{2, 7}, false}, {[]int{3, 10}, true},
		{[]int{3, 6, 10}, true}, {[]int{5, 7}, true}, {[]int{5, 10}, false}, {[]int{1, 2, 10}, false},
	} {
		if s := spareLine(t, in, tt.leave...); !s.Takes || s.Outside.Value > 0 != tt.right {
			t.Errorf("%s", s.Words(model.RightHand))
		}
	}
}

func drawSpares(t *rapid.T) lane.SpareInput {
	slide := float64(rapid.IntRange(14, 38).Draw(t, "slide"))
	in := lane.SpareInput{
		Hand:     model.RightHand,
		Strike:   strikeLine(slide, slide-6-float64(rapid.IntRange(-1, 9).Draw(t, "opened"))),
		EntryDeg: model.Known(rapid.Float64Range(0, 7).Draw(t, "entry")),
		ArrowsFt: rapid.Float64Range(12, 17).Draw(t, "target at"),
	}
	in.Strike.Arrows.Value = max(2, in.Strike.Arrows.Value)
	if rapid.Bool().Draw(t, "breakpoint known") {
		in.Strike.Breakpoint = model.Known(rapid.Float64Range(1, 15).Draw(t, "breakpoint"))
		in.Strike.BreakpointFt = model.Known(rapid.Float64Range(35, 48).Draw(t, "ft"))
	}
	return in
}

// The lines are reckoned again from the strike line's move, or the straight line over slide and target.
func TestEverySinglePinIsHit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawSpares(t)
		for _, s := range lane.SpareTable(in) {
			if s.Leave.Count() > 1 {
				continue
			}
			pin, ft := lane.PinAt(s.Key)
			laydown, arrows := s.Line.Slide.Value-6, s.Line.Arrows.Value
			at := laydown + (arrows-laydown)*ft/in.ArrowsFt
			if s.From == lane.FromStrike {
				rise := math.Tan(in.EntryDeg.Value*math.Pi/180) * (ft - 60) * 12 * 39 / 41.5
				at = 17.5 + rise + s.Move.Value.ShiftAt(ft, in.ArrowsFt)
			}
			if !s.Takes || math.Abs(pin-at) >= 6.257 || math.Abs(pin-at-s.Outside.Value) > 1e-9 || at < .5 || at > 39.5 {
				t.Fatalf("%s: the pin at %v, the ball at %v: %+v", s.Words(in.Hand), pin, at, s)
			}
			if laydown < 1 || laydown > 39 || arrows < 1 || arrows > 39 {
				t.Fatalf("%s is off the lane: %+v", s.Words(in.Hand), s.Line)
			}
			feet, target := s.Line.Slide.Value-in.Strike.Slide.Value, s.Line.Arrows.Value-in.Strike.Arrows.Value
			if float64(s.Move.Value.Feet) != feet || float64(s.Move.Value.Target) != target {
				t.Fatalf("%s leads to %+v", s.Words(in.Hand), s.Line)
			}
		}
	})
}

func TestSparesAreMirrored(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		right := drawSpares(t)
		right.Own = map[int]model.Line{10: strikeLine(34, 21)}
		left := right
		left.Hand, left.Own = model.LeftHand, map[int]model.Line{7: strikeLine(34, 21)}
		byLeave := map[tenpin.PinSet]lane.Spare{}
		for _, s := range lane.SpareTable(left) {
			byLeave[s.Leave] = s
		}
		table := lane.SpareTable(right)
		if len(byLeave) != len(table) {
			t.Fatalf("%d lines for %d", len(byLeave), len(table))
		}
		for _, s := range table {
			l := byLeave[s.Leave.Mirror()]
			if tenpin.Pins(l.Key) != tenpin.Pins(s.Key).Mirror() {
				t.Fatalf("the %d for the %d", l.Key, s.Key)
			}
			l.Leave, l.Key = s.Leave, s.Key
			if diff := gocmp.Diff(s, l); diff != "" {
				t.Fatalf("%v (-right +left):\n%s", s.Leave, diff)
			}
		}
	})
}

func TestSparesInTheOrderOfThePins(t *testing.T) {
	for _, hand := range []model.Hand{model.RightHand, model.LeftHand} {
		table := lane.SpareTable(lane.SpareInput{Hand: hand})
		for i, s := range table[:10] {
			if s.Leave != tenpin.Pins(i+1) {
				t.Errorf("%s hand: %v is line %d", hand, s.Leave, i+1)
			}
		}
		if !slices.IsSortedFunc(table[10:], func(a, b lane.Spare) int {
			return slices.Compare(a.Leave.Numbers(), b.Leave.Numbers())
		}) {
			t.Errorf("%s hand: %v", hand, table[10:])
		}
	}
}

func TestSparesOfTheirOwn(t *testing.T) {
	own := model.Line{Slide: model.Known(38.0), Arrows: model.Known(25.0)}
	in := lane.SpareInput{Hand: model.RightHand, Strike: strikeLine(27, 15), Own: map[int]model.Line{10: own, 6: {}}}
	s := spareLine(t, in, 10)
	if s.From != lane.FromOwn || s.Line != own || s.Move != model.Known(lane.Move{Feet: 11, Target: 10}) {
		t.Errorf("%+v", s)
	}
	if words := s.Words(in.Hand); words != "the 10 pin: feet 11 left, target 10 left; own line, kept" {
		t.Errorf("%q", words)
	}
	in.Tonight = map[int]model.Line{10: strikeLine(35, 21), 7: strikeLine(26, 15)}
	if again := spareLine(t, in, 10); again != s {
		t.Errorf("a line read tonight is in the own line's place: %+v", again)
	}
	if s := spareLine(t, in, 7); s.From != lane.FromTonight || s.Line != strikeLine(26, 15) ||
		s.Words(in.Hand) != "the 7 pin: feet 1 right, target stays; as read tonight" {
		t.Errorf("%q %+v", s.Words(in.Hand), s)
	}
	in.Strike.Slide.Value = 27.4
	if s := spareLine(t, in, 10); s.Move.Value.Feet != 11 {
		t.Errorf("from board 27.4 to 38: %+v", s.Move)
	}
	if s := spareLine(t, in, 6); s.From != lane.Computed {
		t.Errorf("a line of which nothing is known: %+v", s)
	}
	in.Own[10] = model.Line{Arrows: model.Known(25.0)}
	if s := spareLine(t, in, 10); s.From != lane.FromOwn || s.Move.Known || s.Outside.Known || s.Takes ||
		s.Words(in.Hand) != "the 10 pin: target 25; own line, kept" {
		t.Errorf("an own line without a slide: %q %+v", s.Words(in.Hand), s)
	}
}

// From board 26.2 over 20 a straight ball is at 26.2 - 6.2 x 62.598/15 = 0.33 beside the 10, in the gutter; from 26 at 0.96.
func TestSparesOfTheirOwnInTheGutter(t *testing.T) {
	for slide, want := range map[float64]bool{32.2: false, 32: true} {
		in := lane.SpareInput{Hand: model.RightHand, Own: map[int]model.Line{10: strikeLine(slide, 20)}}
		if s := spareLine(t, in, 10); s.Takes != want {
			t.Errorf("slide %v: %+v", slide, s)
		}
	}
}

func TestSparesWithoutAStrikeLine(t *testing.T) {
	k := model.Known[float64]
	for name, tt := range map[string]struct{ strike, want model.Line }{
		"nothing":     {},
		"arrows only": {model.Line{Arrows: k(15)}, model.Line{Arrows: k(15)}},
		"slide only":  {model.Line{Slide: k(27)}, model.Line{Slide: k(23)}},
	} {
		in := lane.SpareInput{Hand: model.RightHand, Strike: tt.strike}
		if s := spareLine(t, in, 4); s.Move != model.Known(lane.Move{Feet: -4}) || s.Line != tt.want || !s.Takes {
			t.Errorf("%s: %+v", name, s)
		}
		s := spareLine(t, in, 10)
		if s.Move.Known || s.Line != strikeLine(32, 21) || !s.Takes {
			t.Errorf("%s: %+v", name, s)
		}
		if words := s.Words(in.Hand); words != "the 10 pin: slide 32, target 21; 2 left of the 10; computed for a straight ball" {
			t.Errorf("%s: %q", name, words)
		}
	}
}

func TestSparesWithAnOffset(t *testing.T) {
	in := lane.SpareInput{Hand: model.RightHand, SlideOffset: model.Known(4.0)}
	if s := spareLine(t, in, 10); s.Line != strikeLine(30, 21) {
		t.Errorf("%+v", s.Line)
	}
}

func TestSparesForAnEntryAngleThatIsNone(t *testing.T) {
	want := lane.SpareTable(lane.SpareInput{EntryDeg: model.Known(5.0)})
	for _, deg := range []float64{-1, 11, math.NaN()} {
		if diff := gocmp.Diff(want, lane.SpareTable(lane.SpareInput{EntryDeg: model.Known(deg)})); diff != "" {
			t.Errorf("%v degrees (-want +got):\n%s", deg, diff)
		}
	}
	if gocmp.Equal(want, lane.SpareTable(lane.SpareInput{EntryDeg: model.Known(1.0)})) {
		t.Error("a straighter ball has the same table")
	}
}

// Feet 2 left move the line 2(43/15 - 1) = 3.7 boards right at 43 ft.
func TestSparesInTheGutter(t *testing.T) {
	for board, want := range map[float64]bool{4: true, 4.3: false, 8: false} {
		in := lane.SpareInput{Hand: model.RightHand, Strike: strikeLine(27, 15)}
		in.Strike.Breakpoint, in.Strike.BreakpointFt = model.Known(board), model.Known(43.0)
		s := spareLine(t, in, 9)
		if s.Move.Value != (lane.Move{Feet: 2}) || s.Gutter != want ||
			strings.Contains(s.Words(in.Hand), "the strike ball would be in the gutter") != want {
			t.Errorf("breakpoint %v: %s", board, s.Words(in.Hand))
		}
	}
}

func TestSparesInWords(t *testing.T) {
	in := lane.SpareInput{Hand: model.RightHand, Strike: strikeLine(27, 15)}
	for _, tt := range []struct {
		hand  model.Hand
		leave []int
		want  string
	}{
		{model.RightHand, []int{1}, "the 1 pin: the strike line; 3 right of the 1"},
		{model.RightHand, []int{4}, "the 4 pin: feet 4 right, target stays; full on the 4"},
		{model.RightHand, []int{2, 8}, "2-8 (sleeper): feet 2 right, target stays; 1 right of the 2"},
		{model.LeftHand, []int{3, 9}, "3-9 (sleeper): feet 2 left, target stays; 1 left of the 3"},
		{model.LeftHand, []int{2, 4, 7}, "2-4-7: feet 2 right, target 5 right; 4 left of the 2; computed for a straight ball; 6 boards of room"},
	} {
		in.Hand = tt.hand
		if got := spareLine(t, in, tt.leave...).Words(tt.hand); got != tt.want {
			t.Errorf("%q, want %q", got, tt.want)
		}
	}
	missed := lane.Spare{Leave: tenpin.Pins(7, 10), Key: 7, Outside: model.Known(-5.0), Move: model.Known(lane.Move{Feet: -1})}
	if got := missed.Words(model.RightHand); got != "7-10 (bedposts): feet 1 right, target stays; 5 left of the 7; does not clear it" {
		t.Errorf("%q", got)
	}
	for room, want := range map[float64]string{.3: "less than half a board of room", 1.2: "1 board of room", 1.6: "2 boards of room"} {
		narrow := lane.Spare{Leave: tenpin.Pins(5, 7), Key: 5, Takes: true, Room: room, Move: model.Known(lane.Move{Feet: 1})}
		if got := narrow.Words(model.RightHand); got != "5-7 (dime store): feet 1 left, target stays; "+want {
			t.Errorf("%q", got)
		}
	}
}
