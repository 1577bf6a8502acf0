//go:build unix

package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	bolt "go.etcd.io/bbolt"
)

func TestASecondCopyOnTheSameFileIsToldSo(t *testing.T) {
	first, store := beginBoard(t, twoOnAPair, terminalOptions{})
	second := openBoard(t, store, terminalOptions{})
	if code := second.wait(); code != exitFailed {
		t.Errorf("the second ended with %d", code)
	}
	second.sane()
	if said := inOneLine(second.screen()); !strings.Contains(said, "another Settee has this store open") {
		t.Errorf("the second said %q", said)
	}
	first.press("x")
	first.keeps(1)
	first.quit()
}

// A file that cannot be a store of this version is refused in words before anything is drawn, and left as it is.
func TestAFileThatIsNoSoundStoreIsRefusedAndLeft(t *testing.T) {
	sound := seatedStore(t)
	flipped := bytes.Clone(sound)
	flipped[40] ^= 1 // in the first of the two heads
	for name, c := range map[string]struct {
		file []byte
		says string
	}{
		"empty":     {nil, "is damaged"},
		"cut off":   {sound[:len(sound)/2], "is damaged"},
		"one bit":   {flipped, "is damaged"},
		"foreign":   {[]byte(strings.Repeat("a list of league nights\n", 2000)), "is not a store of Settee"},
		"of zeros":  {make([]byte, len(sound)), "is not a store of Settee"},
		"a text":    {[]byte("hello\n"), "is not a store of Settee"},
		"newer":     {ofVersion(t, sound, 250), "was written by a newer Settee"},
		"of nobody": {otherDatabase(t), "is not a store of Settee"},
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "evening.db")
			if err := os.WriteFile(path, c.file, 0o600); err != nil {
				t.Fatal(err)
			}
			for _, args := range [][]string{nil, {"export"}} {
				p := openBoard(t, path, terminalOptions{args: args, cols: 200, rows: 24})
				if code := p.wait(); code != exitFailed {
					t.Errorf("%v ended with %d", args, code)
				}
				said := inOneLine(p.screen())
				if !strings.HasPrefix(said, "settee: ") || !strings.Contains(said, c.says) || !strings.Contains(said, "left as it is") {
					t.Errorf("%v said %q", args, said)
				}
				if strings.Contains(p.raw(), "\x1b") {
					t.Errorf("%v drew %q", args, p.raw())
				}
				if now, err := os.ReadFile(path); err != nil || !bytes.Equal(now, c.file) {
					t.Errorf("%v changed the file: %v", args, err)
				}
			}
		})
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

// ofVersion gives a store with another number for what it looks like inside.
func ofVersion(t *testing.T, file []byte, version byte) []byte {
	t.Helper()
	return database(t, file, func(tx *bolt.Tx) error {
		return tx.Bucket([]byte("about")).Put([]byte("schema"), []byte{0, 0, 0, version})
	})
}

// otherDatabase gives a file of the same library with something else in it.
func otherDatabase(t *testing.T) []byte {
	t.Helper()
	return database(t, nil, func(tx *bolt.Tx) error {
		_, err := tx.CreateBucket([]byte("sessions"))
		return err
	})
}

func database(t *testing.T, file []byte, change func(*bolt.Tx) error) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "other.db")
	if file != nil {
		if err := os.WriteFile(path, file, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	db, err := bolt.Open(path, 0o600, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := db.Update(change); err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	changed, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return changed
}

func TestADumbTerminalIsRefusedInWords(t *testing.T) {
	store := filepath.Join(t.TempDir(), "evening.db")
	c := openBoard(t, store, terminalOptions{env: []string{"TERM=dumb"}})
	if code := c.wait(); code != exitFailed {
		t.Errorf("it ended with %d", code)
	}
	if said := inOneLine(c.screen()); !strings.Contains(said, "TERM=dumb cannot show the board") || strings.Contains(c.raw(), "\x1b") {
		t.Errorf("it wrote %q", c.raw())
	}
	if _, err := os.Stat(store); err == nil {
		t.Error("a store was made all the same")
	}
}

// colourSequence is one that colours text or what is behind it, boldSequence one that makes text bold (ECMA-48 8.3.117).
var (
	colourSequence = regexp.MustCompile(`\x1b\[([0-9:]*;)*([349][0-7]|10[0-7]|[34]8)[;:m]`)
	boldSequence   = regexp.MustCompile(`\x1b\[([0-9]+;)*1[;m]`)
)

// What the background is, is never asked of the terminal: flags and environment say it.
func TestColoursFollowFlagsAndEnvironment(t *testing.T) {
	inks := map[string][]string{}
	for name, o := range map[string]terminalOptions{
		"by itself":     {},
		"--dark":        {args: []string{"--dark"}},
		"--light":       {args: []string{"--light"}},
		"light by name": {env: []string{"SETTEE_BACKGROUND=light"}},
		"no colour":     {env: []string{"NO_COLOR=1"}},
		"tmux":          {env: []string{"TERM=tmux-256color"}},
	} {
		o.args = append([]string{"demo"}, o.args...)
		c := startTerminal(t, o)
		c.contains("racks left")
		noQueries(t, c.raw())
		inks[name] = c.inks()
		if name == "no colour" {
			if found := colourSequence.FindString(c.raw()); found != "" {
				t.Errorf("with NO_COLOR it wrote %q", found)
			}
		}
		if !boldSequence.MatchString(c.raw()) || name != "no colour" && !colourSequence.MatchString(c.raw()) {
			t.Errorf("%s: nothing is bold, or has a colour", name)
		}
		c.quit()
		noQueries(t, c.raw())
	}
	for _, same := range [][2]string{{"by itself", "--dark"}, {"--light", "light by name"}, {"by itself", "tmux"}} {
		if diff := cmp.Diff(inks[same[0]], inks[same[1]]); diff != "" {
			t.Errorf("%s and %s are drawn in other colours: %s", same[0], same[1], diff)
		}
	}
	if cmp.Equal(inks["--light"], inks["--dark"]) || len(inks["no colour"]) > 0 {
		t.Errorf("light is drawn in %v, dark in %v, without colours in %v", inks["--light"], inks["--dark"], inks["no colour"])
	}
}
