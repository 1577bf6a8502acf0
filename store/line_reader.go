package store

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"time"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// lineReader reads one line's JSON value piece by piece. The first thing that is wrong stays in err, and everything read
// after it is zero.
type lineReader struct {
	// line is valid UTF-8, at how much of it is read.
	line []byte
	at   int
	// opened tells that an object or a list was just opened: its first entry comes without a comma.
	opened bool
	// spelt is where texts with escapes are spelt out.
	spelt []byte
	err   error
}

func newLineReader(line []byte) *lineReader { return &lineReader{line: line} }

func (r *lineReader) refuse(format string, args ...any) {
	if r.err == nil {
		r.err = fmt.Errorf(format, args...)
	}
}

// check keeps what a check of a value says.
func (r *lineReader) check(what func() error) {
	if r.err == nil {
		r.err = what()
	}
}

// within says under which key something was wrong.
func (r *lineReader) within(key string) {
	if r.err != nil {
		r.err = fmt.Errorf("%s: %w", key, r.err)
	}
}

// presence refuses an object that lacks a key it must have, or has one that does not go with the rest.
func (r *lineReader) presence(has, must, wanted bool, key string) {
	switch {
	case !must || has == wanted:
	case has:
		r.refuse("%s does not go with the rest", key)
	default:
		r.refuse("%s is missing", key)
	}
}

// key takes a key and its colon, and gives bytes that the next text overwrites.
func (r *lineReader) key() []byte {
	key, _ := r.letters()
	r.delimiter(':')
	return key
}

// text takes a text that is to be kept.
func (r *lineReader) text() string {
	b, plain := r.textBytes()
	return r.kept(b, plain)
}

// textBytes takes a text as bytes that the next one overwrites, and tells whether all of it can be seen in ASCII.
func (r *lineReader) textBytes() (b []byte, plain bool) {
	if r.err == nil && r.next() != '"' {
		r.misplaced("a text")
	}
	return r.letters()
}

// kept gives a text that was read, once it was looked at.
func (r *lineReader) kept(b []byte, plain bool) string {
	if r.err != nil {
		return ""
	}
	s := string(b)
	if !plain || len(s) > model.MaxText {
		r.check(func() error { return model.ValidateText(s) })
	}
	return s
}

// flag takes true or false.
func (r *lineReader) flag() bool {
	if r.err != nil {
		return false
	}
	switch r.next() {
	case 't':
		return r.word("true")
	case 'f':
		r.word("false")
	default:
		r.misplaced("true or false")
	}
	return false
}

// number takes a number in a range, the ends in it.
func (r *lineReader) number(low, high float64) float64 {
	if c := r.next(); r.err == nil && c != '-' && (c < '0' || c > '9') {
		r.misplaced("a number")
	}
	n := r.digits()
	if r.err != nil {
		return 0
	}
	x, ok := valueOf(n)
	if !ok || !(x >= low && x <= high) {
		r.refuse("%s is out of range: %s to %s", short(string(n)), appendNumber(nil, low), appendNumber(nil, high))
		return 0
	}
	if x == 0 {
		return 0
	}
	return x
}

// whole takes a whole number in a range, the ends in it.
func (r *lineReader) whole(low, high int) int {
	x := r.number(float64(low), float64(high))
	if x != math.Trunc(x) {
		r.refuse("%v is no whole number", x)
	}
	return int(x)
}

// date takes a time in the one form that layout writes.
func (r *lineReader) date(layout, example string) time.Time {
	s := r.text()
	t, err := time.Parse(layout, s)
	var at *time.ParseError
	switch {
	case r.err != nil:
	case errors.As(err, &at) && at.Message != "":
		r.refuse("%q is no date that there is", short(s))
	case err != nil || t.Format(layout) != s:
		r.refuse("%q is not written as %s", short(s), example)
	case t.Year() < 1970:
		r.refuse("%q is before 1970", short(s))
	}
	return t
}

// list takes a list, calling item for each entry.
func (r *lineReader) list(most int, item func(i int)) {
	r.open('[', "a list")
	for i := 0; r.more(']'); i++ {
		if i == most {
			r.refuse("the list is longer than %d", most)
			return
		}
		item(i)
	}
}

// exactly takes a list of n entries.
func (r *lineReader) exactly(n int, item func(i int)) {
	got := 0
	r.list(n, func(i int) {
		got++
		item(i)
	})
	if got != n {
		r.refuse("the list has %d entries: it needs %d", got, n)
	}
}

// pins takes a list of pins, each at most once.
func (r *lineReader) pins() tenpin.PinSet {
	var set tenpin.PinSet
	r.list(10, func(int) {
		n := r.whole(1, 10)
		if r.err == nil && set.Has(n) {
			r.refuse("pin %d is there twice", n)
		}
		set |= tenpin.Pins(n)
	})
	return set
}

// short gives a value so that an error with it stays readable.
func short(s string) string {
	if len(s) <= 40 {
		return s
	}
	return strings.ToValidUTF8(s[:40], "") + "…"
}
