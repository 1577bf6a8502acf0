package tui

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"coach.settee/model"
)

// seat seats the student that a line names: one who is kept by the label there, or a new one. Where the line may mean
// somebody who is kept, the same line entered again makes the new one.
func (a *App) seat(text string, pair model.Pair) error {
	joining, err := model.ParseJoining(text, a.knownStudents())
	if err != nil {
		return err
	}
	student, lane := joining.Student, a.evening.LaneWithRoom(pair)
	if _, here := a.evening.SeatOf(student.ID); joining.Known && !here {
		return a.done(a.evening.SeatKnown(a.students[student.ID], student, lane))
	}
	if joining.Known {
		joining.Doubt = a.evening.Label(student.ID) + " is here already"
		if student, err = model.ParseNewcomer(text); err != nil {
			return errors.New(joining.Doubt)
		}
	}
	if joining.Doubt != "" {
		err = a.doubt(text, fmt.Sprintf("%s; enter again makes a new %s", clean(joining.Doubt), clean(student.Name)))
	} else {
		err = cmp.Or(a.numberInName(text, student), a.mayBeKept(text, student))
	}
	if err != nil {
		return err
	}
	student.ID = a.conf.NewID()
	return a.done(a.evening.Seat(student, lane))
}

// mayBeKept refuses a newcomer once whose name begins a word of the name of students who are kept: most likely one of them
// is meant. The same line entered again makes the new one.
func (a *App) mayBeKept(text string, typed model.Student) error {
	kept := a.knownStudents()
	like := typed.Like(kept)
	if len(like) == 0 {
		return nil
	}
	const most = 2
	var names []string
	for _, s := range like[:min(len(like), most)] {
		names = append(names, keptWords(s, kept))
	}
	who, is := strings.Join(names, " and "), "is"
	if len(like) > 1 {
		is = "are"
	}
	if more := len(like) - most; more > 0 {
		who = fmt.Sprintf("%s and %d more", strings.Join(names, ", "), more)
	}
	return a.doubt(text, fmt.Sprintf("%s %s %s; enter again makes a new %s", who, is, a.foundHow(like), clean(typed.Name)))
}

// keptWords names a student among those who are kept, in any case with the average, where there is one.
func keptWords(s model.Student, kept []model.Student) string {
	words := model.LabelAmong(s, kept)
	if words == s.Name && s.Average.Known {
		words = fmt.Sprintf("%s %d", words, s.Average.Value)
	}
	return clean(words)
}

// foundHow says of students who may be meant how the prompt comes to them instead.
func (a *App) foundHow(like []model.Student) string {
	if a.prompt.suggest == nil {
		return "kept: esc and / find that name"
	}
	absent, archived := 0, 0
	for _, s := range like {
		switch _, seated := a.evening.SeatOf(s.ID); {
		case seated:
		case s.Archived:
			archived++
		default:
			absent++
		}
	}
	switch tab := len(a.prompt.offered) > 0; {
	case absent == 1 && tab:
		return "kept: tab takes that one"
	case absent > 0 && tab:
		return "kept: tab takes one of them"
	case absent > 0:
		return "kept: the whole name takes that one"
	case archived > 0:
		return "kept, archived: s, Student, brings back"
	}
	return "here already"
}

// numberInName refuses a newcomer once in whose name a number stands, or what only a label has: most likely it is the
// average, with a word behind it, or part of a label.
func (a *App) numberInName(text string, typed model.Student) error {
	parts := strings.FieldsFunc(typed.Name, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune(",;:/()", r) })
	isNumber := func(part string) bool { return strings.Trim(part, "0123456789") == "" }
	isTell := func(part string) bool {
		return strings.HasPrefix(part, "#") || strings.HasSuffix(strings.ToLower(part), "-handed")
	}
	switch {
	case slices.ContainsFunc(parts, isNumber):
		return a.doubt(text, "a number in the name? the average comes last: Ada 120; enter again keeps it")
	case slices.ContainsFunc(parts, isTell):
		return a.doubt(text, "# or a hand in the name? l for left-handed comes last: Ada 120 l; enter again keeps it")
	}
	return nil
}
