package tui

import (
	"strings"
	"testing"
)

// TestBoardHeadsItsCounts: a drill at some of the pins counts what was made, and the heading and the words say so.
func TestBoardHeadsItsCounts(t *testing.T) {
	heads := func(d *appTest) string { return strings.Split(d.show(), "\n")[1] }
	d := onBoard(t, "Ada 120")
	if head := heads(d); !strings.Contains(head, "good") || strings.Contains(head, "made") {
		t.Error(head)
	}
	d.press("G5 corner 10<enter>xb-<enter>x").says("3 of 5, 2 made, 3 good", "of 3")
	if head := heads(d); !strings.Contains(head, "made") || strings.Contains(head, "good") {
		t.Error(head)
	}
	d = onBoard(t, "Ada 120", "Bo 172").press("G5 corner 10<enter>x")
	if head := heads(d); !strings.Contains(head, "good/made") {
		t.Error(head)
	}
	d = onBoard(t, "Ada 120", "Bo 172").press("G5 corner 10<enter>x@bo<enter>Gw<enter>")
	if head := heads(d); !strings.Contains(head, "made") || strings.Contains(head, "good") {
		t.Error(head)
	}
}
