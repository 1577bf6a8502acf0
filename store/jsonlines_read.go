package store

import (
	"bytes"
	"errors"
	"fmt"
	"unicode/utf8"

	"coach.settee/model"
)

// decodeLine reads a line of the exchange format, with its newline or without. It is strict: a key that is unknown,
// repeated, missing or of the wrong type, a value out of its range, a text that is not to be kept, and whatever makes
// the record wrong on its own is an error that says so.
func decodeLine(line []byte) (model.Record, error) {
	if !utf8.Valid(line) {
		return nil, errors.New("the line is not valid UTF-8")
	}
	if len(bytes.TrimSpace(line)) == 0 {
		return nil, errors.New("the line is empty")
	}
	kind, err := typeOf(line)
	if err != nil {
		return nil, err
	}
	switch kind {
	case "cue":
		return readLine[model.Cue](line, kind, cueFields)
	case "student":
		return readLine[model.Student](line, kind, studentFields)
	case "session":
		return readLine[model.Session](line, kind, sessionFields)
	case "game":
		return readLine[model.Game](line, kind, gameFields)
	case "delivery":
		return readLine[model.Delivery](line, kind, deliveryFields)
	case "gone":
		return readLine[takenBack](line, kind, takenBackFields)
	case "was":
		return readLine[pastForms](line, kind, pastFields)
	}
	return nil, fmt.Errorf("the type %q is none of cue, student, session, game, delivery", short(kind))
}

// typeOf gives what the line's object has under type, wherever that stands.
func typeOf(line []byte) (string, error) {
	r := newLineReader(line)
	r.open('{', "an object")
	for r.more('}') {
		if string(r.key()) == "type" {
			return r.text(), r.err
		}
		r.skip(0)
	}
	if r.err == nil {
		r.refuse("type is missing")
	}
	return "", r.err
}

// readLine reads a line of one type as its record.
func readLine[T model.Record](line []byte, kind string, fields []field[T]) (model.Record, error) {
	var v T
	r := newLineReader(line)
	readObject(r, kind, fields, &v)
	r.end()
	r.check(v.Validate)
	if r.err != nil {
		return nil, r.err
	}
	return v, nil
}

// readObject reads an object with these keys; of a kind of record it has the type too.
func readObject[T any](r *lineReader, kind string, fields []field[T], v *T) {
	const typeBit = 1 << 63
	var read uint64
	expected := 0
	r.open('{', "an object")
	for r.more('}') {
		key := r.key()
		bit := uint64(typeBit)
		i := indexOf(fields, key, expected)
		switch {
		case r.err != nil:
			return
		case i >= 0:
			bit = 1 << i
			expected = i + 1
		case string(key) != "type" || kind == "":
			r.refuse("the key %q is unknown", short(string(key)))
			return
		}
		if read&bit != 0 {
			r.refuse("%s is there twice", key)
			return
		}
		read |= bit
		if i < 0 {
			r.text()
			continue
		}
		fields[i].read(r, v)
		r.within(fields[i].key)
	}
	for i := range fields {
		r.presence(read&(1<<i) != 0, fields[i].must, fields[i].when == nil || fields[i].when(v), fields[i].key)
	}
}

// indexOf looks for a key from the place on where it is expected, as exports have their keys in the order of the fields.
func indexOf[T any](fields []field[T], key []byte, expected int) int {
	for i := expected; i < len(fields); i++ {
		if fields[i].key == string(key) {
			return i
		}
	}
	for i := range fields[:expected] {
		if fields[i].key == string(key) {
			return i
		}
	}
	return -1
}

// formatVersion is the version of the format that is written and read.
const formatVersion = 1

// formatOf reads the first line and gives the version of the format that it tells.
func formatOf(line []byte) (int, error) {
	const kind = "settee"
	switch got, err := typeOf(line); {
	case err != nil:
		return 0, err
	case got != kind:
		return 0, fmt.Errorf("the type is %q", short(got))
	}
	var version int
	r := newLineReader(line)
	readObject(r, kind, []field[int]{always(wholeField("format", 1, maxCount, func(v *int) *int { return v }))}, &version)
	r.end()
	return version, r.err
}
