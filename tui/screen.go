package tui

import "slices"

// screen is one of the pictures that fill the window between header and foot, with the keys that belong to it.
type screen interface {
	// title names the screen in the header and in the menu, about says in the menu what it is for.
	title() string
	about() string
	// letter opens the screen from the board and from the menu; "" is the board, which esc opens.
	letter() string
	// table is what the keys do while the screen is open.
	table() table
	// moment tells which hints fit.
	moment(a *App) moment
	// draw gives the picture in lines of up to w cells; those beyond h are not shown.
	draw(a *App, w, h int) string
}

// over is what lies over a screen.
type over uint8

const (
	nothingOver over = iota
	menuOver
	helpOver
)

// show turns to a screen and takes away what lies over it. Without an evening there is no board to turn to.
func (a *App) show(s screen) {
	a.over = nothingOver
	if s == screen(a.strip) {
		if a.strip.open(a) {
			a.screen = s
		}
		return
	}
	if !a.leaveStrip() {
		return
	}
	if s == screen(a.line) && !a.line.open(a) || s == screen(a.glance) && !a.glance.open(a) {
		return
	}
	if s == screen(a.student) {
		a.student.open(a)
	}
	if s != screen(a.session) && s != screen(a.closing) {
		a.session.marked = ""
	}
	a.screen = s
	if a.evening == nil && s == screen(a.board) {
		a.screen = a.session
	}
}

// showByLetter turns to the screen of a letter.
func (a *App) showByLetter(letter string) {
	for _, s := range a.screens {
		if s.letter() == letter {
			here := a.screen == s && a.over == nothingOver
			if a.show(s); here && a.status.words == "" {
				a.say("this is the " + s.title() + " screen already")
			}
			return
		}
	}
}

// lettersBelow are the letters of the screens that a screen's own keys do not hide.
func lettersBelow(own table, screens []screen) table {
	return slices.DeleteFunc(screenKeys(screens), func(b binding) bool {
		_, hidden := own.find(b.keys[0])
		return hidden
	})
}

// screenKeys are the letters of the screens, as bindings.
func screenKeys(screens []screen) table {
	var t table
	for _, s := range screens {
		if s.letter() == "" {
			continue
		}
		t = append(t, binding{
			keys: []string{s.letter()}, group: groupAnywhere, help: s.about(),
			hints: map[moment]string{momentNobody: s.title()},
			act:   func(a *App, key string) { a.showByLetter(key) },
		})
	}
	return t
}
