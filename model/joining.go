package model

import (
	"errors"
	"fmt"
	"strings"
)

// Joining is how a prompt's line that takes a student into the evening is understood.
type Joining struct {
	// Known tells that the student is one who is kept, with the average and the hand that the line gives from now on.
	// Otherwise it is a new one, without an id.
	Known   bool
	Student Student
	// Doubt says of a new one why the line may well mean somebody who is kept, "" where it does not.
	Doubt string
}

// ParseJoining reads the name of a student who is kept, with what tells that one from others of the name, or a newcomer. An
// average or a hand behind a name that only one has is that student's from now on, unless the hand is written in full, as a
// label has it. One who is archived is not taken, but doubted. Commas between the parts are blanks, unless somebody who is
// kept is called so with them.
func ParseJoining(text string, kept []Student) (Joining, error) {
	if parted := withoutPartingCommas(text); len(Namesakes(text, kept)) == 0 && len(Called(text, kept)) == 0 {
		text = parted
	}
	var active, archived []Student
	for _, s := range kept {
		if s.Archived {
			archived = append(archived, s)
			continue
		}
		active = append(active, s)
	}
	here, away, words := rollOf(active, nameKey), rollOf(archived, nameKey), nameWords(text)
	called := here.called(words)
	same, told := here.namesakes(words)
	gone := away.called(words)
	if len(called)+len(same)+len(gone) == 0 {
		gone, _ = away.namesakes(words)
		if told.asLabel() {
			called = Called(text, active)
		}
	}
	switch {
	case len(called) == 1:
		return Joining{Known: true, Student: called[0]}, nil
	case len(called) > 1:
		return newcomerUnless("that may be "+labelsOf(called, active), text)
	case len(gone) > 0:
		return newcomerUnless(labelsOf(gone, kept)+" is archived: s, Student, brings back", text)
	case len(same) > 1, len(same) == 1 && told.asLabel():
		return newcomerUnless("none of that name is so: "+labelsOf(same, active), text)
	case len(same) == 1:
		_, err := ParseNewcomer(text)
		return Joining{Known: true, Student: told.changing(same[0])}, err
	case told.inFull:
		return newcomerUnless("nobody is called "+strings.Join(told.name, " "), text)
	}
	return newcomerUnless("", text)
}

// Namesakes gives the students of the name that a text begins with, whatever it tells behind the name: whom a label may
// have meant that is another by now.
func Namesakes(text string, students []Student) []Student {
	for _, key := range []func([]string) string{nameKey, foldedKey} {
		if same, _ := rollOf(students, key).namesakes(nameWords(text)); len(same) > 0 {
			return same
		}
	}
	return nil
}

// namesakes gives the students of the name that words begin with, whatever is told behind it, by the longest such name.
// Where there are none the reading is the one with the shortest name.
func (r roll) namesakes(words []string) (same []Student, told reading) {
	for _, told = range readings(words) {
		if len(told.name) == len(words) && len(words) > 0 {
			continue
		}
		for _, s := range r.byName[r.key(told.name)] {
			same = append(same, *s)
		}
		if len(same) > 0 {
			break
		}
	}
	return same, told
}

// asLabel tells whether what is told is written as only a label has it.
func (x reading) asLabel() bool { return x.inFull || x.end != "" }

// changing gives a student with the average and the hand that are told.
func (x reading) changing(s Student) Student {
	if x.average.Known {
		s.Average = x.average
	}
	if x.hand != "" {
		s.Hand = x.hand
	}
	return s
}

// newcomerUnless reads a newcomer with a doubt, which is an error where the text is no newcomer.
func newcomerUnless(doubt, text string) (Joining, error) {
	newcomer, err := ParseNewcomer(text)
	if err != nil && doubt != "" {
		err = errors.New(doubt)
	}
	return Joining{Student: newcomer, Doubt: doubt}, err
}

// labelsOf lists a few students by their labels among all.
func labelsOf(some, all []Student) string {
	const most = 3
	var labels []string
	for _, s := range some[:min(len(some), most)] {
		labels = append(labels, LabelAmong(s, all))
	}
	if more := len(some) - most; more > 0 {
		labels = append(labels, fmt.Sprintf("%d more", more))
	}
	return strings.Join(labels, " or ")
}
