package tui

import (
	"bytes"
	"strconv"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
	textwidth "golang.org/x/text/width"
	"pgregory.net/rapid"
)

// namesOfManyMeasures are names that terminals give different widths: conjuncts, vowel signs with a cell of their own,
// letters of several parts, and some on which all agree.
var namesOfManyMeasures = []string{
	"नमस्ते 小林さくら", "क्षत्रिय देवी", "শ্রী দাস", "தமிழ் செல்வி", "ទេវី ស្រី", "မြန်မာ ကြည်", "ทองคำ น้ำ", "ليلى بنت", "שירה לוי",
	"👩‍👩‍👧 Mo", "🇳🇱 Jo", "👍🏽 Li", "❤️ Vi", "김하늘", "ᄒᆞᆫ글", "ｶﾞﾝﾀﾞ", "Ada", strings.Repeat("क्षत्रिय", 10),
}

// The measures of terminals: the clusters or runes of a text, and the cells of each. East Asian Wide and Fullwidth
// take two cells: Unicode Standard Annex #11, table of x/text.
var measures = map[string]func(text string) (first string, cells int){
	"by the cluster": func(text string) (string, int) { return ansi.FirstGraphemeCluster(text, ansi.GraphemeWidth) },
	"by the rune, as wcwidth": func(text string) (string, int) {
		r, n := utf8.DecodeRuneInString(text)
		if unicode.In(r, unicode.Mn, unicode.Me) || r >= 0x1160 && r <= 0x11ff {
			return text[:n], 0
		}
		return text[:n], wideOr(r, 1)
	},
	"by the rune, each mark a cell": func(text string) (string, int) {
		r, n := utf8.DecodeRuneInString(text)
		return text[:n], wideOr(r, 1)
	},
	"a cell for a rune": func(text string) (string, int) {
		_, n := utf8.DecodeRuneInString(text)
		return text[:n], 1
	},
}

func wideOr(r rune, other int) int {
	if k := textwidth.LookupRune(r).Kind(); k == textwidth.EastAsianWide || k == textwidth.EastAsianFullwidth {
		return 2
	}
	return other
}

// TestEveryScreenIsSteady draws the screens as the runtime does, on a window full of what was there before. On every
// terminal no line goes on in the next, nothing of before is left, and the settled signs stand in the same columns.
func TestEveryScreenIsSteady(t *testing.T) {
	evening := func() *appTest {
		return onBoard(t, namesOfManyMeasures...).press("xbx7<enter> xx<space>x<space>x@क्ष<enter>")
	}
	for name, keys := range map[string]string{
		"board": "", "cue": "Cक्षत्रिय धीरे<enter>", "menu": "<esc>", "evening": "e<down><down>", "closing": "ex", "asked": "exx", "strip": "g",
		"strip, figures": "gm", "strip, student": "gv", "line": "y", "spares": "ys", "glance": "v", "student": "s",
		"find": "s/", "field": "s<enter>", "prompt": "Cक्षत्रिय क्षत्रिय 小林", "newcomer": "Aক্ষ", "cues": "c", "page": "sh",
		"long prompt": "C" + strings.Repeat("क्षत्रिय ", 16), "long note": "N" + strings.Repeat("क्षत्रिय ", 16) + "<enter>g",
	} {
		t.Run(name, func(t *testing.T) {
			d := evening().press(keys)
			for _, size := range [][2]int{{60, 16}, {80, 24}, {160, 50}} {
				d.send(sizeMsg(size[0], size[1]))
				alike(t, d.View(), size[0], size[1])
			}
		})
	}
}

