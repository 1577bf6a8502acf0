package store

import (
	"cmp"
	"fmt"
	"sort"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// settle looks at the games of sessions: their deliveries have to be all there and possible in their order. It keeps
// what they add up to.
func (in *intake) settle(tx *bolt.Tx, visits []*visit) error {
	for _, v := range visits {
		row, there, err := sessionAt(tx, v.session)
		if err != nil {
			return err
		}
		if !there {
			continue
		}
		s, err := sheafIn(tx, row)
		if err != nil {
			return err
		}
		for i, g := range s.games {
			tally, err := in.tallied(tx, g.Game, s.deliveries[i])
			if err != nil {
				return err
			}
			if err := putTally(tx, g.ID, tally); err != nil {
				return err
			}
		}
		if err := endList(tx, row); err != nil {
			return err
		}
		if !in.newer {
			continue
		}
		if err := settleUp(tx, row.ID); err != nil {
			return err
		}
	}
	return nil
}

// tallied gives what a game's deliveries, by seq, add up to, or refuses the line of the one that cannot be.
func (in *intake) tallied(tx *bolt.Tx, g model.Game, ds []model.Delivery) (model.Tally, error) {
	for i, d := range ds {
		switch {
		case d.Seq == i+1:
		case d.Seq == i:
			twice := fmt.Errorf("the game %s has two deliveries with the seq %d", g.ID, d.Seq)
			return model.Tally{}, in.refusedLater(tx, twice, ds, i, i-1)
		default:
			missing := fmt.Errorf("the game %s has no delivery with the seq %d before this one", g.ID, i+1)
			return model.Tally{}, in.refusedLater(tx, missing, ds, i)
		}
	}
	sheet, err := model.NewSheet(g, ds)
	if err != nil {
		return model.Tally{}, in.impossible(tx, g, ds)
	}
	for i, d := range sheet.Deliveries {
		if d.Frame != ds[i].Frame || d.Ball != ds[i].Ball {
			return model.Tally{}, in.refusedLater(tx, misplaced(g, d), ds, i)
		}
	}
	return sheet.Tally, nil
}

// misplaced says where a delivery belongs, which its line has elsewhere.
func misplaced(g model.Game, d model.Delivery) error {
	if d.Frame == 0 {
		return fmt.Errorf("a delivery of a %s has no frame and no ball", g.Kind)
	}
	return fmt.Errorf("by the deliveries before it this one is ball %d of frame %d", d.Ball, d.Frame)
}

// impossible refuses the first delivery of a game that cannot be where it stands.
func (in *intake) impossible(tx *bolt.Tx, g model.Game, ds []model.Delivery) error {
	n := sort.Search(len(ds), func(i int) bool {
		_, err := model.NewSheet(g, ds[:i+1])
		return err != nil
	})
	_, err := model.NewSheet(g, ds[:n+1])
	return in.refusedLater(tx, fmt.Errorf("the game %s cannot have been so: %w", g.ID, err), ds, n)
}

// refusedLater names the line that is in the way in a game: by which the first of some deliveries came that is not kept
// already; else that by which the game was changed, or the nearest one before the first of these.
func (in *intake) refusedLater(tx *bolt.Tx, reason error, ds []model.Delivery, suspects ...int) error {
	arrived := func(i int) (*visit, int, error) {
		at, _, err := find(tx, model.DeliveryRecord, ds[i].ID)
		return in.visits[at.session], in.visits[at.session].arrived(at.serial), err
	}
	for _, i := range suspects {
		if _, line, err := arrived(i); err != nil {
			return err
		} else if line != 0 {
			return refusedAt(line, reason)
		}
	}
	for i := suspects[0]; i >= 0; i-- {
		v, line, err := arrived(i)
		if err != nil {
			return err
		}
		if line = cmp.Or(v.changed(ds[i].Game), line); line != 0 {
			return refusedAt(line, reason)
		}
	}
	return fmt.Errorf("with what is kept already: %w", reason)
}

// endList takes away the list of actions of a session that something was brought into: its actions are not the last
// ones any more. Who was up stays.
func endList(tx *bolt.Tx, row sessionRow) error {
	if err := dropActions(tx, row.number, 0); err != nil {
		return err
	}
	if last, ok := lastBefore(tx, bucketDeliveries, place{row.number, highest}); ok {
		row.floor = last
	}
	return putSessionRow(tx, row)
}
