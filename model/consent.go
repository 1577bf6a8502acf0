package model

import (
	"cmp"
	"slices"
	"strings"
)

// ConsentFirst says what goes with anything that holds a minor's data, behind what that is.
const ConsentFirst = "have a guardian's consent before it goes to anybody, and follow the local safeguarding rules"

// MinorsPages says whose pages of an evening are minors' and what goes with them, "" where nobody's is.
func (e *Evening) MinorsPages() string {
	var names []string
	for _, seat := range e.Seats() {
		if e.Student(seat.Student).Minor && e.Load(seat.Student) > 0 {
			names = append(names, e.Label(seat.Student))
		}
	}
	return ConsentForPages(names)
}

// ConsentForPages says what goes with the pages of minors of these names, "" for nobody's.
func ConsentForPages(names []string) string {
	slices.SortFunc(names, func(a, b string) int { return cmp.Or(cmp.Compare(Fold(a), Fold(b)), cmp.Compare(a, b)) })
	switch len(names) {
	case 0:
		return ""
	case 1:
		return "the page of " + names[0] + " is a minor's: " + ConsentFirst
	}
	return "the pages of " + strings.Join(names, ", ") + " are minors', each: " + ConsentFirst
}
