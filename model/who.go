package model

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// FindStudents gives the students whose name, or one word of it, begins with the letters typed (several words: each begins
// a word), else those that hold them, by name; case and accents do not matter. Archived ones only where archived is true.
// All of them for "".
func FindStudents(students []Student, text string, archived bool) []Student {
	typed := namedAs(text)
	words, tightWords := strings.Fields(typed.parted), strings.Fields(typed.tight)
	var begun, holding []finding
	for i := range students {
		s := &students[i]
		if s.Archived && !archived {
			continue
		}
		name := namedAs(s.Name)
		switch f := (finding{s, name.tight}); {
		case begins(name.parted, words), name.tight != name.parted && begins(name.tight, tightWords):
			begun = append(begun, f)
		case strings.Contains(name.tight, typed.tight):
			holding = append(holding, f)
		}
	}
	if len(begun) == 0 {
		begun = holding
	}
	slices.SortFunc(begun, func(a, b finding) int {
		s, t := a.student, b.student
		return cmp.Or(cmp.Compare(a.name, b.name), cmp.Compare(s.Name, t.Name), cmp.Compare(s.ID, t.ID))
	})
	found := make([]Student, len(begun))
	for i, f := range begun {
		found[i] = *f.student
	}
	return found
}

// finding is a student with the name that finds it.
type finding struct {
	student *Student
	name    string
}

// named is a name as it is found by, its words with one blank between them: parted also at a hyphen or an apostrophe; and
// tight, where these are left out.
type named struct{ parted, tight string }

func namedAs(name string) named {
	var parted, tight strings.Builder
	name = folded(name)
	parted.Grow(len(name))
	tight.Grow(len(name))
	var lastParted, lastTight rune = ' ', ' '
	for _, r := range name {
		if inWord(r) {
			parted.WriteRune(r)
			tight.WriteRune(r)
			lastParted, lastTight = r, r
			continue
		}
		if lastParted != ' ' {
			parted.WriteByte(' ')
			lastParted = ' '
		}
		if r == ' ' && lastTight != ' ' {
			tight.WriteByte(' ')
			lastTight = ' '
		}
	}
	return named{strings.TrimRight(parted.String(), " "), strings.TrimRight(tight.String(), " ")}
}

func inWord(r rune) bool {
	if r < utf8.RuneSelf {
		return r >= 'a' && r <= 'z' || r >= '0' && r <= '9'
	}
	return unicode.In(r, unicode.L, unicode.N, unicode.M)
}

// begins tells whether each of the words typed begins a word of the name, no two of them the same one.
func begins(name string, typed []string) bool {
	switch len(typed) {
	case 0:
		return true
	case 1:
		return strings.HasPrefix(name, typed[0]) || strings.Contains(name, " "+typed[0])
	}
	// The longer ones first: what they begin, fewer begin.
	typed = slices.SortedStableFunc(slices.Values(typed), func(a, b string) int { return cmp.Compare(len(b), len(a)) })
	left := strings.Fields(name)
	for _, t := range typed {
		i := slices.IndexFunc(left, func(word string) bool { return strings.HasPrefix(word, t) })
		if i < 0 {
			return false
		}
		left = slices.Delete(left, i, i+1)
	}
	return true
}
