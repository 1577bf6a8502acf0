package model

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// ParseNewcomer reads a student as a prompt takes one in: the name, then optionally the average, then optionally l for
// left-handed (r for right-handed): "Ada Marsh 120 l". A capital L or R that follows no average is an initial of the
// name. The id is left for the caller to give.
func ParseNewcomer(text string) (Student, error) {
	s := Student{Hand: RightHand}
	words := strings.Fields(CleanText(text))
	words = s.readHand(words)
	words, err := s.readAverage(words)
	if err != nil {
		return Student{}, err
	}
	s.Name = strings.Join(words, " ")
	return s, ValidateName(s.Name)
}

// readHand takes the hand off the end of a newcomer's words.
func (s *Student) readHand(words []string) []string {
	n := len(words)
	if n < 2 {
		return words
	}
	last, afterAverage := words[n-1], isNumber(words[n-2])
	switch {
	case last == "l", last == "L" && afterAverage:
		s.Hand = LeftHand
	case last == "r", last == "R" && afterAverage:
		s.Hand = RightHand
	default:
		return words
	}
	return words[:n-1]
}

// readAverage takes the average off the end of a newcomer's words.
func (s *Student) readAverage(words []string) ([]string, error) {
	n := len(words)
	if n == 0 || !isNumber(words[n-1]) {
		return words, nil
	}
	average, ok := whole(words[n-1])
	switch {
	case n == 1:
		return nil, errors.New("a name comes first, then the average: Ada 120")
	case !ok:
		return nil, fmt.Errorf("an average of %s: averages are whole pins, 0 to 300", words[n-1])
	}
	s.Average = Known(average)
	return words[:n-1], ValidateAverage(average)
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

// Among gives the student among those known that a prompt's student is, by name and, where several share it, by
// average; none where the name is new. With the average given, it is the student's from now on, and so is the left hand;
// the right hand need not have been said.
func (s Student) Among(known []Student) (Student, bool, error) {
	var same []Student
	for _, k := range known {
		if strings.EqualFold(k.Name, s.Name) {
			same = append(same, k)
		}
	}
	if len(same) > 1 {
		var exact []Student
		for _, k := range same {
			if k.Average == s.Average {
				exact = append(exact, k)
			}
		}
		if len(exact) != 1 {
			return Student{}, false, fmt.Errorf("%d students are called %s: add the average that one is kept with", len(same), s.Name)
		}
		return exact[0], true, nil
	}
	if len(same) == 0 {
		return Student{}, false, nil
	}
	if s.Average.Known {
		same[0].Average = s.Average
	}
	if s.Hand == LeftHand {
		same[0].Hand = LeftHand
	}
	return same[0], true, nil
}
