package store

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"slices"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// repairer makes a store of what was found.
type repairer struct {
	found *salvage
	out   Repaired
	s     *Store
	// numbers tell which session has a number.
	numbers map[uint32]model.ID
	leftOut leftOut
}

// build fills the store at temp: first what was found in its place, then the steps of the journal, then it sees to it that
// every game is possible.
func (r *repairer) build(temp, target string) (err error) {
	if r.s, err = open(temp, Options{NoSync: true}); err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, r.leftOut.drop())
		}
	}()
	r.leftOut.beside = target
	for _, part := range []func() error{r.people, r.games, r.deliveries, r.journal, r.possible, r.count, r.s.db.Sync} {
		if err := part(); err != nil {
			return errors.Join(err, r.s.Close())
		}
	}
	r.out.Unread, r.out.BadHeads = r.found.unread, r.found.badHeads
	return r.s.Close()
}

// put keeps records, a number of them in each transaction, or leaves out those that refer to what is lost.
func put[T any](r *repairer, rows []version[T], keep func(*bolt.Tx, T) (model.Record, error)) error {
	for part := range slices.Chunk(rows, intakeBatch) {
		err := r.s.update(func(tx *bolt.Tx) error {
			for _, row := range part {
				rec, err := keep(tx, row.value)
				var gone *lostRef
				if errors.As(err, &gone) {
					err = r.leftOut.add(rec)
				} else if row.rank == rankOlder && rec != nil {
					r.out.older[rec.Ref()] = true
				}
				if err != nil {
					return err
				}
			}
			return nil
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// lostRef says that what a record refers to is lost.
type lostRef struct{ ref model.Ref }

func (l *lostRef) Error() string { return refWords(l.ref) + " is lost" }

// putWhole keeps a record whose references are all kept.
func putWhole(tx *bolt.Tx, rec model.Record) (model.Record, error) {
	for _, ref := range refersTo(rec) {
		known, err := recordIn(tx, ref)
		if err != nil {
			return rec, err
		}
		if known == nil {
			return rec, &lostRef{ref}
		}
	}
	return rec, putRecord(tx, rec)
}

func inOrder[K comparable, T any](m map[K]version[T], by func(a, b K) int) []version[T] {
	var out []version[T]
	for _, k := range slices.SortedFunc(maps.Keys(m), by) {
		out = append(out, m[k])
	}
	return out
}

// people puts cues, students and sessions, these by number.
func (r *repairer) people() error {
	r.standIns()
	err := put(r, inOrder(r.found.cues, cmp.Compare), func(tx *bolt.Tx, c model.Cue) (model.Record, error) { return putWhole(tx, c) })
	if err != nil {
		return err
	}
	err = put(r, inOrder(r.found.students, cmp.Compare), func(tx *bolt.Tx, s model.Student) (model.Record, error) { return putWhole(tx, s) })
	if err != nil {
		return err
	}
	rows := slices.Collect(maps.Values(r.found.sessions))
	slices.SortFunc(rows, func(a, b version[sessionRow]) int {
		return cmp.Or(cmp.Compare(a.value.number, b.value.number), cmp.Compare(a.value.ID, b.value.ID))
	})
	return put(r, rows, func(tx *bolt.Tx, row sessionRow) (model.Record, error) { return putWhole(tx, row.Session) })
}

func byPlace(a, b place) int {
	return cmp.Or(cmp.Compare(a.session, b.session), cmp.Compare(a.serial, b.serial))
}

// games puts the games with what is kept of their deliveries, to be compared with later.
func (r *repairer) games() error {
	return put(r, inOrder(r.found.games, byPlace), func(tx *bolt.Tx, row gameRow) (model.Record, error) {
		rec, err := putWhole(tx, row.Game)
		if err == nil {
			err = putTally(tx, row.ID, row.tally)
		}
		return rec, err
	})
}

// foundBall is a delivery's value with its place.
type foundBall struct {
	place
	value []byte
}

func (r *repairer) deliveries() error {
	places := slices.SortedFunc(maps.Keys(r.found.balls), byPlace)
	for part := range slices.Chunk(places, intakeBatch) {
		var rows []version[foundBall]
		for _, p := range part {
			b := r.found.balls[p]
			rows = append(rows, version[foundBall]{foundBall{p, r.found.bytes(b.value, int64(b.size))}, b.rank, b.size})
		}
		if err := put(r, rows, r.delivery); err != nil {
			return err
		}
	}
	return nil
}

func (r *repairer) delivery(tx *bolt.Tx, b foundBall) (model.Record, error) {
	session, ok := r.numbers[b.session]
	if !ok {
		r.found.unread++
		return nil, nil
	}
	row, err := decodeDeliveryRow(session, b.key(), b.value)
	if err == nil {
		err = row.Validate()
	}
	if err != nil {
		r.found.unread++
		return nil, nil
	}
	rec, err := putWhole(tx, row.Delivery)
	if err != nil {
		return rec, err
	}
	if at, _, err := find(tx, model.GameRecord, row.Game); err != nil || at.session != session {
		return rec, errors.Join(err, deleteRecord(tx, rec.Ref()), r.leftOut.add(rec))
	}
	return rec, nil
}

// possible sees to it that each game's deliveries are possible, and counts what is missing of them.
func (r *repairer) possible() error {
	var ids []model.ID
	err := r.s.view(func(tx *bolt.Tx) error {
		rows, err := sessionRows(tx)
		for _, row := range rows {
			ids = append(ids, row.ID)
		}
		return err
	})
	if err != nil {
		return err
	}
	for part := range slices.Chunk(ids, intakeBatch/100) {
		err := r.s.update(func(tx *bolt.Tx) error {
			for _, id := range part {
				if err := r.evening(tx, id); err != nil {
					return err
				}
			}
			return nil
		})
		if err != nil {
			return err
		}
	}
	return nil
}

func (r *repairer) evening(tx *bolt.Tx, id model.ID) error {
	row, _, err := sessionAt(tx, id)
	if err != nil {
		return err
	}
	s, err := sheafIn(tx, row)
	if err != nil {
		return err
	}
	for i, g := range s.games {
		if err := r.game(tx, g, s.deliveries[i]); err != nil {
			return fmt.Errorf("game %s: %w", g.ID, err)
		}
	}
	return endList(tx, row)
}

// game keeps the most of a game's deliveries that are possible, from the first on, and leaves out the others. Where more
// are there than the game tells of, and the first of them add up to what it tells, the others had been taken back.
func (r *repairer) game(tx *bolt.Tx, g gameRow, ds []model.Delivery) error {
	// Of two with one seq the later one was recorded after the other was taken back.
	ds, out := onlyLast(ds)
	sheet, n, _ := longest(g.Game, ds)
	if load := g.tally.Load; n > load {
		if short, m, _ := longest(g.Game, ds[:load]); m == load && short.Tally == g.tally {
			sheet, n = short, m
		}
	}
	out = append(out, ds[n:]...)
	for _, d := range out {
		if err := errors.Join(deleteRecord(tx, d.Ref()), r.leftOut.add(d)); err != nil {
			return err
		}
	}
	r.out.Missing += max(0, g.tally.Load-n-len(out))
	return putTally(tx, g.ID, sheet.Tally)
}

// onlyLast gives, of deliveries by seq and place, the last of each seq, and the others.
func onlyLast(ds []model.Delivery) (last, others []model.Delivery) {
	for i, d := range ds {
		if i+1 < len(ds) && ds[i+1].Seq == d.Seq {
			others = append(others, d)
		} else {
			last = append(last, d)
		}
	}
	return last, others
}

// count counts what the new file holds.
func (r *repairer) count() error {
	return r.s.view(func(tx *bolt.Tx) error {
		for name, n := range map[string]*int{
			string(bucketCues): &r.out.Cues, string(bucketStudents): &r.out.Students, string(bucketSessions): &r.out.Sessions,
			string(bucketGames): &r.out.Games, string(bucketDeliveries): &r.out.Deliveries,
		} {
			*n = bucket(tx, []byte(name)).Stats().KeyN
		}
		for ref := range r.out.older {
			if rec, err := recordIn(tx, ref); err != nil || rec == nil {
				delete(r.out.older, ref)
			}
		}
		r.out.Older, r.out.StandIns = len(r.out.older), len(r.out.standIns)
		return nil
	})
}
