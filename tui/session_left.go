package tui

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"coach.settee/model"
)

// lefts is what earlier evenings have left of the students of this one. It is read once a student.
type lefts struct {
	asked map[model.ID]bool
	left  map[model.ID]model.Left
}

func newLefts() lefts { return lefts{asked: map[model.ID]bool{}, left: map[model.ID]model.Left{}} }

// leftMsg brings what a student's last evening before a session left.
type leftMsg struct {
	session, student model.ID
	left             model.Left
	found            bool
	err              error
}

// settleLefts asks for what was left of the students for whom that was not asked yet.
func (a *App) settleLefts() {
	if a.evening == nil {
		return
	}
	session := a.evening.Session().ID
	for _, seat := range a.evening.Seats() {
		if asked := a.session.lefts.asked; !asked[seat.Student] {
			asked[seat.Student] = true
			a.do(a.readLeft(session, seat.Student))
		}
	}
}

func (a *App) readLeft(session, student model.ID) tea.Cmd {
	reader := a.conf.Store
	return func() tea.Msg {
		left, found, err := reader.Left(student, session)
		return leftMsg{session, student, left, found, err}
	}
}

// hearLeft takes in what was left; that for an evening that is no longer open is passed over.
func (a *App) hearLeft(msg leftMsg) {
	switch {
	case a.evening == nil || a.evening.Session().ID != msg.session:
	case msg.err != nil:
		a.refuse(fmt.Errorf("what was left of %s last time cannot be read: %w", a.evening.Label(msg.student), msg.err))
	case msg.found:
		a.session.lefts.left[msg.student] = msg.left
	}
}

// leftWords says what was left of a student last time, "" for nothing.
func (s *sessionScreen) leftWords(a *App, id model.ID) string {
	left, ok := s.lefts.left[id]
	if !ok {
		return ""
	}
	words := left.Words(a.evening.Student(id))
	if words == "" {
		return ""
	}
	return fmt.Sprintf("last time, %s: %s", left.At.In(a.zone()).Format("2 January"), words)
}
