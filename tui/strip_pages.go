package tui

import (
	"fmt"
	"strings"
)

const (
	// besideWidth is the width from which the figures stand beside the list, and a page of them in two columns: in less, every
	// sentence would be broken. wideWidth is that from which the list has cues and notes too.
	besideWidth, wideWidth = 76, 140
	// airyLines is the height from which an empty line parts the figures beside the list: in fewer, one more figure is worth
	// more than the air.
	airyLines = 19
	// besideFirst is how many figures are cut rather than left out where there is no room: the dots and what cost the shots
	// say the most important first, the others mean nothing in part.
	besideFirst = 2
)

// beside gives the figures beside the list in w cells and some lines, with a hint at those that do not fit.
func (p stripPicture) beside(w, lines int) []string {
	var out []string
	all := p.blocks(w)
	for i, b := range all {
		if len(b) == 0 {
			continue
		}
		gap := 0
		if len(out) > 0 && lines >= airyLines {
			gap = 1
		}
		if len(out)+gap+len(b) > lines-1 {
			if room := lines - 1 - len(out) - gap; room > 0 && i < besideFirst {
				out = append(out, b[:room]...)
			}
			break
		}
		for range gap {
			out = append(out, "")
		}
		out = append(out, b...)
	}
	for len(out) < lines-1 {
		out = append(out, "")
	}
	return append(out[:max(lines-1, 0)], p.theme.quiet.on(cut("m all figures, k numbers", w)))
}

// pageHead gives the two lines above a page of figures.
func (p stripPicture) pageHead() []string {
	words := map[stripPage]string{
		pageStrip: "this game", pageGame: "this game", pageEvening: "the evening",
		pageLast: fmt.Sprintf("the last %s", plural(p.figures.n, "game", "games")),
	}[p.page]
	if p.numbers {
		words += ", every figure with its numbers"
	}
	l := newLine(p.w)
	l.add(p.theme.quiet, "── ")
	l.add(p.theme.title, words)
	l.add(p.theme.quiet, " "+strings.Repeat("─", max(l.room-1, 0)))
	if p.page == pageEvening || p.page == pageLast {
		return []string{p.whose().String(), l.String()}
	}
	return []string{p.title(), l.String()}
}

// pageLines gives all lines of a page of figures: in two columns where there is room for them.
func (s *stripScreen) pageLines(a *App, w, h int) []string {
	p := s.picture(a, w, h)
	if s.reading() && s.page == pageLast {
		return []string{"", p.theme.quiet.on("  reading earlier games")}
	}
	if s.numbers {
		return p.allNumbers(w)
	}
	var lines []string
	if s.page == pageLast {
		lines = append(lines, p.trend(w, min(max((h-pageHeadLines)/3, 4), 8))...)
	}
	if w < besideWidth {
		return append(lines, stacked(p.blocks(w-1))...)
	}
	half := (w - gutter) / 2
	left, right := halves(p.blocks(half))
	for i := range max(len(left), len(right)) {
		l, r := "", ""
		if i < len(left) {
			l = left[i]
		}
		if i < len(right) {
			r = right[i]
		}
		lines = append(lines, fit(l, half)+blanks(gutter)+r)
	}
	return lines
}

// stacked puts blocks below each other with an empty line between them.
func stacked(blocks []figureBlock) []string {
	var lines []string
	for _, b := range blocks {
		if len(b) == 0 {
			continue
		}
		if len(lines) > 0 {
			lines = append(lines, "")
		}
		lines = append(lines, b...)
	}
	return lines
}

// halves parts blocks into two columns as alike in height as their order allows.
func halves(blocks []figureBlock) (left, right []string) {
	for i := range blocks {
		left, right = stacked(blocks[:i+1]), stacked(blocks[i+1:])
		if len(left) >= len(right) {
			break
		}
	}
	return left, right
}
