package tui

import (
	"slices"
	"testing"
)

// TestClosingHoldsTheTotals: a total on the overhead that differs is missing as an unfinished game is.
func TestClosingHoldsTheTotals(t *testing.T) {
	d := onBoard(t, "Ada 120", "Bo 172").press("er<esc>" + aGame + "ex")
	d.silent("overhead differs")
	d.press("t90<enter>").silent("overhead differs")
	d.press("t91<enter>").says("overhead differs, no homework")
	d.press("x").says("close anyway?", "totals differ for Ada")
	d.press("<f5>").press("t90<enter>x")
	if d.evening != nil {
		t.Errorf("it asks where the totals agree:\n%s", d.show())
	}
	t.Run("also after a correction", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("er<esc>" + aGame + "ext90<enter><esc><esc><bs><bs>=8=0ex")
		d.says("overhead differs").press("x").says("totals differ for Ada")
	})
}

func TestClosingTellsOfACallBegun(t *testing.T) {
	d := onBoard(t, "Ada 120", "Bo 172").press("bex")
	d.says("call begun, no date").press("x")
	d.says("a call is begun for Ada: record it on the board, or clear it there with esc")
	if d.evening == nil {
		t.Fatal("closed")
	}
	d.press("<esc><esc><esc>exx")
	if d.evening != nil {
		t.Errorf("what it says does not help:\n%s", d.show())
	}
}

// TestClosingDays: D leaves the days that were set one by one.
func TestClosingDays(t *testing.T) {
	d := onBoard(t, "Ada 120", "Bo 172", "Cy 90").press("exd+14<enter>")
	d.press("D").says("next meeting of 2 students without one").press("+7<enter>")
	d.says("next meeting of 2 students without one: Wednesday 11 March 2026")
	if next := nexts(d); !slices.Equal(next, []string{"2026-03-18", "2026-03-11", "2026-03-11"}) {
		t.Error(next)
	}
	d.press("D").says("next meeting of everyone (3)").press("+21<enter>").says("everyone (3): Wednesday 25 March 2026")
	if next := nexts(d); !slices.Equal(next, []string{"2026-03-25", "2026-03-25", "2026-03-25"}) {
		t.Error(next)
	}
	d.press("D<enter>").says("next meeting of everyone (3): taken off")
}

// TestClosingEnterStays: what is pressed after enter records no ball.
func TestClosingEnterStays(t *testing.T) {
	d := onBoard(t, "Ada 120").press("ex<enter>").says("x closes the evening, esc goes back")
	if d.screen != screen(d.closing) || !d.status.refused {
		t.Error(d.show())
	}
}
