package tui

import (
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"coach.settee/model"
)

// mouse takes in a button pressed or the wheel turned; everything that it does keys do too.
func (a *App) mouse(msg tea.MouseMsg) {
	if !a.conf.Mouse || a.tooSmall() || msg.Action != tea.MouseActionPress {
		return
	}
	switch msg.Button {
	case tea.MouseButtonWheelUp:
		a.wheel(tea.KeyUp)
	case tea.MouseButtonWheelDown:
		a.wheel(tea.KeyDown)
	case tea.MouseButtonLeft, tea.MouseButtonRight:
		y, h := msg.Y-len(a.top()), a.bodyHeight()
		if a.prompt != nil || msg.X < 0 || msg.X >= a.w || y < 0 || y >= h {
			return
		}
		if act := a.spotAt(msg.X, y, h, msg.Button == tea.MouseButtonRight); act != nil {
			act()
		}
	}
}

// wheelLines is how many lines of text the wheel turns at once; a mark it moves by one row.
const wheelLines = 3

// wheel is the key up or down, but on the board and the glance, where that would put up another student: the board's rows
// it moves where they do not all fit.
func (a *App) wheel(key tea.KeyType) {
	k := tea.KeyMsg{Type: key}
	switch {
	case a.prompt != nil:
		if _, ok := a.prompt.keys.find(keyName(k)); ok {
			a.promptKey(k)
		}
		return
	case a.over == menuOver, a.over == nothingOver && a.screen == screen(a.glance):
		return
	case a.over == nothingOver && a.screen == screen(a.board):
		by := 1
		if key == tea.KeyUp {
			by = -1
		}
		a.board.scroll(a, a.w, a.bodyHeight(), by)
		return
	}
	n := 1
	if a.over == helpOver || a.showsText() {
		n = wheelLines
	}
	for range n {
		a.key(k)
	}
}

// showsText tells whether the arrows turn lines of text on the screen.
func (a *App) showsText() bool {
	switch a.screen {
	case screen(a.line), screen(a.handout):
		return true
	case screen(a.strip):
		return !a.strip.shielded && (a.strip.page != pageStrip || a.strip.numbers)
	}
	return false
}

// spotAt gives what a click does at a cell of the picture of h lines, nil for nothing. The right button raises a letter.
func (a *App) spotAt(x, y, h int, right bool) func() {
	switch a.over {
	case menuOver:
		if row, ok := a.menuRowAt(y, h); ok && !right {
			return func() { a.point(func() { a.act(row.key) }) }
		}
		return nil
	case helpOver:
		return nil
	}
	if key, ok := a.panelKeyAt(x, y, h); ok {
		if name := key.name(right); name != "" {
			return func() { a.pointAt(func() { a.act(name) }) }
		}
		return nil
	}
	if right {
		return nil
	}
	if a.screen == screen(a.board) {
		if id, ok := a.board.picture(a).studentAt(a.w, h, y); ok {
			return func() { a.pointAt(func() { a.tell(a.evening.PutUp(id)) }) }
		}
		return nil
	}
	if s, ok := a.screen.(lister); ok {
		if row, ok := s.rowAt(a, x, y, a.w, h); ok {
			return func() { a.pointAt(func() { s.markRow(a, row) }) }
		}
	}
	return nil
}

func (a *App) panelKeyAt(x, y, h int) (panelKey, bool) {
	switch a.screen {
	case screen(a.board):
		return a.board.picture(a).keyAt(a.w, h, x, y)
	case screen(a.strip):
		return a.strip.picture(a, a.w, h).panelKeyAt(x, y)
	}
	return panelKey{}, false
}

// point acts as a key does: what was said is gone, and so is a digit that was begun.
func (a *App) point(act func()) {
	a.status, a.board.counting, a.board.lettered, a.board.scrolled = status{}, false, false, 0
	act()
}

// pointAt acts on something of the picture, where no question is answered.
func (a *App) pointAt(act func()) {
	a.withdraw(false)
	a.point(act)
}

// panelKey is what lies at a cell of the panel: a pin, 0 for none, or an axis.
type panelKey struct {
	pin  int
	axis model.Axis
}

// name gives the key that does what a click there does, "" for nothing.
func (k panelKey) name(right bool) string {
	switch {
	case k.pin > 0 && right:
		return ""
	case k.pin > 0:
		return strconv.Itoa(k.pin % 10)
	case right:
		return strings.ToUpper(axisKeys[k.axis])
	}
	return axisKeys[k.axis]
}

// panelKeyAt gives what lies at a cell of a panel of some lines in w cells, counted from its heading.
func (p boardPicture) panelKeyAt(w, height, x, line int) (panelKey, bool) {
	if id, _ := p.Evening.Speaking(); id == "" || line < 1 || line >= height {
		return panelKey{}, false
	}
	b := boardPanel{picture: p, theme: p.Theme, width: w, large: p.isLarge(w, height)}
	i := line - 1
	row, column, cells := b.pinRow(i)
	if at := x - column; row != nil && at >= 0 && at < cells*len(row) {
		return panelKey{pin: row[at/cells]}, true
	}
	switch {
	case b.large && i <= mediumFont.lines && x < largeLetterColumn*model.AxisCount:
		return panelKey{axis: model.Axes[x/largeLetterColumn]}, true
	case !b.large && i < model.AxisCount && x <= letterColumn:
		return panelKey{axis: model.Axes[i]}, true
	}
	return panelKey{}, false
}
