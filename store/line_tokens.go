package store

import (
	"bytes"
	"strconv"
	"unicode/utf16"
	"unicode/utf8"
)

// The pieces of JSON (RFC 8259). They are read by hand: with encoding/json reading the lines was most of an import.

// maxNested is how deep a value may be nested that is passed over. None of the format is deeper than three.
const maxNested = 64

// next gives the byte with which the next piece begins and leaves it, 0 at the line's end, which it refuses.
func (r *lineReader) next() byte {
	for ; r.at < len(r.line); r.at++ {
		switch c := r.line[r.at]; c {
		case ' ', '\t', '\r', '\n':
		default:
			return c
		}
	}
	r.refuse("the line ends too early")
	return 0
}

func (r *lineReader) notJSON() { r.refuse("this is not JSON from its byte %d on", r.at+1) }

// misplaced refuses what stands where something else belongs.
func (r *lineReader) misplaced(what string) {
	var is string
	switch c := r.next(); {
	case c == '{':
		is = "an object"
	case c == '[':
		is = "a list"
	case c == '"':
		is = "a text"
	case c == 't' || c == 'f':
		is = "true or false"
	case c == 'n':
		is = "null"
	case c == '-' || c >= '0' && c <= '9':
		is = "a number"
	default:
		r.notJSON()
	}
	r.refuse("%s belongs here, not %s", what, is)
}

// delimiter takes one of the characters between the values.
func (r *lineReader) delimiter(c byte) {
	if r.err != nil || r.next() == c {
		r.at++
		return
	}
	r.notJSON()
}

// open takes the start of an object or a list.
func (r *lineReader) open(delim byte, what string) {
	if r.err != nil {
		return
	}
	if r.next() != delim {
		r.misplaced(what)
	}
	r.at++
	r.opened = true
}

// more tells whether the object or the list has another entry, and takes its end if not.
func (r *lineReader) more(closing byte) bool {
	if r.err != nil {
		return false
	}
	first := r.opened
	r.opened = false
	if r.next() == closing {
		r.at++
		return false
	}
	if !first {
		r.delimiter(',')
	}
	return r.err == nil
}

// end takes the end of the line.
func (r *lineReader) end() {
	if r.err != nil {
		return
	}
	if len(bytes.Trim(r.line[r.at:], " \t\r\n")) > 0 {
		r.refuse("something stands after the object")
	}
}

// letters takes a text and gives it as bytes that the next one overwrites, and whether all of it can be seen in ASCII.
func (r *lineReader) letters() (text []byte, plain bool) {
	if r.err != nil {
		return nil, false
	}
	if r.next() != '"' {
		r.notJSON()
		return nil, false
	}
	r.at++
	from := r.at
	plain = true
	for ; r.at < len(r.line); r.at++ {
		switch c := r.line[r.at]; {
		case c == '"':
			r.at++
			return r.line[from : r.at-1], plain
		case c == '\\':
			return r.spell(from), false
		case c < ' ':
			r.notJSON()
			return nil, false
		case c >= 0x7f:
			plain = false
		}
	}
	r.refuse("the line ends too early")
	return nil, false
}

// spell takes the rest of a text that began at from, from its first escape on, and spells it out.
func (r *lineReader) spell(from int) []byte {
	r.spelt = append(r.spelt[:0], r.line[from:r.at]...)
	for r.at < len(r.line) {
		c := r.line[r.at]
		switch {
		case c == '"':
			r.at++
			return r.spelt
		case c < ' ':
			r.notJSON()
			return nil
		case c != '\\':
			r.spelt = append(r.spelt, c)
			r.at++
		default:
			if r.escape(); r.err != nil {
				return nil
			}
		}
	}
	r.refuse("the line ends too early")
	return nil
}

// escapes are the letters after a backslash with what they stand for.
var escapes = [256]byte{'"': '"', '\\': '\\', '/': '/', 'b': '\b', 'f': '\f', 'n': '\n', 'r': '\r', 't': '\t'}

