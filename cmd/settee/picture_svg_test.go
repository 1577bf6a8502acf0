//go:build unix

package main

import (
	"encoding/xml"
	"fmt"
	"image/color"
	"slices"
	"strings"
)

// cellWidth, cellHeight and margin are the sizes of a picture, in the units of its font's size: a character of a
// monospaced font is 0.6 of that wide.
const fontSize, cellWidth, cellHeight, margin = 15, 9, 18, 16

// shown is one cell of a screen: a character, its colours where it has any, and how it is drawn.
type shown struct {
	text           string
	dark, light    string // "#56b4e9", "" for the terminal's own
	bold, reversed bool
}

func (s shown) blank() bool { return strings.TrimSpace(s.text) == "" }

// sameInk tells whether two cells can be drawn together.
func (s shown) sameInk(o shown) bool {
	s.text, o.text = "", ""
	return s == o
}

// cells gives the screen as it was drawn for one background.
func (c *terminal) cells() [][]shown {
	// The bits of a cell's attributes.
	const bold, reversed = 1 << 0, 1 << 5
	c.mu.Lock()
	defer c.mu.Unlock()
	rows := make([][]shown, c.screens.Height())
	for y := range rows {
		rows[y] = make([]shown, c.screens.Width())
		for x := range rows[y] {
			rows[y][x].text = " "
			if cell := c.screens.CellAt(x, y); cell != nil && cell.Width > 0 {
				rows[y][x] = shown{
					text: cell.Content, dark: hex(cell.Style.Fg), light: hex(cell.Style.Fg),
					bold: cell.Style.Attrs&bold != 0, reversed: cell.Style.Attrs&reversed != 0,
				}
			}
		}
	}
	return rows
}

func hex(c color.Color) string {
	if c == nil {
		return ""
	}
	r, g, b, _ := c.RGBA()
	return fmt.Sprintf("#%02x%02x%02x", r>>8, g>>8, b>>8)
}

// svg is a picture that is being drawn.
type svg struct {
	body strings.Builder
	// inks are the pairs of colours in use, the first that of text without one.
	inks []shown
}

// The colours of a terminal where the program names none.
const lightGround, lightText, darkGround, darkText = "#ffffff", "#24292f", "#1b1f24", "#e6e9ed"

// drawSVG draws a screen for both backgrounds, that of the reader's own system being shown. It needs nothing else: no
// script, no font, no other file.
func drawSVG(rows [][]shown, title, description string) string {
	p := &svg{inks: []shown{{light: lightText, dark: darkText}}}
	for y, row := range rows {
		for from := 0; from < len(row); {
			to := from + 1
			for to < len(row) && row[to].sameInk(row[from]) {
				to++
			}
			p.run(row[from:to], from, y)
			from = to
		}
	}
	width, height := len(rows[0])*cellWidth+2*margin, len(rows)*cellHeight+2*margin
	var all strings.Builder
	fmt.Fprintf(&all, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" role="img" aria-labelledby="title desc"`+
		` font-family="ui-monospace,'DejaVu Sans Mono',Menlo,Consolas,monospace" font-size="%d">`+"\n", width, height, fontSize)
	fmt.Fprintf(&all, "<title id=\"title\">%s</title>\n<desc id=\"desc\">%s</desc>\n", escaped(title), escaped(description))
	all.WriteString(p.style())
	fmt.Fprintf(&all, `<rect class="ground" width="%d" height="%d" rx="8"/>`+"\n", width, height)
	return all.String() + p.body.String() + "</svg>\n"
}

// style gives each ink its two colours.
func (p *svg) style() string {
	light, dark := ".ground{fill:"+lightGround+"}", ".ground{fill:"+darkGround+"}"
	for i, ink := range p.inks {
		light += fmt.Sprintf(".i%d{fill:%s}", i, ink.light)
		dark += fmt.Sprintf(".i%d{fill:%s}", i, ink.dark)
	}
	return "<style>" + light + "\n.b{font-weight:bold}.m{text-anchor:middle}text{white-space:pre}\n" +
		"@media (prefers-color-scheme:dark){" + dark + "}</style>\n"
}

