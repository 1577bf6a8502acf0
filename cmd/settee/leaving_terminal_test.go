//go:build unix

package main

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/charmbracelet/x/vt"
	"github.com/google/go-cmp/cmp"

	"coach.settee/store"
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

// Killed at any moment: what the board had shown as kept is in the file, in order, and the file is whole. SETTEE_KILLS
// says how often.
func TestKilledAtAnyMoment(t *testing.T) {
	times, err := strconv.Atoi(os.Getenv("SETTEE_KILLS"))
	switch {
	case err == nil:
	case testing.Short():
		times = 5
	default:
		times = 20
	}
	const n = 120
	keys := keysOf(calls(n))
	want := madeBy(t, strings.Join(keys, ""), n)
	seated := seatedStore(t)
	for range times {
		seed := rand.Uint64()
		path := filepath.Join(t.TempDir(), "evening.db")
		if err := os.WriteFile(path, seated, 0o600); err != nil {
			t.Fatal(err)
		}
		shown := killed(t, path, keys, rand.New(rand.NewPCG(seed, 0)))
		if err := store.Check(path); err != nil {
			t.Error(err)
		}
		kept := bowled(t, path)
		beginsWith(t, want, kept, shown)
		t.Logf("seed %d: killed with %d shown as kept, %d in the file", seed, shown, len(kept))
	}
}

// seatedStore gives a store in which four students wait for their first ball.
func seatedStore(t *testing.T) []byte {
	t.Helper()
	c, path := beginBoard(t, fourOnTwoPairs, terminalOptions{})
	c.quit()
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return file
}

// killed presses keys on the board of a store, kills the program at a random moment while it takes them, and gives how
// many deliveries it had shown as kept.
func killed(t *testing.T, path string, keys []string, random *rand.Rand) int {
	t.Helper()
	c := openBoard(t, path, terminalOptions{})
	c.contains("resumed: ")
	for piece := range slices.Chunk(keys[:random.IntN(len(keys)+1)], 1+random.IntN(4)) {
		c.sendApart(strings.Join(piece, ""))
	}
	<-time.After(time.Duration(random.IntN(5000)) * time.Microsecond)
	c.signal(syscall.SIGKILL)
	c.wait()
	kept, _, ok := keptOn(c.screen())
	if !ok {
		t.Fatalf("the board has no count:\n%s", c.screen())
	}
	return kept
}
