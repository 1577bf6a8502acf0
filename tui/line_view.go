package tui

import (
	"fmt"
	"strings"
)

// linePicture is what the line's screen shows at one moment.
type linePicture struct {
	*lineScreen
	theme *theme
	k     lineKnown
	// name is the student's, w and h the room.
	name string
	w, h int
}

func (s *lineScreen) picture(a *App, w, h int) linePicture {
	return linePicture{lineScreen: s, theme: a.theme, k: s.known, name: a.evening.Label(s.student), w: w, h: h}
}

func (s *lineScreen) draw(a *App, w, h int) string {
	p := s.picture(a, w, h)
	if s.student == "" {
		return "\n" + a.theme.quiet.on("  nobody is here yet: esc goes to the board, A there adds a student")
	}
	if s.page != lineLane {
		return strings.Join(append(p.head(), p.window(p.pageLines(), p.room())...), "\n")
	}
	lines := p.laneLines(p.room())
	words := p.window(p.words(p.wordCells()), p.room())
	for i := range lines {
		lines[i] = fit(lines[i], laneWidth(laneScale(w))) + blanks(gutter)
		if i < len(words) {
			lines[i] += words[i]
		}
	}
	return strings.Join(append(p.head(), lines...), "\n")
}

// headLines is the line that says whose line it is.
const headLines = 1

func (p linePicture) room() int { return max(p.h-headLines, 1) }

// wordCells gives the cells beside the lane.
func (p linePicture) wordCells() int { return max(p.w-laneWidth(laneScale(p.w))-gutter, 1) }

// lastTop gives the last line that what does not fit can begin with.
func (s *lineScreen) lastTop(a *App, w, h int) int {
	if s.student == "" {
		return 0
	}
	p := s.picture(a, w, h)
	lines := p.pageLines
	if s.page == lineLane {
		lines = func() []string { return p.words(p.wordCells()) }
	}
	return lastTop(len(lines()), p.room())
}

// window gives the lines in view, and at the foot how many more there are.
func (p linePicture) window(all []string, room int) []string {
	return pageAndMore(p.theme, all, p.top, room, "↓ %s more")
}

// head says whose line it is, on which lane, and what it is.
func (p linePicture) head() []string {
	l := newLine(p.w)
	name := cut(clean(p.name), p.w/3)
	l.add(p.theme.accent, " "+name)
	l.add(p.theme.strong, fmt.Sprintf("  lane %d", p.k.lane))
	switch {
	case p.k.lane == p.k.next:
		l.add(p.theme.quiet, ", the next ball")
	case p.k.alone:
		l.add(p.theme.quiet, ", not the student's own")
	default:
		l.add(p.theme.quiet, ", the other lane")
	}
	if p.page == lineLane {
		words := aimWords(p.k.aimed)
		if p.w < roomyWidth && !p.k.aimed.IsZero() {
			words = "line " + lineWords(p.k.aimed)
		}
		l.add(p.theme.quiet, "  "+words)
		if ball := clean(p.k.advice.Bowled); ball != "" {
			l.add(p.theme.quiet, "  with "+ball)
		}
		return []string{l.String()}
	}
	l.add(p.theme.title, map[linePage]string{lineSpares: "  spares", lineMoves: "  moves tonight"}[p.page])
	return []string{l.String()}
}
