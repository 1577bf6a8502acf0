package store

import (
	"bytes"
	"encoding/binary"
	"fmt"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// sessionAt gives a session's row, and whether there is one.
func sessionAt(tx *bolt.Tx, id model.ID) (sessionRow, bool, error) {
	v := bucket(tx, bucketSessions).Get([]byte(id))
	if v == nil {
		return sessionRow{}, false, nil
	}
	r, err := decodeSessionRow([]byte(id), v)
	return r, err == nil, bad(err, "session %s", id)
}

// headAt gives what a session's games and deliveries are kept by, and whether there is such a session.
func headAt(tx *bolt.Tx, id model.ID) (sessionHead, bool, error) {
	v := bucket(tx, bucketSessions).Get([]byte(id))
	if v == nil {
		return sessionHead{}, false, nil
	}
	h, err := decodeSessionHead([]byte(id), v)
	return h, err == nil, bad(err, "session %s", id)
}

// found says where a game or a delivery is.
type found struct {
	place
	session model.ID
}

// find looks for a game or a delivery by its id.
func find(tx *bolt.Tx, kind model.RecordKind, id model.ID) (found, bool, error) {
	name := bucketGames
	if kind == model.DeliveryRecord {
		name = bucketDeliveries
	}
	if session, ok := sessionIn(id); ok {
		row, ok, err := headAt(tx, session)
		if err != nil {
			return found{}, false, err
		}
		if ok {
			serial, _ := serialIn(session, id)
			at := found{place{row.number, serial}, session}
			if bucket(tx, name).Get(at.key()) != nil {
				return at, true, nil
			}
		}
	}
	return findForeign(tx, kind, id)
}

func findForeign(tx *bolt.Tx, kind model.RecordKind, id model.ID) (found, bool, error) {
	key := foreignKey(kind, id)
	v := bucket(tx, bucketForeign).Get(key)
	if v == nil {
		return found{}, false, nil
	}
	d, err := unseal(key, v)
	if err != nil {
		return found{}, false, bad(err, "the place of %s", id)
	}
	at := found{place{d.uint32(), d.uint32()}, d.id()}
	return at, d.err == nil, bad(d.err, "the place of %s", id)
}

func putForeign(tx *bolt.Tx, kind model.RecordKind, id model.ID, at found) error {
	key := foreignKey(kind, id)
	e := newEncoder()
	e.uint32(at.place.session)
	e.uint32(at.serial)
	e.id(at.session)
	return bucket(tx, bucketForeign).Put(key, e.seal(key))
}

// settlePlace gives the place for a game or a delivery of a session: where it is, or where a new one goes.
func settlePlace(tx *bolt.Tx, ref model.Ref, session sessionHead) (found, error) {
	if serial, own := serialIn(session.id, ref.ID); own {
		return found{place{session.number, serial}, session.id}, nil
	}
	at, ok, err := findForeign(tx, ref.Kind, ref.ID)
	switch {
	case err != nil:
		return found{}, err
	case ok && at.session != session.id:
		return found{}, fmt.Errorf("%s is kept in the session %s, it cannot be in %s too", ref.ID, at.session, session.id)
	case ok:
		return at, nil
	}
	name := bucketGames
	if ref.Kind == model.DeliveryRecord {
		name = bucketDeliveries
	}
	at = found{place{session.number, nextForeign(tx, name, session.number)}, session.id}
	return at, putForeign(tx, ref.Kind, ref.ID, at)
}

// nextForeign gives the next serial of a session for an id from elsewhere.
func nextForeign(tx *bolt.Tx, name []byte, session uint32) uint32 {
	last, ok := lastBefore(tx, name, place{session, ownSerial})
	if !ok {
		return 1
	}
	return last + 1
}

// lastBefore gives the highest serial of the place's session that is before the place, and whether there is one.
func lastBefore(tx *bolt.Tx, name []byte, p place) (uint32, bool) {
	c := bucket(tx, name).Cursor()
	var key []byte
	if k, _ := c.Seek(p.key()); k == nil {
		key, _ = c.Last()
	} else {
		key, _ = c.Prev()
	}
	at, err := placeOf(key)
	if err != nil || at.session != p.session {
		return 0, false
	}
	return at.serial, true
}

func gameAt(tx *bolt.Tx, p place) (gameRow, bool, error) {
	key := p.key()
	v := bucket(tx, bucketGames).Get(key)
	if v == nil {
		return gameRow{}, false, nil
	}
	g, err := decodeGameRow(key, v)
	return g, err == nil, bad(err, "game %d/%d", p.session, p.serial)
}

func deliveryAt(tx *bolt.Tx, at found) (deliveryRow, bool, error) {
	key := at.key()
	v := bucket(tx, bucketDeliveries).Get(key)
	if v == nil {
		return deliveryRow{}, false, nil
	}
	d, err := decodeDeliveryRow(at.session, key, v)
	return d, err == nil, bad(err, "delivery %d of session %s", at.place.number(), at.session)
}

// each calls f with the rows whose keys begin with prefix, in order. Keys and values die with the transaction.
func each(b *bolt.Bucket, prefix []byte, f func(k, v []byte) error) error {
	c := b.Cursor()
	for k, v := c.Seek(prefix); k != nil && bytes.HasPrefix(k, prefix); k, v = c.Next() {
		if err := f(k, v); err != nil {
			return err
		}
	}
	return nil
}

// actionNumber reads the number off a key of actionKey.
func actionNumber(key []byte) int {
	if len(key) != 8 {
		return 0
	}
	return int(binary.BigEndian.Uint32(key[4:]))
}
