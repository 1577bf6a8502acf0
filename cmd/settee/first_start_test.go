//go:build unix

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// From nothing, in the directory of a new user, to the first delivery that is kept.
func TestFirstStart(t *testing.T) {
	home := t.TempDir()
	o := terminalOptions{env: []string{"XDG_DATA_HOME=" + home}}
	c := startTerminal(t, o)
	c.contains("lanes tonight")
	noQueries(t, c.raw())
	first := keysOf(twoOnAPair + "x")
	if len(first) > 40 {
		t.Errorf("the first delivery takes %d keys, more than 40", len(first))
	}
	c.send(strings.Join(first, ""))
	c.keeps(1)
	t.Logf("%d keys to the first delivery", len(first))

	store := filepath.Join(home, "settee", "settee.db")
	info, err := os.Stat(store)
	if err != nil {
		t.Fatal(err)
	}
	if info.Mode().Perm() != 0o600 {
		t.Errorf("others may read the store: %v", info.Mode())
	}
	c.contains("racks left")
	left := body(c.screen())
	c.quit()

	c = startTerminal(t, o)
	c.contains("resumed: ")
	c.showsBody(left)
	c.press("exx")
	c.contains("close anyway?")
	c.press("y")
	c.until("the closing is kept, and what follows is done", func(screen string) bool {
		return strings.Contains(screen, "No evening is on the board.") && strings.Contains(screen, "the pages to take home: ")
	})
	c.press("q") // nothing is asked where no evening is open
	if code := c.wait(); code != exitDone {
		t.Errorf("it ended with %d", code)
	}
	c.sane()
	if diff := cmp.Diff([]string{"Ada 1.1 lane 7 10 AAAA"}, bowled(t, store)); diff != "" {
		t.Error(diff)
	}
	if sessions := objects(t, store, "session"); len(sessions) != 1 || sessions[0]["closed"] == nil {
		t.Errorf("the evening was not closed: %v", sessions)
	}
}

// A store that is gone while copies of it are there is told of, and once there is a store again it is not.
func TestANewStoreBesideCopies(t *testing.T) {
	home := t.TempDir()
	copies := filepath.Join(home, "settee", "settee-backups")
	if err := os.MkdirAll(copies, 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(copies, "settee-20260304-190000Z.db"), []byte("a copy"), 0o600); err != nil {
		t.Fatal(err)
	}
	o := terminalOptions{env: []string{"XDG_DATA_HOME=" + home}, cols: 160, rows: 50}
	c := startTerminal(t, o)
	c.contains("lanes tonight")
	c.contains("a new store was begun; copies of an earlier one are in " + copies)
	c.contains("settee restore")
	leave := func() {
		c.press("<esc>")
		c.contains("dropped")
		c.quit()
	}
	leave()
	c = startTerminal(t, o)
	c.contains("lanes tonight")
	if strings.Contains(c.screen(), "a new store was begun") {
		t.Errorf("it is said again:\n%s", c.screen())
	}
	leave()
}

// Everything of the board is there again but a call that was begun, which is nobody's delivery yet.
func TestARestartShowsTheBoardAsItWas(t *testing.T) {
	o := terminalOptions{cols: 100, rows: 30}
	c, store := beginBoard(t, fourOnTwoPairs, o)
	c.press("b70<enter>x")                             // Ada, a split made
	c.press("zx")                                      // Bo, unseen
	c.press("<space>=7-<enter>Cslow feet<enter>")      // Cleo, an open frame; a cue for Dag
	c.press("<space>VGw<enter>arm sore<enter><enter>") // Ada is out, Bo stops the game and warms up
	c.press("<space><tab>")
	c.keeps(6)
	c.contains("▶ Ada")
	c.contains("racks left")
	left := body(c.screen())
	c.press("bb")
	c.until("the call begun", func(screen string) bool { return body(screen) != left })
	c.quit()
	c = openBoard(t, store, o)
	c.contains("resumed: ")
	c.showsBody(left)
	c.quit()
}
