//go:build unix

package main

import (
	"cmp"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

// namedKeys are what a terminal sends for keys that are no characters.
var namedKeys = map[string]string{
	"enter": "\r", "esc": "\x1b", "tab": "\t", "shift+tab": "\x1b[Z", "space": " ", "bs": "\x7f",
	"up": "\x1b[A", "down": "\x1b[B", "right": "\x1b[C", "left": "\x1b[D", "ctrl+c": "\x03", "ctrl+l": "\x0c",
}

var keyWords = regexp.MustCompile(`<[a-z+]+>|(?s:.)`)

// keysOf gives what the terminal sends for each key of a text, in which keys that are no characters are named: bb7<enter>.
func keysOf(text string) []string {
	keys := keyWords.FindAllString(text, -1)
	for i, key := range keys {
		if sent, ok := namedKeys[strings.Trim(key, "<>")]; ok && len(key) > 1 {
			keys[i] = sent
		}
	}
	return keys
}

// press sends keys in one piece.
func (c *terminal) press(text string) {
	c.t.Helper()
	c.send(strings.Join(keysOf(text), ""))
}

// begunByHand matches keys that end in what a hand may have typed too, and the program waits for no longer than a hand
// would be noticed to wait.
var begunByHand = regexp.MustCompile(`\x1b(\[|O|\]\d*)?$`)

// sendApart writes each piece once the program has read the one before, so that each is a read of its own. Where that
// would make the test's own haste decide, the next piece follows at once.
func (c *terminal) sendApart(pieces ...string) {
	c.t.Helper()
	program, err := os.OpenFile(c.tty, os.O_RDONLY|unix.O_NOCTTY, 0)
	if err != nil {
		c.t.Fatal(err)
	}
	defer program.Close()
	sent := ""
	for _, piece := range pieces {
		c.send(piece)
		if sent += piece; begunByHand.MatchString(sent) {
			continue
		}
		for late := time.Now().Add(patience); unread(int(program.Fd())); runtime.Gosched() {
			if time.Now().After(late) {
				c.t.Fatalf("waited %v for %q to be read; the screen is\n%s", patience, piece, c.screen())
			}
		}
	}
}

// unread tells whether a file has something to be read, now.
func unread(fd int) bool {
	var files unix.FdSet
	files.Set(fd)
	n, err := unix.Select(fd+1, &files, nil, nil, &unix.Timeval{})
	return err != nil || n > 0
}

// Keys that begin an evening.
const (
	twoOnAPair     = "7<enter>Ada 120<enter>Bo 172<enter><enter>"
	fourOnTwoPairs = "7 9<enter>Ada 120<enter>Bo 172<enter><enter>Cleo 195<enter>Dag<enter><enter>"
)

// openBoard starts the board on a store.
func openBoard(t testing.TB, store string, o terminalOptions) *terminal {
	t.Helper()
	o.args = append([]string{"--store", store}, o.args...)
	return startTerminal(t, o)
}

// beginBoard starts the board on a store that is not there yet and begins an evening by keys.
func beginBoard(t testing.TB, keys string, o terminalOptions) (c *terminal, store string) {
	t.Helper()
	store = filepath.Join(t.TempDir(), "evening.db")
	c = openBoard(t, store, o)
	c.contains("lanes tonight")
	c.press(keys)
	c.contains("Settee  Board")
	return c, store
}

// quit leaves the board by keys and checks how the program ends.
func (c *terminal) quit() {
	c.t.Helper()
	c.press("qq")
	if code := c.wait(); code != exitDone {
		c.t.Errorf("it ended with %d, not %d; the screen is\n%s", code, exitDone, c.screen())
	}
	c.sane()
}

var keptWords = regexp.MustCompile(`(?m) kept (\d+)(?: \+(\d+))?$`)

// keptOn gives what the header says: the deliveries that are kept, and the steps that are not yet.
func keptOn(screen string) (kept, waiting int, ok bool) {
	found := keptWords.FindStringSubmatch(screen)
	if found == nil {
		return 0, 0, false
	}
	kept, _ = strconv.Atoi(found[1])
	waiting, _ = strconv.Atoi(found[2]) // "" is none
	return kept, waiting, true
}

// keeps waits until so many deliveries are kept and nothing is on its way.
func (c *terminal) keeps(n int) {
	c.t.Helper()
	c.until(fmt.Sprintf("kept %d", n), func(screen string) bool {
		kept, waiting, ok := keptOn(screen)
		return ok && kept == n && waiting == 0
	})
}

// body is the screen without its last two lines, which say what was just done.
func body(screen string) string {
	lines := strings.Split(strings.TrimSuffix(screen, "\n"), "\n")
	return strings.Join(lines[:max(len(lines)-2, 0)], "\n")
}

// showsBody waits until the screen has this body.
func (c *terminal) showsBody(want string) {
	c.t.Helper()
	c.until("the screen as it was:\n"+want+"\n", func(screen string) bool { return body(screen) == want })
}

// exportedBall is a delivery of an export, with its student's name.
type exportedBall struct {
	ID, Game, Student, Side, Hit, Own, Cue, Note string
	Seq, Lane, Frame, Ball                       int
	Letters                                      []string
	Touched, Seen, Dead, Foul                    bool
	Standing                                     *[]int
	Pins                                         *int
}

// String says a ball in a few words: who, frame and ball, lane, pins, letters and what else there is.
func (b exportedBall) String() string {
	words := []string{b.Student, fmt.Sprintf("%d.%d", b.Frame, b.Ball), fmt.Sprint("lane ", b.Lane)}
	switch {
	case b.Dead:
		words = append(words, "dead")
	case b.Foul:
		words = append(words, "foul")
	case b.Pins != nil:
		words = append(words, strconv.Itoa(*b.Pins))
	default:
		words = append(words, "?")
	}
	if b.Seen {
		words = append(words, strings.Join(b.Letters, ""))
	} else if !b.Dead {
		words = append(words, "unseen")
	}
	for _, word := range []string{b.Side, b.Hit, b.Own, b.Cue, b.Note} {
		if word != "" {
			words = append(words, word)
		}
	}
	return strings.Join(words, " ")
}

// bowled gives a store's deliveries in the order in which they were recorded, read through the export.
func bowled(t testing.TB, store string) []string {
	t.Helper()
	names, games := map[string]string{}, map[string]string{}
	var balls []exportedBall
	for _, line := range exportLines(t, store) {
		var kind struct{ Type, ID, Name, Student string }
		decode(t, line, &kind)
		switch kind.Type {
		case "student":
			names[kind.ID] = kind.Name
		case "game":
			games[kind.ID] = names[kind.Student]
		case "delivery":
			var b exportedBall
			decode(t, line, &b)
			b.Student = games[b.Game]
			balls = append(balls, b)
		}
	}
	slices.SortStableFunc(balls, func(a, b exportedBall) int { return cmp.Compare(serialOf(a.ID), serialOf(b.ID)) })
	said := make([]string, len(balls))
	for i, b := range balls {
		said[i] = b.String()
	}
	return said
}

// serialOf gives the number at the end of an id, by which a session counts its games and deliveries.
func serialOf(id string) int {
	n, _ := strconv.Atoi(id[strings.LastIndexByte(id, '-')+1:])
	return n
}

func decode(t testing.TB, line string, into any) {
	t.Helper()
	if err := json.Unmarshal([]byte(line), into); err != nil {
		t.Fatalf("%s: %v", line, err)
	}
}

// objects gives the export's objects of a type, each field by its name.
func objects(t testing.TB, store, kind string) []map[string]any {
	t.Helper()
	var all []map[string]any
	for _, line := range exportLines(t, store) {
		var o map[string]any
		if decode(t, line, &o); o["type"] == kind {
			all = append(all, o)
		}
	}
	return all
}

// inks gives the colours on the screen, each once.
func (c *terminal) inks() []string {
	c.mu.Lock()
	defer c.mu.Unlock()
	var inks []string
	for y := range c.screens.Height() {
		for x := range c.screens.Width() {
			cell := c.screens.CellAt(x, y)
			if cell == nil || cell.Style.Fg == nil && cell.Style.Bg == nil {
				continue
			}
			if ink := fmt.Sprintf("%v on %v", cell.Style.Fg, cell.Style.Bg); !slices.Contains(inks, ink) {
				inks = append(inks, ink)
			}
		}
	}
	slices.Sort(inks)
	return inks
}
