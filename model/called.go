package model

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Called gives those of the students whom a text names whole: by the name and what is put behind it, in this order, each
// where it is wanted: the average, the hand (l, r, left-handed, right-handed), and # with the end of the id. Capitals do not
// matter; accents only where somebody is called so with them. The label of LabelAmong names exactly its student. None for
// a text that is the beginning of a name.
func Called(text string, students []Student) []Student {
	words := nameWords(text)
	for _, key := range []func([]string) string{nameKey, foldedKey} {
		if called := rollOf(students, key).called(words); len(called) > 0 {
			return called
		}
	}
	return nil
}

// roll holds students by the key of their names.
type roll struct {
	key    func(words []string) string
	byName map[string][]*Student
	ids    map[ID]bool
}

func rollOf(students []Student, key func([]string) string) roll {
	r := roll{key, make(map[string][]*Student, len(students)), make(map[ID]bool, len(students))}
	for i := range students {
		s := &students[i]
		name := key(nameWords(s.Name))
		r.byName[name] = append(r.byName[name], s)
		r.ids[s.ID] = true
	}
	return r
}

// called gives the students whom words name, each once.
func (r roll) called(words []string) []Student {
	var out []Student
	seen := map[ID]bool{}
	r.each(words, func(s *Student) bool {
		if !seen[s.ID] {
			out = append(out, *s)
			seen[s.ID] = true
		}
		return true
	})
	return out
}

// names tells whether a text names this student and nobody else.
func (r roll) names(text string, id ID) bool {
	found, alone := false, true
	r.each(nameWords(text), func(s *Student) bool {
		found, alone = found || s.ID == id, alone && s.ID == id
		return alone
	})
	return found && alone
}

// each gives to a function the students whom words name, until it gives false. Whoever has the whole id that is told goes
// before all others: the ids of others may end so, and others may be called so.
func (r roll) each(words []string, one func(*Student) bool) {
	all := readings(words)
	for _, x := range all {
		for _, s := range r.byName[r.key(x.name)] {
			if x.end != "" && string(s.ID) == x.end && x.fits(s) {
				one(s)
				return
			}
		}
	}
	for _, x := range all {
		for _, s := range r.byName[r.key(x.name)] {
			if x.fits(s) && !one(s) {
				return
			}
		}
	}
}

// reading is one way to read a text that names a student: the name, and what is told behind it.
type reading struct {
	name    []string
	average Optional[int]
	hand    Hand
	// inFull tells that the hand was written as a label writes it.
	inFull bool
	// end is the end of the id.
	end string
}

// readings gives every way to read words, the one in which all of them are the name first, and last the one in which the
// most is told behind it.
func readings(words []string) []reading {
	x := reading{name: words}
	out := []reading{x}
	for len(x.name) > 1 {
		was := len(x.name)
		if x = x.shorter(); len(x.name) == was {
			break
		}
		out = append(out, x)
	}
	return out
}

// shorter reads the last word of the name as told behind it, where it may be. A capital L or R that follows no average is
// an initial.
func (x reading) shorter() reading {
	n := len(x.name) - 1
	word, before := x.name[n], x.name[n-1]
	hand, inFull := handOf(word)
	average, isAverage := whole(word)
	unread := x.hand == "" && !x.average.Known
	switch {
	case word[0] == '#' && len(word) > 1 && x.end == "" && unread:
		x.end = word[1:]
	case hand != "" && x.hand == "" && inFull, hand != "" && unread && (word == "l" || word == "r" || isNumber(before)):
		x.hand, x.inFull = hand, inFull
	case isAverage && !x.average.Known:
		x.average = Known(average)
	default:
		return x
	}
	x.name = x.name[:n]
	return x
}

// handOf reads a hand as a prompt takes it or, in full, as a label tells it; "" where the word is none.
func handOf(word string) (hand Hand, inFull bool) {
	switch strings.ToLower(word) {
	case "l":
		return LeftHand, false
	case "r":
		return RightHand, false
	case LeftHand.word():
		return LeftHand, true
	case RightHand.word():
		return RightHand, true
	}
	return "", false
}

// word is how a label tells a hand.
func (h Hand) word() string { return string(h) + "-handed" }

// fits tells whether what is told behind the name holds for a student of that name.
func (x reading) fits(s *Student) bool {
	if x.average.Known && s.Average != x.average || x.hand != "" && s.Hand != x.hand || !endsIn(s.ID, x.end) {
		return false
	}
	// A small l or r at the end is a hand, unless the name is written with it.
	n := len(x.name) - 1
	if x.hand != "" || x.average.Known || x.end != "" || n < 1 || x.name[n] != "l" && x.name[n] != "r" {
		return true
	}
	return strings.HasSuffix(CleanText(s.Name), " "+x.name[n])
}

// endsIn tells whether an id ends so, without regard to capitals.
func endsIn(id ID, end string) bool {
	return len(id) >= len(end) && strings.EqualFold(string(id[len(id)-len(end):]), end)
}

func nameWords(text string) []string { return strings.Fields(CleanText(text)) }

// nameKey is the same for words that differ in capitals only.
func nameKey(words []string) string {
	var b strings.Builder
	for i, word := range words {
		if i > 0 {
			b.WriteByte(' ')
		}
		for _, r := range word {
			b.WriteRune(uncased(r))
		}
	}
	return b.String()
}

// foldedKey is the same for words that differ in capitals and accents only.
func foldedKey(words []string) string { return Fold(strings.Join(words, " ")) }

// uncased gives one rune for all that differ in being capital only.
func uncased(r rune) rune {
	if r < utf8.RuneSelf {
		if r >= 'a' && r <= 'z' {
			r -= 'a' - 'A'
		}
		return r
	}
	least := r
	for other := unicode.SimpleFold(r); other != r; other = unicode.SimpleFold(other) {
		least = min(least, other)
	}
	return least
}
