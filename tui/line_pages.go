package tui

import (
	"fmt"
	"strings"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// pageLines gives the lines of the page in view.
func (p linePicture) pageLines() []string {
	if p.page == lineSpares {
		return p.spareLines()
	}
	return p.moveLines()
}

// The columns of the spare table: the leave's name, and where there is room the boards that its line has.
const spareNameCells, spareBoardCells, boardsBeside = 24, 5, 76

// spareLines is the spare table: each leave with the move from the strike line and where it leads, then what it leaves
// out and the trade's systems.
func (p linePicture) spareLines() []string {
	t := p.theme
	from := "from the strike line: " + aimWords(p.k.aimed)
	switch {
	case p.k.aimed.IsZero():
		from = "from a strike line that is not set: the moves are told, but not where they lead"
	case !p.k.aimed.Slide.Known || !p.k.aimed.Arrows.Known:
		from += "; without slide and arrows the moves are told, but not where they lead"
	}
	lines := append(p.quietly(from), "")
	boards := p.w >= boardsBeside
	if boards {
		lines = append(lines, t.quiet.on(fit(" leave", spareNameCells)+fitRight("slide", spareBoardCells)+" target"))
	}
	for i, s := range p.k.spares {
		if i > 0 && s.Leave.Count() > 1 && p.k.spares[i-1].Leave.Count() == 1 {
			lines = append(lines, "")
		}
		head := fit(" "+s.Leave.Words(), spareNameCells)
		if boards {
			head += fitRight(board(s.Line.Slide), spareBoardCells) + fitRight(board(s.Line.Arrows), spareBoardCells) + "  "
		}
		words := strings.TrimPrefix(s.Words(p.k.by.Hand), s.Leave.Words()+": ")
		lines = append(lines, hanging(head, clean(words), p.w)...)
	}
	lines = append(lines, "")
	lines = append(lines, p.quietly(lane.SpareLeftOut)...)
	lines = append(lines, "", t.title.on(cut("The trade's systems, by geometry", p.w)))
	for _, s := range lane.Systems() {
		lines = append(lines, p.quietly(s.Name+": "+s.Rule+". "+s.Footnote)...)
	}
	return lines
}

// askForSpare asks for the student's own line for a pin.
func (s *lineScreen) askForSpare(a *App) {
	id, known := s.student, s.known
	label := a.evening.Label(id) + "'s own line: pin arrows slide, 10 21 32 (10 alone: none; . or left out stays)"
	a.ask(label, func(text string) error {
		l, err := model.ParseSpareLine(text, known.spareInForce)
		if err != nil {
			return err
		}
		was := known.by.SpareLine(l.Pin)
		if err := a.done(a.evening.SetSpareLine(id, l.Pin, l.Line)); err != nil {
			return err
		}
		switch {
		case l.Line != was:
		case was.IsZero():
			a.say(fmt.Sprintf("no own line is kept for the %d pin", l.Pin))
		default:
			a.say(fmt.Sprintf("the own line for the %d pin stays as it is", l.Pin))
		}
		return nil
	})
}

// fewBalls goes with the hits before and since a move.
const fewBalls = "A move is worth a few balls in a hundred: so few balls before and since prove nothing."

// quietly gives words of little weight as lines of a page.
func (p linePicture) quietly(words string) []string {
	lines := hanging(" ", words, p.w)
	for i := range lines {
		lines[i] = p.theme.quiet.on(lines[i])
	}
	return lines
}

// moveLines lists each change of the line aimed at tonight with what came of it.
func (p linePicture) moveLines() []string {
	t := p.theme
	lines := []string{""}
	for _, m := range p.k.made {
		lines = append(lines, hanging(" ", clean(fmt.Sprintf("lane %d, %s", m.Lane, m.Words)), p.w)...)
		line := fmt.Sprintf("from %s to %s, after %s there", lineOr(m.From), lineOr(m.To), plural(m.Balls, "full rack", "full racks"))
		for _, s := range hanging("   ", clean(line), p.w) {
			lines = append(lines, t.quiet.on(s))
		}
	}
	if len(p.k.made) == 0 {
		return append(lines, p.quietly("no ball was thrown after a change of line tonight: enter on the lane takes a move, c sets a line")...)
	}
	return append(append(lines, ""), p.quietly(fewBalls)...)
}

// lineOr writes a line as its prompt takes it, or that there was none.
func lineOr(l model.Line) string {
	if l.IsZero() {
		return "no line"
	}
	return lineWords(l)
}
