package model_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"coach.settee/model"
)

var evening = time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC)

func TestLanes(t *testing.T) {
	for text, want := range map[string][]model.Pair{
		"7":         {{7, 8}},
		"8":         {{7, 8}},
		"7 9 11":    {{7, 8}, {9, 10}, {11, 12}},
		"11, 7,8":   {{7, 8}, {11, 12}},
		"7-12":      {{7, 8}, {9, 10}, {11, 12}},
		"7/8":       {{7, 8}},
		"8-9":       {{7, 8}, {9, 10}},
		" 1  200 ":  {{1, 2}, {199, 200}},
		"1-16":      {{1, 2}, {3, 4}, {5, 6}, {7, 8}, {9, 10}, {11, 12}, {13, 14}, {15, 16}},
		"":          nil,
		"seven":     nil,
		"0":         nil,
		"9-7":       nil,
		"7-":        nil,
		"201":       nil,
		"1-200":     nil,
		"1-1000000": nil,
		"+7":        nil,
	} {
		got, err := model.ParseLanes(text)
		if diff := cmp.Diff(want, got); diff != "" || (err == nil) != (want != nil) {
			t.Errorf("%q: error %v, (-want +got):\n%s", text, err, diff)
		}
	}
}

func TestALane(t *testing.T) {
	for text, want := range map[string]int{"1": 1, "11": 11, "200": 200, "0": 0, "201": 0, "+11": 0, "-1": 0, "4e1": 0, "1.0": 0, "": 0, " 7": 0} {
		if got, err := model.ParseLane(text); got != want || (err == nil) != (want != 0) {
			t.Errorf("%q is lane %d, %v", text, got, err)
		}
	}
}

// begun gives an evening on 7/8 with students seated there.
func begun(t *testing.T, names ...string) *model.Evening {
	t.Helper()
	e, _, err := model.NewEvening(model.Session{ID: "s", At: evening, Pairs: []model.Pair{{7, 8}}, Rotate: true})
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		s := model.Student{ID: model.ID(name), Name: name, Hand: model.RightHand}
		if _, err := e.Seat(s, e.LaneWithRoom(model.Pair{7, 8})); err != nil {
			t.Fatal(err)
		}
	}
	return e
}

func TestArranging(t *testing.T) {
	t.Run("students begin on both lanes of a pair in turn", func(t *testing.T) {
		e := begun(t, "Ada", "Bo", "Cy")
		want := map[model.ID]int{"Ada": 7, "Bo": 8, "Cy": 7}
		for id, lane := range want {
			if seat, _ := e.SeatOf(id); seat.Lane != lane {
				t.Errorf("%s begins on %d, want %d", id, seat.Lane, lane)
			}
		}
	})
	t.Run("a place in the order", func(t *testing.T) {
		e := begun(t, "Ada", "Bo", "Cy")
		if _, err := e.MoveInOrder("Cy", -1); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff([]model.ID{"Ada", "Cy", "Bo"}, order(e)); diff != "" {
			t.Error(diff)
		}
		for id, by := range map[model.ID]int{"Ada": -1, "Bo": 1, "Di": 1} {
			if _, err := e.MoveInOrder(id, by); err == nil {
				t.Errorf("%s moved by %d", id, by)
			}
		}
		if _, err := e.Undo(); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff([]model.ID{"Ada", "Bo", "Cy"}, order(e)); diff != "" {
			t.Error(diff)
		}
	})
	t.Run("pairs are added in order and once", func(t *testing.T) {
		e := begun(t)
		if _, err := e.AddPairs([]model.Pair{{3, 4}, {7, 8}}); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff([]model.Pair{{3, 4}, {7, 8}}, e.Session().Pairs); diff != "" {
			t.Error(diff)
		}
		if _, err := e.AddPairs([]model.Pair{{3, 4}}); err == nil {
			t.Error("a pair was added twice")
		}
	})
}

func TestSettings(t *testing.T) {
	t.Run("what is set is set back", func(t *testing.T) {
		e := begun(t, "Ada")
		before := e.Session()
		for name, do := range map[string]func() (model.Step, error){
			"place":     func() (model.Step, error) { return e.SetPlace("Parkside") },
			"pattern":   func() (model.Step, error) { return e.SetPattern("41.5") },
			"rotate":    e.ToggleRotate,
			"block":     e.ToggleBlock,
			"alternate": func() (model.Step, error) { return e.ToggleAlternate("Ada") },
		} {
			step, err := do()
			if err != nil || step.Action.What == "" {
				t.Errorf("%s: %q, %v", name, step.Action.What, err)
			}
			if diff := cmp.Diff(before, e.Session()); diff == "" {
				t.Errorf("%s changed nothing", name)
			}
			if _, err := e.Undo(); err != nil {
				t.Errorf("%s: %v", name, err)
			}
			if diff := cmp.Diff(before, e.Session()); diff != "" {
				t.Errorf("%s taken back: %s", name, diff)
			}
		}
	})
	t.Run("a length that no oil has is refused", func(t *testing.T) {
		for _, text := range []string{"x", "7", "61", "NaN", "4e1", "+41"} {
			if _, err := begun(t).SetPattern(text); err == nil {
				t.Errorf("%q was taken", text)
			}
		}
	})
}

func TestSeatingAStudentWhoIsKnown(t *testing.T) {
	e := begun(t)
	was := model.Student{ID: "Ada", Name: "Ada", Hand: model.RightHand, Average: model.Known(120)}
	now := was
	now.Average = model.Known(131)
	if _, err := e.SeatKnown(was, now, 7); err != nil {
		t.Fatal(err)
	}
	step, err := e.Undo()
	if err != nil {
		t.Fatal(err)
	}
	last := step.Changes[len(step.Changes)-1]
	if diff := cmp.Diff(model.Record(was), last.After); diff != "" || last.Ref != was.Ref() {
		t.Errorf("taking back a place must leave the student as kept before (-want +got):\n%s", diff)
	}
	if _, seated := e.SeatOf("Ada"); seated {
		t.Error("Ada still has a place")
	}
}

func order(e *model.Evening) []model.ID {
	var ids []model.ID
	for _, s := range e.Seats() {
		ids = append(ids, s.Student)
	}
	return ids
}
