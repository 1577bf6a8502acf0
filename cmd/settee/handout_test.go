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
		got := handoutWanted{text: test.text}.fileName(in, append(others, test.student))
		if got != test.want || len(got) > 255 {
			t.Errorf("%q, minor %v: %s, want %s", test.student.Name, test.student.Minor, got, test.want)
		}
	}
}
