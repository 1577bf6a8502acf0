package model

import (
	"fmt"
	"unicode"
	"unicode/utf8"
)

// Label gives the name by which a student is told from the others of the evening: the name, and where another has the
// same, the average, else the hand, else the end of the id.
func (e *Evening) Label(id ID) string {
	s := e.students[id]
	near := []Student{s}
	for _, other := range e.students {
		if mayMean(&s, &other) && e.isHere(other.ID) {
			near = append(near, other)
		}
	}
	return rollOf(near, nameKey).label(&s)
}

// LabelAmong gives the name by which a student is told from all others given: as Evening.Label does within an evening. The
// student may be among them. Typed back where they are known, it names that student alone: see Called.
func LabelAmong(s Student, others []Student) string {
	near := []Student{s}
	for i := range others {
		if mayMean(&s, &others[i]) {
			near = append(near, others[i])
		}
	}
	return rollOf(near, nameKey).label(&s)
}

// label gives the first of the forms of a student's name that is nobody else's. A form that is another's id is not taken
// either, since ids are asked for as well.
func (r roll) label(s *Student) string {
	free := func(form string) bool { return r.names(form, s.ID) && (ID(form) == s.ID || !r.ids[ID(form)]) }
	forms := []string{s.Name}
	if s.Average.Known {
		forms = append(forms, fmt.Sprintf("%s %d", s.Name, s.Average.Value))
	}
	if s.Hand != "" {
		forms = append(forms, s.Name+" "+s.Hand.word())
	}
	for _, form := range forms {
		if free(form) {
			return form
		}
	}
	for n := leastEnd; n < len(s.ID); n++ {
		if form := s.Name + " #" + string(s.ID[len(s.ID)-n:]); free(form) {
			return form
		}
	}
	return s.Name + " #" + string(s.ID)
}

// leastEnd is how many characters of an id a label has at least.
const leastEnd = 4

// mayMean tells whether a form of a student's name may mean another too; it is quick, and only a no is certain.
func mayMean(s, other *Student) bool {
	return other.ID != s.ID && (string(other.ID) == s.Name || oneBegins(s.Name, other.Name))
}

// oneBegins tells whether one of two names begins the other, without regard to capitals and to what does not show.
func oneBegins(a, b string) bool {
	for {
		r, restA := nextSeen(a)
		other, restB := nextSeen(b)
		switch {
		case r == 0 || other == 0:
			return true
		case r != other:
			return false
		}
		a, b = restA, restB
	}
}

// nextSeen takes the next rune that shows off a name, 0 at its end.
func nextSeen(name string) (seen rune, rest string) {
	for len(name) > 0 {
		r, size := utf8.DecodeRuneInString(name)
		name = name[size:]
		if r != utf8.RuneError && !unicode.IsSpace(r) && !hidden(r) && !unsafeRune(r) {
			return uncased(r), name
		}
	}
	return 0, ""
}

// isHere tells whether a student has a place in the evening or has bowled in it.
func (e *Evening) isHere(id ID) bool {
	_, seated := e.SeatOf(id)
	return seated || len(e.games[id]) > 0
}

// TitleOf names a game of the evening for a person: "warm-up", "drill corner 10", "game 2" for the student's second game,
// warm-ups and drills not counted.
func (e *Evening) TitleOf(g Game) string {
	switch {
	case g.Kind == KindWarmup:
		return "warm-up"
	case g.Kind == KindDrill && g.Name != "":
		return "drill " + g.Name
	case g.Kind == KindDrill:
		return "drill"
	}
	n := 1
	for _, s := range e.Sheets(g.Student) {
		if s.Game.Kind == KindGame && s.Game.Number < g.Number {
			n++
		}
	}
	return fmt.Sprintf("game %d", n)
}
