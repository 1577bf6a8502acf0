package store

import (
	"bytes"
	"errors"
	"fmt"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// putRecord keeps a record, new or in place of the one with its id. What it refers to has to be there before.
func putRecord(tx *bolt.Tx, r model.Record) error {
	switch r := r.(type) {
	case model.Cue:
		return putPlain(tx, bucketCues, r.ID, func(e *encoder) { encodeCue(e, r) })
	case model.Student:
		return putPlain(tx, bucketStudents, r.ID, func(e *encoder) { encodeStudent(e, r) })
	case model.Session:
		return putSession(tx, r)
	case model.Game:
		return putGame(tx, r)
	case model.Delivery:
		return putDelivery(tx, r, trail{})
	}
	return fmt.Errorf("a record of the type %T cannot be kept", r)
}

// deleteRecord takes a record away; one that is not there is no error.
func deleteRecord(tx *bolt.Tx, ref model.Ref) error {
	switch ref.Kind {
	case model.CueRecord:
		return bucket(tx, bucketCues).Delete([]byte(ref.ID))
	case model.StudentRecord:
		return bucket(tx, bucketStudents).Delete([]byte(ref.ID))
	case model.SessionRecord:
		return deleteSession(tx, ref.ID)
	case model.GameRecord:
		return deleteGame(tx, ref.ID)
	case model.DeliveryRecord:
		return deleteDelivery(tx, ref.ID)
	}
	return fmt.Errorf("a record of the kind %d cannot be taken away", ref.Kind)
}

func putPlain(tx *bolt.Tx, name []byte, id model.ID, fields func(*encoder)) error {
	e := newEncoder()
	fields(e)
	return bucket(tx, name).Put([]byte(id), e.seal([]byte(id)))
}

func putSession(tx *bolt.Tx, s model.Session) error {
	row, ok, err := sessionAt(tx, s.ID)
	if err != nil {
		return err
	}
	if !ok {
		n, err := bucket(tx, bucketSessions).NextSequence()
		if err != nil {
			return err
		}
		row.number = uint32(n)
	}
	if ok && !row.At.Equal(s.At) {
		if err := moveInTime(tx, row, s); err != nil {
			return err
		}
	}
	row.Session = s
	return putSessionRow(tx, row)
}

func putSessionRow(tx *bolt.Tx, row sessionRow) error {
	key := []byte(row.ID)
	if err := bucket(tx, bucketSessions).Put(key, row.encode(key)); err != nil {
		return err
	}
	return putOpen(tx, key, row.Open())
}

// putOpen puts a session on the list of the open ones, or takes it off. A store of version 1, whose journal is settled
// before it is brought to the next, has no list yet.
func putOpen(tx *bolt.Tx, id []byte, open bool) error {
	b := tx.Bucket(bucketOpen)
	switch {
	case b == nil && versionIn(tx) < versionOpen:
		return nil
	case open == (b.Get(id) != nil):
		return nil
	case open:
		return errors.Join(b.Put(id, newEncoder().seal(id)), b.SetSequence(b.Sequence()+1))
	}
	return errors.Join(b.Delete(id), b.SetSequence(b.Sequence()-1))
}

// moveInTime puts the games of a session, whose time changes, to their new place in the students' histories.
func moveInTime(tx *bolt.Tx, from sessionRow, to model.Session) error {
	return each(bucket(tx, bucketGames), sessionPrefix(from.number), func(k, v []byte) error {
		g, err := decodeGameRow(k, v)
		if err != nil {
			return bad(err, "a game of session %s", from.ID)
		}
		p, err := placeOf(k)
		if err != nil {
			return err
		}
		if err := bucket(tx, bucketPlayed).Delete(playedKey(g.Student, from.At, p)); err != nil {
			return err
		}
		return putPlayed(tx, playedKey(g.Student, to.At, p))
	})
}

func putPlayed(tx *bolt.Tx, key []byte) error {
	return bucket(tx, bucketPlayed).Put(key, newEncoder().seal(key))
}

func deleteSession(tx *bolt.Tx, id model.ID) error {
	row, ok, err := headAt(tx, id)
	if err != nil || !ok {
		return err
	}
	if err := dropActions(tx, row.number, 0); err != nil {
		return err
	}
	if err := bucket(tx, bucketLive).Delete([]byte(id)); err != nil {
		return err
	}
	if err := putOpen(tx, []byte(id), false); err != nil {
		return err
	}
	return bucket(tx, bucketSessions).Delete([]byte(id))
}

func putGame(tx *bolt.Tx, g model.Game) error {
	session, ok, err := headAt(tx, g.Session)
	switch {
	case err != nil:
		return err
	case !ok:
		return fmt.Errorf("the session %s of the game %s is not kept", g.Session, g.ID)
	}
	at, err := settlePlace(tx, g.Ref(), session)
	if err != nil {
		return err
	}
	row, ok, err := gameAt(tx, at.place)
	if err != nil {
		return err
	}
	if ok && row.Student != g.Student {
		if err := bucket(tx, bucketPlayed).Delete(playedKey(row.Student, session.at, at.place)); err != nil {
			return err
		}
	}
	if !ok || row.Student != g.Student {
		if err := putPlayed(tx, playedKey(g.Student, session.at, at.place)); err != nil {
			return err
		}
	}
	row.Game = g
	return putGameRow(tx, at.place, row)
}

func putGameRow(tx *bolt.Tx, p place, row gameRow) error {
	key := p.key()
	return bucket(tx, bucketGames).Put(key, row.encode(p, key))
}

// putTally keeps what a game's deliveries add up to. The game has to be there.
func putTally(tx *bolt.Tx, game model.ID, t model.Tally) error {
	at, ok, err := find(tx, model.GameRecord, game)
	if err != nil {
		return err
	}
	if !ok {
		return fmt.Errorf("the game %s of a tally is not kept", game)
	}
	row, _, err := gameAt(tx, at.place)
	if err != nil {
		return err
	}
	row.tally = t
	return putGameRow(tx, at.place, row)
}

func deleteGame(tx *bolt.Tx, id model.ID) error {
	at, ok, err := find(tx, model.GameRecord, id)
	if err != nil || !ok {
		return err
	}
	row, _, err := gameAt(tx, at.place)
	if err != nil {
		return err
	}
	session, _, err := headAt(tx, at.session)
	if err != nil {
		return err
	}
	if err := bucket(tx, bucketPlayed).Delete(playedKey(row.Student, session.at, at.place)); err != nil {
		return err
	}
	if err := bucket(tx, bucketForeign).Delete(foreignKey(model.GameRecord, id)); err != nil {
		return err
	}
	return bucket(tx, bucketGames).Delete(at.key())
}

// putDelivery keeps a delivery, and with a new one the action that recorded it.
func putDelivery(tx *bolt.Tx, d model.Delivery, by trail) error {
	game, ok, err := find(tx, model.GameRecord, d.Game)
	switch {
	case err != nil:
		return err
	case !ok:
		return fmt.Errorf("the game %s of the delivery %s is not kept", d.Game, d.ID)
	}
	session, _, err := headAt(tx, game.session)
	if err != nil {
		return err
	}
	at, err := settlePlace(tx, d.Ref(), session)
	if err != nil {
		return err
	}
	row, ok, err := deliveryAt(tx, at)
	if err != nil {
		return err
	}
	if ok {
		if row, err = settleTrail(tx, session, at, row, d.Game); err != nil {
			return err
		}
	} else if err := countDeliveries(tx, 1); err != nil {
		return err
	}
	row.Delivery = d
	if by.n != 0 {
		row.trail = by
	}
	return bucket(tx, bucketDeliveries).Put(at.key(), row.encode(at.session, at.key()))
}

// settleTrail gives a delivery's row with the trail it may keep when it is put into a game: a trail tells whose the
// action was by the game, so that with another game it becomes an entry of the list.
func settleTrail(tx *bolt.Tx, session sessionHead, at found, row deliveryRow, game model.ID) (deliveryRow, error) {
	if at.serial <= session.floor {
		row.trail = trail{}
	}
	if row.trail.n == 0 || row.Game == game {
		return row, nil
	}
	err := writeOut(tx, at, row)
	row.trail = trail{}
	return row, err
}

// writeOut puts the action that a delivery tells of into the list.
func writeOut(tx *bolt.Tx, at found, row deliveryRow) error {
	game, ok, err := find(tx, model.GameRecord, row.Game)
	if err != nil || !ok {
		return err
	}
	g, _, err := gameAt(tx, game.place)
	if err != nil {
		return err
	}
	return putEntry(tx, at.session, at.place.session, row.entry(g.Student))
}

func deleteDelivery(tx *bolt.Tx, id model.ID) error {
	at, ok, err := find(tx, model.DeliveryRecord, id)
	if err != nil || !ok {
		return err
	}
	if err := countDeliveries(tx, -1); err != nil {
		return err
	}
	if err := bucket(tx, bucketForeign).Delete(foreignKey(model.DeliveryRecord, id)); err != nil {
		return err
	}
	return bucket(tx, bucketDeliveries).Delete(at.key())
}

// countDeliveries keeps the number of deliveries, which the bucket carries along.
func countDeliveries(tx *bolt.Tx, by int) error {
	b := bucket(tx, bucketDeliveries)
	return b.SetSequence(b.Sequence() + uint64(by))
}

// dropActions takes the entries of a session's list away that come after n.
func dropActions(tx *bolt.Tx, session uint32, n int) error {
	b := bucket(tx, bucketActions)
	c := b.Cursor()
	prefix := sessionPrefix(session)
	from := actionKey(session, n+1)
	// The cursor is set anew each time: after a deletion it may stand one further.
	for k, _ := c.Seek(from); k != nil && bytes.HasPrefix(k, prefix); k, _ = c.Seek(from) {
		if err := b.Delete(k); err != nil {
			return err
		}
	}
	return nil
}
