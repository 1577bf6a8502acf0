package store

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"slices"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// Keep keeps the steps, in order, all or none, and returns when the disk has them. After an error all of them may be kept
// or none: keeping the same steps again is right in either case.
//
// With a step's changes go its tallies, who is up, and the list of actions that can be taken back. A closed session keeps
// its list until the next session is begun, so that closing can be taken back too, and so can corrections made since.
func (s *Store) Keep(steps ...model.Step) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.guarded(func() error {
		known, err := s.possible(steps)
		if err != nil {
			return err
		}
		if err := s.write(steps); err != nil {
			return fmt.Errorf("writing the store %s: %w", s.path, err)
		}
		maps.Copy(s.known, known)
		return nil
	})
}

// write puts steps into the journal, after settling it where it is full, or settles them at once where they are more than
// it can hold.
func (s *Store) write(steps []model.Step) error {
	if len(steps) == 0 {
		return nil
	}
	if err := stillThere(s.held, s.path); err != nil {
		return errGone
	}
	frame := s.journal.frame(steps)
	if frame == nil {
		return s.settle(steps...)
	}
	if !s.journal.fits(frame) || !s.sure {
		if err := s.settle(); err != nil {
			return err
		}
	}
	return s.journal.append(frame, steps)
}

// errGone says that what is written would go into a file that nobody finds again.
var errGone = errors.New("its file was removed or replaced while it was open: what was kept until then may be in a copy, which settee restore lists")

// settle makes the steps of the journal, and more after them, in one transaction that begins the journal anew.
func (s *Store) settle(more ...model.Step) error {
	steps := append(slices.Clip(s.journal.steps), more...)
	if len(steps) == 0 && s.sure {
		return nil
	}
	if err := s.affirm(); err != nil {
		return err
	}
	round := s.journal.round + 1
	s.sure = false
	err := s.db.Update(func(tx *bolt.Tx) error {
		for _, step := range steps {
			if err := keepStep(tx, step); err != nil {
				return err
			}
		}
		return putRound(tx, round)
	})
	if err != nil {
		return s.worded(err)
	}
	s.sure = true
	s.journal.begin(round)
	return nil
}

// affirm writes the file's two heads again as they are, and syncs them, where a transaction before has failed or may have.
// With a sync that failed the new head may be what the system shows and the old one what the disk has, for good: the
// system does not write again what it takes for written. The pages of the old head, and the frames that lie in the journal
// for it, would then be written over while the disk still needs them.
func (s *Store) affirm() error {
	if s.sure || s.db.NoSync {
		return nil
	}
	heads := make([]byte, 2*s.db.Info().PageSize)
	if _, err := s.journal.file.ReadAt(heads, 0); err != nil {
		return err
	}
	if _, err := s.journal.file.WriteAt(heads, 0); err != nil {
		return err
	}
	return s.journal.sync()
}

// possible refuses steps that could not be settled, since they would be in the way of all that comes after: a game whose
// session, a delivery or a tally whose game is not kept. It gives which sessions and games are kept after them.
func (s *Store) possible(steps []model.Step) (known map[model.Ref]bool, err error) {
	known = map[model.Ref]bool{}
	for _, step := range steps {
		for _, c := range step.Changes {
			if c.After != nil && (c.After.Ref() != c.Ref || c.Ref.ID == "") {
				return nil, fmt.Errorf("a change of %q would keep %q", c.Ref.ID, c.After.Ref().ID)
			}
			switch r := c.After.(type) {
			case model.Game:
				err = s.needs(known, c.Ref.ID, model.Ref{Kind: model.SessionRecord, ID: r.Session})
			case model.Delivery:
				err = s.needs(known, c.Ref.ID, model.Ref{Kind: model.GameRecord, ID: r.Game})
			}
			if err != nil {
				return nil, err
			}
			if k := c.Ref.Kind; k == model.SessionRecord || k == model.GameRecord {
				known[c.Ref] = c.After != nil
			}
		}
		for game := range step.Tallies {
			if err := s.needs(known, "a tally", model.Ref{Kind: model.GameRecord, ID: game}); err != nil {
				return nil, err
			}
		}
	}
	return known, nil
}

// needs refuses what refers to a session or a game that is not kept, by the steps in hand, by those before, or by the file.
func (s *Store) needs(known map[model.Ref]bool, what model.ID, ref model.Ref) error {
	there, ok := known[ref]
	if !ok {
		there, ok = s.known[ref]
	}
	if !ok {
		err := s.db.View(func(tx *bolt.Tx) error {
			r, err := recordIn(tx, ref)
			there = r != nil
			return err
		})
		if err != nil {
			return s.worded(err)
		}
	}
	if !there {
		return fmt.Errorf("%s refers to %s, which is not kept", what, ref.ID)
	}
	known[ref] = true
	return nil
}

func keepStep(tx *bolt.Tx, step model.Step) error {
	by := recording(step)
	for _, c := range step.Changes {
		if err := keepChange(tx, step, c, by); err != nil {
			return err
		}
	}
	for _, game := range slices.Sorted(maps.Keys(step.Tallies)) {
		if err := putTally(tx, game, step.Tallies[game]); err != nil {
			return err
		}
	}
	session, ok, err := headAt(tx, step.Session)
	if err != nil || !ok {
		return err
	}
	if err := keepAction(tx, session, step, by); err != nil {
		return err
	}
	if step.Up.OnPair == nil {
		// A later step of the journal's frame tells it.
		return nil
	}
	key := []byte(session.id)
	e := newEncoder()
	encodeUp(e, step.Up)
	return bucket(tx, bucketLive).Put(key, e.seal(key))
}

