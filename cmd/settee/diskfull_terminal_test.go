//go:build linux

package main

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"golang.org/x/sys/unix"

	"coach.settee/store"
)

// fileLimit lets the program's files grow to so many bytes and no further, as on a disk that is full.
func (c *terminal) fileLimit(bytes uint64) {
	c.t.Helper()
	limit := unix.Rlimit{Cur: bytes, Max: unix.RLIM_INFINITY}
	if err := unix.Prlimit(c.cmd.Process.Pid, unix.RLIMIT_FSIZE, &limit, nil); err != nil {
		c.t.Fatal(err)
	}
}

// leastFile has room for some lines, and lies before everything that a store writes.
const leastFile = 8 << 10

// On a disk that takes nothing more the board goes on and says so; K writes what is not kept elsewhere, as lines that
// import reads, and what is held is kept as usual once there is room.
func TestADiskThatIsFull(t *testing.T) {
	c, path := beginBoard(t, fourOnTwoPairs, terminalOptions{})
	c.press("xbx")
	c.keeps(2)
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	c.fileLimit(leastFile)
	c.press("xixx")
	c.contains("NOT KEPT, settee tries again, K keeps it elsewhere: file too large")
	c.contains("kept 2 +3")
	c.press("fx")
	c.contains("kept 2 +4")
	c.press("q")
	c.contains("4 steps not kept yet: K keeps it elsewhere first")
	c.press("K")
	c.contains("write what is not kept to the file")
	aside := filepath.Join(t.TempDir(), "aside.jsonl")
	c.press("\x15" + aside + "<enter>")
	c.contains("a copy is elsewhere")
	if info, err := os.Stat(aside); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the file is %v, %v", info, err)
	}
	written, err := os.ReadFile(aside)
	if err != nil {
		t.Fatal(err)
	}

	// Over a file that is there nothing is written.
	c.press("x")
	c.contains("kept 2 +5")
	c.press("K\x15" + aside + "<enter>")
	c.contains("not written:")
	if again, err := os.ReadFile(aside); err != nil || string(again) != string(written) {
		t.Errorf("the file has changed, %v", err)
	}

	c.fileLimit(unix.RLIM_INFINITY)
	c.keeps(7)
	c.until("the banner is gone", func(screen string) bool { return !strings.Contains(screen, "NOT KEPT") })
	c.quit()
	all := bowled(t, path)
	if len(all) != 7 {
		t.Fatalf("kept are %q", all)
	}

	other := filepath.Join(t.TempDir(), "as it was.db")
	if err := os.WriteFile(other, before, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, into := range []struct {
		path string
		want []string
	}{{other, all[:6]}, {path, all}} {
		if _, err := store.Import(into.path, strings.NewReader(string(written))); err != nil {
			t.Error(err)
		}
		if got := bowled(t, into.path); strings.Join(got, "\n") != strings.Join(into.want, "\n") {
			t.Errorf("after the import\n%s\nnot\n%s", strings.Join(got, "\n"), strings.Join(into.want, "\n"))
		}
	}
}

// Left at once, with a disk that takes nothing, the program writes what is not kept into a file, and says which.
func TestLeavingAFullDisk(t *testing.T) {
	c, path := beginBoard(t, twoOnAPair, terminalOptions{})
	c.press("x")
	c.keeps(1)
	c.fileLimit(leastFile)
	c.press("xx")
	c.contains("kept 1 +2")
	c.press("qq")
	c.contains("leaving as soon as everything is kept")
	c.press("<ctrl+c>")
	if code := c.wait(); code != exitFailed {
		t.Errorf("it ended with %d", code)
	}
	c.sane()
	file := path + ".unkept.jsonl"
	lines, err := os.ReadFile(file)
	if err != nil {
		t.Fatalf("%v; the program said\n%s", err, c.raw())
	}

	// The next start takes it in and says so; what is called from then on has ids of its own.
	again := openBoard(t, path, terminalOptions{})
	again.contains("resumed:")
	again.contains("2 calls that the disk had refused are")
	again.contains("in: evening.db.taken-in.jsonl")
	again.keeps(3)
	again.press("xx")
	again.keeps(5)
	again.quit()
	if _, err := os.Stat(file); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the file has its name still, %v", err)
	}
	all := bowled(t, path)
	if len(all) != 5 {
		t.Errorf("kept are %q", all)
	}
	_, err = store.ImportNewer(path, bytes.NewReader(lines), time.Now())
	if got := bowled(t, path); strings.Join(got, "\n") != strings.Join(all, "\n") {
		t.Errorf("taken in once more (%v) they are\n%s", err, strings.Join(got, "\n"))
	}
}

// Where the file was not taken in, and other balls were called since, the command that Settee printed takes none of these.
func TestBallsCalledSinceAFullDiskStay(t *testing.T) {
	c, path := beginBoard(t, twoOnAPair, terminalOptions{})
	c.press("x")
	c.keeps(1)
	c.fileLimit(leastFile)
	c.press("xxxx")
	c.contains("kept 1 +4")
	c.press("qq")
	c.contains("leaving as soon as everything is kept")
	c.press("<ctrl+c>")
	if code := c.wait(); code != exitFailed {
		t.Errorf("it ended with %d", code)
	}
	aside := filepath.Join(t.TempDir(), "aside.jsonl")
	if err := os.Rename(path+".unkept.jsonl", aside); err != nil {
		t.Fatal(err)
	}
	again := openBoard(t, path, terminalOptions{})
	again.contains("resumed:")
	again.press("bxbx")
	again.keeps(3)
	again.quit()
	// Left for the first time with something kept, there is a copy.
	if made, err := store.Backups(path); err != nil || len(made) != 1 {
		t.Errorf("copies: %v, %v", made, err)
	}
	all := bowled(t, path)
	lines, err := os.ReadFile(aside)
	if err != nil {
		t.Fatal(err)
	}
	if _, err = store.ImportNewer(path, bytes.NewReader(lines), time.Now()); err == nil || !strings.HasPrefix(err.Error(), "line ") {
		t.Errorf("refused is %v", err)
	}
	if got := bowled(t, path); len(got) != 3 || strings.Join(got, "\n") != strings.Join(all, "\n") {
		t.Errorf("after the import they are\n%s", strings.Join(got, "\n"))
	}
}
