package model_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"coach.settee/model"
)

// called makes students of these names, ids in their order; a name in parentheses is archived.
func called(names ...string) []model.Student {
	var out []model.Student
	for i, name := range names {
		bare := strings.Trim(name, "()")
		out = append(out, model.Student{
			ID: model.ID(fmt.Sprintf("s%04d", i)), Name: bare, Hand: model.RightHand, Archived: bare != name,
		})
	}
	return out
}

func TestFindStudents(t *testing.T) {
	students := called("Zuzana Květáková", "Ada Marsh", "(Ada Old)", "Bo Adair", "Måns Ørsted", "Niamh O'Hara", "Anne-Marie Loo",
		"Nguyễn Thị Hồng", "Ёлка Белова", "Νίκος Παππάς", "ليلى يوسف", "Jose\u0301 Luz", "Weiß Łukasz", "Bo Brand", "प्रिया शर्मा")
	tests := []struct {
		text     string
		archived bool
		want     string
	}{
		{"ad", false, "Ada Marsh, Bo Adair"},
		{"ad", true, "Ada Marsh, Ada Old, Bo Adair"},
		{"  ADA m ", false, "Ada Marsh"},
		{"m ada", false, "Ada Marsh"},
		{"kveta", false, "Zuzana Květáková"},
		{"KVĚT", false, "Zuzana Květáková"},
		{"mans ors", false, "Måns Ørsted"},
		{"ohara", false, "Niamh O'Hara"},
		{"o'h", false, "Niamh O'Hara"},
		{"hara", false, "Niamh O'Hara"},
		{"annema", false, "Anne-Marie Loo"},
		{"mar", false, "Ada Marsh, Anne-Marie Loo"},
		{"nguyen hong", false, "Nguyễn Thị Hồng"},
		{"елк", false, "Ёлка Белова"},
		{"νικος παππας", false, "Νίκος Παππάς"},
		{"لي", false, "ليلى يوسف"},
		{"शर्", false, "प्रिया शर्मा"},
		{"josé", false, "Jose\u0301 Luz"},
		{"jose l", false, "Jose\u0301 Luz"},
		{"weiss luk", false, "Weiß Łukasz"},
		{"b b", false, "Bo Brand"},
		{"bo", false, "Bo Adair, Bo Brand"},
		{"dai", false, "Bo Adair"},
		{"a m", false, "Ada Marsh, Anne-Marie Loo"},
		{"xq", false, ""},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			var got []string
			for _, s := range model.FindStudents(students, tt.text, tt.archived) {
				got = append(got, s.Name)
			}
			if joined := strings.Join(got, ", "); joined != tt.want {
				t.Errorf("%s, want %s", joined, tt.want)
			}
		})
	}
}

func TestFindStudentsByWhatTellsApart(t *testing.T) {
	right, left := model.RightHand, model.LeftHand
	students := []model.Student{
		{ID: "01K0HGF", Name: "Ada Marsh", Hand: right, Average: model.Known(165)},
		{ID: "01K0HGG", Name: "Ada Marsh", Hand: right, Average: model.Known(165)},
		{ID: "01K0HGH", Name: "Ada Marsh", Hand: left, Average: model.Known(165)},
		{ID: "01K0HGJ", Name: "Ada O'Hara", Hand: right, Average: model.Known(172)},
		{ID: "01K0HGK", Name: "Leo Ash", Hand: left},
		{ID: "01K0HGL", Name: "Rik Lahr", Hand: left, Average: model.Known(140), Archived: true},
	}
	for _, tt := range []struct{ text, want string }{
		{"ada m 165", "HGF HGG HGH"},
		{"ada 172", "HGJ"},
		{"ohara 17", "HGJ"},
		{"hara 17", "HGJ"},
		{"17", "HGJ"},
		{"ada marsh left-handed", "HGH"},
		{"left ada", "HGH"},
		{"le", "HGK"},
		{"Ada Marsh #0HGF", "HGF"},
		{"#0hgg", "HGG"},
		{"ada #0hg", "HGF HGG HGH HGJ"},
		{"#01K0HGG", "HGG"},
		{"#k0hgk", "HGK"},
		{"#", "HGF HGG HGH HGJ HGK"},
		{"lahr 140", ""},
		{"ada 166", ""},
		{"#1K0", ""},
	} {
		var got []string
		for _, s := range model.FindStudents(students, tt.text, false) {
			got = append(got, string(s.ID[4:]))
		}
		if joined := strings.Join(got, " "); joined != tt.want {
			t.Errorf("%q finds %s, want %s", tt.text, joined, tt.want)
		}
	}
}

