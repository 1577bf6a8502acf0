//go:build unix

package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"coach.settee/model"
)

// killsAStore is how often the program is killed on one store before the next evening begins on a new one.
const killsAStore = 20

// The program is killed at random moments of an evening that goes on each time in the same store: after the hand's last
// key was read, at the first frame that shows a call, in the midst of a burst, with a disk that takes nothing. The file is whole each time and holds the
// evening as it was after one of the keys, none of what the screen had shown as kept missing, and not half a key's doing.
//
// SETTEE_LONG=1 kills two hundred times. SETTEE_SEED=n presses the keys of one store again: what was kept of them, and so
// what comes next, may differ with the moment of the kill.
func TestKilledWhileTyping(t *testing.T) {
	stores, kills := 1, killsAStore
	switch {
	case os.Getenv("SETTEE_LONG") == "1":
		stores = 10
	case testing.Short():
		kills = 5
	}
	for range stores {
		seed, named := seedWanted(t)
		t.Run(fmt.Sprint("SETTEE_SEED=", seed), func(t *testing.T) { killAndGoOn(t, seed, kills) })
		if named {
			return
		}
	}
}

// way is how a hand types before the program is killed.
type way struct {
	name string
	to   func(c *terminal, h *hand)
}

// toDisk is the way in which the disk takes nothing of what is typed, where the system can have it so: what is called kept
// before the disk has it is then found out for certain, and else only where the kill comes between the two.
var toDisk *way

// toDiskEach says which of the kills come in that way: every so many-th.
const toDiskEach = 4

var ways = []way{
	{"call by call", func(c *terminal, h *hand) {
		for range h.random.IntN(16) {
			c.sendApart(strings.Join(h.anything(), ""))
			if h.sometimes(3) {
				h.settled(c)
			}
			h.see(c.screen())
		}
		pause(h.random, 4*time.Millisecond)
	}},
	{"keys in pieces", func(c *terminal, h *hand) {
		keys := h.burst(20)
		for piece := range slices.Chunk(keys[:h.random.IntN(len(keys)+1)], 1+h.random.IntN(4)) {
			c.sendApart(strings.Join(piece, ""))
			h.see(c.screen())
		}
		pause(h.random, 4*time.Millisecond)
	}},
	{"a burst", func(c *terminal, h *hand) {
		sendAndPause(c, h, h.burst(40), 40*time.Millisecond)
	}},
	{"more than the journal holds", func(c *terminal, h *hand) {
		sendAndPause(c, h, h.burst(400), 400*time.Millisecond)
	}},
	{"up to the first frame of a call", func(c *terminal, h *hand) {
		for range h.random.IntN(6) {
			c.sendApart(strings.Join(h.anything(), ""))
		}
		h.settled(c)
		sendAndSee(c, h.delivery())
	}},
}

// burst gives the keys of up to so many calls.
func (h *hand) burst(most int) []string {
	var keys []string
	for range 1 + h.random.IntN(most) {
		keys = append(keys, h.anything()...)
	}
	return keys
}

// sendAndPause sends keys in one piece and waits for a time, often from when something has come of them.
func sendAndPause(c *terminal, h *hand, keys []string, most time.Duration) {
	if h.sometimes(4) {
		c.send(strings.Join(keys, ""))
	} else {
		sendAndSee(c, keys)
	}
	pause(h.random, most)
}

// sendAndSee sends keys in one piece and waits for the first frame that they make.
func sendAndSee(c *terminal, keys []string) {
	before := c.screen()
	c.send(strings.Join(keys, ""))
	c.until("another screen", func(screen string) bool { return screen != before })
}

// pause waits up to most: the only use of time here, it decides when the program is killed and never what has to be found.
func pause(random *rand.Rand, most time.Duration) {
	<-time.After(time.Duration(random.Int64N(int64(most))))
}

func killAndGoOn(t *testing.T, seed uint64, kills int) {
	c, path := beginBoard(t, fourOnTwoPairs, terminalOptions{})
	c.keeps(0)
	kill(c)
	evening := onlyEvening(t, path)
	var names []string
	for _, seat := range evening.Session.Roster {
		i := slices.IndexFunc(evening.Students, func(s model.Student) bool { return s.ID == seat.Student })
		names = append(names, fmt.Sprint(evening.Students[i].Name, " ", seat.Lane))
	}
	if got, want := strings.Join(names, ", "), "Ada 7, Bo 8, Cleo 9, Dag 10"; got != want {
		t.Fatalf("seated are %s, shown as kept were %s", got, want)
	}
	typed, shown, more := 0, 0, 0
	for n := 1; n < kills; n++ {
		h := newHand(t, evening, rand.New(rand.NewPCG(seed, uint64(n))))
		c := openBoard(t, path, terminalOptions{})
		// A write that the kill has cut short is told instead.
		c.until("resumed", func(screen string) bool {
			return strings.Contains(screen, "resumed: ") || strings.Contains(screen, lastUnread)
		})
		h.see(c.screen())
		way := ways[h.random.IntN(len(ways))]
		if toDisk != nil && n%toDiskEach == 0 {
			way = *toDisk
		}
		way.to(c, h)
		kill(c)
		h.see(lastFrame(c.raw()))
		evening = h.finds(path)
		t.Logf("kill %d, %s: %d steps typed, %d shown as kept; %d deliveries shown, %d in the file",
			n+1, way.name, len(h.steps), h.certain, h.moments[h.certain].deliveries, len(evening.Deliveries))
		typed, shown, more = typed+len(h.steps), shown+h.certain, more+len(evening.Deliveries)-h.moments[h.certain].deliveries
	}
	t.Logf("%d kills: %d steps typed, %d of them shown as kept, none of these lost; %d deliveries in the file at the end, "+
		"%d in all beyond those shown", kills, typed, shown, len(evening.Deliveries), more)
}

// kill ends the program as a flat battery would end it, and nothing else may have.
func kill(c *terminal) {
	c.t.Helper()
	c.signal(syscall.SIGKILL)
	if code := c.wait(); code != -1 {
		c.t.Fatalf("it ended by itself, with %d; the screen is\n%s", code, c.screen())
	}
}

// lastFrame is what the last whole frame of output left on a window of 80 by 24.
func lastFrame(raw string) string {
	return lastBoard(raw[:strings.LastIndex(raw, frameEnds)+len(frameEnds)])
}