func keepChange(tx *bolt.Tx, step model.Step, c model.Change, by trail) error {
	if c.After == nil {
		return takeAway(tx, step, c.Ref)
	}
	switch r := c.After.(type) {
	case model.Session:
		if _, ok, err := headAt(tx, r.ID); err != nil {
			return err
		} else if !ok {
			if err := dropClosedLists(tx); err != nil {
				return err
			}
		}
	case model.Delivery:
		return putDelivery(tx, r, by)
	}
	return putRecord(tx, c.After)
}

// takeAway takes a record away, but not a student whom any session names: who was new to one evening and is in another
// by now stays when the first seating is taken back.
func takeAway(tx *bolt.Tx, step model.Step, ref model.Ref) error {
	switch ref.Kind {
	case model.DeliveryRecord:
		if err := keepTrail(tx, step, ref.ID); err != nil {
			return err
		}
	case model.StudentRecord:
		if named, err := isNamed(tx, ref.ID); err != nil || named {
			return err
		}
	}
	return deleteRecord(tx, ref)
}

// isNamed tells whether a session's roster or a game names a student.
func isNamed(tx *bolt.Tx, student model.ID) (bool, error) {
	prefix := playedPrefix(student)
	if k, _ := bucket(tx, bucketPlayed).Cursor().Seek(prefix); bytes.HasPrefix(k, prefix) {
		return true, nil
	}
	sessions, err := sessionsIn(tx)
	return slices.ContainsFunc(sessions, func(s model.Session) bool { return s.Seat(student) >= 0 }), err
}

// recording gives the trail of a step that did nothing but record one ball, of which the delivery tells the call, and begin
// its game where there was none; the zero trail for any other.
func recording(step model.Step) trail {
	a := step.Action
	if step.Undo || a.N == 0 || a.How == model.NotRecorded || a.What != "" || len(a.Changes) == 0 || len(a.Changes) > 2 {
		return trail{}
	}
	ball, ok := a.Changes[len(a.Changes)-1].After.(model.Delivery)
	if !ok || a.Changes[len(a.Changes)-1].Before != nil {
		return trail{}
	}
	if a.Entry().Call.Known {
		return trail{}
	}
	if len(a.Changes) == 1 {
		return trail{n: a.N, how: a.How}
	}
	game, ok := a.Changes[0].After.(model.Game)
	if !ok || a.Changes[0].Before != nil || game.ID != ball.Game || game.Student != a.Student {
		return trail{}
	}
	return trail{n: a.N, how: a.How, began: true}
}

// keepTrail puts the action that a delivery tells of into the list before the delivery goes, unless it is that action
// which is taken back.
func keepTrail(tx *bolt.Tx, step model.Step, id model.ID) error {
	at, ok, err := find(tx, model.DeliveryRecord, id)
	if err != nil || !ok {
		return err
	}
	row, _, err := deliveryAt(tx, at)
	if err != nil {
		return err
	}
	session, _, err := headAt(tx, at.session)
	if err != nil || row.trail.n == 0 || at.serial <= session.floor || step.Undo && row.trail.n == step.Action.N {
		return err
	}
	return writeOut(tx, at, row)
}

// keepAction adds a step's action to the session's list, or takes it off. After the newest action there are no others.
func keepAction(tx *bolt.Tx, session sessionHead, step model.Step, by trail) error {
	n := step.Action.N
	if n == 0 {
		return nil
	}
	if step.Undo || by.n != 0 {
		return dropActions(tx, session.number, n-1)
	}
	if err := dropActions(tx, session.number, n); err != nil {
		return err
	}
	return putEntry(tx, session.id, session.number, step.Action.Entry())
}

func putEntry(tx *bolt.Tx, session model.ID, number uint32, e model.Entry) error {
	key := actionKey(number, e.N)
	return bucket(tx, bucketActions).Put(key, encodeEntry(session, key, e))
}

// entry gives the action that a delivery's trail tells of.
func (r deliveryRow) entry(student model.ID) model.Entry {
	e := model.Entry{N: r.trail.n, Student: student, How: r.trail.how}
	if r.trail.began {
		e.Was = append(e.Was, model.Was{Ref: model.Ref{Kind: model.GameRecord, ID: r.Game}})
	}
	e.Was = append(e.Was, model.Was{Ref: r.Ref()})
	return e
}

// dropClosedLists takes the lists of actions of closed sessions away.
func dropClosedLists(tx *bolt.Tx) error {
	var closed []sessionRow
	err := each(bucket(tx, bucketLive), nil, func(k, _ []byte) error {
		row, ok, err := sessionAt(tx, model.ID(k))
		if ok && !row.Open() {
			closed = append(closed, row)
		}
		return err
	})
	if err != nil {
		return err
	}
	for _, row := range closed {
		if err := dropActions(tx, row.number, 0); err != nil {
			return err
		}
		if last, ok := lastBefore(tx, bucketDeliveries, place{row.number, highest}); ok {
			row.floor = last
		}
		if err := putSessionRow(tx, row); err != nil {
			return err
		}
		if err := bucket(tx, bucketLive).Delete([]byte(row.ID)); err != nil {
			return err
		}
	}
	return nil
}
