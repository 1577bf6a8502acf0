package tui

import (
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

func TestFitGivesExactlyTheCells(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, w := clean(rapid.String().Draw(t, "text")), rapid.IntRange(0, 150).Draw(t, "cells")
		for name, got := range map[string]string{"fit": fit(s, w), "fitRight": fitRight(s, w)} {
			if width(got) != w {
				t.Fatalf("%s gave %d cells: %q", name, width(got), got)
			}
		}
		if got := cut(s, w); width(got) > w || width(s) <= w && got != s {
			t.Fatalf("cut gave %q", got)
		}
	})
}

func TestCleanLeavesNoControls(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := clean(rapid.String().Draw(t, "text"))
		for _, r := range s {
			if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Variation_Selector, r) {
				t.Fatalf("%U is left", r)
			}
		}
		if again := clean(s); again != s {
			t.Fatalf("cleaning again gives %q", again)
		}
	})
}

func TestClean(t *testing.T) {
	for name, c := range map[string]struct{ in, out string }{
		"plain":                       {"Ada Marsh", "Ada Marsh"},
		"an escape sequence":          {"Ada\x1b[2J", "Ada[2J"},
		"tab and line end":            {"Ada\tMarsh\n", "Ada Marsh "},
		"a combining accent":          {"Zoe\u0308", "Zoë"},
		"a variation selector":        {"❤️", "❤"},
		"joined emoji":                {"👩‍👧", "👩👧"},
		"a skin tone":                 {"👍🏽", "👍"},
		"a flag":                      {"🇩🇪", "DE"},
		"a keycap":                    {"1️⃣", "1"},
		"marks of direction":          {"a\u200f\u202eb", "ab"},
		"a soft hyphen":               {"a\u00adb", "ab"},
		"a blank of a width":          {"a\u3000b", "a b"},
		"Thai am in its two parts":    {"\u0e19\u0e33", "\u0e19\u0e4d\u0e32"},
		"bytes that are no character": {"a\xffb", "ab"},
	} {
		t.Run(name, func(t *testing.T) {
			if got := clean(c.in); got != c.out {
				t.Errorf("%q", got)
			}
		})
	}
}

func TestWrapKeepsToTheCells(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, w := clean(rapid.String().Draw(t, "text")), rapid.IntRange(2, 80).Draw(t, "cells")
		for _, l := range wrap(s, w) {
			if width(l) > w {
				t.Fatalf("%d cells: %q", width(l), l)
			}
		}
	})
}

func TestASCIIHasTheSameCells(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := clean(rapid.String().Draw(t, "text"))
		got := toASCII(s)
		if !isASCII(got) || width(got) != width(s) {
			t.Fatalf("%q of %d cells for %d", got, width(got), width(s))
		}
	})
}

func TestASCIIKeepsControlSequences(t *testing.T) {
	if got := toASCII("\x1b[1m● Zoë\x1b[0m 山"); got != "\x1b[1m* Zoe\x1b[0m ??" {
		t.Errorf("%q", got)
	}
}
