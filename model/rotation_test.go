package model_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"coach.settee/model"
)

// upAfter works keys one by one and gives who was up after each that recorded a ball, by first letters.
func upAfter(l *lesson, keys string) string {
	l.t.Helper()
	var up []string
	for _, k := range scriptOf(keys) {
		before := l.Deliveries()
		l.press(whole(k))
		if l.Deliveries() != before {
			up = append(up, string(l.UpStudent()[:1]))
		}
	}
	return strings.Join(up, "")
}

// whole gives a key as a script has it, a prompt's with the end of its line.
func whole(k string) string {
	if strings.Contains(prompts, k[:1]) {
		return k + "⏎"
	}
	return k
}

func TestWhoIsUpNext(t *testing.T) {
	tests := []struct{ name, students, keys, want string }{
		{"after a frame the next in the order", "Ada, Bo, Cy", "x x x x", "BCAB"},
		{"a frame of two balls", "Ada, Bo", "7⏎ / 7⏎ -⏎", "ABBA"},
		{"a foul does not end a frame", "Ada, Bo", "!x /", "AB"},
		{"a dead ball is thrown again", "Ada, Bo", "D x 7⏎ D /", "ABBBA"},
		{"the same where there is none", "Ada", "x x 7⏎ /", "AAAA"},
		{"unseen balls too", "Ada, Bo", "zx z7⏎ z/", "BBA"},
		{"one who is out is skipped", "Ada, Bo, Cy", "⇥ V x x x", "CAC"},
		{"the same where all others are out", "Ada, Bo", "⇥ V x x", "AA"},
		{"one in mid-frame comes first", "Ada, Bo, Cy", "7⏎ @Bo⏎ x / x", "AABC"},
		{"the nearest one in mid-frame", "Ada, Bo, Cy", "7⏎ @Bo⏎ 7⏎ @Cy⏎ x / /", "ABABC"},
		{"one in mid-frame who is out is not waited for", "Ada, Bo, Cy", "7⏎ V x x", "ACB"},
		{"the tenth is one frame", "Ada, Bo", "ZXXXXXXXXX⏎ ⇤ x 7⏎ / x", "BAABA"},
		{"after a finished game, too", "Ada, Bo", "ZXXXXXXXXXX7/⏎ x x", "BAB"},
		{"each delivery of a drill", "Ada, Bo", "G10⏎ @Bo⏎ G10⏎ @Ada⏎ x x 7⏎ -⏎", "BABA"},
		{"each ball of a warm-up", "Ada, Bo", "Gw⏎ @Bo⏎ Gw⏎ @Ada⏎ ⏎ ⏎ ⏎", "BAB"},
		{"a game and a drill on one pair", "Ada, Bo", "G10⏎ x 7⏎ / x", "BBAB"},
		{"each pair has its own", "Ada, Bo|Cy, Di", "x ␣ x ␣ x ␣ x", "BDAC"},
		{"the pair in view stays in view", "Ada, Bo|Cy, Di", "x x ␣ x x", "BADC"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := upAfter(beginLesson(t, tt.students), tt.keys); got != tt.want {
				t.Errorf("up are %s, want %s", got, tt.want)
			}
		})
	}
}

func TestRotationSettings(t *testing.T) {
	t.Run("rotation off", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo")
		l.mustKeep(l.ToggleRotate())
		if got := upAfter(l, "x x 7⏎ / V"); got != "AAAA" || l.UpStudent() != "Ada" {
			t.Errorf("up are %s, then %s", got, l.UpStudent())
		}
	})
	t.Run("drills in blocks", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo")
		l.mustKeep(l.ToggleBlock())
		if got := upAfter(l, "G2⏎ @Bo⏎ G2⏎ @Ada⏎ x D x x x x"); got != "AABBAA" {
			t.Errorf("up are %s", got)
		}
	})
	t.Run("blocks are of drills, not of games and warm-ups", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo")
		l.mustKeep(l.ToggleBlock())
		if got := upAfter(l, "Gw⏎ ⏎ x x"); got != "BAB" {
			t.Errorf("up are %s", got)
		}
	})
}

// lanesApart gives a lesson in which nobody alternates: those before the bar bowl on 7, those after it on 8.
func lanesApart(t *testing.T, seven, eight string) *lesson {
	t.Helper()
	l := beginLesson(t, seven+", "+eight)
	for _, seat := range l.Seats() {
		l.mustKeep(l.ToggleAlternate(seat.Student))
	}
	for _, name := range strings.Split(eight, ", ") {
		l.press("@" + name + "⏎ W")
	}
	return l.press("@" + l.seatNames()[0] + "⏎")
}

