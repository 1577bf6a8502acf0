package store

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"maps"
	"slices"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// Students gives every student that is kept, by id.
func (s *Store) Students() ([]model.Student, error) {
	return readAll(s, studentsIn)
}

// Sessions gives every session that is kept, by time and then by id.
func (s *Store) Sessions() ([]model.Session, error) {
	return readAll(s, sessionsIn)
}

// OpenSessions gives the sessions that are not closed, by time and then by id. It reads none of the others.
func (s *Store) OpenSessions() ([]model.Session, error) {
	return readAll(s, openSessionsIn)
}

// Count gives how many deliveries are kept in all.
func (s *Store) Count() (n int, err error) {
	err = s.view(func(tx *bolt.Tx) error {
		n = int(bucket(tx, bucketDeliveries).Sequence())
		return nil
	})
	return n, err
}

// Evening gives a session as it is to be resumed: its games, its deliveries in the order of recording, the students of
// its roster and of its games, its list of actions and who was up. ErrNoSession where the id is not kept.
func (s *Store) Evening(session model.ID) (k model.Kept, err error) {
	err = s.view(func(tx *bolt.Tx) error {
		k, err = eveningIn(tx, session)
		return err
	})
	return k, err
}

func readAll[T any](s *Store, in func(*bolt.Tx) ([]T, error)) (out []T, err error) {
	err = s.view(func(tx *bolt.Tx) error {
		out, err = in(tx)
		return err
	})
	return out, err
}

// cuesIn gives the book of cues by id.
func cuesIn(tx *bolt.Tx) ([]model.Cue, error) {
	return plainIn(tx, bucketCues, "cue", decodeCue)
}

// studentsIn gives every student by id.
func studentsIn(tx *bolt.Tx) ([]model.Student, error) {
	return plainIn(tx, bucketStudents, "student", decodeStudent)
}

func plainIn[T any](tx *bolt.Tx, name []byte, what string, decode func(*decoder, model.ID) T) ([]T, error) {
	var out []T
	err := each(bucket(tx, name), nil, func(k, v []byte) error {
		r, err := decodePlain(k, v, decode)
		out = append(out, r)
		return bad(err, "%s %s", what, k)
	})
	return out, err
}

func decodePlain[T any](k, v []byte, decode func(*decoder, model.ID) T) (T, error) {
	d, err := unseal(k, v)
	if err != nil {
		var none T
		return none, err
	}
	r := decode(d, model.ID(k))
	return r, d.err
}

// sessionsIn gives every session by time and then by id.
func sessionsIn(tx *bolt.Tx) ([]model.Session, error) {
	rows, err := sessionRows(tx)
	var out []model.Session
	for _, row := range rows {
		out = append(out, row.Session)
	}
	return out, err
}

func openSessionsIn(tx *bolt.Tx) ([]model.Session, error) {
	var out []model.Session
	err := each(bucket(tx, bucketOpen), nil, func(k, v []byte) error {
		row, err := openAt(tx, k, v)
		out = append(out, row.Session)
		return bad(err, "%s", rowWords(bucketOpen, k))
	})
	if n := bucket(tx, bucketOpen).Sequence(); err == nil && n != uint64(len(out)) {
		err = bad(fmt.Errorf("%d entries are there, %d were made", len(out), n), "the list of open sessions")
	}
	slices.SortFunc(out, func(a, b model.Session) int { return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.ID, b.ID)) })
	return out, err
}

// openAt gives the session that an entry of the list of open ones leads to.
func openAt(tx *bolt.Tx, k, v []byte) (sessionRow, error) {
	if _, err := unseal(k, v); err != nil {
		return sessionRow{}, err
	}
	row, ok, err := sessionAt(tx, model.ID(k))
	if err == nil && (!ok || !row.Open()) {
		err = errors.New("no open session is kept there")
	}
	return row, err
}

