package tui

import (
	"fmt"
	"maps"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/muesli/termenv"
)

// grounds are the backgrounds that are assumed: black and the dark greys, blues and violets that terminals come with, up to a
// luminance of 0.04; white, light greys and creams. The terminal's own text colour is taken to be readable on them.
var grounds = map[bool][]string{
	true:  {"#000000", "#0c0c0c", "#1e1e1e", "#282828", "#282c34", "#002b36", "#2e3436", "#300a24"},
	false: {"#ffffff", "#fafafa", "#f5f5f5", "#fdf6e3", "#faf4e4", "#eee8d5"},
}

// texts are terminals' usual text colours on dark and on light grounds.
var texts = map[bool][]string{true: {"#ffffff", "#e5e5e5"}, false: {"#000000", "#1e1e1e"}}

// sixteen are the first 16 colours. They are each terminal's own to choose: assumed are the defaults of xterm and those of the
// VGA text mode (both from memory), and that bold is drawn bold and not in the brighter colour.
var sixteen = map[string][16]string{
	"xterm": {
		"#000000", "#cd0000", "#00cd00", "#cdcd00", "#0000ee", "#cd00cd", "#00cdcd", "#e5e5e5",
		"#7f7f7f", "#ff0000", "#00ff00", "#ffff00", "#5c5cff", "#ff00ff", "#00ffff", "#ffffff",
	},
	"VGA": {
		"#000000", "#aa0000", "#00aa00", "#aa5500", "#0000aa", "#aa00aa", "#00aaaa", "#aaaaaa",
		"#555555", "#ff5555", "#55ff55", "#ffff55", "#5555ff", "#ff55ff", "#55ffff", "#ffffff",
	},
}

// The least contrast of text is that of WCAG 2.1, success criterion 1.4.3. The least distance of two meanings is this program's
// own: about 1 is just seen side by side (common practice, no source), at 15 nobody has to compare.
const leastContrast, leastDistance = 4.5, 15

var profiles = map[string]termenv.Profile{
	"truecolor": termenv.TrueColor, "256": termenv.ANSI256, "16": termenv.ANSI, "none": termenv.Ascii,
}

var (
	sequence = regexp.MustCompile(`\x1b\[([0-9;]*)m`)
	// attrs are what needs no colour: nothing, bold, faint, reversed (ECMA-48 8.3.117).
	attrs = []string{"", "0", "1", "2", "7"}
)

// coloursIn reads the colours that a text switches on; what sets anything but a text colour of the profile or one of attrs, or
// ends a line with a style still on, fails.
func coloursIn(t *testing.T, profile termenv.Profile, text string) map[string]bool {
	t.Helper()
	found := map[string]bool{}
	for _, m := range sequence.FindAllStringSubmatch(text, -1) {
		parts := strings.Split(m[1], ";")
		for i := 0; i < len(parts); i++ {
			n, _ := strconv.Atoi(parts[i])
			switch {
			case slices.Contains(attrs, parts[i]):
			case profile == termenv.TrueColor && n == 38 && len(parts) > i+4 && parts[i+1] == "2":
				found[strings.Join(parts[i+2:i+5], ";")] = true
				i += 4
			case profile == termenv.ANSI256 && n == 38 && len(parts) > i+2 && parts[i+1] == "5":
				found[parts[i+2]] = true
				i += 2
			case profile == termenv.ANSI && (n >= 30 && n <= 37 || n >= 90 && n <= 97):
				found[parts[i]] = true
			default:
				t.Fatalf("%q is not of %d", m[0], profile)
			}
		}
	}
	return found
}

// colourOf gives what a colour looks like, by one of the tables of sixteen where it is one of those.
func colourOf(t *testing.T, profile termenv.Profile, code string, first [16]string) rgb {
	t.Helper()
	var parts []int
	for _, p := range strings.Split(code, ";") {
		n, err := strconv.Atoi(p)
		if err != nil {
			t.Fatal(err)
		}
		parts = append(parts, n)
	}
	switch {
	case profile == termenv.TrueColor:
		return rgb{float64(parts[0]) / 255, float64(parts[1]) / 255, float64(parts[2]) / 255}
	case profile == termenv.ANSI256 && parts[0] >= 16:
		return xterm(parts[0])
	case profile == termenv.ANSI && parts[0] >= 90:
		return hex(t, first[parts[0]-90+8])
	case profile == termenv.ANSI:
		return hex(t, first[parts[0]-30])
	}
	t.Fatalf("%s is one of the terminal's own colours", code)
	return rgb{}
}

