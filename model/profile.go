package model

import (
	"fmt"
	"strings"
)

// ProfileField is one line of a student's profile as it is shown and typed.
type ProfileField struct {
	// Name is a short name for it, Hint what may be typed.
	Name, Hint string
	// Private says that the text is not for every eye: it is shown only on a key.
	Private bool
	// Text gives it as it would be typed, "" where nothing is kept. Shown gives it as it is shown: with what is in force
	// where nothing is chosen ("5, the level's"), "" where nothing is.
	Text  func(Student) string
	Shown func(Student) string
	// Set gives the student with what was typed; an empty text takes it off. What is refused is said in words.
	Set func(Student, string) (Student, error)
}

// ProfileFields are the lines of a profile, in the order in which they are shown.
func ProfileFields() []ProfileField {
	fields := []ProfileField{
		nameField(), handField(), styleField(), averageField(),
		textField("average on", "on what lanes it was bowled", func(s *Student) *string { return &s.AverageOn }),
		levelField(), barField(), goalField(), weightsField(), watchedField(), startField(), toneField(),
		numberField(ballSpeed), numberField(revRate), numberField(axisRotation),
		ballsField(), ballUpField(), spareField(7), spareField(10), numberField(slideOffset),
		textField("focus", "what the student works on", func(s *Student) *string { return &s.Focus }),
		private(textField("limits", "injuries and other cautions, for your eye only",
			func(s *Student) *string { return &s.Limits })),
		loadField(), minorField(),
		private(textField("notes", "anything else, for your eye only", func(s *Student) *string { return &s.Notes })),
	}
	for i := range fields {
		fields[i] = fields[i].settled()
	}
	return fields
}

// settled gives the field with the rules that hold for each: a text left as it is changes nothing, whatever an import
// brought; what is typed is cleaned; and what is shown is what is kept where the field says nothing else.
func (f ProfileField) settled() ProfileField {
	set := f.Set
	f.Set = func(s Student, text string) (Student, error) {
		if text == f.Text(s) {
			return s, nil
		}
		if n := len([]rune(text)); n > MaxText {
			return s, fmt.Errorf("a text of %d characters: texts have up to %d", n, MaxText)
		}
		changed, err := set(s, CleanText(text))
		if err != nil {
			return s, err
		}
		return changed, nil
	}
	if f.Shown == nil {
		f.Shown = f.Text
	}
	return f
}

func private(f ProfileField) ProfileField {
	f.Private = true
	return f
}

// textField is a field of free words.
func textField(name, hint string, at func(*Student) *string) ProfileField {
	return ProfileField{
		Name: name, Hint: hint,
		Text: func(s Student) string { return *at(&s) },
		Set: func(s Student, text string) (Student, error) {
			*at(&s) = text
			return s, nil
		},
	}
}

func nameField() ProfileField {
	return ProfileField{
		Name: "name", Hint: fmt.Sprintf("up to %d characters", MaxName),
		Text: func(s Student) string { return s.Name },
		Set: func(s Student, text string) (Student, error) {
			s.Name = strings.Join(strings.Fields(text), " ")
			return s, ValidateName(s.Name)
		},
	}
}

func handField() ProfileField {
	return ProfileField{
		Name: "hand", Hint: "right or left",
		Text: func(s Student) string { return string(s.Hand) },
		Set: func(s Student, text string) (Student, error) {
			hand, ok := wordLike(text, RightHand, LeftHand)
			if !ok {
				return s, fmt.Errorf("the hand %q: use right or left", text)
			}
			s.Hand = hand
			return s, nil
		},
	}
}

func styleField() ProfileField {
	return ProfileField{
		Name: "style", Hint: "one-hand, two-hand or no-thumb",
		Text: func(s Student) string { return string(s.Style) },
		Set: func(s Student, text string) (Student, error) {
			styles := map[string]string{"1": "one", "2": "two", "thumbless": "no"}
			word := text
			if w, ok := styles[strings.ToLower(text)]; ok {
				word = w
			}
			style, ok := wordLike(word, OneHand, TwoHand, NoThumb)
			if !ok && text != "" {
				return s, fmt.Errorf("the style %q: use one-hand, two-hand or no-thumb", text)
			}
			s.Style = style
			return s, nil
		},
	}
}

func minorField() ProfileField {
	answers := map[bool]string{true: "yes", false: "no"}
	return ProfileField{
		Name: "minor", Hint: "yes or no: never blunt unless you say so, and the page is for the guardian",
		Text: func(s Student) string { return answers[s.Minor] },
		Set: func(s Student, text string) (Student, error) {
			answer, ok := wordLike(text, "yes", "no")
			if !ok && text != "" {
				return s, fmt.Errorf("%q is neither yes nor no", text)
			}
			s.Minor = answer == "yes"
			return s, nil
		},
	}
}

// wordLike gives the one of some words that a text begins, whatever its case, its blanks and its hyphens, also with the
// ending of "right-handed".
func wordLike[W ~string](text string, words ...W) (W, bool) {
	plain := func(s string) string { return strings.NewReplacer(" ", "", "-", "").Replace(strings.ToLower(s)) }
	typed := plain(text)
	for _, w := range words {
		full := plain(string(w))
		handed := strings.TrimSuffix(full, "hand") + "handed"
		if typed == handed || typed != "" && strings.HasPrefix(full, typed) {
			return w, true
		}
	}
	return "", false
}