func (l *lesson) seatNames() []string {
	var names []string
	for _, s := range l.Seats() {
		names = append(names, string(s.Student))
	}
	return names
}

// Where nobody alternates each lane has its own order, and of the two who are next on their lanes the one who waited
// longest is up.
func TestLanesOfTheirOwn(t *testing.T) {
	tests := []struct{ name, seven, eight, keys, want string }{
		{"one on each", "Ada", "Bo", "x x x", "BAB"},
		{"two on each", "Ada, Cy", "Bo, Di", "xxxxxxxx", "BCDABCDA"},
		{"two on one and one on the other", "Ada, Cy", "Bo", "xxxxxx", "BCABCA"},
		{"one lane only", "Ada, Cy", "Bo", "@Bo⏎ V @Ada⏎ xxx", "CAC"},
		{"in mid-frame on the other lane", "Ada, Cy", "Bo, Di", "@Bo⏎ 7⏎ @Ada⏎ x / x", "BBCD"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := upAfter(lanesApart(t, tt.seven, tt.eight), tt.keys); got != tt.want {
				t.Errorf("up are %s, want %s", got, tt.want)
			}
		})
	}
	t.Run("every ball stays on the lane", func(t *testing.T) {
		l := lanesApart(t, "Ada, Cy", "Bo")
		l.press("xxxxxx")
		for id, lane := range map[model.ID]int{"Ada": 7, "Cy": 7, "Bo": 8} {
			for _, d := range l.Sheet(id).Deliveries {
				if d.Lane != lane {
					t.Errorf("%s bowled frame %d on %d", id, d.Frame, d.Lane)
				}
			}
		}
	})
	t.Run("one who comes late has waited longest", func(t *testing.T) {
		l := lanesApart(t, "Ada", "Bo").press("xx")
		l.mustKeep(l.Seat(model.Student{ID: "Cy", Name: "Cy", Hand: model.LeftHand}, 8))
		if seat, _ := l.SeatOf("Cy"); seat.Alternate {
			t.Error("Cy alternates")
		}
		if got := upAfter(l, "xxx"); got != "CBA" {
			t.Errorf("up are %s", got)
		}
	})
}

func lanesOf(l *lesson, id model.ID) string {
	var lanes []string
	for _, s := range l.Sheets(id) {
		for _, d := range s.Deliveries {
			lanes = append(lanes, fmt.Sprint(d.Lane))
		}
	}
	return strings.Join(lanes, " ")
}

func TestLanesOfFrames(t *testing.T) {
	tests := []struct{ name, students, keys, want string }{
		{"odd frames on the one, even on the other", "Ada", "x 7⏎/ x x", "7 8 8 7 8"},
		{"beginning on the even lane", "Ada", "W x x x", "8 7 8"},
		{"to the other lane from the next ball", "Ada", "x W x x", "7 7 8"},
		{"in the middle of a frame", "Ada", "7⏎ W / x", "7 8 7"},
		{"a drill stays on the lane", "Ada", "G5⏎ x x x W x", "7 7 7 8"},
		{"the next game begins on the lane of odd frames", "Ada", "ZXXXXXXXXX⏎ xxx x", "7 8 7 8 7 8 7 8 7 8 8 8 7"},
		{"to another pair", "Ada|Bo", "x P9⏎ x x", "7 9 10"},
		{"to another pair's even lane", "Ada|Bo", "x P10⏎ x x", "7 10 9"},
		{"to a pair that was not of the evening", "Ada", "x P12⏎ x x", "7 12 11"},
		{"everyone keeps to the side", "Ada, Bo", "x x P12 all⏎ x x x", "7 12 11"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l := beginLesson(t, tt.students)
			for _, k := range scriptOf(tt.keys) {
				l.press(whole(k))
				if l.UpStudent() != "Ada" && !strings.Contains(tt.students, ", ") {
					l.press("@Ada⏎")
				}
			}
			if got := lanesOf(l, "Ada"); got != tt.want {
				t.Errorf("on lanes %s, want %s", got, tt.want)
			}
		})
	}
}

