package store

import (
	"cmp"
	"maps"
	"slices"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// sheets are games with their deliveries.
type sheets map[place]*model.Sheet

// sheetsIn reads the deliveries of games, each game once.
func sheetsIn(tx *bolt.Tx, lists ...[]*played) (sheets, error) {
	evenings := map[uint32][]*played{}
	all := sheets{}
	for _, g := range slices.Concat(lists...) {
		if _, ok := all[g.place]; ok {
			continue
		}
		all[g.place] = nil
		evenings[g.place.session] = append(evenings[g.place.session], g)
	}
	// Most of the time would go into new memory: each evening is read into that of the one before.
	var balls [][]model.Delivery
	for _, number := range slices.Sorted(maps.Keys(evenings)) {
		games := evenings[number]
		balls = slices.Grow(balls[:0], len(games))[:len(games)]
		if err := ballsIn(tx, games, balls); err != nil {
			return nil, err
		}
		for i, g := range games {
			var err error
			if all[g.place], err = g.sheet(balls[i]); err != nil {
				return nil, err
			}
		}
	}
	return all, nil
}

// dated gives games as sheets with their times.
func (s sheets) dated(games []*played) []model.DatedSheet {
	var out []model.DatedSheet
	for _, g := range games {
		out = append(out, model.DatedSheet{Sheet: s[g.place], At: g.at})
	}
	return out
}

// ballsIn reads the deliveries of games of one session into a list for each, in place of what is there.
func ballsIn(tx *bolt.Tx, games []*played, balls [][]model.Delivery) error {
	for i, g := range games {
		balls[i] = slices.Grow(balls[i][:0], g.tally.Load)
	}
	session := games[0].Session
	return each(bucket(tx, bucketDeliveries), sessionPrefix(games[0].place.session), func(k, v []byte) error {
		i, err := whose(games, k, v)
		if err == nil && i >= 0 {
			var row deliveryRow
			row, err = decodeDeliveryRow(session, k, v)
			balls[i] = append(balls[i], row.Delivery)
		}
		if err != nil {
			return bad(err, "a delivery of session %s", session)
		}
		return nil
	})
}

// whose gives the place in the list of the game that a delivery is of, -1 for another game. The others are many, and are
// neither checked nor read: damage that hides a delivery of the list is found when its game is counted.
func whose(games []*played, k, v []byte) (int, error) {
	serial, id, ok := peekGame(v)
	if !ok {
		if _, err := unseal(k, v); err != nil {
			return 0, err
		}
		return 0, errShort
	}
	for i, g := range games {
		if id == nil && g.place.serial == serial || id != nil && string(g.ID) == string(id) {
			return i, nil
		}
	}
	return -1, nil
}

// sheet scores a game's deliveries, which are in any order and may be used again afterwards.
func (g *played) sheet(balls []model.Delivery) (*model.Sheet, error) {
	if err := g.complete(len(balls)); err != nil {
		return nil, err
	}
	slices.SortFunc(balls, func(a, b model.Delivery) int { return cmp.Compare(a.Seq, b.Seq) })
	sheet, err := model.NewSheet(g.Game, balls)
	return sheet, bad(err, "game %s", g.ID)
}
