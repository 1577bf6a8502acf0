package tui

import (
	"fmt"
	"strings"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// figureBlock is one figure as it is drawn: some lines that belong together.
type figureBlock []string

// says gives a block of sentences, wrapped to w cells with two blanks before what goes on; empty ones are left out.
func says(with ink, w int, sentences ...string) figureBlock {
	const indent = "  "
	var b figureBlock
	for _, s := range sentences {
		if s == "" {
			continue
		}
		first, rest, goesOn := strings.Cut(wrapped(clean(s), w), "\n")
		b = append(b, with.on(cut(first, w)))
		if !goesOn {
			continue
		}
		for _, line := range wrap(strings.ReplaceAll(rest, "\n", " "), w-len(indent)) {
			b = append(b, with.on(indent+line))
		}
	}
	return b
}

// blocks gives the figures of the page in view in w cells, the most important first.
func (p stripPicture) blocks(w int) []figureBlock {
	r := p.report()
	if r.Games == 0 {
		return []figureBlock{p.drillBlock(w), says(ink{}, w, r.Slipping.WordsLoad())}
	}
	return append(p.minute(r, w), p.rest(r, w)...)
}

// minute gives what a coach uses in a minute: the dots, what cost the rest, what held up, one to try.
func (p stripPicture) minute(r insight.Report, w int) []figureBlock {
	t := p.theme
	blocks := []figureBlock{p.dotBlock(r, w), p.costBlock(r, w)}
	if held := insight.HeldUp(r); held != "" {
		blocks = append(blocks, says(t.good, w, "held up: "+held))
	}
	return append(blocks, p.tryBlock(r.Next, w))
}

// tryBlock says what to work on next; where the coach chose it, what the figures say too.
func (p stripPicture) tryBlock(n insight.Next, w int) figureBlock {
	switch {
	case n.ByCoach:
		b := says(p.theme.strong, w, "the coach: "+n.What)
		if n.FiguresWhy != "" {
			b = append(b, says(p.theme.quiet, w, "the figures: "+n.FiguresWhy)...)
		}
		return b
	case n.What != "":
		return append(says(p.theme.strong, w, "to try: "+n.What), says(ink{}, w, "  "+n.Why)...)
	}
	return nil
}

// dotBlock gives the dots of the game, or of several games each one's count, and the longest run of good shots.
func (p stripPicture) dotBlock(r insight.Report, w int) figureBlock {
	t := p.theme
	if p.shownPage() == pageStrip || p.shownPage() == pageGame {
		l := newLine(w)
		l.add(t.strong, r.Counts.Good.String()+" good")
		l.add(t.quiet, fmt.Sprintf(", longest run %d", r.Streaks.Longest))
		return figureBlock{t.good.on(cut(strings.Join(strings.Split(dots(p.sheet()), ""), " "), w)), l.String()}
	}
	var b figureBlock
	if p.shownPage() == pageEvening {
		for i, g := range r.ByGame {
			b = append(b, p.gameLine(i+1, g, w))
		}
		for _, d := range r.Drills {
			b = append(b, says(ink{}, w, d.Words())...)
		}
	}
	return append(b, says(t.strong, w, fmt.Sprintf("%s good in %s, longest run %d",
		r.Counts.Good, plural(r.Games, "game", "games"), r.Streaks.Longest))...)
}

// gameLine gives a game's dots, its count and its score.
func (p stripPicture) gameLine(n int, g insight.GameCount, w int) string {
	l := newLine(w)
	l.put(p.theme.quiet, fmt.Sprint(n), 3)
	if x := p.evening.SheetOf(g.Game.ID); x != nil {
		l.put(p.theme.good, dots(x), mostRacks+1)
	}
	l.put(p.theme.strong, g.Counts.Good.String(), 9)
	l.add(p.theme.quiet, fmt.Sprint(g.Score))
	return l.String()
}

// mostRacks is the most full racks that a game has.
const mostRacks = 12

// drillBlock tells what drills came to, where there is no game.
func (p stripPicture) drillBlock(w int) figureBlock {
	var b figureBlock
	for _, d := range p.report().Drills {
		b = append(b, says(p.theme.strong, w, d.Words())...)
	}
	if len(b) == 0 {
		return says(p.theme.quiet, w, "no game here: nothing to count")
	}
	return b
}

// roomyHeight is the height of the screen from which axes that cost nothing are drawn too.
const roomyHeight = 25

// costBlock draws what cost the shots that were not good as bars, one an axis.
func (p stripPicture) costBlock(r insight.Report, w int) figureBlock {
	c := r.Cost
	if c.NotGood == 0 {
		return nil
	}
	b := figureBlock{p.theme.title.on(cut(fmt.Sprintf("what cost the other %d", c.NotGood), w))}
	const name, number = 10, 5
	room := min(max(w-name-number, 1), 24)
	for _, a := range model.Axes {
		if c.ByAxis[a] == 0 && p.h < roomyHeight {
			continue
		}
		l := newLine(w)
		l.add(p.theme.key, axisKeys[a])
		l.put(ink{}, " "+a.String(), name-1)
		share := c.ByAxis[a]
		l.add(p.theme.cost, strings.Repeat("█", int(share/float64(c.NotGood)*float64(room)+0.5)))
		l.to(name + room)
		l.add(ink{}, fitRight(fmt.Sprintf("%.1f", share), number))
		b = append(b, l.String())
	}
	return append(b, says(p.theme.quiet, w, c.WordsSide(), c.WordsPattern())...)
}

// rest gives the other figures in words; for a professional the shots one by one come first.
func (p stripPicture) rest(r insight.Report, w int) []figureBlock {
	var plain ink
	blocks := []figureBlock{}
	if level := p.by.Chosen().Level; level == model.Advanced || level == model.Elite {
		blocks = append(blocks, p.shotBlocks(r, w)...)
	}
	blocks = append(blocks,
		says(plain, w, r.Counts.Words(), r.Counts.WordsRate(), r.Counts.WordsSpare()),
		says(plain, w, r.Outcome.WordsResults(), r.Outcome.Words(), r.Outcome.WordsPocket(), r.Outcome.WordsCarry()),
		says(plain, w, r.Spares.Words(), r.Spares.WordsMissed(), r.Spares.WordsOpen()),
	)
	var cues figureBlock
	for _, c := range r.Cues {
		cues = append(append(cues, says(p.theme.accent, w, c.Words())...), says(p.theme.quiet, w, c.WordsBetter())...)
	}
	blocks = append(blocks, cues)
	return append(blocks,
		says(plain, w, p.slippingWords(r), r.Slipping.WordsLoad()),
		says(plain, w, "own calls: "+r.OwnCall.Words()),
		says(plain, w, r.Consistency.Words()...),
		says(plain, w, r.Streaks.Words()),
		says(plain, w, r.Worth.WordsExpected(), r.Worth.WordsGood(), r.Worth.WordsSingle()),
	)
}

// slippingWords says whether the student has been slipping, which hangs on earlier games.
func (p stripPicture) slippingWords(r insight.Report) string {
	if p.reading() {
		return "over the evening: reading earlier games"
	}
	return "over the evening: " + r.Slipping.Words()
}

// figuresSay names what the figures would have the student work on.
func (s *stripScreen) figuresSay(a *App) string {
	n := s.report().Next
	if n.ByCoach {
		return n.Figures
	}
	return n.What
}
