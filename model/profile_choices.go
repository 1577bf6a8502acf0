package model

import (
	"fmt"
	"strconv"
	"strings"
)

// The fields of what the coach chooses: where nothing is chosen they show what is in force.

func averageField() ProfileField {
	return ProfileField{
		Name: "entering average", Hint: "whole pins, 0 to 300",
		Text: func(s Student) string {
			if !s.Average.Known {
				return ""
			}
			return strconv.Itoa(s.Average.Value)
		},
		Set: func(s Student, text string) (Student, error) {
			if text == "" {
				s.Average = Optional[int]{}
				return s, nil
			}
			average, ok := whole(text)
			if !ok {
				return s, fmt.Errorf("an average of %s: averages are whole pins, 0 to 300, with the fraction dropped", text)
			}
			s.Average = Known(average)
			return s, ValidateAverage(average)
		},
	}
}

func levelField() ProfileField {
	return ProfileField{
		Name: "level", Hint: "new, developing, regular, advanced or elite; empty: by the average",
		Text: func(s Student) string { return string(s.Level) },
		Shown: func(s Student) string {
			switch {
			case s.Level != "":
				return string(s.Level)
			case s.Average.Known:
				return fmt.Sprintf("%s, the average's", s.Chosen().Level)
			}
			return fmt.Sprintf("%s, without an average", s.Chosen().Level)
		},
		Set: func(s Student, text string) (Student, error) {
			level, ok := wordLike(text, Levels[:]...)
			if !ok && text != "" {
				_, err := ParseLevel(text)
				return s, err
			}
			s.Level = level
			return s, nil
		},
	}
}

func barField() ProfileField {
	return ProfileField{
		Name: "bar", Hint: "the lowest grade that is good: A, A-, B+ and so on; empty: A-",
		Text: func(s Student) string { return s.Bar.String() },
		Shown: func(s Student) string {
			return shownChoice(s.Bar != Ungraded, s.Chosen().Bar.String(), "as usual")
		},
		Set: func(s Student, text string) (Student, error) {
			if text == "" {
				s.Bar = Ungraded
				return s, nil
			}
			typed := strings.NewReplacer(" ", "", "−", "-", "–", "-").Replace(strings.ToUpper(text))
			bar, err := ParseShotGrade(typed)
			s.Bar = bar
			return s, err
		},
	}
}

func goalField() ProfileField {
	shots := func(g Goal) string { return strconv.FormatFloat(g.Shots(), 'f', -1, 64) }
	return ProfileField{
		Name: "goal", Hint: "good shots a game, 0.5 to 10 in halves; empty: the level's",
		Text: func(s Student) string {
			if s.Goal == 0 {
				return ""
			}
			return shots(s.Goal)
		},
		Shown: func(s Student) string { return shownChoice(s.Goal != 0, shots(s.Chosen().Goal), "the level's") },
		Set: func(s Student, text string) (Student, error) {
			if text == "" {
				s.Goal = 0
				return s, nil
			}
			typed, ok := decimal(pointed(text))
			if !ok {
				return s, fmt.Errorf("%q is no goal: goals are 0.5 to 10 in halves", text)
			}
			goal, err := GoalOf(typed)
			s.Goal = goal
			return s, err
		},
	}
}

func weightsField() ProfileField {
	return ProfileField{
		Name: "weights", Hint: "per cents of balance, target, release, finish: 25 30 25 20; empty: the level's",
		Text: func(s Student) string {
			if s.Weights == (Weights{}) {
				return ""
			}
			return weightWords(s.Weights)
		},
		Shown: func(s Student) string {
			return shownChoice(s.Weights != (Weights{}), weightWords(s.Chosen().Weights), "the level's")
		},
		Set: func(s Student, text string) (Student, error) {
			s.Weights = Weights{}
			if text == "" {
				return s, nil
			}
			words := strings.FieldsFunc(text, func(r rune) bool { return r == '%' || betweenWords(r) })
			if len(words) != AxisCount {
				return s, fmt.Errorf("%s: the weights are four, of balance, target, release and finish: 25 30 25 20",
					NumberOf(len(words), "weight"))
			}
			for i, word := range words {
				w, ok := whole(word)
				if !ok || w > 100 {
					return s, fmt.Errorf("the weight of %s is %s: weights are whole per cents, 0 to 100", Axes[i], word)
				}
				s.Weights[i] = w
			}
			return s, s.Weights.Validate()
		},
	}
}

func weightWords(w Weights) string { return fmt.Sprintf("%d %d %d %d", w[0], w[1], w[2], w[3]) }

func toneField() ProfileField {
	return ProfileField{
		Name: "tone", Hint: "gentle, plain or blunt; empty: the level's",
		Text: func(s Student) string { return string(s.Tone) },
		Shown: func(s Student) string {
			tone, whose := s.Chosen().Tone, "the level's"
			if s.Minor && tone != s.Chosen().Level.Defaults().Tone {
				whose = "a minor's"
			}
			return shownChoice(s.Tone != "", string(tone), whose)
		},
		Set: func(s Student, text string) (Student, error) {
			tone, ok := wordLike(text, Gentle, Plain, Blunt)
			if !ok && text != "" {
				_, err := ParseTone(text)
				return s, err
			}
			s.Tone = tone
			return s, nil
		},
	}
}

// shownChoice gives what is in force, with whose it is where the coach has not chosen it.
func shownChoice(chosen bool, inForce, whose string) string {
	if chosen {
		return inForce
	}
	return inForce + ", " + whose
}

// pointed gives a number as it is typed with a decimal comma with a point in its place.
func pointed(text string) string {
	if strings.Count(text, ",") == 1 && !strings.Contains(text, ".") {
		return strings.Replace(text, ",", ".", 1)
	}
	return text
}
