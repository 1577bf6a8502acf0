//go:build unix

package main

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/google/go-cmp/cmp"
)

// The window changes its size at any moment while keys come: none is lost, and the board is drawn as on a clear screen.
func TestResizingWhileKeysCome(t *testing.T) {
	const n = 60
	keys := calls(n)
	want := madeBy(t, keys, n)
	c, store := beginBoard(t, fourOnTwoPairs, terminalOptions{env: []string{"NO_COLOR=1"}})
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	for _, key := range keysOf(keys) {
		c.resize(60+random.IntN(141), 16+random.IntN(45))
		c.send(key)
	}
	c.keeps(n)
	for _, size := range [][2]int{{60, 16}, {200, 60}, {100, 30}, {160, 50}, {80, 24}} {
		c.resize(size[0], size[1])
		c.until(fmt.Sprintf("a board of %dx%d", size[0], size[1]), func(screen string) bool {
			lines := strings.Split(screen, "\n")
			return len([]rune(lines[0])) == size[0] && strings.HasSuffix(lines[0], " kept 60") &&
				strings.HasSuffix(lines[size[1]-1], "? keys")
		})
		drawn := c.screen()
		c.drawAnew()
		if diff := cmp.Diff(drawn, c.screen()); diff != "" {
			t.Errorf("at %dx%d the board was not as drawn anew: %s", size[0], size[1], diff)
		}
	}
	c.quit()
	if diff := cmp.Diff(want, bowled(t, store)); diff != "" {
		t.Error(diff)
	}
}

// drawAnew has a board without colours drawn on a clear screen and waits until its last line is there.
func (c *terminal) drawAnew() {
	c.t.Helper()
	const clear = "\x1b[2J"
	before := strings.Count(c.raw(), clear)
	c.press("<ctrl+l>")
	c.until("the board drawn anew", func(string) bool {
		raw := c.raw()
		return strings.Count(raw, clear) > before && strings.Contains(ansi.Strip(raw[strings.LastIndex(raw, clear):]), "? keys")
	})
}

func TestAWindowThatIsTooSmallSaysSoAndTakesNoCall(t *testing.T) {
	c, store := beginBoard(t, twoOnAPair, terminalOptions{})
	c.press("bN")
	c.contains("note for Ada")
	c.press("late")
	c.contains("late│")
	for _, size := range [][2]int{{59, 16}, {60, 15}, {20, 5}} {
		c.resize(size[0], size[1])
		c.says("Settee needs a window of 60x16.")
		for _, key := range []string{"x", "7", "<enter>", "<bs>", "Z"} {
			c.press(key)
			c.says("the window is too small")
			c.press("<ctrl+l>")
			c.until("nothing said of keys", func(screen string) bool { return !strings.Contains(inOneLine(screen), "too small") })
		}
	}
	c.resize(60, 16)
	c.contains("late│")
	c.press("<enter>x")
	c.keeps(1)
	c.quit()
	if diff := cmp.Diff([]string{"Ada 1.1 lane 7 10 BAAA late"}, bowled(t, store)); diff != "" {
		t.Error(diff)
	}
}

// says waits for words on the screen, which may be in several lines.
func (c *terminal) says(words string) {
	c.t.Helper()
	c.until(fmt.Sprintf("%q", words), func(screen string) bool { return strings.Contains(inOneLine(screen), words) })
}

func inOneLine(screen string) string { return strings.Join(strings.Fields(screen), " ") }
