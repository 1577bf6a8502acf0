package store

import (
	"slices"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// erasing is what is known of a store before a student is taken out of it.
type erasing struct {
	Erasure
	id model.ID
	// places are those of the student's games.
	places map[place]bool
	// sessions are the student's evenings, and others of whose lists of actions an entry speaks of the student; emptied are
	// those that go. Both are by the session's number.
	sessions, emptied map[uint32]bool
	// ids are the sessions' ids.
	ids map[uint32]model.ID
	// gone are the deliveries with ids from elsewhere that were left out, kept counts those that were not.
	gone map[place]bool
	kept int
	// told is told how many deliveries are copied.
	told Told
}

func planErasing(tx *bolt.Tx, student model.ID) (*erasing, error) {
	p := &erasing{
		Erasure: Erasure{games: map[model.ID]bool{}}, id: student, places: map[place]bool{}, sessions: map[uint32]bool{},
		emptied: map[uint32]bool{}, ids: map[uint32]model.ID{}, gone: map[place]bool{},
	}
	r, err := recordIn(tx, model.Ref{Kind: model.StudentRecord, ID: student})
	if err != nil {
		return nil, err
	}
	p.Student, _ = r.(model.Student)
	for _, look := range []func(*bolt.Tx) error{p.findGames, p.findSessions, p.findActions, p.countLists} {
		if err := look(tx); err != nil {
			return nil, err
		}
	}
	return p, nil
}

// findGames finds the student's games, and the evenings with the games of others.
func (p *erasing) findGames(tx *bolt.Tx) error {
	others := map[uint32]bool{}
	err := each(bucket(tx, bucketGames), nil, func(k, v []byte) error {
		row, err := decodeGameRow(k, v)
		if err != nil {
			return bad(err, "a game")
		}
		at, err := placeOf(k)
		if err != nil {
			return err
		}
		if row.Student != p.id {
			others[at.session] = true
			return nil
		}
		p.places[at], p.games[row.ID], p.sessions[at.session] = true, true, true
		p.Games++
		p.Deliveries += row.tally.Load
		return nil
	})
	for number := range p.sessions {
		p.emptied[number] = !others[number]
	}
	return err
}

// findSessions finds the evenings with the student, and those of them that nobody else is in.
func (p *erasing) findSessions(tx *bolt.Tx) error {
	return each(bucket(tx, bucketSessions), nil, func(k, v []byte) error {
		row, err := decodeSessionRow(k, v)
		if err != nil {
			return bad(err, "session %s", k)
		}
		p.ids[row.number] = row.ID
		seat := row.Seat(p.id)
		if seat < 0 && !p.sessions[row.number] {
			return nil
		}
		alone := p.emptied[row.number]
		if !p.sessions[row.number] {
			// The student bowled nothing there.
			first, _ := bucket(tx, bucketGames).Cursor().Seek(sessionPrefix(row.number))
			at, err := placeOf(first)
			alone = err != nil || at.session != row.number
		}
		others := len(row.Roster)
		if seat >= 0 {
			others--
		}
		p.sessions[row.number], p.emptied[row.number] = true, alone && others == 0
		p.Evenings++
		if p.emptied[row.number] {
			p.Emptied++
		}
		return nil
	})
}

// findActions finds the lists of actions that speak of the student.
func (p *erasing) findActions(tx *bolt.Tx) error {
	return each(bucket(tx, bucketActions), nil, func(k, v []byte) error {
		at, err := placeOf(k)
		if err != nil || p.sessions[at.session] {
			return err
		}
		session := p.ids[at.session]
		entry, err := decodeEntry(session, actionNumber(k), k, v)
		if err != nil {
			return bad(err, "action %d of session %s", actionNumber(k), session)
		}
		if p.speaksOf(entry) {
			p.sessions[at.session] = true
		}
		return nil
	})
}

func (p *erasing) speaksOf(e model.Entry) bool {
	return e.Student == p.id || slices.ContainsFunc(e.Was, func(w model.Was) bool {
		if w.Ref == (model.Ref{Kind: model.StudentRecord, ID: p.id}) {
			return true
		}
		switch r := w.Record.(type) {
		case model.Session:
			return r.Seat(p.id) >= 0
		case model.Game:
			return r.Student == p.id
		case model.Delivery:
			return p.games[r.Game]
		}
		return false
	})
}

// countLists counts the lists of actions that go although their evening stays.
func (p *erasing) countLists(tx *bolt.Tx) error {
	return each(bucket(tx, bucketLive), nil, func(k, _ []byte) error {
		head, ok, err := headAt(tx, model.ID(k))
		if ok && p.sessions[head.number] && !p.emptied[head.number] {
			p.Lists++
		}
		return err
	})
}
