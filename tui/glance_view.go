package tui

import (
	"fmt"
	"strconv"
	"strings"

	"coach.settee/model"
)

// glancePicture is what the glance shows at one moment.
type glancePicture struct {
	board boardPicture
	theme *theme
	rows  []boardRow
	// tiles are everyone's in screen order, without the names.
	tiles []glanceTile
	// named are the names as they were cut to some cells, which the layout asks for again and again.
	named map[int][]string
}

func (s *glanceScreen) picture(a *App) glancePicture {
	p := glancePicture{board: a.board.picture(a), theme: a.theme, named: map[int][]string{}}
	p.rows = p.board.students()
	p.setTiles()
	return p
}

func (s *glanceScreen) draw(a *App, w, h int) string {
	p := s.picture(a)
	if len(p.tiles) == 0 {
		return "\n" + p.theme.quiet.on(cut("  nobody is here yet: esc, and A on the board adds a student", w))
	}
	return strings.Join(p.grid(w, h), "\n")
}

// said says what a tile counts, in full and in short.
func (t glanceTile) said(x *model.Sheet) (words, short string) {
	switch {
	case t.count.balls:
		return "warm-up balls", "balls"
	case t.count.made:
		return t.count.of + " made", "made"
	case t.goal > 0 && x != nil && x.Game.Kind == model.KindDrill:
		return fmt.Sprintf("good, goal %d in this drill", t.goal), fmt.Sprintf("goal %d", t.goal)
	case t.goal > 0:
		return fmt.Sprintf("good, goal %d", t.goal), fmt.Sprintf("goal %d", t.goal)
	}
	return t.count.of + " good", "good"
}

// grid draws the tiles side by side and under each other, a blank column between them.
func (p glancePicture) grid(w, h int) []string {
	n, g := len(p.tiles), p.layOut(w, h)
	for i, name := range p.names(g.letters) {
		p.tiles[i].name = name
	}
	var lines []string
	for first := 0; first < n; first += g.columns {
		row := make([]string, g.high)
		for i := first; i < min(first+g.columns, n); i++ {
			for k, l := range p.tile(p.tiles[i], g) {
				row[k] += l + blanks(between)
			}
		}
		lines = append(lines, row...)
	}
	return lines
}

// tile draws one student in exactly the tile's lines; a frame is round the one who is up.
func (p glancePicture) tile(t glanceTile, g glanceGrid) []string {
	room := g.high
	if g.frame {
		room -= 2
	}
	head, rest := p.name(t, g), p.content(t, g)
	body := append(append(head, make([]string, max(room-len(head)-len(rest), 0))...), rest...)
	side := p.framed(t, strings.Repeat("█", g.side))
	lines := make([]string, 0, g.high)
	for _, l := range body[:min(len(body), room)] {
		lines = append(lines, side+fit(l, g.inner)+side)
	}
	if !g.frame {
		return lines
	}
	edges := strings.Repeat("█", g.side)
	top := p.framed(t, edges+strings.Repeat("▀", g.inner)+edges)
	bottom := p.framed(t, edges+strings.Repeat("▄", g.inner)+edges)
	return append(append([]string{top}, lines...), bottom)
}

// framed gives a part of the frame, blanks for who is not up.
func (p glancePicture) framed(t glanceTile, part string) string {
	if t.up {
		return p.theme.accent.on(part)
	}
	return blanks(width(part))
}

// content gives the lines below the name: the count, the dots, and the words where there is room for both.
func (p glancePicture) content(t glanceTile, g glanceGrid) []string {
	with := p.theme.strong
	switch {
	case t.up:
		with = p.theme.accent
	case t.out:
		with = p.theme.quiet
	}
	drawn, ok := g.figure.block(strconv.Itoa(t.count.n), g.inner)
	if !ok {
		drawn = []string{strconv.Itoa(t.count.n)}
	}
	lines := inMiddle(with, drawn, g.inner)
	if t.out {
		return append(lines, inMiddle(p.theme.quiet, []string{"out"}, g.inner)...)
	}
	dots := goalDots(t, g.inner)
	if dots != "" {
		lines = append(lines, inMiddle(p.theme.good, []string{dots}, g.inner)...)
	}
	if dots == "" || g.words {
		words := t.words
		if width(words) > g.inner {
			words = t.short
		}
		lines = append(lines, inMiddle(p.theme.quiet, []string{cut(words, g.inner)}, g.inner)...)
	}
	return lines
}

// What stands before the name of the student up, and of those up on other pairs.
const upMark, nextMark = "▶ ", "▸ "

// name gives the lines with the name: one with what there is to say of it, a bar for the one who is up, then block letters
// where the grid has them.
func (p glancePicture) name(t glanceTile, g glanceGrid) []string {
	name, with := t.name, p.theme.strong
	if g.name.lines > 0 {
		name = ""
	}
	switch {
	case t.up:
		with = p.theme.upBar
		name = strings.TrimSpace(upMark+name) + "  UP"
		if width(name) > g.inner {
			name = upMark + t.name
		}
	case t.out:
		with = p.theme.quiet
	case t.next:
		name = strings.TrimSpace(nextMark + name)
	}
	name = cut(name, g.inner)
	before := (g.inner - width(name)) / 2
	lines := []string{with.on(blanks(before) + name + blanks(g.inner-before-width(name)))}
	if g.name.lines == 0 {
		return lines
	}
	if with == p.theme.upBar {
		with = p.theme.accent
	}
	drawn, ok := g.name.block(lettersOf(t.name), g.inner)
	if !ok {
		drawn = make([]string, g.name.lines)
		drawn[g.name.lines/2] = cut(t.name, g.inner)
	}
	return append(lines, inMiddle(with, drawn, g.inner)...)
}

// inMiddle puts lines of the same width in the middle of w cells.
func inMiddle(with ink, lines []string, w int) []string {
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = blanks((w-width(l))/2) + with.on(l)
	}
	return out
}

// goalDots gives a dot for each good shot up to the goal, a ring for each that is missing, and how many are more; "" where
// there is no goal, or no room for it in w cells.
func goalDots(t glanceTile, w int) string {
	if t.goal == 0 {
		return ""
	}
	signs := strings.Split(strings.Repeat("●", min(t.count.n, t.goal))+strings.Repeat("○", max(t.goal-t.count.n, 0)), "")
	if over := t.count.n - t.goal; over > 0 {
		signs = append(signs, "+"+strconv.Itoa(over))
	}
	for _, between := range []string{" ", ""} {
		if dots := strings.Join(signs, between); width(dots) <= w {
			return dots
		}
	}
	return ""
}
