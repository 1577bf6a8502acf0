package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// lineReader reads one line's JSON value token by token. The first thing that is wrong stays in err, and everything
// read after it is zero.
type lineReader struct {
	line []byte
	dec  *json.Decoder
	err  error
}

func newLineReader(line []byte) *lineReader {
	dec := json.NewDecoder(bytes.NewReader(line))
	dec.UseNumber()
	return &lineReader{line: line, dec: dec}
}

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

// token gives the next token, nil after anything wrong.
func (r *lineReader) token() json.Token {
	if r.err != nil {
		return nil
	}
	t, err := r.dec.Token()
	switch {
	case errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF):
		r.refuse("the line ends too early")
		return nil
	case err != nil:
		r.refuse("this is not JSON: %w", err)
		return nil
	}
	return t
}

// open takes the start of an object or a list.
func (r *lineReader) open(delim json.Delim, what string) {
	t := r.token()
	if r.err == nil && t != delim {
		r.refuse("%s belongs here, not %s", what, tokenWords(t))
	}
}

// more tells whether the object or the list has another entry, and takes its end if not.
func (r *lineReader) more() bool {
	if r.err != nil {
		return false
	}
	if r.dec.More() {
		return true
	}
	r.token()
	return false
}

// end takes the end of the line.
func (r *lineReader) end() {
	if r.err != nil {
		return
	}
	if _, err := r.dec.Token(); !errors.Is(err, io.EOF) {
		r.refuse("something stands after the object")
	}
}

// skip takes a value of any kind.
func (r *lineReader) skip() {
	if r.err != nil {
		return
	}
	var raw json.RawMessage
	if err := r.dec.Decode(&raw); err != nil {
		r.refuse("this is not JSON: %w", err)
	}
}

// key takes a key.
func (r *lineReader) key() string {
	key, _ := r.token().(string)
	return key
}

// text takes a text that is to be kept.
func (r *lineReader) text() string {
	from := r.dec.InputOffset()
	t := r.token()
	if r.err != nil {
		return ""
	}
	s, ok := t.(string)
	if !ok {
		r.refuse("a text belongs here, not %s", tokenWords(t))
		return ""
	}
	if strings.ContainsRune(s, utf8.RuneError) && halfRune(r.line[from:r.dec.InputOffset()]) {
		r.refuse("the text is not valid Unicode: it has half of a pair of \\u escapes")
	}
	r.check(func() error { return model.ValidateText(s) })
	return s
}

// halfRune tells whether a JSON string escapes one half of a surrogate pair without the other. The decoder puts the
// replacement character in its place, as which it must not be kept.
func halfRune(raw []byte) bool {
	for i := 0; i+1 < len(raw); i++ {
		if raw[i] != '\\' {
			continue
		}
		i++
		if raw[i] != 'u' {
			continue
		}
		switch unit := hexUnit(raw[i+1:]); {
		case unit >= 0xd800 && unit < 0xdc00:
			rest := raw[i+5:]
			if !bytes.HasPrefix(rest, []byte(`\u`)) || hexUnit(rest[2:])>>10 != 0xdc00>>10 {
				return true
			}
			i += 10
		case unit >= 0xdc00 && unit < 0xe000:
			return true
		default:
			i += 4
		}
	}
	return false
}

func hexUnit(raw []byte) uint64 {
	if len(raw) < 4 {
		return 0
	}
	n, err := strconv.ParseUint(string(raw[:4]), 16, 16)
	if err != nil {
		return 0
	}
	return n
}

// flag takes true or false.
func (r *lineReader) flag() bool {
	t := r.token()
	on, ok := t.(bool)
	if r.err == nil && !ok {
		r.refuse("true or false belongs here, not %s", tokenWords(t))
	}
	return on
}

// number takes a number in a range, the ends in it.
func (r *lineReader) number(low, high float64) float64 {
	t := r.token()
	n, ok := t.(json.Number)
	if r.err != nil {
		return 0
	}
	if !ok {
		r.refuse("a number belongs here, not %s", tokenWords(t))
		return 0
	}
	x, err := strconv.ParseFloat(string(n), 64)
	if err != nil || !(x >= low && x <= high) {
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
	if r.err == nil && (err != nil || t.Format(layout) != s || t.Year() < 1970) {
		r.refuse("%q is not written as %s", short(s), example)
	}
	return t
}

// list takes a list, calling item for each entry.
func (r *lineReader) list(most int, item func(i int)) {
	r.open('[', "a list")
	for i := 0; r.more(); i++ {
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

func tokenWords(t json.Token) string {
	switch t := t.(type) {
	case nil:
		return "null"
	case json.Delim:
		if t == '{' {
			return "an object"
		}
		return "a list"
	case string:
		return "a text"
	case bool:
		return "true or false"
	}
	return "a number"
}

// short gives a value so that an error with it stays readable.
func short(s string) string {
	if len(s) <= 40 {
		return s
	}
	return strings.ToValidUTF8(s[:40], "") + "…"
}
