package tui

import (
	"strings"
	"testing"
)

func TestFiguresAreTold(t *testing.T) {
	for lines, f := range map[int]font{2: smallFont, 3: mediumFont, 4: largeFont} {
		seen := map[string]int{}
		for n := range 13 {
			drawn := figure(n, figureCells(lines), lines, false)
			if len(drawn) != f.lines {
				t.Errorf("%d takes %d lines of %d", n, len(drawn), f.lines)
			}
			for _, l := range drawn {
				if width(l) != width(drawn[0]) || width(l) > figureCells(lines) {
					t.Errorf("%d has a line of %d cells in %d lines", n, width(l), lines)
				}
			}
			shape := strings.Join(drawn, "\n")
			if other, ok := seen[shape]; ok {
				t.Errorf("%d looks like %d in %d lines", n, other, lines)
			}
			seen[shape] = n
			if foot := drawn[len(drawn)-1]; lines > 2 && strings.ContainsAny(foot, "█▄") {
				t.Errorf("%d in %d lines comes to the foot of its last line: %q", n, lines, foot)
			}
		}
	}
}

func TestFiguresWithoutRoomAreDigits(t *testing.T) {
	for name, got := range map[string][]string{
		"too wide": figure(235, 6, 2, false), "too low": figure(4, 6, 1, false), "no blocks": figure(4, 6, 2, true),
	} {
		if len(got) != 1 || strings.ContainsAny(got[0], "█▀▄") {
			t.Errorf("%s: %q", name, got)
		}
	}
}
