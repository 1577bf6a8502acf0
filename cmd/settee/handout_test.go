package main

import (
	"strings"
	"testing"
	"time"

	"coach.settee/model"
	"coach.settee/model/handout"
	"coach.settee/model/insight"
)

func TestHandoutFileNames(t *testing.T) {
	others := []model.Student{{ID: "x1", Name: "ada marsh!"}, {ID: "x2", Name: "Milo Other", Minor: true}}
	at := time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC)
	for _, test := range []struct {
		student model.Student
		text    bool
		want    string
	}{
		{model.Student{ID: "a", Name: "Bo Finch"}, false, "bo-finch-2026-03-04.html"},
		{model.Student{ID: "a", Name: "Bo Finch", Minor: true}, true, "bo-2026-03-04.txt"},
		{model.Student{ID: "a", Name: "Ada Marsh"}, false, "ada-marsh-a-2026-03-04.html"},
		{model.Student{ID: "a", Name: "Milo Ferrant", Minor: true}, false, "milo-a-2026-03-04.html"},
		{model.Student{ID: "a", Name: "../../etc/passwd"}, false, "etc-passwd-2026-03-04.html"},
		{model.Student{ID: "a", Name: `C:\con "x" <y>|?*`}, false, "c-con-x-y-2026-03-04.html"},
		{model.Student{ID: "a", Name: "Zoë Ørn-Quill"}, false, "zoë-ørn-quill-2026-03-04.html"},
		{model.Student{ID: "a", Name: "नीरज"}, false, "नीरज-2026-03-04.html"},
		{model.Student{ID: "a-1", Name: "★"}, false, "a-1-2026-03-04.html"},
		{model.Student{ID: "a", Name: strings.Repeat("球", 80)}, false, strings.Repeat("球", 40) + "-2026-03-04.html"},
	} {
		in := handout.Input{At: at, Figures: insight.Input{Student: test.student}}
		got := handoutWanted{text: test.text}.fileName(in, nil, append(others, test.student))
		if got != test.want || len(got) > 255 {
			t.Errorf("%q, minor %v: %s, want %s", test.student.Name, test.student.Minor, got, test.want)
		}
	}
}

// Of two with one name the averages are in the names of their pages, of two evenings of one date the hours.
func TestHandoutFileNamesThatTellApart(t *testing.T) {
	zone := time.FixedZone("", 3600)
	at := time.Date(2026, 3, 4, 18, 5, 0, 0, zone)
	students := []model.Student{
		{ID: "a", Name: "Mira Kestrel", Average: model.Known(98)}, {ID: "b", Name: "Mira Kestrel", Average: model.Known(140)},
		{ID: "c", Name: "Sam Alder", Average: model.Known(80), Minor: true}, {ID: "d", Name: "Sam Birch", Minor: true},
	}
	sessions := []model.Session{{ID: "s", At: at.UTC()}, {ID: "morning", At: at.Add(-8 * time.Hour)}}
	for i, want := range []string{"mira-kestrel-98", "mira-kestrel-140", "sam-80", "sam-d"} {
		in := handout.Input{At: at, Figures: insight.Input{Student: students[i]}}
		if got := (handoutWanted{}).fileName(in, sessions[:1], students); got != want+"-2026-03-04.html" {
			t.Errorf("%s, want %s", got, want)
		}
		if got := (handoutWanted{}).fileName(in, sessions, students); got != want+"-2026-03-04-1805.html" {
			t.Errorf("on a day with two evenings %s, want %s", got, want)
		}
	}
}

func TestFindStudentByTheNameThatTellsApart(t *testing.T) {
	students := []model.Student{
		{ID: "a", Name: "Mira Kestrel", Average: model.Known(98)}, {ID: "b", Name: "Mira Kestrel", Average: model.Known(140)},
	}
	never := func(model.ID) (time.Time, error) { return time.Time{}, nil }
	if got, err := findStudent("mira kestrel 98", students, never); err != nil || got.ID != "a" {
		t.Errorf("found %q, %v", got.ID, err)
	}
	if _, err := findStudent("mira kestrel", students, never); err == nil {
		t.Error("one of two with the same name was taken")
	}
}
