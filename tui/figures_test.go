package tui

import (
	"strings"
	"testing"
)

func TestFiguresAreTold(t *testing.T) {
	for lines, f := range map[int]font{2: smallFont, 3: mediumFont, 4: largeFont} {
		for _, ascii := range []bool{false, true} {
			seen := map[string]int{}
			for n := range 13 {
				drawn := figure(n, figureCells(lines), lines, ascii)
				if len(drawn) != f.lines {
					t.Errorf("%d takes %d lines of %d", n, len(drawn), f.lines)
				}
				for _, l := range drawn {
					if width(l) != width(drawn[0]) || width(l) > figureCells(lines) || isASCII(l) != ascii && strings.TrimSpace(l) != "" {
						t.Errorf("%d, ascii %v, has the line %q in %d lines", n, ascii, l, lines)
					}
				}
				shape := strings.Join(drawn, "\n")
				if other, ok := seen[shape]; ok {
					t.Errorf("%d looks like %d in %d lines", n, other, lines)
				}
				seen[shape] = n
				if foot := drawn[len(drawn)-1]; lines > 2 && strings.ContainsAny(foot, "█▄#_") {
					t.Errorf("%d in %d lines comes to the foot of its last line: %q", n, lines, foot)
				}
			}
		}
	}
}

// TestFiguresHaveOneShape: a digit is drawn the same wherever it stands in a number.
func TestFiguresHaveOneShape(t *testing.T) {
	for _, f := range fonts {
		for n := range 100 {
			tens, ones := figure(n/10, 20, f.lines, false), figure(n%10, 20, f.lines, false)
			for i, l := range figure(n, 20, f.lines, false) {
				if want := tens[i] + " " + ones[i]; n > 9 && l != want {
					t.Errorf("%d has the line %q, its digits %q", n, l, want)
				}
			}
		}
	}
}

func TestFiguresWithoutRoomAreDigits(t *testing.T) {
	for name, got := range map[string][]string{
		"too wide": figure(235, 6, 2, false), "too low": figure(4, 6, 1, false), "too low for ASCII": figure(4, 6, 1, true),
	} {
		if len(got) != 1 || strings.ContainsAny(got[0], "█▀▄") {
			t.Errorf("%s: %q", name, got)
		}
	}
}
