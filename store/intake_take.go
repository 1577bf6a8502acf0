package store

import (
	"bytes"
	"errors"
	"fmt"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// take keeps a record that is new. What it refers to has to be kept.
func (in *intake) take(tx *bolt.Tx, r model.Record) error {
	switch r := r.(type) {
	case model.Delivery:
		if _, told := in.past[r.Ref()]; told {
			break
		}
		if taken, err := in.takeNext(tx, r); err != nil || taken {
			return err
		}
	case takenBack:
		return in.takeAway(tx, r.Ref())
	case pastForms:
		in.past[r.Ref()] = append(in.past[r.Ref()], r.Sums...)
		return nil
	}
	kept, err := recordIn(tx, r.Ref())
	if err != nil {
		return err
	}
	if kept != nil {
		return in.again(tx, kept, r)
	}
	if err := in.speaksOf(tx, r.Ref(), nil, r); err != nil {
		return err
	}
	if err := refersToKept(tx, r); err != nil {
		return err
	}
	if err := putRecord(tx, r); err != nil {
		return err
	}
	return in.took(tx, r)
}

// again looks at a record whose id is kept already.
func (in *intake) again(tx *bolt.Tx, kept, r model.Record) error {
	if bytes.Equal(encodeLine(nil, kept), encodeLine(nil, r)) {
		in.taken.Known++
		return nil
	}
	if line := in.broughtBy(tx, r.Ref()); line != 0 {
		return fmt.Errorf("%s is in the file twice, and line %d says something else of its %s: take one of the two lines out",
			refWords(r.Ref()), line, joinWords(differing(kept, r)))
	}
	if in.newer {
		return in.replace(tx, kept, r)
	}
	d := Differing{Kept: kept, Keys: differing(kept, r)}
	_, isStudent := kept.(model.Student)
	_, isCue := kept.(model.Cue)
	says := fmt.Errorf("%s is kept already and says something else of its %s", refWords(r.Ref()), joinWords(d.Keys))
	switch {
	case !isStudent && !isCue:
		return fmt.Errorf("%w: to keep the store's own, take the line out of the file, --newer takes the file's", says)
	case !in.keepMine:
		return fmt.Errorf("%w: --keep-mine keeps the store's own and takes the rest, --newer takes the file's", says)
	}
	in.mine = append(in.mine, d)
	return nil
}

// takeNext keeps a delivery as most are: new, its id of its session's own making, its game met in a line before. It tells
// whether the delivery was one.
func (in *intake) takeNext(tx *bolt.Tx, d model.Delivery) (bool, error) {
	game, ok := in.games[d.Game]
	if !ok {
		return false, nil
	}
	serial, own := serialIn(game.session, d.ID)
	if !own {
		return false, nil
	}
	at := place{game.place.session, serial}
	key, deliveries := at.key(), bucket(tx, bucketDeliveries)
	if deliveries.Get(key) != nil {
		return false, nil
	}
	if _, elsewhere, err := findForeign(tx, model.DeliveryRecord, d.ID); err != nil || elsewhere {
		return false, err
	}
	if err := deliveries.Put(key, deliveryRow{Delivery: d}.encode(game.session, key)); err != nil {
		return false, err
	}
	in.uncounted++
	in.arrive(game.session, serial)
	return true, nil
}

// took counts what was taken and remembers what has to be looked at.
func (in *intake) took(tx *bolt.Tx, r model.Record) error {
	in.bring(r.Ref())
	switch r := r.(type) {
	case model.Cue, model.Student, model.Session:
		in.taken.count(r.Ref().Kind)
	case model.Game:
		in.taken.Games++
		in.visit(r.Session)
		return in.met(tx, r)
	case model.Delivery:
		at, _, err := find(tx, model.DeliveryRecord, r.ID)
		if err != nil {
			return err
		}
		in.arrive(at.session, at.serial)
	}
	return nil
}

// met remembers where a game is, as its deliveries are in the lines that come next.
func (in *intake) met(tx *bolt.Tx, g model.Game) error {
	at, ok, err := find(tx, model.GameRecord, g.ID)
	if err != nil || !ok {
		return err
	}
	if len(in.games) >= maxMet {
		clear(in.games)
	}
	in.games[g.ID] = at
	return nil
}

// maxMet is how many games are remembered at a time.
const maxMet = 1000

// visit notes that something of a session was taken.
func (in *intake) visit(session model.ID) *visit {
	v := in.visits[session]
	if v == nil {
		v = &visit{session: session}
		in.visits[session] = v
		in.visited = append(in.visited, v)
	}
	return v
}

// arrive counts a delivery and notes by which line it came.
func (in *intake) arrive(session model.ID, serial uint32) {
	in.taken.Deliveries++
	v := in.visit(session)
	v.arrivals = append(v.arrivals, arrival{serial, uint32(in.line)})
}

// refersToKept refuses a record that refers to what is not kept.
func refersToKept(tx *bolt.Tx, r model.Record) error {
	for _, ref := range refersTo(r) {
		if known, err := recordIn(tx, ref); err != nil || known == nil {
			return errors.Join(err, fmt.Errorf("%s is neither kept nor in a line before", refWords(ref)))
		}
	}
	return nil
}

// refersTo lists what a record refers to.
func refersTo(r model.Record) []model.Ref {
	switch r := r.(type) {
	case model.Session:
		refs := make([]model.Ref, len(r.Roster))
		for i, seat := range r.Roster {
			refs[i] = model.Ref{Kind: model.StudentRecord, ID: seat.Student}
		}
		return refs
	case model.Game:
		return []model.Ref{{Kind: model.SessionRecord, ID: r.Session}, {Kind: model.StudentRecord, ID: r.Student}}
	case model.Delivery:
		return []model.Ref{{Kind: model.GameRecord, ID: r.Game}}
	}
	return nil
}

func refWords(ref model.Ref) string { return fmt.Sprintf("the %s %s", recordWords[ref.Kind], ref.ID) }
