package store

import (
	"encoding/binary"
	"fmt"

	"coach.settee/model"
)

func encodeEntry(session model.ID, key []byte, a model.Entry) []byte {
	e := newEncoder()
	e.id(a.Student)
	e.byte(byte(a.How))
	e.text(a.What)
	e.bool(a.Call.Known)
	if a.Call.Known {
		encodeCall(e, &a.Call.Value)
	}
	e.count(len(a.Was))
	for _, w := range a.Was {
		encodeWas(e, session, w)
	}
	return e.seal(key)
}

func decodeEntry(session model.ID, n int, key, value []byte) (model.Entry, error) {
	d, err := unseal(key, value)
	if err != nil {
		return model.Entry{}, err
	}
	a := model.Entry{N: n, Student: d.id(), How: model.How(d.byte()), What: d.text()}
	if d.bool() {
		a.Call = model.Known(decodeCall(d))
	}
	for range d.items() {
		a.Was = append(a.Was, decodeWas(d, session))
	}
	return a, d.err
}

// The bits of what stands before a record as it was.
const (
	wasThere = 1 << iota
	wasOwnID
	wasKind
)

// encodeWas writes a record as it was: whether it was there, its kind, its id, and the record with its length before it.
func encodeWas(e *encoder, session model.ID, w model.Was) {
	head := byte(w.Ref.Kind) * wasKind
	if w.Record != nil {
		head |= wasThere
	}
	serial, own := serialIn(session, w.Ref.ID)
	if own {
		head |= wasOwnID
	}
	e.byte(head)
	if own {
		e.count(int(serial - ownSerial))
	} else {
		e.text(string(w.Ref.ID))
	}
	if w.Record == nil {
		return
	}
	e.uint32(0)
	from := len(e.b)
	switch r := w.Record.(type) {
	case model.Cue:
		encodeCue(e, r)
	case model.Student:
		encodeStudent(e, r)
	case model.Session:
		encodeSession(e, r)
	case model.Game:
		e.id(r.Session)
		encodeGame(e, r)
	case model.Delivery:
		encodeDelivery(e, session, &r)
	}
	binary.BigEndian.PutUint32(e.b[from-4:], uint32(len(e.b)-from))
}

func decodeWas(d *decoder, session model.ID) model.Was {
	head := d.byte()
	var id model.ID
	n := 0
	if head&wasOwnID != 0 {
		n = d.count()
		id = model.SerialID(session, n)
	} else {
		id = model.ID(d.text())
	}
	w := model.Was{Ref: model.Ref{Kind: model.RecordKind(head / wasKind), ID: id}}
	if head&wasThere == 0 {
		return w
	}
	fields := &decoder{b: d.take(int(d.uint32())), err: d.err, ids: d.ids}
	switch w.Ref.Kind {
	case model.CueRecord:
		w.Record = decodeCue(fields, id)
	case model.StudentRecord:
		w.Record = decodeStudent(fields, id)
	case model.SessionRecord:
		w.Record = decodeSession(fields, id)
	case model.GameRecord:
		w.Record = decodeGame(fields, fields.id(), id)
	case model.DeliveryRecord:
		w.Record = decodeDelivery(fields, session, n)
	default:
		d.fail(fmt.Errorf("it has a record of the kind %d", w.Ref.Kind))
	}
	d.fail(fields.err)
	return w
}