// escape takes an escape and spells it out.
func (r *lineReader) escape() {
	if r.at+1 == len(r.line) {
		r.refuse("the line ends too early")
		return
	}
	if c := escapes[r.line[r.at+1]]; c != 0 {
		r.spelt = append(r.spelt, c)
		r.at += 2
		return
	}
	unit := r.unit()
	if r.err == nil && utf16.IsSurrogate(unit) {
		if r.at+1 < len(r.line) && r.line[r.at] == '\\' && r.line[r.at+1] == 'u' {
			unit = utf16.DecodeRune(unit, r.unit())
		} else {
			unit = utf8.RuneError
		}
		if unit == utf8.RuneError {
			r.refuse("the text is not valid Unicode: it has half of a pair of \\u escapes")
		}
	}
	r.spelt = utf8.AppendRune(r.spelt, unit)
}

// unit takes an escape of four hexadecimal digits.
func (r *lineReader) unit() rune {
	if r.line[r.at+1] != 'u' {
		r.notJSON()
		return 0
	}
	if r.at+6 > len(r.line) {
		r.refuse("the line ends too early")
		return 0
	}
	n, err := strconv.ParseUint(string(r.line[r.at+2:r.at+6]), 16, 16)
	if err != nil {
		r.notJSON()
	}
	r.at += 6
	return rune(n)
}

// word takes a word that is not in quotes.
func (r *lineReader) word(w string) bool {
	rest := r.line[r.at:]
	if len(rest) < len(w) || string(rest[:len(w)]) != w {
		r.notJSON()
		return false
	}
	r.at += len(w)
	return true
}

// digits takes a number as it is written.
func (r *lineReader) digits() []byte {
	if r.err != nil {
		return nil
	}
	from := r.at
	r.skipByte('-')
	if !r.skipByte('0') {
		r.someDigits()
	}
	if r.skipByte('.') {
		r.someDigits()
	}
	if r.skipByte('e') || r.skipByte('E') {
		if !r.skipByte('-') {
			r.skipByte('+')
		}
		r.someDigits()
	}
	return r.line[from:r.at]
}

func (r *lineReader) skipByte(c byte) bool {
	if r.at < len(r.line) && r.line[r.at] == c {
		r.at++
		return true
	}
	return false
}

// someDigits takes one digit or more.
func (r *lineReader) someDigits() {
	from := r.at
	for r.at < len(r.line) && r.line[r.at] >= '0' && r.line[r.at] <= '9' {
		r.at++
	}
	switch {
	case r.at > from:
	case r.at == len(r.line):
		r.refuse("the line ends too early")
	default:
		r.notJSON()
	}
}

// valueOf gives a number as it is written its value, and whether it has one.
func valueOf(digits []byte) (float64, bool) {
	const exact = 15 // digits that a float64 holds
	n := 0
	for _, c := range digits {
		if c < '0' || c > '9' || len(digits) > exact {
			x, err := strconv.ParseFloat(string(digits), 64)
			return x, err == nil
		}
		n = n*10 + int(c-'0')
	}
	return float64(n), true
}

// skip passes a value of any kind over, which lies so deep.
func (r *lineReader) skip(depth int) {
	if r.err != nil {
		return
	}
	if depth > maxNested {
		r.notJSON()
		return
	}
	switch c := r.next(); {
	case c == '{':
		for r.open('{', ""); r.more('}'); {
			r.key()
			r.skip(depth + 1)
		}
	case c == '[':
		for r.open('[', ""); r.more(']'); {
			r.skip(depth + 1)
		}
	case c == '"':
		r.letters()
	case c == 't':
		r.word("true")
	case c == 'f':
		r.word("false")
	case c == 'n':
		r.word("null")
	case c == '-' || c >= '0' && c <= '9':
		r.digits()
	default:
		r.notJSON()
	}
}
