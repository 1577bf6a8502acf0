package store

import (
	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// deliveryRow is a delivery with the action that recorded it.
type deliveryRow struct {
	model.Delivery
	trail trail
}

// trail is an action that did nothing but record one ball, and begin the ball's game where it was the first: as most do,
// so that it is told by the delivery rather than by an entry of the list.
type trail struct {
	// n is the action's number, 0 where the delivery tells of none.
	n     int
	how   model.How
	began bool
}

func (r deliveryRow) encode(session model.ID, key []byte) []byte {
	e := newEncoder()
	e.count(r.trail.n)
	if r.trail.n != 0 {
		how := byte(r.trail.how) << 1
		if r.trail.began {
			how |= 1
		}
		e.byte(how)
	}
	encodeDelivery(e, session, &r.Delivery)
	return e.seal(key)
}

func decodeDeliveryRow(session model.ID, key, value []byte) (deliveryRow, error) {
	d, err := unseal(key, value)
	if err != nil {
		return deliveryRow{}, err
	}
	p, err := placeOf(key)
	if err != nil {
		return deliveryRow{}, err
	}
	var r deliveryRow
	if r.trail.n = d.count(); r.trail.n != 0 {
		how := d.byte()
		r.trail.how, r.trail.began = model.How(how>>1), how&1 != 0
	}
	r.Delivery = decodeDelivery(d, session, p.number())
	return r, d.err
}

// The bits of a delivery's flags. The first seven fit the first byte.
const (
	ballSeen = 1 << iota
	ballTouched
	ballPins
	ballAfter
	ballLettered
	ballOwnGame
	ballCue

	ballDead
	ballFoul
	ballSide
	ballHit
	ballAimed
	ballBowled
	ballSpeed

	ballHitBoards
	ballLine
	ballOwnCall
	ballNote
	ballForeign
)

func deliveryFlags(d *model.Delivery, ownID, ownGame bool) int {
	return flag(d.Seen, ballSeen) | flag(d.Touched, ballTouched) | flag(d.Pins.Known, ballPins) |
		flag(d.After.Known, ballAfter) | flag(d.Letters != model.Letters{}, ballLettered) |
		flag(ownGame, ballOwnGame) | flag(d.Cue != "", ballCue) |
		flag(d.Dead, ballDead) | flag(d.Foul, ballFoul) | flag(d.Side != "" || d.SideBoards != 0, ballSide) |
		flag(d.Hit != "", ballHit) | flag(!d.Aimed.IsZero(), ballAimed) | flag(d.Bowled != "", ballBowled) |
		flag(d.SpeedMPH.Known, ballSpeed) | flag(d.HitBoards.Known, ballHitBoards) | flag(!d.Line.IsZero(), ballLine) |
		flag(d.Own != 0, ballOwnCall) | flag(d.Note != "", ballNote) | flag(!ownID, ballForeign)
}

func encodeDelivery(e *encoder, session model.ID, d *model.Delivery) {
	_, ownID := serialIn(session, d.ID)
	game, ownGame := serialIn(session, d.Game)
	flags := deliveryFlags(d, ownID, ownGame)
	e.count(flags)
	if !ownID {
		e.id(d.ID)
	}
	if ownGame {
		e.count(int(game - ownSerial))
	} else {
		e.id(d.Game)
	}
	e.count(d.Seq)
	e.time(d.At)
	e.count(d.Lane)
	e.count(d.Frame)
	e.count(d.Ball)
	if flags&ballLettered != 0 {
		e.letters(d.Letters)
	}
	e.weights(d.Weights)
	e.byte(byte(d.Bar))
	word(e, levelWords, d.Level)
	if d.Pins.Known {
		e.count(d.Pins.Value)
	}
	if d.After.Known {
		e.count(int(d.After.Pins))
	}
	encodeDetails(e, flags, d)
}

// encodeDetails writes what most deliveries do not have.
func encodeDetails(e *encoder, flags int, d *model.Delivery) {
	if flags&ballCue != 0 {
		e.text(d.Cue)
	}
	if flags&ballSide != 0 {
		word(e, sideWords, d.Side)
		e.count(d.SideBoards)
	}
	if flags&ballHit != 0 {
		word(e, hitWords, d.Hit)
	}
	if flags&ballAimed != 0 {
		e.line(d.Aimed)
	}
	if flags&ballBowled != 0 {
		e.text(d.Bowled)
	}
	if flags&ballSpeed != 0 {
		e.number(d.SpeedMPH.Value)
	}
	if flags&ballHitBoards != 0 {
		e.number(d.HitBoards.Value)
	}
	if flags&ballLine != 0 {
		e.line(d.Line)
	}
	if flags&ballOwnCall != 0 {
		e.byte(byte(d.Own))
	}
	if flags&ballNote != 0 {
		e.text(d.Note)
	}
}

// decodeDelivery reads a delivery of a session; n is the number that its id tells of, where it is of the session's own
// making.
func decodeDelivery(d *decoder, session model.ID, n int) model.Delivery {
	flags := d.count()
	has := func(bit int) bool { return flags&bit != 0 }
	b := model.Delivery{
		ID: model.SerialID(session, n), Seen: has(ballSeen), Touched: has(ballTouched), Dead: has(ballDead), Foul: has(ballFoul),
	}
	if has(ballForeign) {
		b.ID = d.id()
	}
	if has(ballOwnGame) {
		b.Game = model.SerialID(session, d.count())
	} else {
		b.Game = d.id()
	}
	b.Seq, b.At, b.Lane, b.Frame, b.Ball = d.count(), d.time(), d.count(), d.count(), d.count()
	if has(ballLettered) {
		b.Letters = d.letters()
	}
	b.Weights, b.Bar, b.Level = d.weights(), model.ShotGrade(d.byte()), readWord[model.Level](d, levelWords)
	if has(ballPins) {
		b.Pins = model.Known(d.count())
	}
	if has(ballAfter) {
		b.After = tenpin.Standing(tenpin.PinSet(d.count()))
	}
	decodeDetails(d, has, &b)
	return b
}

// peekGame reads of a delivery's value, without checking the value, which game it is of: the game's serial where its id
// is of the session's own making, else the id, which dies with the transaction.
func peekGame(value []byte) (serial uint32, id []byte, ok bool) {
	if len(value) == 0 || value[0] != valueVersion {
		return 0, nil, false
	}
	d := decoder{b: value[1:]}
	if d.count() != 0 {
		d.byte()
	}
	flags := d.count()
	if flags&ballForeign != 0 {
		d.take(d.length())
	}
	if flags&ballOwnGame != 0 {
		return ownSerial + uint32(d.count()), nil, d.err == nil
	}
	id = d.take(d.length())
	return 0, id, d.err == nil
}

func decodeDetails(d *decoder, has func(int) bool, b *model.Delivery) {
	if has(ballCue) {
		b.Cue = d.text()
	}
	if has(ballSide) {
		b.Side, b.SideBoards = readWord[model.Side](d, sideWords), d.count()
	}
	if has(ballHit) {
		b.Hit = readWord[model.Hit](d, hitWords)
	}
	if has(ballAimed) {
		b.Aimed = d.line()
	}
	if has(ballBowled) {
		b.Bowled = d.text()
	}
	if has(ballSpeed) {
		b.SpeedMPH = model.Known(d.number())
	}
	if has(ballHitBoards) {
		b.HitBoards = model.Known(d.number())
	}
	if has(ballLine) {
		b.Line = d.line()
	}
	if has(ballOwnCall) {
		b.Own = model.ShotGrade(d.byte())
	}
	if has(ballNote) {
		b.Note = d.text()
	}
}
