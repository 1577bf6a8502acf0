package store

import (
	"slices"
	"strings"
	"unicode"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// othersNaming counts the records of others in whose texts a student's first name stands as a word. That may be somebody
// else of that name.
func othersNaming(tx *bolt.Tx, student model.Student) (n int, err error) {
	words := wordsOf(student.Name)
	if len(words) == 0 {
		return 0, nil
	}
	count := func(texts ...string) {
		if slices.ContainsFunc(texts, func(text string) bool { return slices.Contains(wordsOf(text), words[0]) }) {
			n++
		}
	}
	cues, err := cuesIn(tx)
	if err != nil {
		return 0, err
	}
	for _, c := range cues {
		count(c.Text)
	}
	students, err := studentsIn(tx)
	if err != nil {
		return 0, err
	}
	for _, s := range students {
		if s.ID != student.ID {
			count(append([]string{s.AverageOn, s.Focus, s.Limits, s.Notes, s.Intake.Hurts}, s.Balls...)...)
		}
	}
	return n, eachSheaf(tx, func(s sheaf) error {
		count(sessionTexts(unseated(s.session.Session, student.ID))...)
		for i, g := range s.games {
			if g.Student == student.ID {
				continue
			}
			count(g.Name, g.Stopped, g.Note)
			for _, d := range s.deliveries[i] {
				count(d.Bowled, d.Cue, d.Note)
			}
		}
		return nil
	})
}

func sessionTexts(s model.Session) []string {
	texts := []string{s.Place, s.PatternKind, s.Before}
	for _, seat := range s.Roster {
		texts = append(texts, seat.Cue, seat.Focus, seat.Homework, seat.Sentence)
	}
	return texts
}

// wordsOf gives a text's words in small letters.
func wordsOf(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.In(r, unicode.L, unicode.M, unicode.N) })
}
