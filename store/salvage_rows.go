package store

import (
	"bytes"

	"coach.settee/model"
)

// Each of these takes an entry if it is a record of a kind: the checksum is right, the record means something, and it
// would be written in the same bytes. A page in use is believed in the last, since a later program may add fields.

func (v *salvage) cue(e element, r rank) bool {
	c, err := decodePlain(e.key, e.value, decodeCue)
	ok := err == nil && c.Validate() == nil && (r == rankReached || sameBytes(e, func(to *encoder) { encodeCue(to, c) }))
	if ok {
		better(v.cues, c.ID, version[model.Cue]{c, r, len(e.value)})
	}
	return ok
}

func (v *salvage) student(e element, r rank) bool {
	s, err := decodePlain(e.key, e.value, decodeStudent)
	ok := err == nil && s.Validate() == nil && (r == rankReached || sameBytes(e, func(to *encoder) { encodeStudent(to, s) }))
	if ok {
		better(v.students, s.ID, version[model.Student]{s, r, len(e.value)})
	}
	return ok
}

func (v *salvage) session(e element, r rank) bool {
	s, err := decodeSessionRow(e.key, e.value)
	ok := err == nil && s.Validate() == nil && (r == rankReached || bytes.Equal(s.encode(e.key), e.value))
	if ok {
		better(v.sessions, s.ID, version[sessionRow]{s, r, len(e.value)})
	}
	return ok
}

func (v *salvage) game(e element, r rank) bool {
	p, err := placeOf(e.key)
	if err != nil {
		return false
	}
	g, err := decodeGameRow(e.key, e.value)
	ok := err == nil && g.Validate() == nil && (r == rankReached || bytes.Equal(g.encode(p, e.key), e.value))
	if ok {
		better(v.games, p, version[gameRow]{g, r, len(e.value)})
	}
	return ok
}

// ball takes where a delivery is.
func (v *salvage) ball(e element, r rank) bool {
	p, err := placeOf(e.key)
	if err != nil {
		return false
	}
	if _, err := unseal(e.key, e.value); err != nil {
		return false
	}
	if r != rankReached {
		// The session's id is not in the row unless the game's is.
		const any = model.ID("session")
		d, err := decodeDeliveryRow(any, e.key, e.value)
		if err != nil || d.Validate() != nil || !bytes.Equal(d.encode(any, e.key), e.value) {
			return false
		}
	}
	better(v.balls, p, version[int64]{e.at, r, len(e.value)})
	return true
}

func sameBytes(e element, fields func(*encoder)) bool {
	to := newEncoder()
	fields(to)
	return bytes.Equal(to.seal(e.key), e.value)
}