// sessionRows gives every session by time and then by id.
func sessionRows(tx *bolt.Tx) ([]sessionRow, error) {
	var out []sessionRow
	err := each(bucket(tx, bucketSessions), nil, func(k, v []byte) error {
		row, err := decodeSessionRow(k, v)
		out = append(out, row)
		return bad(err, "session %s", k)
	})
	slices.SortFunc(out, func(a, b sessionRow) int { return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.ID, b.ID)) })
	return out, err
}

// gamesIn gives a session's games by student, number and id, with their tallies.
func gamesIn(tx *bolt.Tx, session sessionRow) ([]gameRow, error) {
	var out []gameRow
	err := each(bucket(tx, bucketGames), sessionPrefix(session.number), func(k, v []byte) error {
		row, err := decodeGameRow(k, v)
		out = append(out, row)
		return bad(err, "a game of session %s", session.ID)
	})
	slices.SortFunc(out, compareGames)
	return out, err
}

func compareGames(a, b gameRow) int {
	return cmp.Or(cmp.Compare(a.Student, b.Student), cmp.Compare(a.Number, b.Number), cmp.Compare(a.ID, b.ID))
}

// deliveriesIn gives a session's deliveries in the order of recording.
func deliveriesIn(tx *bolt.Tx, session sessionRow) ([]deliveryRow, error) {
	var out []deliveryRow
	err := each(bucket(tx, bucketDeliveries), sessionPrefix(session.number), func(k, v []byte) error {
		row, err := decodeDeliveryRow(session.ID, k, v)
		if p, _ := placeOf(k); p.serial <= session.floor {
			row.trail = trail{}
		}
		out = append(out, row)
		return bad(err, "a delivery of session %s", session.ID)
	})
	return out, err
}

// complete tells whether a game's deliveries are all there: damage that hides a row shows in no checksum.
func (r gameRow) complete(deliveries int) error {
	if deliveries != r.tally.Load {
		return bad(fmt.Errorf("%d of %d deliveries are there", deliveries, r.tally.Load), "game %s", r.ID)
	}
	return nil
}

// recordIn gives a record, nil where it is not kept.
func recordIn(tx *bolt.Tx, ref model.Ref) (model.Record, error) {
	id := []byte(ref.ID)
	switch ref.Kind {
	case model.CueRecord:
		if v := bucket(tx, bucketCues).Get(id); v != nil {
			r, err := decodePlain(id, v, decodeCue)
			return r, bad(err, "cue %s", id)
		}
	case model.StudentRecord:
		if v := bucket(tx, bucketStudents).Get(id); v != nil {
			r, err := decodePlain(id, v, decodeStudent)
			return r, bad(err, "student %s", id)
		}
	case model.SessionRecord:
		row, ok, err := sessionAt(tx, ref.ID)
		if err != nil || ok {
			return row.Session, err
		}
	case model.GameRecord, model.DeliveryRecord:
		return placedIn(tx, ref)
	}
	return nil, nil
}

func placedIn(tx *bolt.Tx, ref model.Ref) (model.Record, error) {
	at, ok, err := find(tx, ref.Kind, ref.ID)
	if err != nil || !ok {
		return nil, err
	}
	if ref.Kind == model.GameRecord {
		row, _, err := gameAt(tx, at.place)
		return row.Game, err
	}
	row, _, err := deliveryAt(tx, at)
	return row.Delivery, err
}

