package store

import (
	"bytes"
	"errors"
	"fmt"
	"os"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// open looks whether the list of open sessions has each of them and nothing else. Version 1 has no list.
func (x *examiner) open() error {
	if versionIn(x.tx) < versionOpen {
		return nil
	}
	n := 0
	err := x.each(bucketOpen, nil, func(k, v []byte) {
		n++
		_, err := openAt(x.tx, k, v)
		x.wrong(err, "%s", rowWords(bucketOpen, k))
	})
	if err == nil && (n != x.out.Open || uint64(n) != bucket(x.tx, bucketOpen).Sequence()) {
		x.fault("%d sessions are on the list of the open ones, %d are open", n, x.out.Open)
	}
	return err
}

// indexes looks at what finds games and deliveries: each entry has to lead to one, and there have to be as many.
func (x *examiner) indexes() error {
	heads := map[uint32]sessionHead{}
	for _, h := range x.heads {
		heads[h.number] = h
	}
	n := 0
	err := x.each(bucketPlayed, nil, func(k, v []byte) {
		n++
		x.wrong(x.playedRight(heads, k, v), "%s", historyWords(x.tx, k))
	})
	if err != nil {
		return err
	}
	if n != x.out.Games {
		x.fault("%d games are in the students' histories, %d are there", n, x.out.Games)
	}
	n = 0
	err = x.each(bucketForeign, nil, func(k, _ []byte) {
		n++
		ref := model.Ref{Kind: model.RecordKind(k[0]), ID: model.ID(k[1:])}
		r, err := placedIn(x.tx, ref)
		if err == nil && (r == nil || r.Ref() != ref) {
			err = errors.New("nothing is kept there")
		}
		x.wrong(err, "the place of %s", ref.ID)
	})
	if err == nil && n != x.foreign {
		x.fault("%d records are listed under ids from elsewhere, %d are there", n, x.foreign)
	}
	return err
}

// playedRight tells whether an entry of a history leads to a game of that student and that time.
func (x *examiner) playedRight(heads map[uint32]sessionHead, k, v []byte) error {
	g, err := playedAt(x.tx, k, v)
	if err != nil {
		return err
	}
	head, ok := heads[g.place.session]
	if !ok || !bytes.Equal(k, playedKey(g.Student, head.at, g.place)) {
		return fmt.Errorf("the game %s is of another student or time", g.ID)
	}
	return nil
}

// lists looks at the lists of actions and at who is up.
func (x *examiner) lists() error {
	err := x.each(bucketLive, nil, func(k, _ []byte) {
		if !x.ids[model.ID(k)] {
			x.fault("who is up is kept of session %s, which is missing", k)
			return
		}
		kept, err := eveningIn(x.tx, model.ID(k))
		if err == nil {
			_, err = model.Resume(kept)
		}
		if err == nil {
			err = upKnown(kept)
		}
		x.wrong(err, "session %s cannot be resumed", k)
	})
	if err != nil {
		return err
	}
	for _, head := range x.heads {
		if err := x.list(head); err != nil {
			return err
		}
	}
	return nil
}

func upKnown(k model.Kept) error {
	here := map[model.ID]bool{}
	for _, s := range k.Students {
		here[s.ID] = true
	}
	for lane, id := range k.Up.OnPair {
		if id != "" && !here[id] {
			return fmt.Errorf("who is up on lane %d is not there", lane)
		}
	}
	return nil
}

// list looks whether a session's written-out actions can be read and are all told by the list, from the first without a gap.
func (x *examiner) list(head sessionHead) error {
	var written []int
	err := x.each(bucketActions, sessionPrefix(head.number), func(k, v []byte) {
		n := actionNumber(k)
		_, err := decodeEntry(head.id, n, k, v)
		x.wrong(err, "action %d of session %s", n, head.id)
		written = append(written, n)
	})
	if err != nil || len(written) == 0 {
		return err
	}
	row, _, err := sessionAt(x.tx, head.id)
	if err != nil {
		return nil // told already
	}
	games, err := gamesIn(x.tx, row)
	if err != nil {
		return nil
	}
	var of []model.Game
	for _, g := range games {
		of = append(of, g.Game)
	}
	rows, err := deliveriesIn(x.tx, row)
	if err != nil {
		return nil
	}
	log, err := logIn(x.tx, row, of, rows)
	if last := written[len(written)-1]; err == nil && last > len(log) {
		x.fault("session %s: its list of actions has a gap after %d of %d", head.id, len(log), last)
	}
	return nil
}

// journal looks at the steps that wait in the journal.
func (x *examiner) journal(db *bolt.DB, f *os.File, path string) error {
	j, err := openJournal(f, nil)
	if err != nil {
		x.fault("%v", err)
		return nil
	}
	if x.wrong(j.beginIn(x.tx), "the journal") {
		return nil
	}
	if err := j.load(); err != nil {
		x.fault("%v", err)
		return nil
	}
	x.out.Waiting, x.out.MayMissLast = len(j.steps), j.mayMissLast
	s := &Store{db: db, path: path, known: map[model.Ref]bool{}}
	for _, step := range j.steps {
		known, err := s.possible([]model.Step{step})
		for ref, is := range known {
			s.known[ref] = is
		}
		for _, c := range step.Changes {
			if err == nil && c.After != nil {
				err = c.After.Validate()
			}
		}
		if x.wrong(err, "the journal, a step of session %s", step.Session) {
			return nil
		}
	}
	return nil
}
