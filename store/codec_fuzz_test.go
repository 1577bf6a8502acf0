package store

import (
	"testing"

	"coach.settee/model"
)

// FuzzDecode gives the decoders any bytes with a checksum that is right: they may refuse, and may not fail.
func FuzzDecode(f *testing.F) {
	for _, r := range allRecords() {
		e := newEncoder()
		encodeWas(e, "S", model.Was{Ref: r.Ref(), Record: r})
		f.Add(e.b)
	}
	e := newEncoder()
	encodeSteps(e, []model.Step{stepOf(false)})
	f.Add(e.b)
	f.Fuzz(func(t *testing.T, body []byte) {
		for _, key := range [][]byte{[]byte("S"), placeWith(12), placeWith(ownSerial + 12), nil} {
			value := (&encoder{b: append([]byte(nil), body...)}).seal(key)
			_, _ = decodePlain(key, value, decodeCue)
			_, _ = decodePlain(key, value, decodeStudent)
			_, _ = decodeSessionRow(key, value)
			_, _ = decodeSessionHead(key, value)
			_, _ = decodeGameRow(key, value)
			_, _ = decodeDeliveryRow("S", key, value)
			_, _ = decodeEntry("S", 1, key, value)
		}
		d := &decoder{b: body}
		_ = decodeUp(d)
		d = &decoder{b: body, ids: new([]model.ID)}
		_ = decodeSteps(d)
	})
}
