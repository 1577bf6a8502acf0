package tui

import "slices"

// sayMeaningless says of a key that it does nothing here, or that it is no answer to a question that was asked.
func (a *App) sayMeaningless(key string, asked bool) {
	words := key + " has no meaning here: ? shows every key"
	switch {
	case asked:
		words = key + " is no answer: nothing was done"
	case a.intro.behind != nil:
		words = key + " has no meaning here: esc goes back to the introduction"
	case a.screen == screen(a.board) && a.evening != nil && len(a.evening.Seats()) == 0:
		words = key + " has no meaning here: A adds a student, ? shows every key"
	case a.shielded():
		words = key + " does nothing here: v goes back to the coach's view"
	}
	a.refuseWith(words)
	a.status.forStudent = true
}

// walkingKeys move a mark, turn lines or go back; at an end they do nothing.
var walkingKeys = []string{
	"up", "down", "left", "right", "pgup", "pgdown", "home", "end", "tab", "shift+tab", "backspace", "ctrl+h",
}

// beforeWalk gives what is shown before a key that may find nowhere to go, "" for other keys.
func (a *App) beforeWalk(key string) string {
	if a.tooSmall() || !slices.Contains(walkingKeys, key) {
		return ""
	}
	return a.picture()
}

// sayIfStill says that there is nothing further where a key has changed nothing of what was shown before, and what it has
// said, if anything, is not for a student who looks.
func (a *App) sayIfStill(before string) {
	hidden := a.status.words == "" || a.shielded() && !a.status.forStudent
	if before == "" || !hidden || a.picture() != before {
		return
	}
	a.say("there is nothing further that way")
	a.status.forStudent = true
}