// roles gives the ink of every role of a theme by its name.
func roles(th *theme) map[string]ink {
	out := map[string]ink{}
	v := reflect.ValueOf(*th)
	for i := range v.NumField() {
		if f := v.Field(i); f.Type() == reflect.TypeOf(ink{}) {
			out[v.Type().Field(i).Name] = ink{f.Field(0).String(), f.Field(1).String()}
		}
	}
	return out
}

// eachLook calls check with every role's colour in each profile, on dark and light, for each table of sixteen. A role without
// a colour is in the terminal's own.
func eachLook(t *testing.T, check func(where string, dark bool, looks map[string]rgb)) {
	for name, profile := range profiles {
		for _, dark := range []bool{true, false} {
			for table, first := range sixteen {
				looks := map[string]rgb{}
				for role, i := range roles(themeFor(profile, dark, false)) {
					for code := range coloursIn(t, profile, i.before) {
						looks[role] = colourOf(t, profile, code, first)
					}
				}
				check(fmt.Sprintf("%s colours, dark %v, %s", name, dark, table), dark, looks)
			}
		}
	}
}

// TestThemeContrast: every role's text can be read on every ground that is assumed. A bar in reverse is the same pair, with the
// ground's colour as its text.
func TestThemeContrast(t *testing.T) {
	checked := 0
	eachLook(t, func(where string, dark bool, looks map[string]rgb) {
		for role, c := range looks {
			for _, ground := range grounds[dark] {
				checked++
				if ratio := contrast(c, hex(t, ground)); ratio < leastContrast {
					t.Errorf("%s: %s %s on %s has %.2f:1", where, role, c, ground, ratio)
				}
			}
		}
	})
	if checked == 0 {
		t.Fatal("no role has a colour")
	}
	for _, bar := range []string{"upBar", "openBar", "banner"} {
		before := roles(themeFor(termenv.ANSI, true, false))[bar].before
		if m := sequence.FindStringSubmatch(before); m == nil || !slices.Contains(strings.Split(m[1], ";"), "7") {
			t.Errorf("%s is no bar in reverse: %q", bar, before)
		}
	}
}

// TestThemeForColourBlindEyes: what is good, what it cost, what is quiet and what is plain stay apart for eyes that lack one
// kind of cones. Of 16 colours only good and cost are held apart: the greys and the text there are the terminal's.
func TestThemeForColourBlindEyes(t *testing.T) {
	least, at := math.Inf(1), ""
	eachLook(t, func(where string, dark bool, looks map[string]rgb) {
		for _, plain := range texts[dark] {
			meanings := map[string]rgb{"plain": hex(t, plain), "quiet": looks["quiet"], "good": looks["good"], "cost": looks["cost"]}
			switch {
			case len(looks) == 0:
				continue
			case strings.HasPrefix(where, "16 "):
				delete(meanings, "plain")
				delete(meanings, "quiet")
			}
			names := slices.Sorted(maps.Keys(meanings))
			for eyes, m := range deficiencies {
				for i, a := range names {
					for _, b := range names[:i] {
						d := ciede2000(lab(meanings[a].seenWith(m)), lab(meanings[b].seenWith(m)))
						said := fmt.Sprintf("%s, %s: %s %s and %s %s", where, eyes, a, meanings[a], b, meanings[b])
						if d < least {
							least, at = d, said
						}
						if d < leastDistance {
							t.Errorf("%s are %.1f apart", said, d)
						}
					}
				}
			}
		}
	})
	if at == "" {
		t.Fatal("no two meanings were compared")
	}
	t.Logf("the nearest: %s, %.1f apart", at, least)
}

// TestThemeKeepsToItsProfile: what is drawn has colours of the terminal's profile only, and only those of the theme.
func TestThemeKeepsToItsProfile(t *testing.T) {
	for name, profile := range profiles {
		for _, dark := range []bool{true, false} {
			t.Run(fmt.Sprintf("%s, dark %v", name, dark), func(t *testing.T) {
				th := themeFor(profile, dark, false)
				palette := map[string]bool{}
				for _, i := range roles(th) {
					maps.Copy(palette, coloursIn(t, profile, i.before))
				}
				drawn := map[string]bool{}
				d := onBoard(t, "Ada 120", "Bo 172", "Cy 90 l").press("xbx7<enter>,b")
				d.theme = th
				for _, keys := range []string{"", "<esc>", "e", "<esc>g", "<esc>y", "<esc>v", "v", "v<esc><esc>", "<esc>/"} {
					maps.Copy(drawn, coloursIn(t, profile, d.press(keys).View()))
				}
				for c := range drawn {
					if !palette[c] {
						t.Errorf("%s is no colour of the theme", c)
					}
				}
				if (len(drawn) < 2) != (profile == termenv.Ascii) {
					t.Errorf("drawn in %d colours", len(drawn))
				}
			})
		}
	}
}
