package store

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// EveningCount is what came about in an evening, as its games' tallies tell it.
type EveningCount struct {
	Session model.ID
	// Students counts those who bowled, Games their games, Deliveries all balls; Good of Seen are the seen full racks of
	// games.
	Students, Games, Deliveries, Good, Seen int
}

// EveningCount gives a session's counts without reading a delivery. ErrNoSession where the id is not kept.
func (s *Store) EveningCount(session model.ID) (n EveningCount, err error) {
	err = s.view(func(tx *bolt.Tx) error {
		n, err = countIn(tx, session)
		return err
	})
	return n, err
}

func countIn(tx *bolt.Tx, session model.ID) (EveningCount, error) {
	head, ok, err := headAt(tx, session)
	switch {
	case err != nil:
		return EveningCount{}, err
	case !ok:
		return EveningCount{}, fmt.Errorf("%w: %s", ErrNoSession, session)
	}
	games, err := bowledIn(tx, head)
	n := EveningCount{Session: session}
	bowled := map[model.ID]bool{}
	for _, g := range games {
		bowled[g.Student] = true
		n.Deliveries += g.tally.Load
		if g.Kind == model.KindGame {
			n.Games++
			n.Good += g.tally.Good
			n.Seen += g.tally.Seen
		}
	}
	n.Students = len(bowled)
	return n, err
}

// bowledIn gives a session's games, drills and warm-ups with a ball.
func bowledIn(tx *bolt.Tx, session sessionHead) ([]*played, error) {
	var out []*played
	err := each(bucket(tx, bucketGames), sessionPrefix(session.number), func(k, v []byte) error {
		row, err := decodeGameRow(k, v)
		if err != nil {
			return bad(err, "a game of session %s", session.id)
		}
		p, err := placeOf(k)
		if row.tally.Load > 0 {
			out = append(out, &played{row, p, session.at})
		}
		return err
	})
	return out, err
}

// Left gives what a student's last evening with a ball before a session left; false where there is none. The session may be
// one that is not kept yet: then it is the student's last evening.
func (s *Store) Left(student, before model.ID) (left model.Left, ok bool, err error) {
	err = s.view(func(tx *bolt.Tx) error {
		left, ok, err = leftIn(tx, student, before)
		return err
	})
	return left, ok, err
}

func leftIn(tx *bolt.Tx, student, before model.ID) (model.Left, bool, error) {
	head, kept, err := headAt(tx, before)
	if err != nil {
		return model.Left{}, false, err
	}
	var from []byte
	if kept {
		from = playedKey(student, head.at, place{session: head.number})
	}
	for g, err := range playedBack(tx, student, from) {
		switch {
		case err != nil:
			return model.Left{}, false, err
		case g.tally.Load == 0:
			continue
		}
		row, _, err := sessionAt(tx, g.Session)
		left := model.Left{At: row.At, Seat: model.Seat{Student: student}}
		if i := row.Seat(student); i >= 0 {
			left.Seat = row.Roster[i]
		}
		return left, err == nil, err
	}
	return model.Left{}, false, nil
}

// Cues gives the coach's book of cues by id.
func (s *Store) Cues() ([]model.Cue, error) { return readAll(s, cuesIn) }

// Bowled gives what was bowled in the last n evenings with a ball, for each student apart, by id, and in the order of time.
func (s *Store) Bowled(n int) ([][]model.DatedSheet, error) {
	return readAll(s, func(tx *bolt.Tx) ([][]model.DatedSheet, error) {
		games, err := lastEvenings(tx, n)
		if err != nil {
			return nil, err
		}
		sheets, err := sheetsIn(tx, games)
		if err != nil {
			return nil, err
		}
		return sheets.byStudent(games), nil
	})
}

// lastEvenings gives what was bowled in the last n evenings with a ball, by student, time and number.
func lastEvenings(tx *bolt.Tx, n int) ([]*played, error) {
	heads, err := headsIn(tx)
	if err != nil {
		return nil, err
	}
	var out []*played
	for _, head := range slices.Backward(heads) {
		if n <= 0 {
			break
		}
		games, err := bowledIn(tx, head)
		if err != nil {
			return nil, err
		}
		if len(games) > 0 {
			n--
		}
		out = append(out, games...)
	}
	slices.SortFunc(out, func(a, b *played) int {
		return cmp.Or(cmp.Compare(a.Student, b.Student), a.at.Compare(b.at), cmp.Compare(a.place.session, b.place.session),
			cmp.Compare(a.Number, b.Number), cmp.Compare(a.ID, b.ID))
	})
	return out, nil
}

// headsIn gives what is known of every session without reading it, by time and then by number, as histories have it.
func headsIn(tx *bolt.Tx) ([]sessionHead, error) {
	var out []sessionHead
	err := each(bucket(tx, bucketSessions), nil, func(k, v []byte) error {
		head, err := decodeSessionHead(k, v)
		out = append(out, head)
		return bad(err, "session %s", k)
	})
	slices.SortFunc(out, func(a, b sessionHead) int {
		return cmp.Or(a.at.Compare(b.at), cmp.Compare(a.number, b.number))
	})
	return out, err
}

// byStudent gives games, which are in order, as a list for each student.
func (s sheets) byStudent(games []*played) [][]model.DatedSheet {
	lists := map[model.ID][]*played{}
	for _, g := range games {
		lists[g.Student] = append(lists[g.Student], g)
	}
	var out [][]model.DatedSheet
	for _, student := range slices.Sorted(maps.Keys(lists)) {
		out = append(out, s.dated(lists[student]))
	}
	return out
}
