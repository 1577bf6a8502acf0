package model_test

import (
	"testing"

	"coach.settee/model"
)

// TestNewcomerWithCommas: commas part the name from what is told behind it, as the prompt lists the parts.
func TestNewcomerWithCommas(t *testing.T) {
	none := model.Optional[int]{}
	for _, tt := range []struct {
		text, name string
		average    model.Optional[int]
		hand       model.Hand
	}{
		{"Bo, 172", "Bo", model.Known(172), model.RightHand},
		{"Bo,172", "Bo", model.Known(172), model.RightHand},
		{"Bo ,172", "Bo", model.Known(172), model.RightHand},
		{"Bo , 172 ,", "Bo", model.Known(172), model.RightHand},
		{"Cy 172, l", "Cy", model.Known(172), model.LeftHand},
		{"Cy, 172, l", "Cy", model.Known(172), model.LeftHand},
		{"Cy,172,L", "Cy", model.Known(172), model.LeftHand},
		{"Cy 172,l", "Cy", model.Known(172), model.LeftHand},
		{"Cy, left-handed, 172", "Cy", model.Known(172), model.LeftHand},
		{"Cy, l", "Cy", none, model.LeftHand},
		{"Cy,", "Cy", none, model.RightHand},
		{", Cy", "Cy", none, model.RightHand},
		{"李, 172", "李", model.Known(172), model.RightHand},
		{"Quill, Bo", "Quill, Bo", none, model.RightHand},
		{"Quill, Bo 172", "Quill, Bo", model.Known(172), model.RightHand},
		{"Quill, Bo, 172, l", "Quill, Bo", model.Known(172), model.LeftHand},
		{"Quill,Bo 172", "Quill,Bo", model.Known(172), model.RightHand},
		{"Quill, L", "Quill, L", none, model.RightHand},
		{"Quill, 2nd", "Quill, 2nd", none, model.RightHand},
	} {
		s, err := model.ParseNewcomer(tt.text)
		if err != nil || s.Name != tt.name || s.Average != tt.average || s.Hand != tt.hand {
			t.Errorf("%q is %+v, %v", tt.text, s, err)
		}
	}
	for _, text := range []string{",", " , ", "Bo, 301", "Bo, 120,5", "120,", "Bo, #0HGF"} {
		if s, err := model.ParseNewcomer(text); err == nil {
			t.Errorf("%q is read as %+v", text, s)
		}
	}
}

func TestJoiningWithCommas(t *testing.T) {
	kept := []model.Student{
		{ID: "1", Name: "Ada", Hand: model.RightHand, Average: model.Known(120)},
		{ID: "2", Name: "Quill, Bo", Hand: model.RightHand},
		{ID: "3", Name: "Cy,", Hand: model.RightHand},
	}
	for text, id := range map[string]model.ID{
		"Ada, 131": "1", "ada,": "1", "Ada,131,l": "1", "Quill, Bo": "2", "Quill, Bo, 150": "2", "Cy,": "3", "Cy, 150": "3",
	} {
		if j, err := model.ParseJoining(text, kept); err != nil || !j.Known || j.Student.ID != id {
			t.Errorf("%q is %+v, %v", text, j, err)
		}
	}
	j, err := model.ParseJoining("Di, 150", kept)
	if err != nil || j.Known || j.Doubt != "" || j.Student.Name != "Di" || j.Student.Average != model.Known(150) {
		t.Errorf("%+v, %v", j, err)
	}
}
