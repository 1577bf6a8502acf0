//go:build unix

package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"coach.settee/model"
)

const (
	// soakPace is the time from one delivery to the next.
	soakPace = 100 * time.Millisecond
	// soakGrowth is how many times what is written for a delivery in the first third the last third may take, and how many
	// times the memory of a program that is begun anew on the same evening.
	soakGrowth = 1.5
	// soakHeld is how many KiB of memory a delivery may hold for the rest of the evening, for the board and for taking it
	// back, with the collector's as much again: 3 were measured.
	soakHeld = 6
	// soakBehind is how many more deliveries may wait in the last third than in the first, in the median.
	soakBehind = 5
	// eightOnFourPairs begins an evening.
	eightOnFourPairs = "7 9 11 13<enter>Ada 120<enter>Bo 172<enter><enter>Cleo 195<enter>Dag<enter><enter>" +
		"Eve 150 l<enter>Fay 210<enter><enter>Gil 165<enter>Hob 180<enter><enter>"
)

// Eight students' deliveries come at ten a second, typed by a hand that waits for nothing, for half a minute, and with
// SETTEE_LONG=1 for ten (go test -timeout 20m). None is lost, the program holds no more memory than the evening needs, what is
// written for a delivery stays as it is, and so does how many were typed and are not shown as kept when the next one is. How
// long a call takes to its frame and to the disk decides nothing here: BenchmarkBoard and the store's BenchmarkRecord tell.
func TestSoak(t *testing.T) {
	deliveries := 300
	switch {
	case os.Getenv("SETTEE_LONG") == "1":
		deliveries = 6000
	case testing.Short():
		t.Skip("takes half a minute")
	}
	seed, _ := seedWanted(t)
	t.Logf("SETTEE_SEED=%d", seed)
	c, path := beginBoard(t, eightOnFourPairs, terminalOptions{})
	c.keeps(0)
	c.quit()
	h := newHand(t, onlyEvening(t, path), rand.New(rand.NewPCG(seed, 0)))
	c = openBoard(t, path, terminalOptions{})
	c.contains("resumed: ")

	begun, written := time.Now(), c.written()
	balls := make([]soaked, deliveries)
	for i := range balls {
		balls[i] = h.soak(c, &written)
		<-time.After(time.Until(begun.Add(time.Duration(i+1) * soakPace)))
	}
	took := time.Since(begun)
	h.settled(c)
	kept, _, _ := keptOn(c.screen())
	c.quit()
	h.certain = len(h.steps)
	found := h.finds(path)
	if kept != deliveries || len(found.Deliveries) != deliveries || len(found.Session.Roster) != 8 {
		t.Errorf("%d deliveries of 8 students were sent; the header counts %d, the file has %d of %d students",
			deliveries, kept, len(found.Deliveries), len(found.Session.Roster))
	}
	t.Logf("%d deliveries in %d games in %.1f s: %.2f a second", len(found.Deliveries), len(found.Games), took.Seconds(),
		float64(deliveries)/took.Seconds())
	balls = balls[len(balls)/10:] // the first tenth warms up
	first, last := balls[:len(balls)/3], balls[len(balls)-len(balls)/3:]
	figures := []struct {
		what string
		of   func(soaked) int
	}{
		{"deliveries not shown yet", func(b soaked) int { return b.behind }},
		{"KiB of memory", func(b soaked) int { return b.resident }},
	}
	for _, f := range figures {
		compare(t, f.what, first, last, f.of)
	}
	busy := func(third []soaked) int { return 1000 * (third[len(third)-1].busy - third[0].busy) / (len(third) - 1) }
	t.Logf("µs of the processor for a delivery: %d, then %d", busy(first), busy(last))
	before, then := compare(t, "bytes written for a delivery", first, last, func(b soaked) int { return b.written })
	if float64(then) > soakGrowth*float64(before) {
		t.Errorf("more is written for a delivery: %d bytes, %d before", then, before)
	}
	before, then = compare(t, "deliveries not shown as kept", first, last, func(b soaked) int { return b.unkept })
	if then > before+soakBehind {
		t.Errorf("%d deliveries are not shown as kept when the next one is typed, %d before", then, before)
	}
	anonymous := func(b soaked) int { return b.anonymous }
	before, then = compare(t, "KiB of memory, mapped files apart", first, last, anonymous)
	if most := before*5/4 + soakHeld*(len(balls)-len(last)); then > most {
		t.Errorf("%d KiB of memory are held, more than %d", then, most)
	}
	anew := median(begunAnew(t, path, found), anonymous)
	t.Logf("begun anew on this evening it holds %d KiB", anew)
	if float64(then) > soakGrowth*float64(anew) {
		t.Errorf("%d KiB of memory are held, where a program begun anew holds %d", then, anew)
	}
}

