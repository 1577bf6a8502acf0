package model

import (
	"fmt"
	"strings"
)

// Label gives the name by which a student is told from the others of the evening: the name, and where another has the
// same, the average, else the hand, else the end of the id.
func (e *Evening) Label(id ID) string {
	var here []Student
	for _, other := range e.students {
		if strings.EqualFold(other.Name, e.students[id].Name) && e.isHere(other.ID) {
			here = append(here, other)
		}
	}
	return LabelAmong(e.students[id], here)
}

// LabelAmong gives the name by which a student is told from all others given: as Evening.Label does within an evening. The
// student may be among them.
func LabelAmong(s Student, others []Student) string {
	var same []Student
	for _, other := range others {
		if other.ID != s.ID && strings.EqualFold(other.Name, s.Name) {
			same = append(same, other)
		}
	}
	switch {
	case len(same) == 0:
		return s.Name
	case s.Average.Known && noneOf(same, func(o Student) bool { return o.Average == s.Average }):
		return fmt.Sprintf("%s %d", s.Name, s.Average.Value)
	case noneOf(same, func(o Student) bool { return o.Hand == s.Hand }):
		return fmt.Sprintf("%s %s-handed", s.Name, s.Hand)
	}
	return fmt.Sprintf("%s #%s", s.Name, tail(s.ID, same))
}

// isHere tells whether a student has a place in the evening or has bowled in it.
func (e *Evening) isHere(id ID) bool {
	_, seated := e.SeatOf(id)
	return seated || len(e.games[id]) > 0
}

func noneOf(students []Student, has func(Student) bool) bool {
	for _, s := range students {
		if has(s) {
			return false
		}
	}
	return true
}

// tail gives the end of an id, short enough to read and long enough to tell it from the others'.
func tail(id ID, others []Student) ID {
	for n := 4; n < len(id); n++ {
		end := id[len(id)-n:]
		if noneOf(others, func(o Student) bool { return strings.HasSuffix(string(o.ID), string(end)) }) {
			return end
		}
	}
	return id
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
