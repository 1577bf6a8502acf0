package tui

import tea "github.com/charmbracelet/bubbletea"

// errand is something small to be written beside the board, such as a setting. Errands are run one after the other in the
// order in which they were sent, and the program does not end before they are done.
type errand struct {
	run func() error
	// done hears what came of it.
	done func(a *App, err error)
}

// errandMsg says what came of the errand sent first.
type errandMsg struct{ err error }

// sendErrand sends an errand.
func (a *App) sendErrand(e errand) {
	a.errands = append(a.errands, e)
	if len(a.errands) == 1 {
		a.runErrand()
	}
}

func (a *App) runErrand() {
	run := a.errands[0].run
	a.do(func() tea.Msg { return errandMsg{run()} })
}

func (a *App) hearErrand(msg errandMsg) {
	e := a.errands[0]
	a.errands = a.errands[1:]
	e.done(a, msg.err)
	if len(a.errands) > 0 {
		a.runErrand()
		return
	}
	a.leaveIfDone()
}
