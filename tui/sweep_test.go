package tui

import (
	"fmt"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"

	"coach.settee/model"
)

// TestBoardAtEverySize draws at every size: exactly the lines asked for, none wider, and the student that the keys speak
// of in view with the sign of it.
func TestBoardAtEverySize(t *testing.T) {
	if testing.Short() {
		t.Skip("left out with -short: a sweep in one goroutine")
	}
	reopened := midEvening(t)
	reopened.done(reopened.Reopen())
	names := newEveningTest(t, 7, 9, 11, 101)
	for i, name := range hostileNames {
		names.seat(model.ID(fmt.Sprintf("h%02d", i)), name, 150, []int{7, 9, 11, 101}[i%4])
	}
	for name, e := range map[string]eveningTest{
		"evening": midEvening(t), "reopened": reopened, "sixteen": fullHouse(t), "names": names,
		"empty": newEveningTest(t, 7, 9), "alone": alone(t),
	} {
		t.Run(name, func(t *testing.T) {
			p := e.picture()
			if name == "evening" {
				p.Theme = themeFor(termenv.TrueColor, true, false)
			}
			for w := 60; w <= 200; w++ {
				for h := 16; h <= 60; h++ {
					sizeHolds(t, p, w, h-chrome)
				}
			}
		})
	}
}

// TestBoardFollowsWhoIsUp puts up each of sixteen students.
func TestBoardFollowsWhoIsUp(t *testing.T) {
	e := fullHouse(t)
	for i := range 16 {
		e.must(e.PutUp(model.ID(fmt.Sprintf("s%02d", i))))
		sizeHolds(t, e.picture(), 60, 13)
		sizeHolds(t, e.picture(), 80, 21)
	}
}

func sizeHolds(t *testing.T, p boardPicture, w, h int) {
	t.Helper()
	picture := p.draw(w, h)
	lines := strings.Split(picture, "\n")
	if len(lines) != h {
		t.Fatalf("%d lines at %dx%d", len(lines), w, h)
	}
	for i, l := range lines {
		if n := width(l); n > w {
			t.Fatalf("line %d has %d cells at %dx%d: %s", i, n, w, h, ansi.Strip(l))
		}
		if strings.Contains(l, "\x1b") {
			lines[i] = ansi.Strip(l)
		}
		if j := strings.IndexFunc(lines[i], func(r rune) bool { return r < ' ' || r == 0x7f }); j >= 0 {
			t.Fatalf("line %d has a control character at %dx%d: %q", i, w, h, l)
		}
	}
	id, _ := p.Evening.Speaking()
	if id == "" {
		return
	}
	_, editing := p.Evening.Editing()
	mark := map[bool]string{false: "▶[", true: "◀["}[editing]
	name := []rune(clean(p.Evening.Student(id).Name))[:1]
	for _, l := range lines {
		if strings.Contains(l, mark) && strings.Contains(l, string(name)) {
			return
		}
	}
	t.Fatalf("%s is not in view at %dx%d:\n%s", string(name), w, h, ansi.Strip(picture))
}

// TestBoardInTinyRooms draws where a banner or a prompt leaves less than any window has.
func TestBoardInTinyRooms(t *testing.T) {
	p := midEvening(t).picture()
	for w := range 60 {
		for h := 1; h < 13; h++ {
			lines := strings.Split(p.draw(w, h), "\n")
			if len(lines) != h {
				t.Fatalf("%d lines at %dx%d", len(lines), w, h)
			}
			for _, l := range lines {
				if width(l) > w {
					t.Fatalf("%d cells at %dx%d: %s", width(l), w, h, l)
				}
			}
		}
	}
}

// alone is one student who has not bowled yet.
func alone(t *testing.T) eveningTest {
	e := newEveningTest(t, 7)
	e.seat("ada", "Ada Marsh", 120, 7)
	return e
}
