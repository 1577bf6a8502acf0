package main

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"golang.org/x/text/unicode/norm"

	"coach.settee/model"
	"coach.settee/store"
)

// mostNear is how many near matches an error lists.
const mostNear = 5

// lastSeen gives when a student last bowled, the zero time for never.
type lastSeen func(student model.ID) (time.Time, error)

func lastEveningIn(s *store.Store) lastSeen {
	return func(student model.ID) (time.Time, error) {
		played, err := s.Played(student, 1, nil)
		if err != nil || len(played) == 0 {
			return time.Time{}, err
		}
		return played[0].At, nil
	}
}

// findStudent gives the one student whom a text means: by the id, by the whole name, with what tells it from the same one of
// others where several have it, or by the beginning of one name that is not archived, in that order.
func findStudent(text string, students []model.Student, seen lastSeen) (model.Student, error) {
	// Accents may be written as signs of their own.
	composed := slices.Clone(students)
	for i := range composed {
		composed[i].Name = norm.NFC.String(composed[i].Name)
	}
	wanted := folded(text)
	for _, found := range [][]model.Student{
		those(students, func(s model.Student) bool { return string(s.ID) == text }),
		model.Called(norm.NFC.String(text), composed),
		those(students, func(s model.Student) bool {
			return wanted != "" && !s.Archived && strings.HasPrefix(folded(s.Name), wanted)
		}),
	} {
		switch {
		case len(found) == 1:
			i := slices.IndexFunc(students, func(s model.Student) bool { return s.ID == found[0].ID })
			return students[i], nil
		case len(found) > 1:
			return model.Student{}, severalStudents(text, found, students, seen)
		}
	}
	return model.Student{}, noStudent(text, students, seen)
}

func those(students []model.Student, fit func(model.Student) bool) []model.Student {
	return slices.DeleteFunc(slices.Clone(students), func(s model.Student) bool { return !fit(s) })
}

// folded gives a text without accents and capitals, and with single blanks.
func folded(text string) string { return strings.Join(strings.Fields(model.Fold(text)), " ") }

func severalStudents(text string, found, students []model.Student, seen lastSeen) error {
	names, err := toldApart(found, students, seen, " or ")
	if err != nil {
		return err
	}
	return fmt.Errorf("%q may be %s: give more of the name, or the id", text, names)
}

func noStudent(text string, students []model.Student, seen lastSeen) error {
	if len(students) == 0 {
		return fmt.Errorf("no student is kept yet, nor %q: students are added on the board", text)
	}
	of, how := model.Namesakes(text, students), ": of that name are"
	if len(of) == 0 {
		of, how = nearest(text, students), " or has that id; the nearest are"
	}
	names, err := toldApart(of, students, seen, ", ")
	if err != nil {
		return err
	}
	return fmt.Errorf("no student is called %q%s %s", text, how, names)
}

// toldApart lists some of the students by their labels among all, with their ids and what else tells them apart.
func toldApart(some, all []model.Student, seen lastSeen, between string) (string, error) {
	var parts []string
	for _, s := range some[:min(len(some), mostNear)] {
		facts := []string{"id " + string(s.ID)}
		if s.Average.Known {
			facts = append(facts, fmt.Sprintf("average %d", s.Average.Value))
		}
		at, err := seen(s.ID)
		switch {
		case err != nil:
			return "", err
		case at.IsZero():
			facts = append(facts, "no evening yet")
		default:
			facts = append(facts, "last evening "+at.Format(time.DateOnly))
		}
		if s.Archived {
			facts = append(facts, "archived")
		}
		parts = append(parts, model.LabelAmong(s, all)+" ("+strings.Join(facts, ", ")+")")
	}
	if more := len(some) - len(parts); more > 0 {
		parts = append(parts, fmt.Sprintf("%d more", more))
	}
	return strings.Join(parts, between), nil
}

// nearest gives the students whose name, or a word of it, or id takes the fewest changed letters to become the text, the
// nearest first, and before them those whose name holds it.
func nearest(text string, students []model.Student) []model.Student {
	wanted := []rune(folded(text))
	distances := map[model.ID]int{}
	for _, s := range students {
		name := folded(s.Name)
		if strings.Contains(name, string(wanted)) {
			continue
		}
		best := 1 + min(changes(wanted, []rune(name)), changes(wanted, []rune(folded(string(s.ID)))))
		for _, word := range strings.Fields(name) {
			best = min(best, 1+changes(wanted, []rune(word)))
		}
		distances[s.ID] = best
	}
	near := slices.SortedStableFunc(slices.Values(students), func(a, b model.Student) int {
		return cmp.Or(cmp.Compare(distances[a.ID], distances[b.ID]), cmp.Compare(a.Name, b.Name), cmp.Compare(a.ID, b.ID))
	})
	return near[:min(len(near), mostNear)]
}

// changes gives the fewest letters put in, left out or changed that make one word the other.
func changes(from, to []rune) int {
	row := make([]int, len(to)+1)
	for j := range row {
		row[j] = j
	}
	for i, a := range from {
		diagonal := row[0]
		row[0] = i + 1
		for j, b := range to {
			changed := diagonal
			if a != b {
				changed++
			}
			diagonal = row[j+1]
			row[j+1] = min(changed, row[j+1]+1, row[j]+1)
		}
	}
	return row[len(to)]
}
