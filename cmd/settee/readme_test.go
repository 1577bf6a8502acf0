//go:build unix

package main

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the README's pictures anew")

// The README shows what `settee demo` shows.
func TestReadme(t *testing.T) {
	path := filepath.Join("..", "..", "README.md")
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	c := startTerminal(t, terminalOptions{args: []string{"demo"}})
	c.contains("racks left")
	readme := string(text)
	for _, p := range []struct{ name, keys, foot string }{
		{"board", "<ctrl+l>", "? keys"},
		{"strip", "g", "esc board"},
	} {
		c.press(p.keys)
		c.until("what was said at the start is gone", func(screen string) bool {
			return strings.Contains(screen, p.foot) && !strings.Contains(screen, "resumed:")
		})
		readme = pictured(t, readme, p.name, c.screen())
	}
	c.quit()
	if *update {
		if err := os.WriteFile(path, []byte(readme), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if readme != string(text) {
		t.Errorf("the README's pictures are not what the demo shows; write them anew with go test ./cmd/settee -run Readme -update\n%s", readme)
	}
}

// pictured gives the README with a picture of that name replaced.
func pictured(t *testing.T, readme, name, shown string) string {
	t.Helper()
	const fence = "```\n"
	before, rest, ok := strings.Cut(readme, "<!-- picture: "+name)
	comment, rest, alsoOK := strings.Cut(rest, fence)
	_, after, endsOK := strings.Cut(rest, fence+"<!-- end of picture -->")
	if !ok || !alsoOK || !endsOK {
		t.Fatalf("the README has no place for the picture of the %s", name)
	}
	return before + "<!-- picture: " + name + comment + fence + shown + fence + "<!-- end of picture -->" + after
}
