package store

import (
	"cmp"
	"fmt"
	"slices"
	"sort"

	"coach.settee/model"
)

// evenings looks at the games and deliveries, a session at a time.
func (x *examiner) evenings() error {
	for _, name := range [][]byte{bucketGames, bucketDeliveries, bucketActions} {
		x.strays(name)
	}
	for _, head := range x.heads {
		if err := x.evening(head); err != nil {
			return err
		}
	}
	if n := bucket(x.tx, bucketDeliveries).Sequence(); n != uint64(x.out.Deliveries) {
		x.fault("%d deliveries are counted, %d are there", n, x.out.Deliveries)
	}
	return nil
}

// strays finds rows whose session is not there.
func (x *examiner) strays(name []byte) {
	known := map[uint32]bool{}
	for _, h := range x.heads {
		known[h.number] = true
	}
	c := bucket(x.tx, name).Cursor()
	for k, _ := c.First(); k != nil; {
		p, err := placeOf(k)
		if x.wrong(err, "%s", name) {
			k, _ = c.Next()
			continue
		}
		if !known[p.session] {
			x.fault("%s: there are some of a session with the number %d, which is missing", name, p.session)
		}
		if p.session == highest {
			return
		}
		k, _ = c.Seek(sessionPrefix(p.session + 1))
	}
}

// examinedGame is a game with its deliveries.
type examinedGame struct {
	gameRow
	balls []model.Delivery
}

func (x *examiner) evening(head sessionHead) error {
	games := map[model.ID]*examinedGame{}
	var order []*examinedGame
	err := x.each(bucketGames, sessionPrefix(head.number), func(k, v []byte) {
		row, err := decodeGameRow(k, v)
		x.valid(&x.out.Games, row.Game, err, "a game of session", []byte(head.id))
		if err != nil {
			return
		}
		g := &examinedGame{gameRow: row}
		games[row.ID], order = g, append(order, g)
		x.placed(head, k, row.Ref())
		switch {
		case row.Session != head.id:
			x.fault("game %s: it is kept in session %s and says that it is of %s", row.ID, head.id, row.Session)
		case !x.students[row.Student]:
			x.fault("game %s: its student %s is missing", row.ID, row.Student)
		}
	})
	if err != nil {
		return err
	}
	err = x.each(bucketDeliveries, sessionPrefix(head.number), func(k, v []byte) {
		row, err := decodeDeliveryRow(head.id, k, v)
		x.valid(&x.out.Deliveries, row.Delivery, err, "a delivery of session", []byte(head.id))
		if err != nil {
			return
		}
		x.placed(head, k, row.Ref())
		if g := games[row.Game]; g != nil {
			g.balls = append(g.balls, row.Delivery)
		} else {
			x.fault("delivery %s: its game %s is missing", row.ID, row.Game)
		}
	})
	for _, g := range order {
		x.wrong(g.adds(), "game %s", g.ID)
	}
	return err
}

// placed looks whether a row is where its id is looked for.
func (x *examiner) placed(head sessionHead, key []byte, ref model.Ref) {
	p, err := placeOf(key)
	if x.wrong(err, "%s", refWords(ref)) {
		return
	}
	if serial, own := serialIn(head.id, ref.ID); own {
		if serial != p.serial {
			x.fault("%s: it is at %d", refWords(ref), p.number())
		}
		return
	}
	x.foreign++
	at, ok, err := findForeign(x.tx, ref.Kind, ref.ID)
	if x.wrong(err, "%s", refWords(ref)) {
		return
	}
	if !ok || at.place != p || at.session != head.id {
		x.fault("%s: it cannot be found by its id", refWords(ref))
	}
}

// adds tells whether a game's deliveries are possible and add up to what is kept of them.
func (g *examinedGame) adds() error {
	slices.SortStableFunc(g.balls, func(a, b model.Delivery) int { return cmp.Compare(a.Seq, b.Seq) })
	sheet, n, err := longest(g.Game, g.balls)
	if err != nil {
		return err
	}
	if sheet.Tally != g.tally {
		return fmt.Errorf("its %d deliveries do not add up to what is kept of them: %s", n, tallyDiffers(g.tally, sheet.Tally))
	}
	return nil
}

// tallyDiffers names the first thing in which a tally that is kept differs from the deliveries'.
func tallyDiffers(kept, found model.Tally) string {
	if kept.Load != found.Load {
		return fmt.Sprintf("%d deliveries are counted, %d are there", kept.Load, found.Load)
	}
	return fmt.Sprintf("score %d kept, %d found; good shots %d kept, %d found", kept.Score, found.Score, kept.Good, found.Good)
}

// longest gives the sheet of the most of a game's deliveries, from the first on, that are possible as they are kept, how
// many they are, and what is wrong with the next.
func longest(g model.Game, ds []model.Delivery) (sheet *model.Sheet, n int, wrong error) {
	n = len(ds)
	for i, d := range ds {
		if d.Seq == i+1 {
			continue
		}
		n, wrong = i, fmt.Errorf("the delivery with the seq %d is missing", i+1)
		if d.Seq <= i {
			wrong = fmt.Errorf("there are two deliveries with the seq %d", d.Seq)
		}
		break
	}
	whole := n
	n = sort.Search(whole, func(i int) bool {
		_, err := fitting(g, ds[:i+1])
		return err != nil
	})
	if n < whole {
		_, wrong = fitting(g, ds[:n+1])
	}
	sheet, err := fitting(g, ds[:n])
	return sheet, n, cmp.Or(err, wrong)
}

// fitting gives the sheet of deliveries that are possible and say themselves which ball of which frame they are.
func fitting(g model.Game, ds []model.Delivery) (*model.Sheet, error) {
	sheet, err := model.NewSheet(g, ds)
	if err != nil {
		return nil, err
	}
	for i, d := range sheet.Deliveries {
		if d.Frame != ds[i].Frame || d.Ball != ds[i].Ball {
			return nil, misplaced(g, d)
		}
	}
	return sheet, nil
}