// TestSteadyLines draws lines of any texts.
func TestSteadyLines(t *testing.T) {
	letters := rapid.SliceOfN(rapid.SampledFrom([]rune("  क्षत्ियीেশ্রကြညေ中ガ👩ｶﾞᄒᆞᆫ\u0301مשּ")), 0, 40)
	rapid.Check(t, func(t *rapid.T) {
		name, w := clean(string(letters.Draw(t, "text"))), rapid.IntRange(20, 60).Draw(t, "cells")
		theme := themeFor(1, true, false)
		line := theme.accent.on(fit(name, w/2)) + "|" + theme.quiet.on(fit(name, w-w/2-2)) + "|"
		settled := []rune(alike(t, steady(line), w, 1))
		if settled[w/2] != '|' || settled[w-1] != '|' {
			t.Fatalf("a sign is not in its column: %s", string(settled))
		}
		for _, measure := range []string{"by the cluster", "by the rune, as wcwidth"} {
			s := newMeasuringScreen(w, 1, measures[measure])
			s.play(rendered(t, steady(line), w, 1))
			if got, want := noBlanks(s.text(false)), noBlanks(drawnBy(measures[measure], line)); got != want {
				t.Fatalf("%s, %q is left of %q", measure, got, want)
			}
		}
	})
}

func noBlanks(s string) string { return strings.Join(strings.Fields(s), "") }

// drawnBy gives the texts of a line that have cells of their own.
func drawnBy(measure func(string) (string, int), line string) string {
	var b strings.Builder
	for line = ansi.Strip(line); line != ""; {
		text, cells := measure(line)
		if cells > 0 {
			b.WriteString(text)
		}
		line = line[len(text):]
	}
	return b.String()
}

// alike draws a picture by every measure, and gives the settled signs where they stand.
func alike(t tester, picture string, w, h int) string {
	t.Helper()
	output := rendered(t, picture, w, h)
	screens := map[string]string{}
	for name, measure := range measures {
		s := newMeasuringScreen(w, h, measure)
		s.play(output)
		if s.wrapped || s.scrolled {
			t.Fatalf("%s, at %dx%d, a line goes on in the next:\n%s", name, w, h, s.text(false))
		}
		if strings.Contains(s.text(false), leftover) {
			t.Fatalf("%s, at %dx%d, something of before is left:\n%s", name, w, h, s.text(false))
		}
		screens[name] = s.text(true)
	}
	for name, settled := range screens {
		if other := screens["by the cluster"]; settled != other {
			t.Fatalf("%s, at %dx%d, the columns are\n%s\nby the cluster they are\n%s", name, w, h, settled, other)
		}
	}
	return screens["by the cluster"]
}

// still is a program that shows one picture.
type still struct {
	picture string
	w, h    int
}

func (s still) Init() tea.Cmd {
	return tea.Sequence(func() tea.Msg { return tea.WindowSizeMsg{Width: s.w, Height: s.h} }, tea.Quit)
}
func (s still) Update(tea.Msg) (tea.Model, tea.Cmd) { return s, nil }
func (s still) View() string                        { return s.picture }

// rendered gives what the runtime writes to the terminal for a picture.
func rendered(t tester, picture string, w, h int) string {
	t.Helper()
	var out bytes.Buffer
	p := tea.NewProgram(still{picture, w, h}, tea.WithInput(nil), tea.WithOutput(&out), tea.WithAltScreen(), tea.WithoutSignalHandler())
	if _, err := p.Run(); err != nil {
		t.Fatal(err)
	}
	drawn, _, _ := strings.Cut(out.String(), "\x1b[?1049l")
	return drawn
}

const leftover = "░"

// measuringScreen is a terminal that has a measure of its own. It knows what the screens are drawn with, and starts full
// of what was there before, which it keeps when it is cleared.
type measuringScreen struct {
	cells         [][]string
	x, y          int
	pending, wrap bool
	measure       func(string) (string, int)
	// wrapped and scrolled say what must not happen.
	wrapped, scrolled bool
}

func newMeasuringScreen(w, h int, measure func(string) (string, int)) *measuringScreen {
	s := &measuringScreen{measure: measure, wrap: true}
	for range h {
		s.cells = append(s.cells, strings.Split(strings.Repeat(leftover, w), ""))
	}
	return s
}

func (s *measuringScreen) play(output string) {
	for len(output) > 0 {
		if output[0] < ' ' {
			seq, _, n, _ := ansi.DecodeSequence(output, ansi.NormalState, nil)
			s.control(seq)
			output = output[n:]
			continue
		}
		text, cells := s.measure(output)
		s.put(text, cells)
		output = output[len(text):]
	}
}

