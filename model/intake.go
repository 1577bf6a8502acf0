package model

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

// ParseIntake reads a student as a prompt takes one in: the name, then optionally the average, then optionally l for
// left-handed (r for right-handed): "Ada Marsh 120 l". The id is left for the caller to give.
func ParseIntake(text string) (Student, error) {
	s := Student{Hand: RightHand}
	words := strings.Fields(CleanText(text))
	if n := len(words); n > 1 {
		switch strings.ToLower(words[n-1]) {
		case "l":
			s.Hand = LeftHand
			words = words[:n-1]
		case "r":
			words = words[:n-1]
		}
	}
	if n := len(words); n > 0 {
		average, err := strconv.Atoi(words[n-1])
		switch {
		case err == nil && n == 1:
			return Student{}, errors.New("a name comes first, then the average: Ada 120")
		case err == nil:
			if err := ValidateAverage(average); err != nil {
				return Student{}, err
			}
			s.Average = Known(average)
			words = words[:n-1]
		}
	}
	s.Name = strings.Join(words, " ")
	return s, ValidateName(s.Name)
}

// Among gives the student among those known that a prompt's student is, by name and, where several share it, by
// average; none where the name is new. With the average given, it is the student's from now on.
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
	return same[0], true, nil
}
