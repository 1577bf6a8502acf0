package store

import (
	"bytes"
	"strconv"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// firstLine is the first line of every file in the format, without its newline.
const firstLine = `{"type":"settee","format":1}`

// encodeLine appends a record as a line of the exchange format, newline included.
func encodeLine(buf []byte, r model.Record) []byte {
	switch r := r.(type) {
	case model.Cue:
		buf = appendObject(buf, "cue", cueFields, &r)
	case model.Student:
		buf = appendObject(buf, "student", studentFields, &r)
	case model.Session:
		buf = appendObject(buf, "session", sessionFields, &r)
	case model.Game:
		buf = appendObject(buf, "game", gameFields, &r)
	case model.Delivery:
		buf = appendObject(buf, "delivery", deliveryFields, &r)
	case takenBack:
		buf = appendObject(buf, "gone", takenBackFields, &r)
	case pastForms:
		buf = appendObject(buf, "was", pastFields, &r)
	}
	return append(buf, '\n')
}

// appendObject appends an object with the keys that are to be written; a kind of record has its name under type.
func appendObject[T any](buf []byte, kind string, fields []field[T], v *T) []byte {
	start := len(buf)
	buf = append(buf, '{')
	if kind != "" {
		buf = appendText(appendKey(buf, start, "type"), kind)
	}
	for i := range fields {
		f := &fields[i]
		if f.when == nil || f.when(v) {
			buf = f.write(appendKey(buf, start, f.key), v)
		}
	}
	return append(buf, '}')
}

// differing gives the keys of which the lines of two records of one kind say something else.
func differing(a, b model.Record) []string {
	switch a := a.(type) {
	case model.Cue:
		return differingKeys(cueFields, a, b)
	case model.Student:
		return differingKeys(studentFields, a, b)
	case model.Session:
		return differingKeys(sessionFields, a, b)
	case model.Game:
		return differingKeys(gameFields, a, b)
	case model.Delivery:
		return differingKeys(deliveryFields, a, b)
	}
	return nil
}

func differingKeys[T model.Record](fields []field[T], a T, other model.Record) (keys []string) {
	b, _ := other.(T)
	for i := range fields {
		f := &fields[i]
		if !bytes.Equal(f.value(&a), f.value(&b)) {
			keys = append(keys, f.key)
		}
	}
	return keys
}

// value gives what is written of a key, nothing where it is left out.
func (f *field[T]) value(v *T) []byte {
	if f.when != nil && !f.when(v) {
		return nil
	}
	return f.write(nil, v)
}

// appendKey appends a key, after a comma where the object that began at start has one already.
func appendKey(buf []byte, start int, key string) []byte {
	if len(buf) > start+1 {
		buf = append(buf, ',')
	}
	buf = append(append(buf, '"'), key...)
	return append(buf, '"', ':')
}

func appendList[V any](buf []byte, list []V, item func([]byte, V) []byte) []byte {
	buf = append(buf, '[')
	for i, v := range list {
		if i > 0 {
			buf = append(buf, ',')
		}
		buf = item(buf, v)
	}
	return append(buf, ']')
}

// appendText appends a JSON string in which only what must be is escaped. The texts of records hold valid UTF-8 and no
// control characters.
func appendText(buf []byte, s string) []byte {
	buf = append(buf, '"')
	for i := range len(s) {
		switch c := s[i]; {
		case c == '"' || c == '\\':
			buf = append(buf, '\\', c)
		case c < ' ':
			buf = append(buf, '\\', 'u', '0', '0', '0'+c>>4, hexDigits[c&15])
		default:
			buf = append(buf, c)
		}
	}
	return append(buf, '"')
}

const hexDigits = "0123456789abcdef"

func appendWhole(buf []byte, n int) []byte { return strconv.AppendInt(buf, int64(n), 10) }

// appendNumber appends the shortest decimal that reads back, without an exponent and without a sign on zero.
func appendNumber(buf []byte, x float64) []byte {
	if x == 0 {
		return append(buf, '0')
	}
	return strconv.AppendFloat(buf, x, 'f', -1, 64)
}

func appendFlag(buf []byte, on bool) []byte { return strconv.AppendBool(buf, on) }

func appendAxis(buf []byte, a model.Axis) []byte { return appendText(buf, a.String()) }

func appendPins(buf []byte, pins tenpin.PinSet) []byte {
	return appendList(buf, pins.Numbers(), appendWhole)
}
