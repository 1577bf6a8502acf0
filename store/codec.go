package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"iter"
	"math"
	"slices"
	"time"

	"coach.settee/model"
)

// Values are written by hand: a version byte, the fields, then four bytes of checksum over the key and everything
// before. Whole numbers are variable in length, texts have their length before them. A reader takes the fields it
// knows and leaves what a later version has put after them.

// valueVersion is the first byte of every value.
const valueVersion = 1

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

func checksum(key, body []byte) uint32 {
	return crc32.Update(crc32.Checksum(key, castagnoli), castagnoli, body)
}

// encoder appends fields to a value.
type encoder struct {
	b []byte
	// ids are those that were written before and are written as a number now, in the journal's frames; nil elsewhere.
	ids *[]model.ID
}

func newEncoder() *encoder { return &encoder{b: append(make([]byte, 0, 96), valueVersion)} }

// seal ends a value that is to be kept under the key.
func (e *encoder) seal(key []byte) []byte {
	return binary.BigEndian.AppendUint32(e.b, checksum(key, e.b))
}

func (e *encoder) byte(b byte)      { e.b = append(e.b, b) }
func (e *encoder) uint32(n uint32)  { e.b = binary.BigEndian.AppendUint32(e.b, n) }
func (e *encoder) uint64(n uint64)  { e.b = binary.BigEndian.AppendUint64(e.b, n) }
func (e *encoder) count(n int)      { e.b = binary.AppendUvarint(e.b, uint64(n)) }
func (e *encoder) time(t time.Time) { e.b = binary.AppendVarint(e.b, t.Unix()) }

func (e *encoder) text(s string) {
	e.count(len(s))
	e.b = append(e.b, s...)
}

func (e *encoder) id(id model.ID) {
	if e.ids == nil {
		e.text(string(id))
		return
	}
	i := slices.Index(*e.ids, id)
	if i >= 0 {
		e.count(i)
		return
	}
	e.count(len(*e.ids))
	*e.ids = append(*e.ids, id)
	e.text(string(id))
}

// flag gives a bit of a value's flags.
func flag(is bool, bit int) int {
	if is {
		return bit
	}
	return 0
}

func (e *encoder) bool(b bool) {
	if b {
		e.byte(1)
		return
	}
	e.byte(0)
}

// decoder reads fields off a value; after the first that is not there it gives zeros and keeps the error.
type decoder struct {
	b   []byte
	err error
	// ids are those that were read before, in the journal's frames.
	ids *[]model.ID
}

var (
	errShort = errors.New("it ends too early")
	errWord  = errors.New("it has a word that this version does not know")
)

// unseal checks a value against the key it is kept under.
func unseal(key, value []byte) (*decoder, error) {
	if len(value) < 5 {
		return nil, errShort
	}
	body := value[:len(value)-4]
	if checksum(key, body) != binary.BigEndian.Uint32(value[len(value)-4:]) {
		return nil, errors.New("its checksum is wrong")
	}
	if body[0] != valueVersion {
		return nil, fmt.Errorf("%w: it has the form %d", ErrNewer, body[0])
	}
	return &decoder{b: body[1:]}, nil
}

func (d *decoder) take(n int) []byte {
	if d.err != nil || n < 0 || n > len(d.b) {
		d.fail(errShort)
		return nil
	}
	out := d.b[:n]
	d.b = d.b[n:]
	return out
}

func (d *decoder) fail(err error) {
	if d.err == nil {
		d.err = err
	}
}

func (d *decoder) byte() byte {
	if b := d.take(1); b != nil {
		return b[0]
	}
	return 0
}

func (d *decoder) uint32() uint32 {
	if b := d.take(4); b != nil {
		return binary.BigEndian.Uint32(b)
	}
	return 0
}

func (d *decoder) uint64() uint64 {
	if b := d.take(8); b != nil {
		return binary.BigEndian.Uint64(b)
	}
	return 0
}

func (d *decoder) count() int {
	n, size := binary.Uvarint(d.b)
	if d.err != nil || size <= 0 {
		d.fail(errShort)
		return 0
	}
	d.b = d.b[size:]
	return int(n)
}

// length reads the number of things that follow, each of at least one byte.
func (d *decoder) length() int {
	n := d.count()
	if n < 0 || n > len(d.b) {
		d.fail(errShort)
		return 0
	}
	return n
}

// items counts off the things that follow, and stops at the first that cannot be read.
func (d *decoder) items() iter.Seq[int] {
	return func(yield func(int) bool) {
		n := d.length()
		for i := 0; i < n && d.err == nil && yield(i); i++ {
		}
	}
}

func (d *decoder) time() time.Time {
	n, size := binary.Varint(d.b)
	if d.err != nil || size <= 0 {
		d.fail(errShort)
		return time.Time{}
	}
	d.b = d.b[size:]
	return time.Unix(n, 0).UTC()
}

// text copies: what is read from the file does not outlive the transaction.
func (d *decoder) text() string { return string(d.take(d.length())) }

func (d *decoder) id() model.ID {
	if d.ids == nil {
		return model.ID(d.text())
	}
	i := d.count()
	switch {
	case i >= 0 && i < len(*d.ids):
		return (*d.ids)[i]
	case i != len(*d.ids):
		d.fail(errShort)
		return ""
	}
	id := model.ID(d.text())
	*d.ids = append(*d.ids, id)
	return id
}

func (d *decoder) bool() bool { return d.byte() != 0 }

// number writes a measure in as few bytes as hold it exactly: halves, tenths, or the eight bytes of the number.
func (e *encoder) number(f float64) {
	for form, per := range perUnit {
		scaled := math.Round(f * per)
		if whole := int64(scaled); math.Abs(scaled) < 1<<40 && math.Float64bits(float64(whole)/per) == math.Float64bits(f) {
			e.b = binary.AppendVarint(e.b, whole*numberForms+int64(form))
			return
		}
	}
	e.b = binary.AppendVarint(e.b, numberForms-1)
	e.uint64(math.Float64bits(f))
}

// perUnit are the forms of a number that is a whole number of parts; the last form is that of the eight bytes.
var perUnit = [...]float64{2, 10, 100}

const numberForms = int64(len(perUnit) + 1)

func (d *decoder) number() float64 {
	n, size := binary.Varint(d.b)
	if d.err != nil || size <= 0 {
		d.fail(errShort)
		return 0
	}
	d.b = d.b[size:]
	form := ((n % numberForms) + numberForms) % numberForms
	if form == numberForms-1 {
		return math.Float64frombits(d.uint64())
	}
	return float64((n-form)/numberForms) / perUnit[form]
}

// numbers writes several measures, any of them unknown.
func (e *encoder) numbers(of ...model.Optional[float64]) {
	var known byte
	for i, o := range of {
		if o.Known {
			known |= 1 << i
		}
	}
	e.byte(known)
	for _, o := range of {
		if o.Known {
			e.number(o.Value)
		}
	}
}

func (d *decoder) numbers(into ...*model.Optional[float64]) {
	known := d.byte()
	for i, o := range into {
		if known&(1<<i) != 0 {
			*o = model.Known(d.number())
		}
	}
}
