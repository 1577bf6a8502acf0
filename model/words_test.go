package model_test

import (
	"strings"
	"testing"

	"coach.settee/model"
)

func TestDescribe(t *testing.T) {
	tests := []struct{ name, keys, want string }{
		{"a strike", "x", "Ada frame 1: strike A"},
		{"a leave", "bt70⏎", "Ada frame 1: 8, left 7-10 B+"},
		{"a count", "=7", "Ada frame 1: 7 A"},
		{"none down", "-⏎", "Ada frame 1: none down A"},
		{"a spare", "7⏎ /", "Ada frame 1: spare A"},
		{"a spare after a gutter ball", "-⏎ x", "Ada frame 1: spare A"},
		{"a spare missed", "70⏎ 7⏎", "Ada frame 1: 1, left 7 A"},
		{"a foul", "b!x", "Ada frame 1: foul A-"},
		{"unseen", "zx", "Ada frame 1: strike unseen"},
		{"a dead ball", "D", "Ada frame 1: dead ball"},
		{"strikes of the tenth", "ZXXXXXXXXX⏎ x x", "Ada frame 10: strike A"},
		{"a spare of the tenth", "ZXXXXXXXXX⏎ x 7⏎ /", "Ada frame 10: spare A"},
		{"after a spare of the tenth", "ZXXXXXXXXX⏎ 7⏎ / x", "Ada frame 10: strike A"},
		{"in a drill", "G10⏎ x", "Ada strike A"},
		{"in a drill at a pin", "G10 10⏎ x", "Ada all down A"},
		{"in a drill without pins", "G10⏎ ⏎", "Ada ball A"},
		{"in a warm-up", "Gw⏎ x", "Ada all down A"},
		{"in the next game, which it begins", "ZXXXXXXXXXXXX⏎ x", "Ada frame 1: strike A"},
		{"a cue", "Cslow⏎", "cue for Ada: slow"},
		{"a cue cleared", "C⏎", "cue for Ada cleared"},
		{"a game begun", "Gg⏎", "Ada begins game 1"},
		{"a game after a warm-up", "Gw⏎ ⏎ Gg⏎", "Ada begins game 1"},
		{"a drill", "G10 corner 10⏎", "Ada begins drill corner"},
		{"a warm-up", "Gw⏎", "Ada begins warm-up"},
		{"frames caught up", "Z9/ 43⏎", "Ada caught up: 4 balls unseen"},
		{"one ball caught up", "ZX⏎", "Ada caught up: 1 ball unseen"},
		{"the lane", "W", "Ada goes to lane 8"},
		{"the pair", "P9⏎", "Ada goes to lane 9"},
		{"a change", "Gw⏎ ⏎ Gg⏎ x , b⏎", "Ada, game 1, frame 1 changed"},
		{"a change of a drill", "G10⏎ x , b⏎", "Ada, drill, delivery 1 changed"},
		{"out", "V", "Ada is out of the rotation"},
		{"in again", "V V", "Ada is back in the rotation"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l := beginLesson(t, "Ada 172").press(tt.keys)
			done, _ := l.Last()
			if got := l.Describe(done); got != tt.want {
				t.Errorf("done: %q, want %q", got, tt.want)
			}
			if l.press("⌫"); l.Describe(done) != tt.want {
				t.Errorf("taken back: %q, want %q", l.Describe(done), tt.want)
			}
		})
	}
	t.Run("a frame handed over", func(t *testing.T) {
		l := beginLesson(t, "Ada 172, Bo 120").press("x , @Bo⏎")
		if done, _ := l.Last(); l.Describe(done) != "frame 1 of Ada handed to Bo" {
			t.Errorf("%q", l.Describe(done))
		}
	})
}

func TestLabels(t *testing.T) {
	type one struct {
		id      model.ID
		name    string
		average int
		hand    model.Hand
	}
	tests := []struct {
		name     string
		students []one
		want     string
	}{
		{"names of their own", []one{{"a", "Ada", 120, "right"}, {"b", "Bo", 120, "right"}}, "Ada, Bo"},
		{"told by the average", []one{{"a", "Ada", 120, "right"}, {"b", "ada", 172, "right"}}, "Ada 120, ada 172"},
		{"told by the hand", []one{{"a", "Ada", 120, "right"}, {"b", "Ada", 120, "left"}}, "Ada right-handed, Ada left-handed"},
		{"without an average told by the hand", []one{{"a", "Ada", 0, "right"}, {"b", "Ada", 0, "left"}}, "Ada right-handed, Ada left-handed"},
		{"told by the id", []one{{"xx11111", "Ada", 0, "right"}, {"yy22222", "Ada", 0, "right"}}, "Ada #1111, Ada #2222"},
		{"told by as much of the id as it takes", []one{{"xx1A111", "Ada", 0, "right"}, {"yy2A111", "Ada", 0, "right"}}, "Ada #1A111, Ada #2A111"},
		{"three of a name", []one{{"1", "Ada", 120, "right"}, {"2", "Ada", 120, "left"}, {"3", "Ada", 172, "left"}}, "Ada right-handed, Ada #2, Ada 172"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l := beginLesson(t, "")
			for _, o := range tt.students {
				s := model.Student{ID: o.id, Name: o.name, Hand: o.hand}
				if o.average > 0 {
					s.Average = model.Known(o.average)
				}
				l.mustKeep(l.Seat(s, 7))
			}
			var got []string
			for _, o := range tt.students {
				got = append(got, l.Label(o.id))
			}
			if strings.Join(got, ", ") != tt.want {
				t.Errorf("%s, want %s", strings.Join(got, ", "), tt.want)
			}
		})
	}
	t.Run("one who is not of the evening any more does not count", func(t *testing.T) {
		l := beginLesson(t, "Ada 172")
		was := model.Student{ID: "other", Name: "Ada", Hand: model.LeftHand, Average: model.Known(90)}
		if _, err := l.SeatKnown(was, was, 7); err != nil {
			t.Fatal(err)
		}
		if got := l.Label("Ada"); got != "Ada 172" {
			t.Errorf("%q", got)
		}
		if _, err := l.Undo(); err != nil {
			t.Fatal(err)
		}
		if got := l.Label("Ada"); got != "Ada" {
			t.Errorf("%q", got)
		}
	})
}

func TestTitles(t *testing.T) {
	l := beginLesson(t, "Ada 172").press("Gw⏎ ⏎")
	l.press("Gg⏎ ZXXXXXXXXXXXX⏎ G5 line⏎ x Gg⏎ x")
	var titles []string
	for _, s := range l.Sheets("Ada") {
		titles = append(titles, l.TitleOf(s.Game))
	}
	if got := strings.Join(titles, ", "); got != "warm-up, game 1, drill line, game 2" {
		t.Errorf("%s", got)
	}
}
