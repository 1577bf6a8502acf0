package tui

import (
	"fmt"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// firstCopy is after what time it is looked for the first time whether a copy of the store is due: when the board is long
// on the screen.
const firstCopy = 5 * time.Second

// The messages of the copy made by itself: it is time to look for one, and what came of it and when to look again.
type (
	copyDueMsg struct{}
	copyMsg    struct {
		next time.Duration
		err  error
	}
)

// awaitCopy waits until it is time to look whether a copy is due; nothing where none is made by itself.
func (a *App) awaitCopy(after time.Duration) {
	if a.conf.BackupDue == nil || a.conf.After == nil {
		return
	}
	due := a.conf.After(after)
	a.do(func() tea.Msg {
		<-due
		return copyDueMsg{}
	})
}

// hearCopyDue makes a copy of the store beside the board where one is due. It is not looked again before that is done.
func (a *App) hearCopyDue() {
	backup := a.conf.BackupDue
	a.do(func() tea.Msg {
		next, err := backup()
		return copyMsg{next, err}
	})
}

// hearCopy says once that copies fail, and again only after one that did not. A question in the status line stays there:
// then it is said at the next time.
func (a *App) hearCopy(msg copyMsg) {
	a.awaitCopy(msg.next)
	switch {
	case msg.err == nil:
		a.copyFailed = false
	case !a.copyFailed && a.question == nil:
		a.copyFailed = true
		a.say(fmt.Sprintf("the copy of the store that is due was not made (%v); what you key is kept as before", msg.err))
	}
}
