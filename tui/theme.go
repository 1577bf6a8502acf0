package tui

import (
	"io"
	"strings"

	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
)

// theme holds what each role of a text looks like. Screens ask for a role, never for a colour; there is one accent
// colour and one for what needs care, blue and orange, which colour-blind eyes tell apart. Weight comes before colour: bold,
// faint and reversed text is there without colours too. No meaning hangs on a style alone.
type theme struct {
	// ascii says that the terminal shows no more than ASCII: see finish.
	ascii bool
	// title is a heading, quiet what may be overlooked, strong what is not to be.
	title, quiet, strong ink
	// accent belongs to the student who is up, upBar is that student's bar; open is the bar of a delivery reopened.
	accent, upBar, openBar ink
	// good is a good shot, cost what a shot cost, alert what needs care, banner a line that must be read.
	good, cost, alert, banner ink
	// key is a key in hints and help, prompt what a prompt asks.
	key, prompt ink
}

// newTheme makes the styles once, for the colours that r offers. Nothing asks the terminal.
func newTheme(r *lipgloss.Renderer, dark, ascii bool) *theme {
	p := lightPalette
	if dark {
		p = darkPalette
	}
	plain := r.NewStyle()
	if r.ColorProfile() == termenv.Ascii {
		return inWeights(ascii)
	}
	blue, orange, grey := plain.Foreground(p.blue), plain.Foreground(p.orange), plain.Foreground(p.grey)
	return &theme{
		ascii: ascii,
		title: inkOf(plain.Bold(true)), quiet: inkOf(grey), strong: inkOf(plain.Bold(true)),
		accent: inkOf(blue.Bold(true)), upBar: inkOf(blue.Bold(true).Reverse(true)), openBar: inkOf(orange.Bold(true).Reverse(true)),
		good: inkOf(blue), cost: inkOf(orange), alert: inkOf(orange.Bold(true)), banner: inkOf(orange.Bold(true).Reverse(true)),
		key: inkOf(plain.Bold(true)), prompt: inkOf(blue),
	}
}

// inWeights gives the theme without colours, which is what NO_COLOR asks for and no more: https://no-color.org. A renderer
// without colours would leave the weights out too.
func inWeights(ascii bool) *theme {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(termenv.ANSI)
	plain := r.NewStyle()
	bold := plain.Bold(true)
	bar := inkOf(bold.Reverse(true))
	return &theme{
		ascii: ascii,
		title: inkOf(bold), quiet: inkOf(plain.Faint(true)), strong: inkOf(bold),
		accent: inkOf(bold), upBar: bar, openBar: bar,
		good: inkOf(plain), cost: inkOf(bold), alert: inkOf(bold), banner: bar,
		key: inkOf(bold), prompt: inkOf(bold),
	}
}

type palette struct{ blue, orange, grey lipgloss.CompleteColor }

// Blue and orange are those of Okabe and Ito, "Color Universal Design" (2008), from memory; on a light background they
// are darker, so that small text can be read. Of 16 colours none is a grey that can be read on light: quiet is plain there.
var (
	darkPalette = palette{
		blue:   lipgloss.CompleteColor{TrueColor: "#56b4e9", ANSI256: "74", ANSI: "14"},
		orange: lipgloss.CompleteColor{TrueColor: "#e69f00", ANSI256: "214", ANSI: "11"},
		grey:   lipgloss.CompleteColor{TrueColor: "#9e9e9e", ANSI256: "247", ANSI: "7"},
	}
	lightPalette = palette{
		blue:   lipgloss.CompleteColor{TrueColor: "#005a9c", ANSI256: "25", ANSI: "4"},
		orange: lipgloss.CompleteColor{TrueColor: "#9c4f00", ANSI256: "94", ANSI: "1"},
		grey:   lipgloss.CompleteColor{TrueColor: "#5f5f5f", ANSI256: "59"},
	}
)

// ink is a style made ready: what switches it on and off. Drawing with it costs a joining of strings.
type ink struct{ before, after string }

func inkOf(s lipgloss.Style) ink {
	before, after, _ := strings.Cut(s.Render("x"), "x")
	return ink{before, after}
}

// on gives a text of one line in the ink.
func (i ink) on(s string) string {
	if s == "" {
		return ""
	}
	return i.before + s + i.after
}

// finish makes a picture ready for the terminal: where it shows no more than ASCII, every other sign is replaced by one
// of the same width.
func (t *theme) finish(picture string) string {
	if !t.ascii {
		return picture
	}
	return toASCII(picture)
}
