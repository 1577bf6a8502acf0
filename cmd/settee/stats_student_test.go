package main

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"coach.settee/model"
)

func neverSeen(model.ID) (time.Time, error) { return time.Time{}, nil }

func TestAStudentIsFound(t *testing.T) {
	students := []model.Student{
		{ID: "bo", Name: "Ann Bo"}, {ID: "x1", Name: "bo"}, {ID: "x2", Name: "Zoe Quill"}, {ID: "x3", Name: "Zoë Quill"},
		{ID: "x4", Name: "Ørjan Strand", Archived: true}, {ID: "x5", Name: "Ann Bower"}, {ID: "x6", Name: "Νίκος Λόγος"},
	}
	tests := []struct{ text, want string }{
		{"bo", "bo"},
		{"BO", "x1"},
		{"ann bo", "bo"},
		{" ann  bo ", "bo"},
		{"Ann Bow", "x5"},
		{"Zoe Quill", "x2"},
		{"Zoë Quill", "x3"},
		{"Zoe\u0308 Quill", "x3"},
		{"zoë quill", "x3"},
		{"ZOE QUILL", "x2"},
		{"zo", "several"},
		{"ann", "several"},
		{"ørjan strand", "x4"},
		{"Ørjan", "none"},
		{"νικος λογος", "x6"},
		{"νικοσ", "x6"},
		{"orjan strand", "x4"},
		{"strand", "none"},
		{"\u0301", "none"},
	}
	for _, test := range tests {
		got, err := findStudent(test.text, students, neverSeen)
		found := string(got.ID)
		switch {
		case err == nil:
		case strings.Contains(err.Error(), " may be "):
			found = "several"
		case strings.Contains(err.Error(), "the nearest are"):
			found = "none"
		}
		if found != test.want {
			t.Errorf("%q is %s (%v), want %s", test.text, found, err, test.want)
		}
	}
}

// TestAStudentIsFoundByTheLabel: of several of one name and one average too.
func TestAStudentIsFoundByTheLabel(t *testing.T) {
	marsh := func(id model.ID, average int, hand model.Hand) model.Student {
		return model.Student{ID: id, Name: "Zoë Marsh", Average: model.Known(average), Hand: hand}
	}
	students := []model.Student{
		marsh("01K0HGF", 165, model.RightHand), marsh("01K0HGG", 165, model.RightHand), marsh("01K0HGH", 165, model.LeftHand),
		marsh("01K0HGJ", 172, model.RightHand), {ID: "bo", Name: "Zoë", Hand: model.RightHand}, {ID: "zo", Name: "Bo", Hand: model.RightHand},
	}
	for _, s := range students {
		label := model.LabelAmong(s, students)
		for _, text := range []string{label, strings.ToLower(label), strings.Replace(label, "ë", "e", 1), strings.Replace(label, "ë", "e\u0308", 1)} {
			// The small letters of one name here are another's id.
			if got, err := findStudent(text, students, neverSeen); (err != nil || got.ID != s.ID) && text != "bo" {
				t.Errorf("%q of %s is %s, %v", text, s.ID, got.ID, err)
			}
		}
	}
	for text, words := range map[string]string{
		"Zoë Marsh":         `"Zoë Marsh" may be Zoë Marsh #0HGF (id 01K0HGF, average 165, no evening yet) or Zoë Marsh #0HGG`,
		"zoe marsh 165":     `may be Zoë Marsh #0HGF`,
		"Zoë Marsh #ZZZZ":   `no student is called "Zoë Marsh #ZZZZ": of that name are Zoë Marsh #0HGF (id 01K0HGF, `,
		"zoe marsh 190":     `of that name are Zoë Marsh #0HGF`,
		"Bo left-handed":    `of that name are Bo (id zo, `,
		"Nobody #0HGF":      "the nearest are ",
		"Zoë Marsh 165 172": "the nearest are ",
	} {
		if got, err := findStudent(text, students, neverSeen); err == nil || !strings.Contains(err.Error(), words) {
			t.Errorf("%q is %s, %v", text, got.ID, err)
		}
	}
}

func TestNearMatchesAreFew(t *testing.T) {
	var students []model.Student
	for i := range 8 {
		students = append(students, model.Student{ID: model.ID(fmt.Sprintf("s%d", i)), Name: "Ada Marsh"})
	}
	students = append(students, model.Student{ID: "far", Name: "Wilhelmina Okonkwo-Price"})
	_, err := findStudent("ada marsh", students, neverSeen)
	if err == nil || strings.Count(err.Error(), "(id ") != mostNear || !strings.Contains(err.Error(), " or 3 more:") {
		t.Errorf("got %v", err)
	}
	_, err = findStudent("Ava Marsh", students, neverSeen)
	if err == nil || strings.Count(err.Error(), "(id ") != mostNear || strings.Contains(err.Error(), "far") {
		t.Errorf("got %v", err)
	}
	if _, err = findStudent("ada", nil, neverSeen); err == nil || !strings.Contains(err.Error(), "no student is kept") {
		t.Errorf("got %v", err)
	}
}

// Levenshtein's distances: kitten and sitting is the usual example (common knowledge, from memory); the others by hand.
func TestChanges(t *testing.T) {
	tests := []struct {
		from, to string
		want     int
	}{{"kitten", "sitting", 3}, {"", "abc", 3}, {"abc", "", 3}, {"same", "same", 0}, {"ab", "ba", 2}, {"zoë", "zoe", 1}}
	for _, test := range tests {
		if got := changes([]rune(test.from), []rune(test.to)); got != test.want {
			t.Errorf("%q to %q takes %d, want %d", test.from, test.to, got, test.want)
		}
	}
}