// begunAnew starts the program on an evening once more and types some deliveries.
func begunAnew(t *testing.T, path string, evening model.Kept) []soaked {
	t.Helper()
	h := newHand(t, evening, rand.New(rand.NewPCG(1, 1)))
	c := openBoard(t, path, terminalOptions{})
	c.contains("resumed: ")
	balls, written := make([]soaked, 40), c.written()
	for i := range balls {
		balls[i] = h.soak(c, &written)
		h.settled(c)
	}
	c.quit()
	return balls
}

// soaked is how things stood when a delivery was typed, and what the program had taken since the one before and by then; 0
// where the system does not tell.
type soaked struct {
	written             int
	behind, unkept      int // deliveries that were typed and are not shown, or not shown as kept
	resident, anonymous int // KiB
	busy                int // ms
}

// soak types one delivery for the next pair, waits for nothing, and tells how things stood. written is how much the program
// had written at the one before.
func (h *hand) soak(c *terminal, written *int) soaked {
	h.t.Helper()
	screen, count := c.screen(), h.now().deliveries
	h.see(screen)
	kept, waiting, _ := keptOn(screen)
	b := soaked{behind: count - kept - waiting, unkept: count - kept, written: c.written() - *written}
	*written += b.written
	b.resident, b.anonymous, b.busy = taken(c.cmd.Process.Pid)
	keys := strings.Join(append(h.press("space"), h.delivery()...), "")
	if h.now().deliveries != count+1 {
		h.t.Fatalf("the keys %q are not of one delivery", keys)
	}
	c.send(keys)
	return b
}

// written is how many bytes the program has written.
func (c *terminal) written() int {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.log.Len()
}

var memoryTaken = regexp.MustCompile(`(?m)^(VmRSS|RssAnon):\s*(\d+) kB$`)

// taken gives the memory that a process holds, and the time that it has had of the processors, as Linux tells them.
func taken(pid int) (resident, anonymous, busy int) {
	status, _ := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid)) // nothing elsewhere
	for _, found := range memoryTaken.FindAllSubmatch(status, -1) {
		kib, _ := strconv.Atoi(string(found[2])) // only digits
		if string(found[1]) == "VmRSS" {
			resident = kib
		} else {
			anonymous = kib
		}
	}
	stat, _ := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
	if fields := bytes.Fields(stat[bytes.LastIndexByte(stat, ')')+1:]); len(fields) > 12 {
		for _, field := range fields[11:13] { // user and system time in hundredths
			ticks, _ := strconv.Atoi(string(field))
			busy += 10 * ticks
		}
	}
	return resident, anonymous, busy
}

// compare tells the medians of two thirds and gives them.
func compare(t *testing.T, what string, first, last []soaked, of func(soaked) int) (before, then int) {
	t.Helper()
	before, then = median(first, of), median(last, of)
	t.Logf("%s: %d, then %d, ratio %.2f", what, before, then, float64(then)/float64(max(1, before)))
	return before, then
}

func median(balls []soaked, of func(soaked) int) int {
	all := make([]int, len(balls))
	for i, b := range balls {
		all[i] = of(b)
	}
	slices.Sort(all)
	return all[len(all)/2]
}