func TestMovingPairs(t *testing.T) {
	t.Run("a pair breaks down and all of it move, in order, in mid-frame", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo, Cy").press("x 7⏎ P11 all⏎")
		if l.PairInView() != (model.Pair{11, 12}) || l.UpStudent() != "Bo" {
			t.Errorf("%v in view, %s up", l.PairInView(), l.UpStudent())
		}
		if got := upAfter(l, "/ x x"); got != "CAB" {
			t.Errorf("up are %s", got)
		}
		if got := lanesOf(l, "Bo"); got != "7 11" {
			t.Errorf("Bo on %s", got)
		}
	})
	t.Run("to a pair with others they go to the end of its order", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo|Cy, Di").press("P9 all⏎")
		if got := strings.Join(l.seatNames(), " "); got != "Cy Di Ada Bo" {
			t.Errorf("the order is %s", got)
		}
		if l.PairInView() != (model.Pair{9, 10}) || l.UpStudent() != "Cy" {
			t.Errorf("%v in view, %s up", l.PairInView(), l.UpStudent())
		}
		if got := upAfter(l, "xxxx"); got != "DABC" {
			t.Errorf("up are %s", got)
		}
	})
	t.Run("a pair that everyone leaves is no longer the evening's", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo|Cy|Di").press("x P13 all⏎")
		if diff := cmp.Diff([]model.Pair{{9, 10}, {11, 12}, {13, 14}}, l.Session().Pairs); diff != "" {
			t.Error(diff)
		}
		if l.PairInView() != (model.Pair{13, 14}) || l.UpStudent() != "Bo" {
			t.Errorf("%v in view, %s up", l.PairInView(), l.UpStudent())
		}
		if l.press("⌫"); l.PairInView() != (model.Pair{7, 8}) || len(l.Session().Pairs) != 3 {
			t.Errorf("taken back, %v in view of %v", l.PairInView(), l.Session().Pairs)
		}
	})
	t.Run("a pair that one student leaves stays the evening's", func(t *testing.T) {
		if l := beginLesson(t, "Ada").press("P9⏎"); len(l.Session().Pairs) != 2 {
			t.Errorf("the pairs are %v", l.Session().Pairs)
		}
	})
	t.Run("of eight pairs everyone of one goes to another", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo"+strings.Repeat("|", 7)).press("P99 all⏎")
		if n := len(l.Session().Pairs); n != model.MaxPairs || l.LaneOf("Bo") != 99 {
			t.Errorf("%d pairs, Bo on lane %d", n, l.LaneOf("Bo"))
		}
	})
	t.Run("places in the order are never shared", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo, Cy").press("P9⏎ @Bo⏎ P9⏎ @Ada⏎ P7⏎ @Cy⏎ P9⏎ @Ada⏎ P9⏎")
		seen := map[int]bool{}
		for _, s := range l.Seats() {
			if seen[s.Order] || s.Pair() != (model.Pair{9, 10}) {
				t.Errorf("%s has place %d on %v", s.Student, s.Order, s.Pair())
			}
			seen[s.Order] = true
		}
	})
	t.Run("one goes, the next of the pair is up, the pair stays in view", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo, Cy|Di").press("x P9⏎")
		if l.PairInView() != (model.Pair{7, 8}) || l.UpStudent() != "Cy" {
			t.Errorf("%v in view, %s up", l.PairInView(), l.UpStudent())
		}
		if got := upAfter(l, "␣ x x"); got != "BD" {
			t.Errorf("on 9/10 up are %s", got)
		}
	})
	t.Run("who comes to others alternates as they do", func(t *testing.T) {
		l := lanesApart(t, "Ada", "Bo").press("P9⏎")
		l.mustKeep(l.Seat(model.Student{ID: "Cy", Name: "Cy", Hand: model.RightHand}, 7))
		if cy, _ := l.SeatOf("Cy"); cy.Alternate {
			t.Error("Cy alternates on a pair where nobody does")
		}
		l = beginLesson(t, "Ada|Bo")
		l.mustKeep(l.ToggleAlternate("Ada"))
		if ada, _ := l.press("P10⏎").SeatOf("Ada"); !ada.Alternate || ada.Lane != 10 {
			t.Errorf("Ada has %+v", ada)
		}
	})
}

func TestMovingPairsRefused(t *testing.T) {
	beginLesson(t, "Ada").refuse("P7⏎", "W goes to the other lane")
	beginLesson(t, "Ada").refuse("P8⏎", "W goes to the other lane")
	beginLesson(t, "Ada").refuse("P0⏎", "lanes are 1 to 200")
	beginLesson(t, "Ada").refuse("P201⏎", "lanes are 1 to 200")
	beginLesson(t, "Ada"+strings.Repeat("|", 7)).refuse("P99⏎", "9 pairs: an evening takes up to 8")
	if l := beginLesson(t, "Ada").press("P200⏎"); l.LaneOf("Ada") != 200 {
		t.Errorf("on lane %d", l.LaneOf("Ada"))
	}
}

