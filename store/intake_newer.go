package store

import (
	"fmt"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// replace puts a record in the place of the one that is kept under its id.
func (in *intake) replace(tx *bolt.Tx, kept, r model.Record) error {
	if err := in.speaksOf(tx, r.Ref(), kept, r); err != nil {
		return err
	}
	if err := refersToKept(tx, r); err != nil {
		return err
	}
	if err := in.changes(tx, kept, r); err != nil {
		return err
	}
	in.replaced.count(r.Ref().Kind)
	return putRecord(tx, r)
}

// changes notes what a record touches that takes another's place, and refuses one that would go to another evening.
func (in *intake) changes(tx *bolt.Tx, kept, r model.Record) error {
	in.bring(r.Ref())
	switch r := r.(type) {
	case model.Student:
		return in.visitLists(tx, r.ID)
	case model.Session:
		in.visit(r.ID)
	case model.Game:
		if was, _ := kept.(model.Game); was.Session != r.Session {
			return movedTo(r.Ref(), was.Session, r.Session)
		}
		in.visit(r.Session).touch(r.ID, in.line)
	case model.Delivery:
		return in.changesBall(tx, kept, r)
	}
	return nil
}

func (in *intake) changesBall(tx *bolt.Tx, kept model.Record, d model.Delivery) error {
	at, _, err := find(tx, model.DeliveryRecord, d.ID)
	if err != nil {
		return err
	}
	game, _, err := find(tx, model.GameRecord, d.Game)
	if err != nil {
		return err
	}
	if game.session != at.session {
		return movedTo(d.Ref(), at.session, game.session)
	}
	v := in.visit(at.session)
	v.arrivals = append(v.arrivals, arrival{at.serial, uint32(in.line)})
	if was, _ := kept.(model.Delivery); was.Game != d.Game {
		v.touch(was.Game, in.line)
	}
	return nil
}

func movedTo(ref model.Ref, from, to model.ID) error {
	return fmt.Errorf("%s is kept in the session %s, it cannot be in %s too", refWords(ref), from, to)
}

// leave notes that a delivery leaves its game.
func (in *intake) leave(tx *bolt.Tx, d model.Delivery) error {
	at, _, err := find(tx, model.DeliveryRecord, d.ID)
	if err != nil {
		return err
	}
	in.visit(at.session).touch(d.Game, in.line)
	return nil
}

// visitLists visits the evenings with a list of actions in which a student is: taken back, they would give the student the
// earlier record again.
func (in *intake) visitLists(tx *bolt.Tx, student model.ID) error {
	return each(bucket(tx, bucketLive), nil, func(k, _ []byte) error {
		row, ok, err := sessionAt(tx, model.ID(k))
		if ok && row.Seat(student) >= 0 {
			in.visit(row.ID)
		}
		return err
	})
}

// bring notes by which line a record came, but for deliveries, of which the visits know.
func (in *intake) bring(ref model.Ref) {
	if ref.Kind != model.DeliveryRecord {
		in.brought[ref] = in.line
	}
}

// broughtBy gives the line by which a record came, 0 for one that was kept before.
func (in *intake) broughtBy(tx *bolt.Tx, ref model.Ref) int {
	if ref.Kind != model.DeliveryRecord {
		return in.brought[ref]
	}
	at, ok, err := find(tx, ref.Kind, ref.ID)
	if err != nil || !ok {
		return 0
	}
	return in.visits[at.session].arrived(at.serial)
}

// touch notes the line by which a game was changed without a delivery of it coming.
func (v *visit) touch(game model.ID, line int) {
	if v.touched == nil {
		v.touched = map[model.ID]int{}
	}
	v.touched[game] = line
}

// changed gives the line that touch noted for a game, 0 for none.
func (v *visit) changed(game model.ID) int {
	if v == nil {
		return 0
	}
	return v.touched[game]
}

// arrived gives the line by which a delivery came, 0 for one that was kept before.
func (v *visit) arrived(serial uint32) int {
	if v == nil {
		return 0
	}
	for _, a := range v.arrivals {
		if a.serial == serial {
			return int(a.line)
		}
	}
	return 0
}

// count counts a record.
func (n *Imported) count(kind model.RecordKind) {
	switch kind {
	case model.CueRecord:
		n.Cues++
	case model.StudentRecord:
		n.Students++
	case model.SessionRecord:
		n.Sessions++
	case model.GameRecord:
		n.Games++
	case model.DeliveryRecord:
		n.Deliveries++
	}
}

// settleUp keeps who is up in an evening whose roster may be another by now.
func settleUp(tx *bolt.Tx, id model.ID) error {
	key := []byte(id)
	if bucket(tx, bucketLive).Get(key) == nil {
		return nil
	}
	kept, err := eveningIn(tx, id)
	if err != nil {
		return err
	}
	e, err := model.Resume(kept)
	if err != nil {
		return fmt.Errorf("session %s: %w", id, err)
	}
	up := newEncoder()
	encodeUp(up, e.Up())
	return bucket(tx, bucketLive).Put(key, up.seal(key))
}
