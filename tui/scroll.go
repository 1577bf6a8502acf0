package tui

import (
	"fmt"
	"slices"
)

// pageLines is how many lines pgup and pgdown turn where nothing says how many there are on a page.
const pageLines = 10

// toTheEnd is further than any list is long.
const toTheEnd = 1 << 20

// walked gives by how many lines a key moves a mark or what is in view, a page being some lines.
func walked(key string, page int) int {
	return map[string]int{"up": -1, "down": 1, "pgup": -page, "pgdown": page, "home": -toTheEnd, "end": toTheEnd}[key]
}

// inList gives the place among n things that is nearest to at; 0 where there is none.
func inList(at, n int) int { return max(min(at, n-1), 0) }

// inView gives which of n lines are shown in the room for some, up to the one after the last: the lines from one up to the
// other of which the mark lies on are among them, in the middle where that is possible.
func inView(from, to, room, n int) (first, end int) {
	first = min(max(from-room/2, to-room, 0), max(n-room, 0))
	return first, min(first+room, n)
}

// lastTop gives the last of n lines that can be the first in the room for some.
func lastTop(n, room int) int { return max(n-room, 0) }

// turned gives the first line shown of n after a key that turns pages, a page being the room for some lines.
func turned(top int, key string, room, n int) int {
	return min(max(top+walked(key, room), 0), lastTop(n, room))
}

// pageFrom gives the lines in view from top on, and says which they are.
func pageFrom(lines []string, top, room int) (shown []string, where string) {
	top = min(top, lastTop(len(lines), room))
	shown = slices.Clip(lines[top:min(top+room, len(lines))])
	return shown, fmt.Sprintf("lines %d to %d of %d", top+1, top+len(shown), len(lines))
}

// pageAndMore gives the lines in view from top on; the last of them says how many more there are, where there are any.
func pageAndMore(t *theme, lines []string, top, room int, more string) []string {
	top = min(top, lastTop(len(lines), room))
	shown := lines[top:min(top+room, len(lines))]
	if rest := len(lines) - top - len(shown); rest > 0 && len(shown) > 0 {
		last := t.quiet.on(fmt.Sprintf(more, plural(rest+1, "line", "lines")))
		shown = append(shown[:len(shown)-1:len(shown)-1], last)
	}
	return shown
}
