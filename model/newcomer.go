package model

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// ParseNewcomer reads a student as a prompt takes one in: the name, then optionally the average, then optionally l for
// left-handed (r for right-handed): "Ada Marsh 120 l". A capital L or R that follows no average is an initial of the
// name. Commas between these parts are blanks: "Ada Marsh, 120, l"; between words of the name they are part of it. What
// tells one who is kept from others, # and the end of an id, is refused. The id is left for the caller to give.
func ParseNewcomer(text string) (Student, error) {
	all := readings(nameWords(withoutPartingCommas(text)))
	x := all[len(all)-1]
	s := Student{Name: strings.Join(x.name, " "), Average: x.average, Hand: RightHand}
	if x.hand != "" {
		s.Hand = x.hand
	}
	n := len(x.name)
	switch numberLast := n > 0 && isNumber(x.name[n-1]) && !x.average.Known; {
	case x.end != "":
		return Student{}, fmt.Errorf("#%s tells one who is kept from others: leave it out for a new %s", x.end, s.Name)
	case numberLast && n == 1:
		return Student{}, errors.New("a name comes first, then the average: Ada 120")
	case numberLast:
		return Student{}, fmt.Errorf("an average of %s: averages are whole pins, 0 to 300", x.name[n-1])
	}
	if x.average.Known {
		if err := ValidateAverage(x.average.Value); err != nil {
			return Student{}, err
		}
	}
	return s, ValidateName(s.Name)
}

// isNumber tells whether a word is written like a number of some kind.
func isNumber(word string) bool {
	return strings.ContainsAny(word, "0123456789") && strings.Trim(word, "+-0123456789.,") == ""
}

// Like gives the students among those known whose name, or a word of it, begins with this one's, by name: whom the coach
// may mean.
func (s Student) Like(known []Student) []Student {
	typed := namedAs(s.Name)
	return slices.DeleteFunc(FindStudents(known, s.Name, true), func(k Student) bool {
		name := namedAs(k.Name)
		return !begins(name.parted, strings.Fields(typed.parted)) && !begins(name.tight, strings.Fields(typed.tight))
	})
}
