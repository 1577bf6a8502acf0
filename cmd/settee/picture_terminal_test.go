//go:build unix

package main

import (
	"encoding/xml"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The picture of the board that the README shows is what `settee demo` draws at 80 by 24, in true colours, on both
// backgrounds.
func TestPictureOfTheBoard(t *testing.T) {
	dark, light := demoCells(t, "--dark"), demoCells(t, "--light")
	for y := range dark {
		for x := range dark[y] {
			if d, l := dark[y][x], light[y][x]; d.text != l.text || d.bold != l.bold || d.reversed != l.reversed {
				t.Fatalf("row %d, column %d: %+v on dark, %+v on light", y, x, d, l)
			}
			dark[y][x].light = light[y][x].light
		}
	}
	drawn := drawSVG(dark, "Settee's board during an invented evening",
		"Six students on three pairs of lanes, in a row each: who is up, the good shots of this game in large figures beside "+
			"the goal, and the frames with a dot for a good shot or what it cost. At the foot the call of the student who is up: "+
			"four letters, the pins that stand, the cue and what the goal still needs.")
	checkStandsAlone(t, drawn)
	path := filepath.Join("..", "..", "testdata", "pictures", "board.svg")
	if *update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(drawn), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	kept, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(kept) != drawn {
		t.Errorf("%s is not what the demo draws; go test ./cmd/settee -run Picture -update writes it anew", path)
	}
}

// demoCells gives the demo's board, once what is said at its start is gone.
func demoCells(t *testing.T, background string) [][]shown {
	t.Helper()
	c := startTerminal(t, terminalOptions{args: []string{"demo", background}, env: []string{"COLORTERM=truecolor"}})
	c.contains("racks left")
	c.press("<ctrl+l>")
	c.until("what was said at the start is gone", func(screen string) bool {
		return strings.Contains(screen, "? keys") && !strings.Contains(screen, "resumed:")
	})
	cells := c.cells()
	c.quit()
	return cells
}

// checkStandsAlone checks that a picture is sound, and neither runs anything nor fetches anything.
func checkStandsAlone(t *testing.T, picture string) {
	t.Helper()
	texts := 0
	for decoder := xml.NewDecoder(strings.NewReader(picture)); ; {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		element, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		switch element.Name.Local {
		case "svg", "title", "desc", "style", "rect", "path":
		case "text":
			texts++
		default:
			t.Errorf("it holds <%s>", element.Name.Local)
		}
	}
	if texts < 100 {
		t.Errorf("it holds %d texts, fewer than a board has", texts)
	}
	for _, foreign := range []string{"url(", "@import", "href", "src="} {
		if strings.Contains(picture, foreign) {
			t.Errorf("it holds %s", foreign)
		}
	}
}

// What the README shows and points to is there.
func TestWhatTheReadmePointsToIsThere(t *testing.T) {
	root := filepath.Join("..", "..")
	text, err := os.ReadFile(filepath.Join(root, "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	for _, part := range strings.Split(string(text), "](")[1:] {
		link, _, _ := strings.Cut(part, ")")
		file, _, _ := strings.Cut(link, "#")
		if file == "" || strings.Contains(file, "://") {
			continue
		}
		if _, err := os.Stat(filepath.Join(root, filepath.FromSlash(file))); err != nil {
			t.Errorf("the README points to %s: %v", file, err)
		}
	}
}
