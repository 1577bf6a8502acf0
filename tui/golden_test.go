package tui

import (
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
)

var update = flag.Bool("update", false, "write the golden screens anew")

const screens = "../testdata/screens"

// golden compares a screen with the one kept under a name, blanks at the ends of lines and control
// sequences aside.
func golden(t *testing.T, name, screen string) {
	t.Helper()
	lines := strings.Split(ansi.Strip(screen), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	got := strings.Join(lines, "\n") + "\n"
	file := filepath.Join(screens, name+".txt")
	if *update {
		if err := os.MkdirAll(screens, 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs; if it is meant to, run go test ./tui -update\n--- kept\n%s\n--- drawn\n%s", name, want, got)
	}
}

func plainTheme() *theme { return themeFor(termenv.Ascii, true, false) }

func themeFor(colours termenv.Profile, dark, ascii bool) *theme {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(colours)
	return newTheme(r, dark, ascii)
}
