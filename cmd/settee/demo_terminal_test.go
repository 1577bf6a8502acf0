//go:build unix

package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"github.com/google/go-cmp/cmp"

	"coach.settee/model"
	"coach.settee/store"
)

// However the demo ends, nothing of it is left.
func TestDemoLeavesNothing(t *testing.T) {
	ends := []struct {
		name string
		end  func(c *terminal)
		code int
	}{
		{"left with q", func(c *terminal) {
			c.send("q")
			c.contains("leave?")
			c.send("q")
		}, exitDone},
		{"asked to end", func(c *terminal) { c.signal(syscall.SIGTERM) }, exitDone},
		{"window closed", (*terminal).hangUp, exitDone},
	}
	for _, end := range ends {
		t.Run(end.name, func(t *testing.T) {
			home := t.TempDir()
			c := startTerminal(t, terminalOptions{args: []string{"demo"}, env: []string{"TMPDIR=" + home, "XDG_DATA_HOME=" + home}})
			for _, seat := range bowlersOf(1) {
				c.contains(strings.Fields(seat.Name)[0])
			}
			end.end(c)
			if code := c.wait(); code != end.code && end.name != "window closed" {
				t.Errorf("it ended with %d, not %d", code, end.code)
			}
			left, err := os.ReadDir(home)
			if err != nil {
				t.Fatal(err)
			}
			if len(left) > 0 {
				t.Errorf("%v is left", left)
			}
		})
	}
}

// A whole evening of keys typed into the built program is in its export.
func TestKeyScriptOnATerminal(t *testing.T) {
	if testing.Short() {
		t.Skip("an evening of keys is pressed on the board without a terminal too")
	}
	lines, _, evening := keyScript(t)
	path := filepath.Join(t.TempDir(), "evening.db")
	_, calls := opening(t, evening)
	keepAll(t, path, evening[:len(evening)-len(calls)])
	c := startTerminal(t, terminalOptions{args: []string{"--store", path}})
	c.contains("Quillbrook Lanes")
	kept := 0
	for _, l := range lines {
		typeLine(c, l)
		if l.said != nil && l.said[0] == "Z" {
			kept += 2
		}
		if len(l.call) > 0 {
			kept++
		}
		c.contains(fmt.Sprintf("kept %d\n", kept))
	}
	c.send("qq")
	if code := c.wait(); code != exitDone {
		t.Errorf("it ended with %d", code)
	}
	c.sane()
	want := filepath.Join(t.TempDir(), "invented.db")
	keepAll(t, want, evening)
	if diff := cmp.Diff(bowledIn(exportLines(t, want)), bowledIn(exportLines(t, path))); diff != "" {
		t.Error(diff)
	}
}

// keepAll makes a store of steps.
func keepAll(t *testing.T, path string, steps []model.Step) {
	t.Helper()
	s, err := store.Open(path, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(s.Keep(steps...), s.Close()); err != nil {
		t.Fatal(err)
	}
}

var when = regexp.MustCompile(`"at":"[^"]*",`)

// bowledIn gives an export's games and deliveries, but for when they were called.
func bowledIn(lines []string) []string {
	var bowled []string
	for _, l := range lines {
		if strings.HasPrefix(l, `{"type":"game"`) || strings.HasPrefix(l, `{"type":"delivery"`) {
			bowled = append(bowled, when.ReplaceAllString(l, ""))
		}
	}
	return bowled
}

// typeLine types a line of the script; what is typed after a key that asks for it waits for the prompt.
func typeLine(c *terminal, l keyLine) {
	bytes := map[string]string{"enter": "\r", "tab": "\t", "shift+tab": "\x1b[Z", "space": " "}
	for _, key := range slices.Concat(l.up, l.said, l.call) {
		if text, err := strconv.Unquote(key); err == nil {
			c.until("a prompt", prompting)
			c.send(text + "\r")
			c.until("the prompt gone", func(screen string) bool { return !prompting(screen) })
			continue
		}
		if key == "esc" {
			// A key right after it would be read as one with alt.
			c.send("\x1b")
			c.contains("Settee  Board")
			continue
		}
		if special, ok := bytes[key]; ok {
			key = special
		}
		c.send(key)
	}
}

// prompting tells whether a line of text is being asked for: its cursor is the last thing of the last row.
func prompting(screen string) bool { return strings.HasSuffix(screen, "│\n") }
