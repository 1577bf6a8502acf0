package tui

import (
	"fmt"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"coach.settee/store"
)

// TestAppAtEverySize draws every screen at every size: the window is filled exactly.
func TestAppAtEverySize(t *testing.T) {
	if testing.Short() {
		t.Skip("left out with -short: a sweep in one goroutine")
	}
	long := "An Exceptionally Long Name 東京 é́ " + strings.Repeat("w", 40)
	evening := func() *appTest {
		return onBoard(t, "Ada 120", "Bo 172", "Cy 90 l", "Di 190", long, "Fay").press("xbx7<enter>")
	}
	for name, open := range map[string]func() *appTest{
		"set-up":              func() *appTest { return startApp(t, &fakeReader{}) },
		"no evening":          func() *appTest { return startApp(t, &fakeReader{}).press("<esc>") },
		"set-up, second page": func() *appTest { return startApp(t, &fakeReader{}).press("<tab>") },
		"set-up, skipped":     func() *appTest { return startApp(t, &fakeReader{}).press("<tab>x") },
		"board":               evening,
		"refused":             func() *appTest { return evening().press("bbbbb") },
		"reopened":            func() *appTest { return evening().press(",b") },
		"menu":                func() *appTest { return evening().press("<esc>") },
		"help":                func() *appTest { return evening().press("?<pgdown>") },
		"evening":             func() *appTest { return evening().press("e<down><down>") },
		"prompt": func() *appTest {
			return evening().press("C" + strings.Repeat("slow 東京 feet ", 20) + "<left><left>")
		},
		"strip":              func() *appTest { return evening().press("g") },
		"strip, open":        func() *appTest { return evening().press("gb") },
		"strip, figures":     func() *appTest { return evening().press("gm<pgdown>") },
		"strip, last games":  func() *appTest { return evening().press("gmmm<pgdown>") },
		"strip, numbers":     func() *appTest { return evening().press("gk<end>") },
		"strip, student":     func() *appTest { return evening().press("gv") },
		"strip, long name":   func() *appTest { return evening().press("g<shift+tab><shift+tab>") },
		"line":               func() *appTest { return evening().press("yc17 34 8@43<enter>") },
		"line, spares":       func() *appTest { return evening().press("ys<pgdown>") },
		"line, moves":        func() *appTest { return evening().press("ym") },
		"line, long name":    func() *appTest { return evening().press("y<shift+tab><shift+tab>c17<enter>") },
		"student":            func() *appTest { return evening().press("s<end>") },
		"student, find":      func() *appTest { return evening().press("s/a") },
		"student, intake":    func() *appTest { return evening().press("sis") },
		"student, private":   func() *appTest { return evening().press("s<end>iknee<enter>I") },
		"student, refused":   func() *appTest { return evening().press("s<down><down><down><enter>99<enter>") },
		"student, long name": func() *appTest { return evening().press("s<tab><tab><tab><tab><down>") },
		"question":           func() *appTest { return evening().press("q") },
		"trouble": func() *appTest {
			d := evening()
			d.slow = true
			d.press("x")
			d.disk(store.Progress{Durable: 1, Err: errFull})
			return d
		},
	} {
		t.Run(name, func(t *testing.T) {
			d := open()
			for w := 20; w <= 200; w += 1 + w/40 {
				for h := 5; h <= 60; h += 1 + h/20 {
					d.send(sizeMsg(w, h))
					filled(t, d, w, h)
				}
			}
		})
	}
}

func filled(t tester, d *appTest, w, h int) {
	t.Helper()
	lines := strings.Split(d.picture(), "\n")
	if len(lines) != h {
		t.Fatalf("%d lines at %dx%d", len(lines), w, h)
	}
	for i, l := range lines {
		if width(l) != w {
			t.Fatalf("line %d is %d cells at %dx%d: %q", i, width(l), w, h, l)
		}
	}
	// ED (ECMA-48, 8.3.39) erases the cursor's own cell too, which after the last column is that of the last sign.
	if last := ansi.Strip(lines[h-1]); !strings.HasSuffix(last, " ") {
		t.Fatalf("the window's last cell is drawn in at %dx%d: %q", w, h, last)
	}
}

func TestAppScreens(t *testing.T) {
	for name, keys := range map[string]string{
		"app-board": "", "app-menu": "<esc>", "app-help": "?", "app-evening": "e", "app-prompt": "Cslow feet", "app-refused": " /",
	} {
		for _, s := range [][2]int{{60, 16}, {80, 24}, {160, 50}} {
			t.Run(fmt.Sprintf("%s %dx%d", name, s[0], s[1]), func(t *testing.T) {
				d := onBoard(t, "Ada Marsh 120", "Bo Winter 172", "Cyd Okafor 195", "Dov Lind 88")
				d.press("bx70<enter>x x0<enter>epParkside Lanes<enter><esc>" + keys)
				d.send(sizeMsg(s[0], s[1]))
				golden(t, fmt.Sprintf("%s_%dx%d", name, s[0], s[1]), d.View())
			})
		}
	}
}
