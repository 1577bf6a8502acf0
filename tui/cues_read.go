package tui

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"coach.settee/model/insight"
)

// cueEvenings is over how many of the last evenings it is told how cues went.
const cueEvenings = 60

// effectsMsg brings how cues went.
type effectsMsg struct {
	// asked is the number of the reading.
	asked   int
	effects []insight.CueEffect
	err     error
}

// settleCues asks how cues went each time that the screen is turned to.
func (a *App) settleCues() {
	s := a.cues
	open := a.screen == screen(s)
	if open && !s.shown {
		s.asked++
		a.do(a.readEffects(s.asked))
	}
	s.shown = open
}

// readEffects reads what was bowled and reckons how cues went, beside the board.
func (a *App) readEffects(asked int) tea.Cmd {
	reader := a.conf.Store
	return func() tea.Msg {
		bowled, err := reader.Bowled(cueEvenings)
		if err != nil {
			return effectsMsg{asked: asked, err: err}
		}
		return effectsMsg{asked: asked, effects: insight.CuesOver(bowled)}
	}
}

// hearEffects takes in what was read; what is no longer asked for is passed over.
func (a *App) hearEffects(msg effectsMsg) {
	s := a.cues
	if msg.asked != s.asked {
		return
	}
	s.heard = msg.asked
	if msg.err != nil {
		a.refuse(fmt.Errorf("how cues went cannot be read, the book is as it was: %w", msg.err))
		return
	}
	s.effects = msg.effects
	s.arrange()
}

// reading tells that how cues went is not read yet.
func (s *cuesScreen) reading() bool { return s.heard != s.asked }