func TestFindStudentsGivesAllForNothing(t *testing.T) {
	students := called("Cy", "(Bo)", "Ada", "cy", "Ådne")
	ids := func(found []model.Student) string {
		var out []string
		for _, s := range found {
			out = append(out, string(s.ID[4:]))
		}
		return strings.Join(out, " ")
	}
	if got := ids(model.FindStudents(students, "", false)); got != "2 4 0 3" {
		t.Error(got)
	}
	if got := ids(model.FindStudents(students, " ", true)); got != "2 4 1 0 3" {
		t.Error(got)
	}
	if students[0].Name != "Cy" || students[1].Name != "Bo" {
		t.Error("the students given were put in another order")
	}
}

func TestLabelAmong(t *testing.T) {
	student := func(id model.ID, name string, average int, hand model.Hand) model.Student {
		s := model.Student{ID: id, Name: name, Hand: hand}
		if average > 0 {
			s.Average = model.Known(average)
		}
		return s
	}
	right, left := model.RightHand, model.LeftHand
	tests := []struct {
		name     string
		students []model.Student
		want     string
	}{
		{"alone", []model.Student{student("x1", "Ada", 120, right), student("x2", "Bo", 120, right)}, "Ada, Bo"},
		{"by average", []model.Student{student("x1", "Ada", 120, right), student("x2", "ada", 130, right)}, "Ada 120, ada 130"},
		{"by hand", []model.Student{student("x1", "Ada", 120, right), student("x2", "Ada", 120, left)},
			"Ada right-handed, Ada left-handed"},
		{"by the id", []model.Student{student("aa-001", "Ada", 0, right), student("aa-002", "Ada", 0, right)}, "Ada #-001, Ada #-002"},
		{"by more of the id", []model.Student{student("a-0001", "Ada", 0, right), student("b-0001", "Ada", 0, right)},
			"Ada #a-0001, Ada #b-0001"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var got []string
			for _, s := range tt.students {
				got = append(got, model.LabelAmong(s, tt.students))
			}
			if joined := strings.Join(got, ", "); joined != tt.want {
				t.Errorf("%s, want %s", joined, tt.want)
			}
		})
	}
}

// someHundred makes so many students of invented names.
func someHundred(n int) []model.Student {
	first := []string{"Ilva", "Odo", "Suri", "Tåm", "Bex", "Wrén", "Anne-Marie", "Jo"}
	last := []string{"Corrandt", "Marchwick", "Pellanor", "Okkendale", "Thornquill", "Dastrell", "Květák", "O'Brack", "Nguyễn"}
	names := make([]string, n)
	for i := range names {
		names[i] = fmt.Sprintf("%s %s %c", first[i%len(first)], last[i/len(first)%len(last)], 'A'+i/72%26)
	}
	return called(names...)
}

func TestFindAmongFiveHundred(t *testing.T) {
	students := someHundred(500)
	found := model.FindStudents(students, "wren dast c", false)
	if len(found) != 1 || found[0].Name != "Wrén Dastrell C" {
		t.Errorf("%v", found)
	}
	if all := model.FindStudents(students, "", false); len(all) != 500 {
		t.Errorf("%d of 500", len(all))
	}
	labels := map[string]bool{}
	same := slices.Repeat(students[:1], 300)
	for i := range same {
		same[i].ID = students[i].ID
	}
	for _, s := range same {
		labels[model.LabelAmong(s, same)] = true
	}
	if len(labels) != len(same) {
		t.Errorf("%d students of one name have %d labels", len(same), len(labels))
	}
}

func BenchmarkFindStudents(b *testing.B) {
	students := someHundred(500)
	for _, text := range []string{"", "w", "wren dast c", "zzz", "dast 172"} {
		b.Run("text "+text, func(b *testing.B) {
			for b.Loop() {
				model.FindStudents(students, text, true)
			}
		})
	}
}

// Of 500 whom the name does not tell apart, too.
func BenchmarkFindNamesakes(b *testing.B) {
	students := someHundred(500)
	for i := range students {
		students[i].Name = "Ada Marsh"
	}
	for b.Loop() {
		if found := model.FindStudents(students, "ada #0499", true); len(found) != 1 {
			b.Fatal(found)
		}
	}
}

func TestSameName(t *testing.T) {
	for _, tt := range []struct {
		names []string
		want  bool
	}{
		{[]string{"Ada Marsh", "ada  marsh", "Áda Marsh"}, true},
		{[]string{"Ada Marsh", "Ada Marshall"}, false},
		{[]string{"Ada Marsh", "Ada Marsh", "Bo Marsh"}, false},
		{[]string{"Ada Marsh"}, true},
		{nil, true},
	} {
		if got := model.SameName(called(tt.names...)); got != tt.want {
			t.Errorf("%q: %v", tt.names, got)
		}
	}
}
