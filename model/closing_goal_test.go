package model_test

import (
	"testing"
	"time"

	"coach.settee/model"
)

// A goal that is chosen later is not held against an evening that was closed before.
func TestAClosedEveningKeepsItsGoal(t *testing.T) {
	at := time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC)
	e, _, err := model.NewEvening(model.Session{ID: "s", At: at, Pairs: []model.Pair{{7, 8}}})
	must := func(_ model.Step, err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	must(model.Step{}, err)
	ada := model.Student{ID: "ada", Name: "Ada", Hand: model.RightHand, Goal: 12}
	must(e.Seat(ada, 7))
	must(e.Close(at.Add(2 * time.Hour)))
	ada.Goal = 19
	must(e.ChangeStudent(ada, "goal"))
	if got := e.ChosenFor("ada").Goal; got != 12 {
		t.Errorf("the goal of the closed evening is %v, want 6", got.Shots())
	}
	seat, _ := e.SeatOf("ada")
	if got := ada.ChosenAt(seat).Goal; got != 12 || ada.Chosen().Goal != 19 {
		t.Errorf("on the page the goal is %v, want 6; from now on it is %v, want 9.5", got.Shots(), ada.Chosen().Goal.Shots())
	}
	must(e.OpenAgain())
	must(e.Close(at.Add(3 * time.Hour)))
	if got := e.ChosenFor("ada").Goal; got != 12 {
		t.Errorf("closed again, the goal is %v, want 6", got.Shots())
	}
}
