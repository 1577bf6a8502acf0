//go:build unix

package main

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the README's picture anew")

// The README shows what `settee demo` shows.
func TestReadme(t *testing.T) {
	const begins, ends = "-update writes it anew -->\n```\n", "```\n<!-- end of picture -->"
	path := filepath.Join("..", "..", "README.md")
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok := strings.Cut(string(text), begins)
	picture, after, alsoOK := strings.Cut(rest, ends)
	if !ok || !alsoOK {
		t.Fatal("the README has no place for the picture")
	}
	c := startTerminal(t, terminalOptions{args: []string{"demo"}})
	c.contains("racks left")
	c.press("<ctrl+l>")
	c.until("what was said at the start is gone", func(screen string) bool {
		return strings.Contains(screen, "? keys") && !strings.Contains(screen, "resumed:")
	})
	shown := c.screen()
	c.quit()
	if *update {
		if err := os.WriteFile(path, []byte(before+begins+shown+ends+after), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if picture != shown {
		t.Errorf("the README's picture is not what the demo shows; write it anew with go test ./cmd/settee -run Readme -update\n%s", shown)
	}
}
