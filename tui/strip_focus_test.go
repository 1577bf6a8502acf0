package tui

import "testing"

func TestTheStripGoesByTonightsFocus(t *testing.T) {
	e := wholeEvening(t)
	e.must(e.SetFocus("cyd", "a slower start"))
	d := stripOf(t, e, "cyd")
	d.says("a slower start")
	e.must(e.SetTonight("cyd", "only the corner pins"))
	d.press("<left>").says("only the corner pins")
	d.silent("a slower start")
	d.press("wwrist behind it<enter>")
	d.press("<right>").says("wrist behind it")
	d.silent("only the corner pins")
}
