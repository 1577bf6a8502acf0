package model

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// FindStudents gives the students whose name, or one word of it, begins with the letters typed (several words: each begins
// a word), else those that hold them or of whom words are told so: the average, the end of the id after #, and the hand
// where it is in the label among all students given. By name; case and accents do not matter. Archived ones only where
// archived is true. All of them for "".
func FindStudents(students []Student, text string, archived bool) []Student {
	typed := namedAs(text)
	words, tightWords := strings.Fields(typed.parted), strings.Fields(typed.tight)
	var begun, others []finding
	for i := range students {
		s := &students[i]
		if s.Archived && !archived {
			continue
		}
		name := namedAs(s.Name)
		switch f := (finding{s, name}); {
		case begins(name.parted, words), name.tight != name.parted && begins(name.tight, tightWords):
			begun = append(begun, f)
		default:
			others = append(others, f)
		}
	}
	if len(begun) == 0 {
		told := tellsOf(students, text)
		begun = slices.DeleteFunc(others, func(f finding) bool {
			return !strings.Contains(f.tight, typed.tight) && !told.begin(f)
		})
	}
	slices.SortFunc(begun, func(a, b finding) int {
		s, t := a.student, b.student
		return cmp.Or(cmp.Compare(a.tight, b.tight), cmp.Compare(s.Name, t.Name), cmp.Compare(s.ID, t.ID))
	})
	found := make([]Student, len(begun))
	for i, f := range begun {
		found[i] = *f.student
	}
	return found
}

// FindOne gives the students whom a text means: those whom it names whole, as Called has it, else those whom FindStudents
// finds. Exactly one for a text that a prompt may act on.
func FindOne(students []Student, text string, archived bool) []Student {
	mayBe := students
	if !archived {
		mayBe = slices.DeleteFunc(slices.Clone(students), func(s Student) bool { return s.Archived })
	}
	if called := Called(text, mayBe); len(called) > 0 {
		return called
	}
	return FindStudents(mayBe, text, true)
}

// SameName tells whether students have one name, case and accents aside: then no more letters of it tell them apart, only
// what a label has behind it.
func SameName(students []Student) bool {
	for _, s := range students {
		if namedAs(s.Name) != namedAs(students[0].Name) {
			return false
		}
	}
	return true
}

// tells is a text as words that begin what is told of a student beside the name.
type tells struct {
	parted, tight []string
	end           string
	roll          roll
}

func tellsOf(students []Student, text string) tells {
	t := tells{roll: rollOf(students, nameKey)}
	for _, word := range strings.Fields(Fold(CleanText(text))) {
		switch end, isEnd := strings.CutPrefix(word, "#"); {
		case isEnd:
			t.end = end
			fallthrough
		case strings.HasPrefix(LeftHand.word(), word), strings.HasPrefix(RightHand.word(), word):
			t.parted, t.tight = append(t.parted, word), append(t.tight, word)
		default:
			named := namedAs(word)
			t.parted = append(t.parted, strings.Fields(named.parted)...)
			t.tight = append(t.tight, strings.Fields(named.tight)...)
		}
	}
	return t
}

// begin tells whether each word begins one of the name, or one that is told of the student.
func (t tells) begin(f finding) bool {
	if len(t.tight) == 0 {
		return false
	}
	words, s := "", f.student
	if s.Average.Known {
		words += " " + strconv.Itoa(s.Average.Value)
	}
	label := strings.TrimPrefix(t.roll.label(s), s.Name)
	_, end, isEnd := strings.Cut(label, " #")
	switch {
	case len(t.end) > len(end), !isEnd:
		// As much of the id as is typed, though the label has less of it or none.
		words += " #" + Fold(string(s.ID[max(len(s.ID)-max(len(t.end), leastEnd), 0):]))
	default:
		words += " #" + Fold(end)
	}
	if label == " "+s.Hand.word() {
		words += label
	}
	return begins(f.parted+words, t.parted) || begins(f.tight+words, t.tight)
}

// finding is a student with the name that finds it.
type finding struct {
	student *Student
	named
}

// named is a name as it is found by, its words with one blank between them: parted also at a hyphen or an apostrophe; and
// tight, where these are left out.
type named struct{ parted, tight string }

func namedAs(name string) named {
	var parted, tight strings.Builder
	name = Fold(name)
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
