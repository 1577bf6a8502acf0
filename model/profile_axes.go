package model

import (
	"fmt"
	"strings"
	"unicode"
)

func watchedField() ProfileField {
	words := func(set AxisSet) string {
		switch set {
		case 0:
			return ""
		case AllAxes:
			return "all"
		}
		return set.String()
	}
	return ProfileField{
		Name: "watched axes", Hint: "of balance, target, release, finish, or their first letters; empty: all",
		Text: func(s Student) string { return words(s.Watched) },
		Shown: func(s Student) string {
			return shownChoice(s.Watched != 0, words(s.Chosen().Watched), "as usual")
		},
		Set: func(s Student, text string) (Student, error) {
			set, err := ParseAxes(text)
			s.Watched = set
			return s, err
		},
	}
}

// ParseAxes reads axes as they are typed: their names, the beginnings of these, or their first letters run together; "all"
// is all of them, and an empty text none.
func ParseAxes(text string) (AxisSet, error) {
	var set AxisSet
	for _, word := range strings.FieldsFunc(strings.ToLower(text), betweenWords) {
		axes, ok := axesLike(word)
		if !ok {
			return 0, fmt.Errorf("%q is no axis: use balance, target, release or finish, or b t r f", word)
		}
		set |= axes
	}
	if set == 0 && text != "" {
		return 0, fmt.Errorf("%q names no axis: use balance, target, release or finish, or b t r f", text)
	}
	return set, nil
}

func axesLike(word string) (AxisSet, bool) {
	if word == "all" {
		return AllAxes, true
	}
	if word == "and" {
		return 0, true
	}
	if name, ok := wordLike(word, axisNames[:]...); ok {
		a, err := ParseAxis(name)
		return AxisSet(0).With(a), err == nil
	}
	var set AxisSet
	for _, r := range word {
		name, ok := wordLike(string(r), axisNames[:]...)
		a, err := ParseAxis(name)
		if !ok || err != nil {
			return 0, false
		}
		set = set.With(a)
	}
	return set, true
}

func startField() ProfileField {
	return ProfileField{
		Name: "starting letters", Hint: "of balance, target, release, finish: AABA; empty: all A",
		Text: func(s Student) string {
			if s.Start == (Letters{}) {
				return ""
			}
			return strings.ReplaceAll(s.Start.String(), "·", ".")
		},
		Shown: func(s Student) string {
			c := s.Chosen()
			var inForce Letters
			for _, a := range Axes {
				inForce[a] = c.startLetter(a)
			}
			return shownChoice(s.Start != (Letters{}), inForce.String(), "as usual")
		},
		Set: func(s Student, text string) (Student, error) {
			letters, err := parseStart(text)
			s.Start = letters
			return s, err
		},
	}
}

// parseStart reads the starting letters by axis, with "." or "·" where an axis has none of its own.
func parseStart(text string) (Letters, error) {
	var l Letters
	typed := []rune(strings.Join(strings.FieldsFunc(strings.ToUpper(text), betweenWords), ""))
	if len(typed) == 0 && text == "" {
		return l, nil
	}
	if len(typed) != AxisCount {
		return Letters{}, fmt.Errorf("%s: the starting letters are four, of balance, target, release and finish: AABA",
			NumberOf(len(typed), "letter"))
	}
	for i, r := range typed {
		if r == '.' || r == '·' {
			continue
		}
		letter, err := ParseLetter(string(r))
		if err != nil {
			return Letters{}, err
		}
		l[i] = letter
	}
	return l, nil
}

func betweenWords(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune(",/;+&", r) }
