package model_test

import (
	"strings"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"

	"coach.settee/model"
)

func TestParseNewcomer(t *testing.T) {
	none := model.Optional[int]{}
	tests := []struct {
		text, name string
		average    model.Optional[int]
		hand       model.Hand
	}{
		{"Ada", "Ada", none, model.RightHand},
		{"Ada 120", "Ada", model.Known(120), model.RightHand},
		{"Ada 120 l", "Ada", model.Known(120), model.LeftHand},
		{"Ada 120 L", "Ada", model.Known(120), model.LeftHand},
		{"Ada 120 r", "Ada", model.Known(120), model.RightHand},
		{"Ada 120 R", "Ada", model.Known(120), model.RightHand},
		{"Ada l", "Ada", none, model.LeftHand},
		{"Ada L", "Ada L", none, model.RightHand},
		{"Ada L 120", "Ada L", model.Known(120), model.RightHand},
		{"Ada R 120 l", "Ada R", model.Known(120), model.LeftHand},
		{"Ada Marsh 0", "Ada Marsh", model.Known(0), model.RightHand},
		{"  Ada   Marsh  300 ", "Ada Marsh", model.Known(300), model.RightHand},
		{"Ada 007", "Ada", model.Known(7), model.RightHand},
		{"l", "l", none, model.RightHand},
		{"Nan 150", "Nan", model.Known(150), model.RightHand},
		{"Ada left-handed", "Ada", none, model.LeftHand},
		{"Ada Left-Handed 120", "Ada", model.Known(120), model.LeftHand},
		{"Ada 120 right-handed", "Ada", model.Known(120), model.RightHand},
		{"Bo Inf", "Bo Inf", none, model.RightHand},
		{"Ada 2nd", "Ada 2nd", none, model.RightHand},
		{"李 172 l", "李", model.Known(172), model.LeftHand},
		{"A\x1bda\t120", "Ada", model.Known(120), model.RightHand},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			want := model.Student{Name: tt.name, Average: tt.average, Hand: tt.hand}
			got, err := model.ParseNewcomer(tt.text)
			if diff := gocmp.Diff(want, got); err != nil || diff != "" {
				t.Errorf("%v (-want +got):\n%s", err, diff)
			}
		})
	}
	for text, words := range map[string]string{
		"":                         "the name is empty",
		"  ":                       "the name is empty",
		"120":                      "a name comes first",
		"120 l":                    "a name comes first",
		"Ada #0HGF":                "leave it out for a new Ada",
		"Ada 120 l #0HGF":          "leave it out for a new Ada",
		"Ada 301":                  "0 to 300",
		"Ada -5":                   "0 to 300",
		"Ada +5":                   "0 to 300",
		"Ada 120.5":                "whole pins",
		"Ada 120,5":                "whole pins",
		"Ada 99999999999999999999": "0 to 300",
		strings.Repeat("Ada ", 30): "names have up to",
		"\u200b\u200b":             "the name is empty",
	} {
		if s, err := model.ParseNewcomer(text); err == nil || !strings.Contains(err.Error(), words) {
			t.Errorf("%q is read as %+v, %v", text, s, err)
		}
	}
}