func TestComingAndGoing(t *testing.T) {
	t.Run("late, last in the order", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo").press("x ACy 172 l⏎")
		if cy := l.Student("Cy"); cy.Hand != model.LeftHand || cy.Average != model.Known(172) || l.UpStudent() != "Bo" {
			t.Errorf("%+v, %s is up", cy, l.UpStudent())
		}
		if got := upAfter(l, "xxx"); got != "CAB" {
			t.Errorf("up are %s", got)
		}
	})
	t.Run("early: out, and the next is up", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo, Cy").press("x V")
		if l.UpStudent() != "Cy" {
			t.Errorf("%s is up", l.UpStudent())
		}
		if got := upAfter(l, "xx"); got != "AC" {
			t.Errorf("up are %s", got)
		}
	})
	t.Run("and back in", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo, Cy").press("x V @Bo⏎ V")
		if got := upAfter(l, "xx"); got != "CA" {
			t.Errorf("up are %s", got)
		}
	})
	t.Run("out in mid-frame, the frame waits", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo").press("7⏎ V x x @Ada⏎ V /")
		if got := l.deliveries("Ada"); got != "1.1 9/7 AAAA+, 1.2 1/none AAAA+" || l.UpStudent() != "Bo" {
			t.Errorf("%s, %s is up", got, l.UpStudent())
		}
	})
	t.Run("the last one out stays in view", func(t *testing.T) {
		if l := beginLesson(t, "Ada").press("x V"); l.UpStudent() != "Ada" {
			t.Errorf("%s is up", l.UpStudent())
		}
	})
	t.Run("an evening has places for sixteen", func(t *testing.T) {
		l := beginLesson(t, "")
		for n := range model.MaxStudents {
			l.press(fmt.Sprintf("AN%c⏎", 'a'+n))
		}
		l.refuse("AMore⏎", "an evening takes up to 16")
	})
	beginLesson(t, "Ada").refuse("AAda⏎", "in tonight's roster already")
}

func TestGoingRound(t *testing.T) {
	l := beginLesson(t, "Ada, Bo|Cy, Di")
	for _, step := range []struct {
		keys string
		up   model.ID
	}{
		{"⇥", "Bo"}, {"⇥", "Cy"}, {"⇥", "Di"}, {"⇥", "Ada"}, {"⇤", "Di"}, {"⇤", "Cy"},
		{"␣", "Ada"}, {"⇥", "Bo"}, {"␣", "Cy"}, {"␣", "Bo"}, {"@Di⏎", "Di"}, {"␣", "Bo"},
	} {
		if l.press(step.keys); l.UpStudent() != step.up {
			t.Errorf("%s puts up %s, want %s", step.keys, l.UpStudent(), step.up)
		}
	}
	l.refuse("@Eve⏎", "not in tonight's roster")
	beginLesson(t, "Ada, Bo").refuse("␣", "no other pair has students")
	beginLesson(t, "Ada|").refuse("␣", "no other pair has students")
	t.Run("pairs without students are passed over", func(t *testing.T) {
		l := beginLesson(t, "Ada||Bo")
		if l.press("␣").UpStudent() != "Bo" || l.press("␣").UpStudent() != "Ada" {
			t.Errorf("%s is up", l.UpStudent())
		}
	})
}

// An evening that is taken in from elsewhere does not tell who was up: whose turn it is follows from what was bowled.
func TestWhoIsUpWhereItIsNotKept(t *testing.T) {
	for keys, want := range map[string]model.ID{
		"": "Ada", "x": "Bo", "x x": "Cy", "x 7⏎": "Bo", "x x x": "Ada", "x D": "Bo", "7⏎ @Bo⏎ x": "Ada", "x V": "Cy",
	} {
		k := beginLesson(t, "Ada, Bo, Cy").press(keys).asKept()
		k.Up = model.Up{}
		e, err := model.Resume(k)
		if err != nil {
			t.Fatal(err)
		}
		if e.UpStudent() != want || e.PairInView() != (model.Pair{7, 8}) {
			t.Errorf("after %q %s is up on %v, want %s", keys, e.UpStudent(), e.PairInView(), want)
		}
	}
}
