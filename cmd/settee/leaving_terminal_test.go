//go:build unix

package main

import (
	"strings"
	"syscall"
	"testing"

	"github.com/charmbracelet/x/vt"
	"github.com/google/go-cmp/cmp"
)

// calls are keys that make so many deliveries of four students on two pairs, no two in a row alike.
func calls(n int) string {
	kinds := []string{"x", "bx", "zx", "ix", "D", "fx", "ox", "x<space>"}
	var keys strings.Builder
	for i := range n {
		keys.WriteString(kinds[(i*i+i/3)%len(kinds)])
	}
	return keys.String()
}

// madeBy gives the deliveries that keys make on the board of fourOnTwoPairs, where nothing disturbs.
func madeBy(t *testing.T, keys string, n int) []string {
	t.Helper()
	c, store := beginBoard(t, fourOnTwoPairs, terminalOptions{})
	c.press(keys)
	c.keeps(n)
	c.quit()
	return bowled(t, store)
}

// However the board is left at once after the last key, the terminal is put back and what was shown is kept.
func TestLeavingAtOnce(t *testing.T) {
	const n = 40
	keys := calls(n)
	want := madeBy(t, keys, n)
	for _, end := range []struct {
		name string
		end  func(c *terminal)
		all  bool // every key comes before the end
		gone bool // there is no terminal left to be put back
	}{
		{"q", func(c *terminal) { c.press(keys + "qq") }, true, false},
		{"ctrl+c", func(c *terminal) { c.press(keys + "<ctrl+c><ctrl+c>") }, true, false},
		{"the menu", func(c *terminal) { c.press(keys + "<esc>qq") }, true, false},
		{"ctrl+c while a line is typed", func(c *terminal) { c.press(keys + "Nlate<ctrl+c><ctrl+c>") }, true, false},
		{"SIGTERM", func(c *terminal) { c.press(keys); c.signal(syscall.SIGTERM) }, false, false},
		{"SIGHUP", func(c *terminal) { c.press(keys); c.signal(syscall.SIGHUP) }, false, false},
		{"SIGINT", func(c *terminal) { c.press(keys); c.signal(syscall.SIGINT) }, false, false},
		{"a closed terminal", func(c *terminal) { c.press(keys); c.hangUp() }, false, true},
		{"a closed terminal, once all is kept", func(c *terminal) { c.press(keys); c.keeps(n); c.hangUp() }, true, true},
	} {
		t.Run(end.name, func(t *testing.T) {
			c, store := beginBoard(t, fourOnTwoPairs, terminalOptions{})
			c.keeps(0)
			end.end(c)
			if code := c.wait(); code != exitDone && !end.gone {
				t.Errorf("it ended with %d", code)
			}
			if !end.gone {
				c.sane()
			}
			shown := n
			if !end.all {
				kept, waiting, ok := keptOn(lastBoard(c.raw()))
				if !ok {
					t.Fatalf("the last board has no count:\n%s", lastBoard(c.raw()))
				}
				shown = kept + waiting
			}
			beginsWith(t, want, bowled(t, store), shown)
		})
	}
}

// beginsWith checks that what is kept is how the evening went up to some point, and not before what was shown.
func beginsWith(t *testing.T, evening, kept []string, shown int) {
	t.Helper()
	if len(kept) < shown || len(kept) > len(evening) {
		t.Errorf("%d deliveries are kept, where %d were shown", len(kept), shown)
		return
	}
	if diff := cmp.Diff(evening[:len(kept)], kept); diff != "" {
		t.Error(diff)
	}
}

// lastBoard is what output left on a window of 80 by 24 before the board was taken off it.
func lastBoard(raw string) string {
	if end := strings.LastIndex(raw, "\x1b[?1049l"); end >= 0 {
		raw = raw[:end]
	}
	drawn := &terminal{screens: vt.NewEmulator(80, 24)}
	_, _ = drawn.screens.WriteString(raw) // draws what it knows
	return drawn.rows()
}
