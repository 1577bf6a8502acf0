package store

import (
	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// The bits of a call's flags. The first seven fit the first byte.
const (
	callTouched = 1 << iota
	callUnseen
	callFoul
	callLettered
	callPins
	callSide
	callHit

	callHitBoards
	callLine
	callSpeed
	callOwn
	callNote
)

func callFlags(c *model.Call) int {
	return flag(c.Touched, callTouched) | flag(c.Unseen, callUnseen) | flag(c.Foul, callFoul) |
		flag(c.Letters != model.Letters{}, callLettered) | flag(c.Pins != model.Naming{}, callPins) |
		flag(c.Side != "" || c.SideBoards != 0 || c.SideSteps != 0, callSide) | flag(c.Hit != "", callHit) |
		flag(c.HitBoards.Known, callHitBoards) | flag(!c.Line.IsZero(), callLine) | flag(c.SpeedMPH.Known, callSpeed) |
		flag(c.Own != 0, callOwn) | flag(c.Note != "", callNote)
}

func encodeCall(e *encoder, c *model.Call) {
	flags := callFlags(c)
	e.count(flags)
	if flags&callLettered != 0 {
		e.letters(c.Letters)
	}
	if flags&callPins != 0 {
		e.byte(byte(c.Pins.How))
		e.count(int(c.Pins.Left))
		e.count(c.Pins.Felled)
	}
	if flags&callSide != 0 {
		word(e, sideWords, c.Side)
		e.count(c.SideBoards)
		e.count(c.SideSteps)
	}
	if flags&callHit != 0 {
		word(e, hitWords, c.Hit)
	}
	if flags&callHitBoards != 0 {
		e.number(c.HitBoards.Value)
	}
	if flags&callLine != 0 {
		e.line(c.Line)
	}
	if flags&callSpeed != 0 {
		e.number(c.SpeedMPH.Value)
	}
	if flags&callOwn != 0 {
		e.byte(byte(c.Own))
	}
	if flags&callNote != 0 {
		e.text(c.Note)
	}
}

func decodeCall(d *decoder) model.Call {
	flags := d.count()
	has := func(bit int) bool { return flags&bit != 0 }
	c := model.Call{Touched: has(callTouched), Unseen: has(callUnseen), Foul: has(callFoul)}
	if has(callLettered) {
		c.Letters = d.letters()
	}
	if has(callPins) {
		c.Pins = model.Naming{How: model.NamingKind(d.byte()), Left: tenpin.PinSet(d.count()), Felled: d.count()}
	}
	if has(callSide) {
		c.Side, c.SideBoards, c.SideSteps = readWord[model.Side](d, sideWords), d.count(), d.count()
	}
	if has(callHit) {
		c.Hit = readWord[model.Hit](d, hitWords)
	}
	if has(callHitBoards) {
		c.HitBoards = model.Known(d.number())
	}
	if has(callLine) {
		c.Line = d.line()
	}
	if has(callSpeed) {
		c.SpeedMPH = model.Known(d.number())
	}
	if has(callOwn) {
		c.Own = model.ShotGrade(d.byte())
	}
	if has(callNote) {
		c.Note = d.text()
	}
	return c
}
