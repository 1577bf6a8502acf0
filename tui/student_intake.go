package tui

import (
	"strings"
	"time"

	"coach.settee/model"
)

// intakeQuestion is one thing that is looked at in the first ten minutes. Common practice, no source.
type intakeQuestion struct {
	name, means string
	answers     []intakeAnswer
	part        func(i *model.Intake) *string
}

// intakeAnswer is a key, the word that is kept for it, and what it means.
type intakeAnswer struct{ key, word, means string }

var intakeQuestions = []intakeQuestion{
	{"motion", "where the speed of the ball comes from", []intakeAnswer{
		{"s", string(model.Swing), "legs and a free swing, the shoulder a hinge"},
		{"m", string(model.Mixed), "some of both"},
		{"t", string(model.Throw), "arm and upper body, for more than half of it"},
	}, func(i *model.Intake) *string { return (*string)(&i.Motion) }},
	{"direction", "where the swing goes, seen from behind", []intakeAnswer{
		{"s", string(model.Straight), "in one plane, back and forth"},
		{"i", string(model.Inward), "behind the back, or across the body in front"},
		{"o", string(model.Outward), "away from the body"},
	}, func(i *model.Intake) *string { return (*string)(&i.Direction) }},
	{"hand", "where the hand is at the bottom of the swing", []intakeAnswer{
		{"b", string(model.Behind), "behind the ball"},
		{"s", string(model.Beside), "at its side"},
		{"o", string(model.Over), "over the top of it"},
	}, func(i *model.Intake) *string { return (*string)(&i.HandAt) }},
	{"timing", "when the ball comes, against the sliding foot", []intakeAnswer{
		{"e", string(model.Early), "the ball before the foot"},
		{"o", string(model.OnTime), "both together"},
		{"l", string(model.Late), "the foot before the ball"},
	}, func(i *model.Intake) *string { return (*string)(&i.Timing) }},
	{"learns by", "how the student takes things in best", []intakeAnswer{
		{"s", string(model.Seeing), "being shown"},
		{"h", string(model.Hearing), "being told"},
		{"f", string(model.Feeling), "doing it and feeling it"},
	}, func(i *model.Intake) *string { return (*string)(&i.Learns) }},
}

// intakeAsked is an intake on its way: at is the question asked now, beyond the last the prompt for what hurts is open.
type intakeAsked struct {
	got    model.Intake
	at     int
	prompt *prompt
	keys   []table
}

// askIntake begins an intake.
func (s *studentScreen) askIntake(a *App) {
	s.intake = &intakeAsked{}
	for _, q := range intakeQuestions {
		s.intake.keys = append(s.intake.keys, q.table(a.screens))
	}
}

func (i *intakeAsked) table() table { return i.keys[i.at] }

// table gives the keys of a question.
func (q intakeQuestion) table(screens []screen) table {
	var t table
	for _, answer := range q.answers {
		t = append(t, binding{
			keys: []string{answer.key}, group: groupProfile, help: answer.word + ": " + answer.means,
			hints: map[moment]string{momentProfile: answer.word},
			act: func(a *App, _ string) {
				*q.part(&a.student.intake.got) = answer.word
				a.student.nextQuestion(a)
			},
		})
	}
	t = append(t, intakeKeys...)
	var letters []string
	for _, b := range lettersBelow(t, screens) {
		letters = append(letters, b.keys...)
	}
	return append(t, binding{
		keys: letters, group: groupProfile, help: "are the other screens': esc drops the intake first",
		refused: func(*App) string { return "the intake is being asked: enter skips a question, esc drops it" },
		act:     func(*App, string) {},
	})
}

