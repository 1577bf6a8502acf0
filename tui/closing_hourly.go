package tui

import (
	"fmt"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// copyEvery is how often the store is copied while an evening is open.
const copyEvery = time.Hour

// The messages of the copy made by itself: it is time for one, and what came of it.
type (
	copyDueMsg struct{}
	copyMsg    struct{ err error }
)

// awaitCopy waits until a copy is due; nil where none is made by itself.
func (a *App) awaitCopy() tea.Cmd {
	if a.conf.Backup == nil || a.conf.After == nil {
		return nil
	}
	due := a.conf.After(copyEvery)
	return func() tea.Msg {
		<-due
		return copyDueMsg{}
	}
}

// hearCopyDue makes a copy of the store beside the board, if an evening is open and none is being made.
func (a *App) hearCopyDue() {
	a.do(a.awaitCopy())
	if a.evening == nil || a.packing.pending() {
		return
	}
	backup := a.conf.Backup
	a.do(func() tea.Msg {
		path, err := backup()
		if path != "" {
			// The copy is there; that an older one stays in its folder is told after closing.
			err = nil
		}
		return copyMsg{err}
	})
}

// hearCopy says once that copies fail, and again only after one that did not. A question in the status line stays there:
// then it is said after the next hour.
func (a *App) hearCopy(msg copyMsg) {
	switch {
	case msg.err == nil:
		a.copyFailed = false
	case !a.copyFailed && a.question == nil:
		a.copyFailed = true
		a.say(fmt.Sprintf("the hourly copy of the store was not made (%v); what you key is kept as before", msg.err))
	}
}