func eveningIn(tx *bolt.Tx, id model.ID) (model.Kept, error) {
	session, ok, err := sessionAt(tx, id)
	if err != nil {
		return model.Kept{}, err
	}
	if !ok {
		return model.Kept{}, fmt.Errorf("%w: %s", ErrNoSession, id)
	}
	k := model.Kept{Session: session.Session}
	games, err := gamesIn(tx, session)
	if err != nil {
		return model.Kept{}, err
	}
	rows, err := deliveriesIn(tx, session)
	if err != nil {
		return model.Kept{}, err
	}
	inTime(rows, id)
	loads := map[model.ID]int{}
	for _, d := range rows {
		k.Deliveries = append(k.Deliveries, d.Delivery)
		loads[d.Game]++
	}
	for _, g := range games {
		k.Games = append(k.Games, g.Game)
		if err := g.complete(loads[g.ID]); err != nil {
			return model.Kept{}, err
		}
	}
	if k.Students, err = eveningStudents(tx, k); err != nil {
		return model.Kept{}, err
	}
	if k.Log, err = logIn(tx, session, k.Games, rows); err != nil {
		return model.Kept{}, err
	}
	if v := bucket(tx, bucketLive).Get([]byte(id)); v != nil {
		d, err := unseal([]byte(id), v)
		if err == nil {
			k.Up, err = decodeUp(d), d.err
		}
		if err != nil {
			return model.Kept{}, bad(err, "who is up in session %s", id)
		}
	}
	k.Serial = foreignSerial(tx, id)
	return k, nil
}

// inTime puts the deliveries with ids from elsewhere, which come first in the order in which they were brought in, into
// the order in which they were bowled.
func inTime(rows []deliveryRow, session model.ID) {
	n := slices.IndexFunc(rows, func(d deliveryRow) bool {
		_, own := serialIn(session, d.ID)
		return own
	})
	if n < 0 {
		n = len(rows)
	}
	slices.SortStableFunc(rows[:n], func(a, b deliveryRow) int { return a.At.Compare(b.At) })
}

// eveningStudents gives the students of a roster and of the games, by id.
func eveningStudents(tx *bolt.Tx, k model.Kept) ([]model.Student, error) {
	here := map[model.ID]bool{}
	for _, seat := range k.Session.Roster {
		here[seat.Student] = true
	}
	for _, g := range k.Games {
		here[g.Student] = true
	}
	var out []model.Student
	for _, id := range slices.Sorted(maps.Keys(here)) {
		r, err := recordIn(tx, model.Ref{Kind: model.StudentRecord, ID: id})
		if err != nil {
			return nil, err
		}
		if s, ok := r.(model.Student); ok {
			out = append(out, s)
		}
	}
	return out, nil
}

// logIn gives a session's list of actions in order, from the first without a gap: those that deliveries tell of and
// those that are written out.
func logIn(tx *bolt.Tx, session sessionRow, games []model.Game, rows []deliveryRow) ([]model.Entry, error) {
	students := map[model.ID]model.ID{}
	for _, g := range games {
		students[g.ID] = g.Student
	}
	entries := map[int]model.Entry{}
	for _, d := range rows {
		if d.trail.n != 0 {
			entries[d.trail.n] = d.entry(students[d.Game])
		}
	}
	err := each(bucket(tx, bucketActions), sessionPrefix(session.number), func(k, v []byte) error {
		n := actionNumber(k)
		e, err := decodeEntry(session.ID, n, k, v)
		entries[n] = e
		return bad(err, "action %d of session %s", n, session.ID)
	})
	if err != nil {
		return nil, err
	}
	var log []model.Entry
	for e, ok := entries[1]; ok; e, ok = entries[len(log)+1] {
		log = append(log, e)
	}
	return log, nil
}

// foreignSerial gives the highest number of an id that would be of the session's own making but was brought into another
// one, so that it is not given twice.
func foreignSerial(tx *bolt.Tx, session model.ID) int {
	n := 0
	for _, kind := range []model.RecordKind{model.GameRecord, model.DeliveryRecord} {
		c := bucket(tx, bucketForeign).Cursor()
		prefix := foreignKey(kind, session+"-")
		for k, _ := c.Seek(prefix); bytes.HasPrefix(k, prefix); k, _ = c.Next() {
			if serial, ok := serialIn(session, model.ID(k[1:])); ok {
				n = max(n, int(serial-ownSerial))
			}
		}
	}
	return n
}
