package model_test

import (
	"strings"
	"testing"

	"coach.settee/model"
)

func TestParseJoining(t *testing.T) {
	right, left := model.RightHand, model.LeftHand
	none := model.Optional[int]{}
	kept := []model.Student{
		{ID: "1", Name: "Ada", Hand: right, Average: model.Known(120)},
		{ID: "2", Name: "Bo", Hand: left, Average: model.Known(172)},
		{ID: "3", Name: "Cy", Hand: right, Average: model.Known(100)},
		{ID: "4", Name: "Cy", Hand: right, Average: model.Known(210)},
		{ID: "5", Name: "Zoë Ärm", Hand: right},
		{ID: "x6KM3A", Name: "Di Marsh", Hand: right, Average: model.Known(165)},
		{ID: "x6KM3B", Name: "di marsh", Hand: right, Average: model.Known(165)},
		{ID: "x6KM3C", Name: "Di Marsh", Hand: left, Average: model.Known(165)},
		{ID: "7", Name: "Odo", Hand: right, Average: model.Known(90), Archived: true},
		{ID: "8", Name: "Ada", Hand: right, Average: model.Known(99), Archived: true},
		{ID: "9", Name: "Team 2000", Hand: right},
		{ID: "10", Name: "Jo L", Hand: right},
	}
	for _, tt := range []struct {
		text    string
		id      model.ID
		average model.Optional[int]
		hand    model.Hand
	}{
		{"Ada", "1", model.Known(120), right},
		{"ada 131", "1", model.Known(131), right},
		{"Ada 120 l", "1", model.Known(120), left},
		{"Bo", "2", model.Known(172), left},
		{"Bo 180", "2", model.Known(180), left},
		{"Bo 172 r", "2", model.Known(172), right},
		{"Cy 210", "4", model.Known(210), right},
		{"zoë ärm 90", "5", model.Known(90), right},
		{"Di Marsh left-handed", "x6KM3C", model.Known(165), left},
		{"Di Marsh 165 l", "x6KM3C", model.Known(165), left},
		{"di marsh #km3b", "x6KM3B", model.Known(165), right},
		{"Di Marsh 165 #KM3A", "x6KM3A", model.Known(165), right},
		{"Zoe Arm #5", "5", none, right},
		{"Team 2000", "9", none, right},
		{"jo L", "10", none, right},
		{"team 2000 150", "9", model.Known(150), right},
	} {
		j, err := model.ParseJoining(tt.text, kept)
		if s := j.Student; err != nil || !j.Known || s.ID != tt.id || s.Average != tt.average || s.Hand != tt.hand {
			t.Errorf("%q is %+v, %v", tt.text, j, err)
		}
	}
	for _, tt := range []struct{ text, name, doubt string }{
		{"Eve 120", "Eve", ""},
		{"Zoe Arm", "Zoe Arm", ""},
		{"Jo l", "Jo", ""},
		{"Cy", "Cy", "that may be Cy 100 or Cy 210"},
		{"Cy 150", "Cy", "none of that name is so: Cy 100 or Cy 210"},
		{"Cy left-handed", "Cy", "none of that name is so: Cy 100 or Cy 210"},
		{"Di Marsh", "Di Marsh", "that may be Di Marsh #KM3A or di marsh #KM3B or Di Marsh left-handed"},
		{"Di Marsh 165 r", "Di Marsh", "that may be Di Marsh #KM3A or di marsh #KM3B"},
		{"Ada left-handed", "Ada", "none of that name is so: Ada"},
		{"Eve left-handed", "Eve", "nobody is called Eve"},
		{"odo", "odo", "Odo is archived: s, Student, brings back"},
		{"Odo 130", "Odo", "Odo is archived: s, Student, brings back"},
		{"Ada 99", "Ada", "Ada 99 is archived: s, Student, brings back"},
	} {
		j, err := model.ParseJoining(tt.text, kept)
		if err != nil || j.Known || j.Student.Name != tt.name || !strings.HasPrefix(j.Doubt, tt.doubt) || (tt.doubt == "") != (j.Doubt == "") {
			t.Errorf("%q is %+v, %v", tt.text, j, err)
		}
	}
	for text, words := range map[string]string{
		"Ada 301":        "averages are 0 to 300",
		"Di Marsh #ZZZZ": "none of that name is so: Di Marsh #KM3A or di marsh #KM3B or Di Marsh left-handed",
		"Eve #0HGF":      "leave it out for a new Eve",
		"120":            "a name comes first",
		"":               "the name is empty",
	} {
		if j, err := model.ParseJoining(text, kept); err == nil || !strings.Contains(err.Error(), words) {
			t.Errorf("%q is %+v, %v", text, j, err)
		}
	}
}
