package model

import (
	"cmp"
	"fmt"
	"strings"
	"time"
)

// Left is what an earlier evening left of a student for the next one.
type Left struct {
	// At is when that evening began.
	At   time.Time
	Seat Seat
}

// Words says what was left in one line: "10 pin, 3 times 10 (homework); quiet head (focus); 17 from 34 on 7; soft hand (cue)". Without a focus
// of that evening the student's own is told. Limits are never in it. It is empty where nothing was left.
func (l Left) Words(s Student) string {
	var words []string
	if l.Seat.Homework != "" {
		words = append(words, l.Seat.Homework+" (homework)")
	}
	if focus := cmp.Or(l.Seat.Focus, s.Focus); focus != "" {
		words = append(words, focus+" (focus)")
	}
	words = append(words, l.lines()...)
	if l.Seat.Cue != "" {
		words = append(words, l.Seat.Cue+" (cue)")
	}
	return strings.Join(words, "; ")
}

// lines says the lines aimed at, those of the pair's two lanes as one where they are the same.
func (l Left) lines() []string {
	pair, aimed := l.Seat.Pair(), l.Seat.Aimed
	if aimed[0] == aimed[1] && !aimed[0].IsZero() {
		return []string{aimed[0].leftWords(pair.String())}
	}
	var words []string
	for i, line := range aimed {
		if !line.IsZero() {
			words = append(words, line.leftWords(fmt.Sprint(pair[i])))
		}
	}
	return words
}

func (l Line) leftWords(where string) string {
	return fmt.Sprintf("%s on %s", strings.TrimPrefix(l.aimWords(), "at "), where)
}