// intakeKeys act on every question.
var intakeKeys = table{
	{
		keys: []string{"enter", "ctrl+j", "space"}, shown: "enter", group: groupProfile, help: "skip the question (space too)",
		hints: map[moment]string{momentProfile: "skip"},
		act: func(a *App, _ string) {
			in := a.student.intake
			*intakeQuestions[in.at].part(&in.got) = ""
			a.student.nextQuestion(a)
		},
	},
	{
		keys: []string{"backspace", "ctrl+h"}, shown: "backspace", group: groupProfile, help: "back to the question before",
		hints: map[moment]string{momentProfile: "back"},
		act:   func(a *App, _ string) { a.student.intake.at = max(a.student.intake.at-1, 0) },
	},
	{
		keys: []string{"esc"}, group: groupProfile, help: "drop the intake: nothing is changed",
		hints: map[moment]string{momentProfile: "drop"},
		act: func(a *App, _ string) {
			a.student.intake = nil
			a.say("the intake is dropped")
		},
	},
}

// nextQuestion goes on, after the last question to what hurts.
func (s *studentScreen) nextQuestion(a *App) {
	if s.intake.at++; s.intake.at < len(intakeQuestions) {
		return
	}
	student, got := s.student, s.intake.got
	a.ask("what hurts, in words (empty: nothing)", func(text string) error {
		got.Hurts = text
		return a.keepIntake(student, got)
	})
	s.intake.prompt = a.prompt
}

// keepIntake keeps an intake in which something was answered, as taken today.
func (a *App) keepIntake(id model.ID, got model.Intake) error {
	if got == (model.Intake{}) {
		a.say("nothing was answered: the intake is as it was")
		return nil
	}
	return a.keepStudent(a.students[id].WithIntake(got, a.conf.Now()), a.labelOf(id)+": intake")
}

// intakeWords says what an intake found, without what hurts; "" where there is none.
func intakeWords(i model.Intake) string {
	var words []string
	for _, w := range []string{string(i.Motion), string(i.Direction)} {
		if w != "" {
			words = append(words, w)
		}
	}
	if i.HandAt != "" {
		words = append(words, "hand "+string(i.HandAt))
	}
	if i.Timing != "" {
		words = append(words, string(i.Timing))
	}
	if i.Learns != "" {
		words = append(words, "learns by "+string(i.Learns))
	}
	return strings.Join(words, ", ")
}

// intakeShown is the intake as its row shows it.
func intakeShown(i model.Intake) string {
	if i.On == "" {
		return ""
	}
	on := i.On
	if day, err := time.Parse(time.DateOnly, i.On); err == nil {
		on = day.Format("2 January 2006")
	}
	words := on
	if said := intakeWords(i); said != "" {
		words += ": " + said
	}
	if i.Hurts != "" {
		words += "; what hurts is " + hidden
	}
	return words
}

// hidden stands for a text that is not for every eye.
const hidden = "set: I shows it"

// drawIntake draws the questions with what was answered, and the answers to the one asked now.
func (s *studentScreen) drawIntake(a *App, w int) []string {
	t, in := a.theme, s.intake
	const name = 12
	lines := []string{s.head(a, w), t.quiet.on(cut("  the first ten minutes, a key each; esc drops all of it", w))}
	for i, q := range intakeQuestions {
		l := newLine(w)
		switch {
		case i == in.at:
			l.add(t.accent, "▶ ")
			l.put(t.accent, q.name, name)
			l.add(t.strong, q.means)
		default:
			l.add(ink{}, "  ")
			l.put(t.quiet, q.name, name)
			l.add(t.strong, answered(*q.part(&in.got), i < in.at))
		}
		lines = append(lines, l.String())
		if i != in.at {
			continue
		}
		for _, answer := range q.answers {
			l := newLine(w)
			l.add(ink{}, "    ")
			l.put(t.key, answer.key, 2)
			l.put(t.strong, answer.word, name-4)
			l.add(t.quiet, "  "+answer.means)
			lines = append(lines, l.String())
		}
	}
	l := newLine(w)
	l.add(ink{}, "  ")
	l.put(t.quiet, "hurts", name)
	if in.at >= len(intakeQuestions) {
		l.add(t.alert, "in words, below; later only I shows them")
	}
	return append(lines, l.String())
}

func answered(word string, passed bool) string {
	if word == "" && passed {
		return "-"
	}
	return word
}
