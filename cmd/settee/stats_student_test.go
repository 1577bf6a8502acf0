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
		{"zoë quill", "several"},
		{"zo", "several"},
		{"ann", "several"},
		{"ørjan strand", "x4"},
		{"Ørjan", "none"},
		{"νικος λογος", "x6"},
		{"νικοσ", "x6"},
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
