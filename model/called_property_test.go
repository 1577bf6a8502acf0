package model_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"coach.settee/model"
)

// namesakes makes a roster of few names, averages and hands, so that many are the same, with names that are written like
// labels of others, and ids that end alike or are others' names.
func namesakes(random *rand.Rand) []model.Student {
	names := []string{"Ada", "ada", "Ada Marsh", "ADA  marsh", "Adà Marsh", "Ada 120", "Ada L", "Ada l", "Ada left-handed", "Ada #b1",
		"Ada Marsh 120 #0001", "l", "120", "#b1", "Ma\u200bra", "Mara", "Ωda", "ωda", "Ada Marsh right-handed 120"}
	ids := []model.ID{"Ada", "ada", "b1", "a-b1", "x-a-b1", "X-A-B1", "l", "0001", "00010001", "z0001", "Z0001", "Mara", "120"}
	var out []model.Student
	for range 1 + random.IntN(12) {
		s := model.Student{Name: names[random.IntN(len(names))], Hand: model.RightHand}
		if s.ID = ids[random.IntN(len(ids))]; random.IntN(2) == 0 {
			s.ID = model.ID(fmt.Sprintf("%c%c%d", 'a'+random.IntN(3), 'A'+random.IntN(2), 1000+random.IntN(9)))
		}
		if slices.ContainsFunc(out, func(o model.Student) bool { return o.ID == s.ID }) {
			continue
		}
		if random.IntN(3) == 0 {
			s.Hand = model.LeftHand
		}
		if random.IntN(3) > 0 {
			s.Average = model.Known(120 + random.IntN(3))
		}
		out = append(out, s)
	}
	return out
}

// TestLabelsNameTheirStudents: whoever is in a roster, each label is another, and typed back it names its student alone: at
// a prompt, among those who are found, and for a command.
func TestLabelsNameTheirStudents(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 26))
	for range 1000 {
		students := namesakes(random)
		labels := map[string]model.ID{}
		for _, s := range students {
			label := model.LabelAmong(s, students)
			if other, taken := labels[label]; taken {
				t.Fatalf("%q is the label of %s and of %s in %+v", label, other, s.ID, students)
			}
			labels[label] = s.ID
			if i := slices.IndexFunc(students, func(o model.Student) bool { return string(o.ID) == label }); i >= 0 && students[i].ID != s.ID {
				t.Fatalf("%q of %s is the id of another", label, s.ID)
			}
			for _, typed := range []string{label, strings.ToUpper(label), "  " + strings.ReplaceAll(label, " ", "  ")} {
				// In capitals an initial is one, and an id another's.
				if typed == strings.ToUpper(label) && (strings.HasSuffix(label, " l") || strings.Contains(label, "#")) {
					continue
				}
				if got := model.Called(typed, students); len(got) != 1 || got[0].ID != s.ID {
					t.Fatalf("%q of %s names %+v of %+v", typed, s.ID, got, students)
				}
			}
			if got := model.FindOne(students, label, true); len(got) != 1 || got[0].ID != s.ID {
				t.Fatalf("%q of %s is found as %+v", label, s.ID, got)
			}
			if j, err := model.ParseJoining(label, students); err != nil || !j.Known || j.Student.ID != s.ID || j.Student.Hand != s.Hand ||
				j.Student.Average != s.Average {
				t.Fatalf("%q of %s seats %+v, %v", label, s.ID, j, err)
			}
		}
	}
}

// TestCalledFitsWhatIsTyped: nobody is named by a name, an average, a hand or an end of an id that is not the student's.
func TestCalledFitsWhatIsTyped(t *testing.T) {
	random := rand.New(rand.NewPCG(26, 8))
	pick := func(from ...string) string { return from[random.IntN(len(from))] }
	named := 0
	for range 20000 {
		var students []model.Student
		for i := range 1 + random.IntN(5) {
			s := model.Student{ID: model.ID(fmt.Sprintf("id%c%d", 'A'+random.IntN(3), i)), Name: pick("Ada", "Adà", "Bo Ash", "Bo"), Hand: model.RightHand}
			if random.IntN(2) == 0 {
				s.Hand = model.LeftHand
			}
			if random.IntN(2) == 0 {
				s.Average = model.Known(120 + random.IntN(2))
			}
			students = append(students, s)
		}
		name, average, hand, end := pick("Ada", "ADA", "Bo", "bo ash"), pick("", "120", "121"), pick("", "l", "r", "left-handed"), pick("", "A0", "a1", "idB1")
		text := strings.Join(strings.Fields(name+" "+average+" "+hand), " ")
		if end != "" {
			text += " #" + end
		}
		for _, s := range model.Called(text, students) {
			named++
			fits := strings.EqualFold(s.Name, name) || model.Fold(s.Name) == model.Fold(name)
			fits = fits && (average == "" || s.Average.Known && fmt.Sprint(s.Average.Value) == average)
			fits = fits && (hand == "" || s.Hand[0] == hand[0])
			fits = fits && strings.HasSuffix(strings.ToLower(string(s.ID)), strings.ToLower(end))
			if !fits {
				t.Fatalf("%q names %+v", text, s)
			}
		}
	}
	if named < 500 {
		t.Errorf("only %d were named: the texts say nothing", named)
	}
}
