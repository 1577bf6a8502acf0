//go:build unix

package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// namesOfAnyScript have characters of every width, and some that are made of several: combining accents, joined emoji, a
// flag, a skin tone, conjuncts; names that are written from the right, and one that is too long for its column.
var namesOfAnyScript = []string{
	"Ada", "Zoe\u0308 Andre\u0301", "\uae40\ud558\ub298", "\u5c71\u7530 \u82b1\u5b50",
	"\u0644\u064a\u0644\u0649 \u0628\u0646", "\u05d3\u05d5\u05d3", "\U0001f469\u200d\U0001f469\u200d\U0001f467 Mo", "\U0001f1f3\U0001f1f1 Jo",
	"\U0001f44d\U0001f3fd Li", "\u0915\u094d\u0937\u0924\u094d\u0930\u093f\u092f", "\u0e19\u0e49\u0e33", "Verylongnamedperson",
}

// Names of any script, typed at the prompt, are kept as they are and leave what is beside them in its column.
func TestNamesOfAnyScriptKeepTheColumnsStraight(t *testing.T) {
	seat := "7 9 11<enter>"
	for i, name := range namesOfAnyScript {
		seat += name + " 150<enter>"
		if i%4 == 3 {
			seat += "<enter>"
		}
	}
	c, store := beginBoard(t, seat, terminalOptions{})
	c.press("@ada<enter>xxxx<space>xxxx<space>xxxx")
	c.keeps(len(namesOfAnyScript))
	for _, size := range []struct{ cols, rows, students int }{{80, 24, 12}, {60, 16, 6}, {100, 50, 12}, {160, 60, 12}} {
		c.resize(size.cols, size.rows)
		c.until("the board of that size", func(screen string) bool {
			lines := strings.Split(screen, "\n")
			return len([]rune(lines[0])) == size.cols && strings.HasSuffix(lines[size.rows-1], "? keys")
		})
		for _, sign := range []string{"X", "●"} {
			if at := c.columnsOf(sign); len(at) != 1 || sum(at) != size.students {
				t.Errorf("at %dx%d %s stands in columns so often: %v; the screen is\n%s", size.cols, size.rows, sign, at, c.screen())
			}
		}
	}
	c.quit()
	var kept []string
	for _, s := range objects(t, store, "student") {
		kept = append(kept, fmt.Sprint(s["name"]))
	}
	if diff := cmp.Diff(namesOfAnyScript, kept); diff != "" {
		t.Error(diff)
	}
}

// columnsOf gives the columns in which a sign stands, with how often.
func (c *terminal) columnsOf(sign string) map[int]int {
	c.mu.Lock()
	defer c.mu.Unlock()
	at := map[int]int{}
	for y := range c.screens.Height() {
		for x := range c.screens.Width() {
			if cell := c.screens.CellAt(x, y); cell != nil && cell.Content == sign {
				at[x]++
			}
		}
	}
	return at
}

func sum(counts map[int]int) (n int) {
	for _, count := range counts {
		n += count
	}
	return n
}

// steering are what a text must not bring to a terminal: control characters of each kind, and marks that turn the
// direction of what follows.
var steering = []string{"\x1b[31m", "\a", "\x7f", "\u009b31m", "\u0085", "\u202e", "\u2066", "\u2028"}

func TestTextThatWouldSteerTheTerminalIsCleanedAtThePrompt(t *testing.T) {
	seat := "7<enter>"
	for i, s := range steering {
		seat += fmt.Sprintf("\x1b[200~%c%sda 120\x1b[201~<enter>", 'A'+i, s)
	}
	c, store := beginBoard(t, seat+"<enter>", terminalOptions{env: []string{"NO_COLOR=1"}})
	c.press("e")
	c.contains("games  load  student")
	c.quit()
	for _, s := range steering {
		if strings.Contains(c.raw(), s) && s != "\x7f" {
			t.Errorf("%q was sent to the terminal", s)
		}
	}
	var kept []string
	for _, s := range objects(t, store, "student") {
		kept = append(kept, fmt.Sprint(s["name"]))
	}
	if diff := cmp.Diff([]string{"A[31mda", "Bda", "Cda", "D31mda", "E da", "Fda", "Gda", "H da"}, kept); diff != "" {
		t.Error(diff)
	}
}

func TestANameThatWouldSteerTheTerminalIsNotTakenIn(t *testing.T) {
	for _, s := range steering {
		dir := t.TempDir()
		name, err := json.Marshal("A" + s + "da")
		if err != nil {
			t.Fatal(err)
		}
		lines := "{\"type\":\"settee\",\"format\":1}\n" +
			"{\"type\":\"student\",\"id\":\"ada\",\"name\":" + string(name) + ",\"hand\":\"right\",\"minor\":false,\"archived\":false}\n"
		file, store := filepath.Join(dir, "in.jsonl"), filepath.Join(dir, "evening.db")
		if err := os.WriteFile(file, []byte(lines), 0o600); err != nil {
			t.Fatal(err)
		}
		cmd := exec.Command(binary(t), "import", "--store", store, file)
		var said bytes.Buffer
		cmd.Stderr = &said
		var exit *exec.ExitError
		if err := cmd.Run(); !errors.As(err, &exit) || exit.ExitCode() != exitFailed || !strings.Contains(said.String(), "line 2") {
			t.Errorf("%q: %v, %q", s, err, said.String())
		}
		if strings.Contains(said.String(), s) {
			t.Errorf("%q is in %q", s, said.String())
		}
		if _, err := os.Stat(store); !errors.Is(err, os.ErrNotExist) {
			t.Errorf("%q: something was taken in: %v", s, err)
		}
	}
}