func (s *measuringScreen) control(seq string) {
	number, _ := strconv.Atoi(strings.TrimLeft(seq, "\x1b[")[:max(len(seq)-3, 0)])
	switch {
	case seq == "\r":
		s.x, s.pending = 0, false
	case seq == "\n" && s.y == len(s.cells)-1:
		s.scrolled = true
	case seq == "\n":
		s.y++
	case seq == wrapOff, seq == wrapOn:
		s.wrap = seq == wrapOn
	case seq == "\x1b[H":
		s.x, s.y, s.pending = 0, 0, false
	case strings.HasSuffix(seq, "K"):
		for x := s.x; x < len(s.cells[s.y]) && seq == "\x1b[K"; x++ {
			s.cells[s.y][x] = " "
		}
	case strings.HasSuffix(seq, "G"):
		s.x, s.pending = min(number, len(s.cells[s.y]))-1, false
	}
}

// put draws at the cursor, in the last column where the text is cut and there is no more room.
func (s *measuringScreen) put(text string, cells int) {
	w := len(s.cells[s.y])
	if cells == 0 {
		return
	}
	if s.wrap && (s.pending || s.x+cells > w) {
		s.wrapped = true
		s.x, s.y = 0, min(s.y+1, len(s.cells)-1)
	}
	at := min(s.x, w-cells)
	row := s.cells[s.y]
	if row[at] == "" {
		row[at-1] = " "
	}
	if end := at + cells; end < w && row[end] == "" {
		row[end] = " "
	}
	row[at] = text
	for x := at + 1; x < at+cells; x++ {
		row[x] = ""
	}
	s.x, s.pending = min(at+cells, w-1), at+cells >= w
}

// text gives the screen as lines; settled leaves blanks for all that terminals do not agree on.
func (s *measuringScreen) text(settled bool) string {
	var b strings.Builder
	for _, row := range s.cells {
		for _, cell := range row {
			switch r, _ := utf8.DecodeRuneInString(cell + " "); {
			case !settled:
				b.WriteString(cell)
			case r < 0x300 || strings.ContainsRune("●○▶▸◀–…│─━█▀▄╮╯", r):
				b.WriteRune(r)
			default:
				b.WriteByte(' ')
			}
		}
		b.WriteByte('\n')
	}
	return b.String()
}

func TestSettledTextIsLeftAsItIs(t *testing.T) {
	for _, text := range []string{"Ada Ståhl", "▶ Σοφία Ольга ━━ ●○ ↓ 3 more…", "שירה"} {
		if got := steady(text); got != text {
			t.Errorf("%q of %q", got, text)
		}
	}
	// CHA, ECMA-48 8.3.9: columns count from 1. The cluster is one cell, its runes are three.
	if got := steady("a क्षि|"); got != wrapOff+eraseRight+"a \x1b[4G  \x1b[3Gक्षि\x1b[6G|"+wrapOn {
		t.Errorf("%q", got)
	}
}

func TestWidestMeasure(t *testing.T) {
	for text, want := range map[string]int{
		"नमस्ते": 4, "क्षत्रिय": 6, "শ্রী": 3, "小林": 4, "김하늘": 6, "ᄒᆞᆫ": 4, "ｶﾞ": 2, "น้ํา": 2, "שּ": 1, "aः": 2,
	} {
		if got := width(text); got != want {
			t.Errorf("%s has %d cells, not %d", text, got, want)
		}
	}
	for _, c := range []struct{ got, want string }{
		{cut("क्षत्रिय", 5), "क्ष…"}, {cut("क्षत्रिय", 6), "क्षत्रिय"}, {cutLeft("क्षत्रिय", 5), "…त्रिय"}, {wrapped("क्षत्रिय देवी", 8), "क्षत्रिय\nदेवी"},
		{wrapped("क्षत्रियक्षत्रिय", 9), "क्षत्रियक्ष\nत्रिय"}, {cutLeft("abcdef", 4), "…def"}, {cutLeft("abc", 3), "abc"},
	} {
		if c.got != c.want {
			t.Errorf("%q, not %q", c.got, c.want)
		}
	}
}
