package tui

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// shifted are the signs among the keys that need shift or AltGr on a keyboard; letters and the others do not. From memory.
var shifted = map[string]string{
	"US":     "!@?",
	"DE":     "!@?/=",
	"FR":     "@?./1234567890",
	"ES":     "!@?/=",
	"Nordic": "!@?/=",
}

// TestAlternatives looks on every screen and for every keyboard for a key that needs no shift beside each that does.
func TestAlternatives(t *testing.T) {
	d := onBoard(t, "Ada 120")
	for name, signs := range shifted {
		plain := func(b binding) bool {
			return slices.ContainsFunc(b.keys, func(k string) bool {
				return k != "" && !strings.Contains(signs, k) && strings.ToLower(k) == k
			})
		}
		for title, own := range tablesOf(d) {
			t.Run(name+", "+title, func(t *testing.T) {
				all := slices.Concat(own, anywhereKeys)
				for _, sign := range signs {
					key := string(sign)
					b, ok := all.find(key)
					// A spare is x too, wherever / is a spare.
					if !ok || b.help == boardsOnly(b) || plain(b) || key == "/" && isSpare(all) {
						continue
					}
					if !slices.ContainsFunc(all, func(also binding) bool { return also.group == groupLayout && also.of == b.keys[0] && plain(also) }) {
						t.Errorf("%s (%s) has no key without shift", key, b.help)
					}
				}
			})
		}
	}
}

// boardsOnly gives the help of a binding that only says that its keys are the board's.
func boardsOnly(b binding) string {
	if strings.Contains(b.help, "the board's: esc goes back") {
		return b.help
	}
	return ""
}

func isSpare(t table) bool {
	b, ok := t.find("/")
	x, also := t.find("x")
	return ok && also && strings.HasPrefix(b.help, "a spare: x") && strings.Contains(x.help, "otherwise a spare")
}

func tablesOf(d *appTest) map[string]table {
	tables := map[string]table{
		"earlier": earlierKeys, "closing": closingKeys, "page": handoutKeys, "help": helpKeys, "menu": menuKeys,
	}
	for _, s := range d.screens {
		tables[s.title()] = s.table()
	}
	return tables
}

// TestAlternativesActAlike compares what they record with what the keys record that they stand for.
func TestAlternativesActAlike(t *testing.T) {
	for _, c := range []struct{ keys, also string }{
		{"10<enter>", "&à<enter>"},
		{"234<enter>5<enter>", "é\"'<enter>(<enter>"},
		{"789<enter>", "è_ç<enter>"},
		{"123456789<enter>", "dadbdcdddedfdgdhdi<enter>"},
		{"60<enter>", "§dj<enter>"},
		{"7<enter>=0", "è<enter>uà"},
		{"70<enter>=1", "èdj<enter>u&"},
		{"70<enter>=1", "è0<enter>uda"},
		{"!7<enter>x", "jè<enter>x"},
		{"@bo<enter>x", "abo<enter>x"},
		{"7<enter>/", "è<enter>x"},
		{"b7<enter>,6<enter>", "bè<enter>,df<enter>"},
	} {
		want := onBoard(t, "Ada 120", "Bo 172").press(c.keys).spoken()
		if len(want) == 0 {
			t.Errorf("%s records nothing", c.keys)
		}
		if diff := cmp.Diff(want, onBoard(t, "Ada 120", "Bo 172").press(c.also).spoken()); diff != "" {
			t.Errorf("%s (-%s +%s):\n%s", c.also, c.keys, c.also, diff)
		}
	}
	t.Run("on the strip", func(t *testing.T) {
		for _, c := range [][2]string{{"x7<enter>g<home>9<enter>", "x7<enter>g<home>di<enter>"}, {"x7<enter>g=1", "x7<enter>gu&"}, {"x7<enter>g!<enter>", "x7<enter>gj<enter>"}} {
			if diff := cmp.Diff(onBoard(t, "Ada 120").press(c[0]).spoken(), onBoard(t, "Ada 120").press(c[1]).spoken()); diff != "" {
				t.Errorf("%v (-want +got):\n%s", c, diff)
			}
		}
	})
	t.Run("after d any other key drops it and acts", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("d").says("a letter from a to j is a digit")
		if d.press("t"); d.evening.Call().Letters.String() != "ABAA" || d.board.lettered {
			t.Errorf("%s", d.evening.Call().Letters)
		}
		if d.press("b"); d.evening.Call().Letters.String() != "BBAA" {
			t.Errorf("b is still a digit: %s", d.evening.Call().Letters)
		}
	})
	t.Run("another evening like an earlier one", func(t *testing.T) {
		for _, key := range []string{"=", "h"} {
			onBoard(t, "Ada 120").press("exxy" + key).says("same as ")
		}
	})
}

// TestKeysThatChangePlaces presses on every screen keys that other keyboards have in each other's place: none may keep
// anything that backspace does not take back, and none may leave.
func TestKeysThatChangePlaces(t *testing.T) {
	for _, open := range []string{"", "e", "g", "y", "s", "c", "ex", "sh", "v"} {
		for _, key := range strings.Split("z y a q w m", " ") {
			t.Run(open+key, func(t *testing.T) {
				d := onBoard(t, "Ada 120", "Bo 172").press("b7<enter>" + open)
				steps := len(d.recorder.steps)
				d.press(key)
				if d.quit {
					t.Fatal("it leaves")
				}
				if n := len(d.recorder.steps) - steps; n > 0 {
					t.Errorf("%d steps are kept", n)
				}
			})
		}
	}
}

// TestPastedWords holds the letters that were given a meaning for other keyboards against text that is pasted.
func TestPastedWords(t *testing.T) {
	for _, text := range []string{"just his", "abstract", "dusty", "address list"} {
		d := onBoard(t, "Ada 120")
		d.burst(text)
		d.says("a paste changes nothing")
		if d.prompt != nil || d.evening.Begun("ada") || d.evening.Call().Letters.String() != "AAAA" {
			t.Errorf("%q changes something", text)
		}
	}
	for _, keys := range []string{"dgdj", "dadb", "u5xx", "xxxd", "xxxu"} {
		d := onBoard(t, "Ada 120")
		d.burst(keys)
		d.silent("a paste")
	}
}
