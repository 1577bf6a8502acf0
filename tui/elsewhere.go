package tui

import (
	"errors"
	"fmt"

	tea "github.com/charmbracelet/bubbletea"
)

// elsewhereMsg says what came of writing what is not kept to another place.
type elsewhereMsg struct {
	file  string
	steps int
	// ticket is the last that was handed to the recorder before.
	ticket uint64
	err    error
}

// refusedElsewhere says why nothing is written to another place now.
func refusedElsewhere(a *App) string {
	switch {
	case a.conf.KeepElsewhere == nil:
		return "there is no other place to keep anything in"
	case !a.ledger.refused() || a.ledger.settled():
		return "the disk does not refuse: what you key is kept as usual"
	}
	return ""
}

// askElsewhere asks where what is not kept is to be written, and proposes a place.
func (a *App) askElsewhere() {
	proposed := ""
	if a.conf.Elsewhere != nil {
		proposed = a.conf.Elsewhere()
	}
	a.askWith("write what is not kept to the file", proposed, func(text string) error {
		if text == "" {
			return errors.New("name a file, on another disk or a stick; esc drops it")
		}
		a.say("writing what is not kept to " + text)
		write, ticket := a.conf.KeepElsewhere, a.ledger.progress.Issued
		a.do(func() tea.Msg {
			file, steps, err := write(text)
			return elsewhereMsg{file, steps, ticket, err}
		})
		return nil
	})
}

// hearElsewhere says where what is not kept was written, or why it was not.
func (a *App) hearElsewhere(msg elsewhereMsg) {
	switch {
	case msg.err != nil:
		a.refuseWith(fmt.Sprintf("not written: %v. K tries another place", msg.err))
	case msg.steps == 0:
		a.say("the disk has taken everything meanwhile: nothing had to be written")
	default:
		a.ledger.aside = max(a.ledger.aside, msg.ticket)
		a.say(fmt.Sprintf("%s in %s, for settee import --newer FILE; here it is tried again", plural(msg.steps, "step", "steps"), msg.file))
	}
}