// run draws cells of one ink that begin in a column of a row.
func (p *svg) run(cells []shown, x, y int) {
	ink := p.class(cells[0])
	if cells[0].reversed {
		fmt.Fprintf(&p.body, `<path class="%s" d="%s"/>`+"\n", ink, box(x, y, len(cells), 0, 0, 1, 1))
		ink = "ground"
	}
	var shapes strings.Builder
	for i, c := range cells {
		for _, b := range solid(c.text) {
			shapes.WriteString(box(x+i, y, 1, b[0], b[1], b[2], b[3]))
		}
	}
	if shapes.Len() > 0 {
		fmt.Fprintf(&p.body, `<path class="%s" shape-rendering="crispEdges" d="%s"/>`+"\n", ink, shapes.String())
	}
	if cells[0].bold {
		ink += " b"
	}
	for from := 0; from < len(cells); {
		to := from + 1
		switch c := cells[from]; {
		case c.blank() || solid(c.text) != nil:
		case !plain(c.text):
			p.text(ink+" m", float64(x+from)+.5, y, c.text, "")
		default:
			for to < len(cells) && (plain(cells[to].text) || to+1 < len(cells) && cells[to].blank() && plain(cells[to+1].text)) {
				to++
			}
			text := ""
			for _, c := range cells[from:to] {
				text += c.text
			}
			p.text(ink, float64(x+from), y, text, fmt.Sprintf(` textLength="%d"`, (to-from)*cellWidth))
		}
		from = to
	}
}

func (p *svg) text(class string, x float64, y int, text, more string) {
	// The foot of the letters is at three quarters of a cell.
	fmt.Fprintf(&p.body, `<text class="%s" x="%g" y="%d"%s>%s</text>`+"\n", class, margin+x*cellWidth,
		margin+y*cellHeight+cellHeight*3/4, more, escaped(text))
}

// class gives the class of a cell's ink.
func (p *svg) class(c shown) string {
	ink := shown{light: c.light, dark: c.dark}
	if ink.light == "" && ink.dark == "" {
		return "i0"
	}
	i := slices.Index(p.inks, ink)
	if i < 0 {
		i = len(p.inks)
		p.inks = append(p.inks, ink)
	}
	return fmt.Sprintf("i%d", i)
}

// plain tells whether a text is set with its neighbours: fonts have ASCII in one width, and other signs of another font.
func plain(text string) bool { return len(text) == 1 && text > " " && text <= "~" }

// solid gives the parts of a cell that a block or a line fills, each from a corner on and how large, in parts of the cell;
// nil for other signs. As text they would not join.
func solid(text string) [][4]float64 {
	switch text {
	case "█":
		return [][4]float64{{0, 0, 1, 1}}
	case "▀":
		return [][4]float64{{0, 0, 1, .5}}
	case "▄":
		return [][4]float64{{0, .5, 1, .5}}
	case "▌":
		return [][4]float64{{0, 0, .5, 1}}
	case "▐":
		return [][4]float64{{.5, 0, .5, 1}}
	case "─":
		return [][4]float64{{0, .47, 1, .06}}
	case "━":
		return [][4]float64{{0, .43, 1, .14}}
	}
	return nil
}

// box gives the path of a part of n cells.
func box(x, y, n int, left, top, wide, high float64) string {
	return fmt.Sprintf("M%g %gh%gv%gh%gz", margin+(float64(x)+left)*cellWidth, margin+(float64(y)+top)*cellHeight,
		float64(n)*wide*cellWidth, high*cellHeight, -float64(n)*wide*cellWidth)
}

func escaped(text string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(text)) // a builder takes everything
	return b.String()
}
