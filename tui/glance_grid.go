package tui

// glanceGrid is how the tiles of the glance are laid out.
type glanceGrid struct {
	columns int
	// high is a tile's lines, inner the cells inside its sides, which have side cells each.
	high, inner, side int
	figure, name      glanceFont
	// letters is the most signs that a name has.
	letters int
	// frame tells whether there are lines for the frame above and below, words whether for the words below the dots.
	frame, words bool
}

// outer gives a tile's cells.
func (g glanceGrid) outer() int { return g.inner + 2*g.side }

// leastInner is the cells that a tile has at least: enough to tell names apart.
const leastInner = 6

// layOut finds the grid with the highest figures that has everyone in view; of several the one that has room for larger names,
// then for the frame, the dots and the words. Only in a window that nothing fits are figures plain and lines cut.
func (p glancePicture) layOut(w, h int) glanceGrid {
	n, widest := len(p.tiles), p.widest()
	for _, f := range append(p.drawnIn(glanceFigures), glanceFont{font: font{lines: 1}}) {
		best, most := glanceGrid{}, -1
		for columns := 1; columns <= n; columns++ {
			g := gridOf(n, columns, w, h)
			g.figure = f
			over := g.high - nameLines - f.lines - dotLines
			if over < 0 || g.inner < leastInner || f.cells(widest) > g.inner-2 {
				continue
			}
			if worth := p.furnish(&g, over); worth > most {
				best, most = g, worth
			}
		}
		if most >= 0 {
			return best
		}
	}
	g := gridOf(n, min(n, 4), w, h)
	g.letters = max(g.inner-width(nextMark), 1)
	return g
}

const (
	// nameLines is the line with the name, or what there is to say of it, dotLines that with the dots.
	nameLines, dotLines = 1, 1
	// between is the cells between tiles.
	between = 1
)

func gridOf(n, columns, w, h int) glanceGrid {
	const roomy = 24
	g := glanceGrid{columns: columns, side: 1}
	outer := w/columns - between
	if outer >= roomy {
		g.side = 2
	}
	g.inner = max(outer-2*g.side, 1)
	g.high = max(h/((n+columns-1)/columns), 1)
	return g
}

// drawnIn gives the fonts that the terminal can draw.
func (p glancePicture) drawnIn(all []glanceFont) []glanceFont {
	var fonts []glanceFont
	for _, f := range all {
		if f.solid || !p.theme.ascii {
			fonts = append(fonts, f)
		}
	}
	return fonts
}

// widest gives the signs of the widest count that is to be expected: of games two digits with a narrow one.
func (p glancePicture) widest() string {
	for _, t := range p.tiles {
		if t.count.n >= 20 || t.count.balls {
			return "00"
		}
	}
	return "10"
}

// furnish shares out the lines that are over, and tells how much that is worth.
func (p glancePicture) furnish(g *glanceGrid, over int) int {
	worth := 0
	g.letters = g.inner - width(nextMark)
	most := (len(p.tiles) - 1) / 2
	for i, f := range p.drawnIn(nameFonts) {
		// Names that do not fit have plain letters: a smaller font is better where more of them do, none where most do not.
		if fit := p.namesIn(f, g.inner, g.letters); f.lines <= over && fit > most {
			g.name, most, worth = f, fit, (16-4*i)*fit/len(p.tiles)
		}
	}
	over -= g.name.lines
	if over >= 2 {
		g.frame = true
		over -= 2
		worth += 4
	}
	dots := true
	for _, t := range p.tiles {
		dots = dots && (t.goal == 0 || goalDots(t, g.inner) != "")
	}
	if dots {
		worth += 2
	}
	if over > 0 {
		g.words = true
		worth++
	}
	return worth
}

// namesIn counts the names of up to some letters that fit w cells in a font.
func (p glancePicture) namesIn(f glanceFont, w, letters int) int {
	fit := 0
	for _, name := range p.names(letters) {
		if cells := f.cells(lettersOf(name)); cells > 0 && cells <= w {
			fit++
		}
	}
	return fit
}
