package tui

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"coach.settee/model"
)

// mayBeKept refuses a newcomer once whose name begins a word of the name of students who are kept: most likely one of them
// is meant. The same line entered again makes the new one.
func (a *App) mayBeKept(text string, typed model.Student) error {
	like := typed.Like(a.knownStudents())
	if len(like) == 0 {
		return nil
	}
	const most = 2
	var names []string
	for _, s := range like[:min(len(like), most)] {
		names = append(names, keptWords(s))
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

// keptWords names a student with the average, where there is one.
func keptWords(s model.Student) string {
	words := clean(s.Name)
	if s.Average.Known {
		words = fmt.Sprintf("%s %d", words, s.Average.Value)
	}
	return words
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

// numberInName refuses a newcomer once in whose name a number stands: most likely it is the average, with a comma before or a
// word behind it.
func (a *App) numberInName(text string, typed model.Student) error {
	parts := strings.FieldsFunc(typed.Name, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune(",;:/()", r) })
	isNumber := func(part string) bool { return strings.Trim(part, "0123456789") == "" }
	if !slices.ContainsFunc(parts, isNumber) {
		return nil
	}
	return a.doubt(text, "a number in the name? the average comes last: Ada 120; enter again keeps it")
}
