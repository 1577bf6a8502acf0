package store

import (
	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// gameRow is a game with its tally: what a student's history reads instead of the deliveries.
type gameRow struct {
	model.Game
	tally model.Tally
}

func (r gameRow) encode(p place, key []byte) []byte {
	e := newEncoder()
	e.id(r.Session)
	e.bool(p.number() == 0)
	if p.number() == 0 {
		e.id(r.ID)
	}
	encodeTally(e, r.tally)
	encodeGame(e, r.Game)
	return e.seal(key)
}

func decodeGameRow(key, value []byte) (gameRow, error) {
	d, err := unseal(key, value)
	if err != nil {
		return gameRow{}, err
	}
	p, err := placeOf(key)
	if err != nil {
		return gameRow{}, err
	}
	session := d.id()
	id := model.SerialID(session, p.number())
	if d.bool() {
		id = d.id()
	}
	r := gameRow{tally: decodeTally(d)}
	r.Game = decodeGame(d, session, id)
	return r, d.err
}

func encodeGame(e *encoder, g model.Game) {
	e.id(g.Student)
	e.count(g.Number)
	word(e, kindWords, g.Kind)
	e.text(g.Name)
	e.count(g.Length)
	e.count(int(g.Pins))
	e.text(g.Stopped)
	e.text(g.Note)
}

func decodeGame(d *decoder, session, id model.ID) model.Game {
	return model.Game{
		ID: id, Session: session, Student: d.id(), Number: d.count(), Kind: readWord[model.Kind](d, kindWords),
		Name: d.text(), Length: d.count(), Pins: tenpin.PinSet(d.count()), Stopped: d.text(), Note: d.text(),
	}
}

func encodeTally(e *encoder, t model.Tally) {
	e.bool(t.Complete)
	for _, n := range tallyCounts(&t) {
		e.count(*n)
	}
}

func decodeTally(d *decoder) model.Tally {
	t := model.Tally{Complete: d.bool()}
	for _, n := range tallyCounts(&t) {
		*n = d.count()
	}
	return t
}

// tallyCounts lists a tally's numbers in the order in which they are written.
func tallyCounts(t *model.Tally) [21]*int {
	p, s := &t.AxisPoints, &t.AxisSeen
	return [...]*int{
		&t.Score, &t.Max, &t.Load, &t.Racks, &t.Seen, &t.Good, &t.Untouched, &t.Strikes,
		&t.SpareSeen, &t.SpareGood, &t.SpareTried, &t.SpareMade, &t.Fouls,
		&p[0], &s[0], &p[1], &s[1], &p[2], &s[2], &p[3], &s[3],
	}
}
