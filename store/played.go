package store

import (
	"bytes"
	"cmp"
	"fmt"
	"iter"
	"slices"
	"time"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// Played is a game of a student's history with the time of its session.
type Played struct {
	Game  model.Game
	At    time.Time
	Tally model.Tally
}

// Played gives a student's games, drills and warm-ups, newest first: up to n (all where n is 0 or less) of those that keep
// wants, or of all where keep is nil. It reads no deliveries, and no more games than it has to; keep is called within a
// transaction and may not use the store.
func (s *Store) Played(student model.ID, n int, keep func(Played) bool) (out []Played, err error) {
	err = s.view(func(tx *bolt.Tx) error {
		out = nil
		for g, err := range playedBack(tx, student, nil) {
			if err != nil {
				return err
			}
			p := Played{Game: g.Game, At: g.at, Tally: g.tally}
			if keep == nil || keep(p) {
				out = append(out, p)
			}
			if n > 0 && len(out) == n {
				break
			}
		}
		return nil
	})
	return out, err
}

// played is a game as a student's history lists it.
type played struct {
	gameRow
	place place
	at    time.Time
}

// playedBack gives a student's games backwards in time from the last one before a key, which is nil for the end. With an
// error it ends.
func playedBack(tx *bolt.Tx, student model.ID, before []byte) iter.Seq2[*played, error] {
	if before == nil {
		before = append([]byte(student), 1)
	}
	return func(yield func(*played, error) bool) {
		c := bucket(tx, bucketPlayed).Cursor()
		back := c.Prev
		if k, _ := c.Seek(before); k == nil {
			back = c.Last
		}
		eachPlayed(tx, student, back, c.Prev, yield)
	}
}

// playedOn gives a student's games in the order of time. With an error it ends.
func playedOn(tx *bolt.Tx, student model.ID) iter.Seq2[*played, error] {
	return func(yield func(*played, error) bool) {
		c := bucket(tx, bucketPlayed).Cursor()
		eachPlayed(tx, student, func() (k, v []byte) { return c.Seek(playedPrefix(student)) }, c.Next, yield)
	}
}

func eachPlayed(tx *bolt.Tx, student model.ID, first, next func() (k, v []byte), yield func(*played, error) bool) {
	prefix := playedPrefix(student)
	for k, v := first(); len(k) == len(prefix)+16 && bytes.HasPrefix(k, prefix); k, v = next() {
		g, err := playedAt(tx, k, v)
		if !yield(g, bad(err, "a game in the history of %s", student)) || err != nil {
			return
		}
	}
}

func playedAt(tx *bolt.Tx, k, v []byte) (*played, error) {
	at, p, err := playedIn(k)
	if err == nil {
		_, err = unseal(k, v)
	}
	if err != nil {
		return nil, err
	}
	row, ok, err := gameAt(tx, p)
	if err == nil && !ok {
		err = fmt.Errorf("the game %d/%d is missing", p.session, p.serial)
	}
	return &played{row, p, at}, err
}

// byEvening parts games into those of one session each, which it gives by number.
func byEvening(games iter.Seq2[*played, error]) iter.Seq2[[]*played, error] {
	return func(yield func([]*played, error) bool) {
		var evening []*played
		full := func() bool {
			slices.SortFunc(evening, func(a, b *played) int {
				return cmp.Or(cmp.Compare(a.Number, b.Number), cmp.Compare(a.ID, b.ID))
			})
			return len(evening) == 0 || yield(evening, nil)
		}
		for g, err := range games {
			if err != nil {
				yield(nil, err)
				return
			}
			if len(evening) > 0 && evening[0].place.session != g.place.session {
				if !full() {
					return
				}
				evening = nil
			}
			evening = append(evening, g)
		}
		full()
	}
}
