package store

import (
	"bytes"
	"errors"
	"maps"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// eraseBatch is how many rows share a transaction, eraseFill how far pages are filled whose keys do not come at the end.
const (
	eraseBatch = 20_000
	eraseFill  = 0.9
)

// copyTo writes all rows of a store but the student's to a new store. Its journal stays empty: the old one's bytes are those
// of steps that are settled.
func (p *erasing) copyTo(path string, from *bolt.Tx) (err error) {
	db, err := bolt.Open(path, 0o600, &bolt.Options{
		Timeout: lockWait, FreelistType: bolt.FreelistMapType, NoSync: true, OpenFile: openThere,
	})
	if err != nil {
		return err
	}
	db.AllocSize = growth
	defer func() { err = errors.Join(err, db.Sync(), db.Close()) }()
	// Deliveries come before what says where they are, so that it is known then which are gone.
	for _, name := range buckets {
		if string(name) == string(bucketJournal) || string(name) == string(bucketOpen) {
			continue
		}
		if err := p.copyBucket(db, bucket(from, name), name); err != nil {
			return err
		}
	}
	return db.Update(func(tx *bolt.Tx) error {
		if err := bucket(tx, bucketDeliveries).SetSequence(uint64(p.kept)); err != nil {
			return err
		}
		return errors.Join(fillOpen(tx), recount(tx))
	})
}

// copyBucket copies a bucket's rows and its sequence.
func (p *erasing) copyBucket(db *bolt.DB, from *bolt.Bucket, name []byte) error {
	copied := &task{part: Part{Verb: "copied", Of: int64(from.Sequence()), Deliveries: true}}
	if string(name) == string(bucketDeliveries) {
		copied.told = p.told
	}
	rows := from.Cursor()
	k, v := rows.First()
	for more := true; more; {
		err := db.Update(func(tx *bolt.Tx) error {
			to := bucket(tx, name)
			if !appended(name) {
				to.FillPercent = eraseFill
			}
			for n := range eraseBatch {
				if k == nil {
					more = false
					copied.add(int64(n))
					return to.SetSequence(from.Sequence())
				}
				row, err := p.without(name, k, v)
				if err != nil {
					return err
				}
				if row != nil {
					err = to.Put(k, row)
				}
				if err != nil {
					return err
				}
				k, v = rows.Next()
			}
			copied.add(eraseBatch)
			return nil
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// without gives a row's value without the student, nil where the row goes.
func (p *erasing) without(name, k, v []byte) ([]byte, error) {
	switch string(name) {
	case string(bucketStudents):
		return unless(string(k) == string(p.id), v), nil
	case string(bucketSessions):
		return p.session(k, v)
	case string(bucketGames):
		at, err := placeOf(k)
		return unless(p.places[at], v), err
	case string(bucketDeliveries):
		return p.delivery(k, v)
	case string(bucketForeign):
		return p.foreign(k, v)
	case string(bucketPlayed):
		return unless(bytes.HasPrefix(k, playedPrefix(p.id)), v), nil
	case string(bucketActions):
		at, err := placeOf(k)
		return unless(p.sessions[at.session], v), err
	case string(bucketLive):
		return p.live(k, v)
	}
	return v, nil
}

func unless(gone bool, v []byte) []byte {
	if gone {
		return nil
	}
	return v
}

// session gives an evening without the student's seat. With its list of actions goes what says from where on deliveries
// tell of actions: none of them does any more.
func (p *erasing) session(k, v []byte) ([]byte, error) {
	row, err := decodeSessionRow(k, v)
	if err != nil {
		return nil, bad(err, "session %s", k)
	}
	switch {
	case p.emptied[row.number]:
		return nil, nil
	case !p.sessions[row.number]:
		return v, nil
	}
	row.floor, row.Session = 0, unseated(row.Session, p.id)
	return row.encode(k), nil
}

// unseated gives a session without a student's seat.
func unseated(s model.Session, student model.ID) model.Session {
	i := s.Seat(student)
	if i < 0 {
		return s
	}
	s.Roster = append(append([]model.Seat(nil), s.Roster[:i]...), s.Roster[i+1:]...)
	return s
}

func (p *erasing) delivery(k, v []byte) ([]byte, error) {
	at, err := placeOf(k)
	if err != nil {
		return nil, err
	}
	if !p.sessions[at.session] {
		p.kept++
		return v, nil
	}
	session := p.ids[at.session]
	row, err := decodeDeliveryRow(session, k, v)
	if err != nil {
		return nil, bad(err, "a delivery of session %s", session)
	}
	if p.games[row.Game] {
		if at.number() == 0 {
			p.gone[at] = true
		}
		return nil, nil
	}
	p.kept++
	row.trail = trail{}
	return row.encode(session, k), nil
}

// foreign keeps where a game or a delivery with an id from elsewhere is, of those that are kept.
func (p *erasing) foreign(k, v []byte) ([]byte, error) {
	if len(k) > 0 && model.RecordKind(k[0]) == model.GameRecord {
		return unless(p.games[model.ID(k[1:])], v), nil
	}
	d, err := unseal(k, v)
	if err != nil {
		return nil, bad(err, "%s", rowWords(bucketForeign, k))
	}
	return unless(p.gone[place{d.uint32(), d.uint32()}], v), bad(d.err, "%s", rowWords(bucketForeign, k))
}

// live gives who is up in an evening without the student.
func (p *erasing) live(k, v []byte) ([]byte, error) {
	d, err := unseal(k, v)
	if err != nil {
		return nil, bad(err, "who is up in session %s", k)
	}
	up := decodeUp(d)
	if d.err != nil {
		return nil, bad(d.err, "who is up in session %s", k)
	}
	for number, gone := range p.emptied {
		if gone && string(p.ids[number]) == string(k) {
			return nil, nil
		}
	}
	maps.DeleteFunc(up.OnPair, func(_ int, student model.ID) bool { return student == p.id })
	e := newEncoder()
	encodeUp(e, up)
	return e.seal(k), nil
}
