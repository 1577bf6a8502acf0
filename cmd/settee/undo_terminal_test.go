//go:build unix

package main

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Taking back goes across students, pairs and a restart to the start of the evening, one action a key; U brings all of
// it back as it was, until something else is recorded.
func TestTakingBackAcrossStudentsAndARestart(t *testing.T) {
	c, store := beginBoard(t, fourOnTwoPairs, terminalOptions{})
	c.press("b0<enter>x" + "x" + "<space>" + "t7<enter>-<enter>" + "z=8" + "Cslow feet<enter>" + "=1" + "W" + ",Ob+<enter><enter>")
	c.keeps(7)
	c.quit()
	whole := keptIn(t, store)

	const actions = 4 + 7 + 3 // the students, the deliveries, then cue, lane and own call
	c = openBoard(t, store, terminalOptions{})
	c.contains("resumed: ")
	c.press(strings.Repeat("<bs>", actions))
	c.contains("taken back: Ada added on 7/8")
	c.press("<bs>")
	c.contains("nothing to take back: this is the start of the evening")
	c.keeps(0)
	c.press(strings.Repeat("U", actions))
	c.contains("done again: Dag, game 1, frame 1 changed")
	c.press("U")
	c.contains("nothing to do again")
	c.keeps(7)
	c.quit()
	if diff := cmp.Diff(whole, keptIn(t, store)); diff != "" {
		t.Errorf("taken back and done again it is another evening: %s", diff)
	}

	c = openBoard(t, store, terminalOptions{})
	c.contains("resumed: ")
	c.press(strings.Repeat("<bs>", actions))
	c.keeps(0)
	c.quit()
	if got := keptIn(t, store); len(got) > 0 {
		t.Errorf("taken back to the start of the evening, these are left: %v", got)
	}
}
