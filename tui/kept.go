package tui

import (
	"errors"
	"fmt"
	"maps"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"coach.settee/model"
	"coach.settee/store"
)

// keptMsg says that the recorder has come further, or that the disk refuses or takes again.
type keptMsg struct{}

// ledger knows which of the steps handed to the recorder are not on disk yet.
type ledger struct {
	progress store.Progress
	// waiting are the tickets of steps that change a record and are not on disk.
	waiting []uint64
	// deliveries holds the last step of each delivery that is there, actions the ticket of each action. They are of all
	// evenings: one that is closed may still be on its way to the disk when the next is begun.
	deliveries map[model.ID]handed
	actions    map[actionOf]uint64
	// aside is the last ticket up to which what is not on disk was written to another place.
	aside uint64
	room  room
}

// handed is a step of an evening that was handed to the recorder.
type handed struct {
	session model.ID
	ticket  uint64
}

// actionOf names an action: its number is that within an evening.
type actionOf struct {
	session model.ID
	n       int
}

func newLedger(p store.Progress) ledger {
	return ledger{progress: p, deliveries: map[model.ID]handed{}, actions: map[actionOf]uint64{}}
}

// add notes a step that was handed to the recorder.
func (l *ledger) add(ticket uint64, step model.Step) {
	l.progress.Issued = max(l.progress.Issued, ticket)
	if len(step.Changes) == 0 {
		return
	}
	l.waiting = append(l.waiting, ticket)
	for _, c := range step.Changes {
		switch {
		case c.Ref.Kind != model.DeliveryRecord:
		case c.After == nil:
			delete(l.deliveries, c.Ref.ID)
		default:
			l.deliveries[c.Ref.ID] = handed{step.Session, ticket}
		}
	}
	action := actionOf{step.Session, step.Action.N}
	if step.Undo {
		delete(l.actions, action)
		return
	}
	l.actions[action] = ticket
}

// hear takes in how far the recorder has come.
func (l *ledger) hear(p store.Progress) {
	l.progress = p
	for len(l.waiting) > 0 && l.waiting[0] <= p.Durable {
		l.waiting = l.waiting[1:]
	}
	maps.DeleteFunc(l.deliveries, func(_ model.ID, step handed) bool { return step.ticket <= p.Durable })
	maps.DeleteFunc(l.actions, func(_ actionOf, ticket uint64) bool { return ticket <= p.Durable })
}

// refused tells whether the disk does not take what it is given.
func (l *ledger) refused() bool { return l.progress.Err != nil }

// settled tells whether everything handed over is on disk.
func (l *ledger) settled() bool { return l.progress.Durable >= l.progress.Issued }

// pending gives the deliveries that are not on disk.
func (l *ledger) pending() map[model.ID]bool {
	ids := make(map[model.ID]bool, len(l.deliveries))
	for id := range l.deliveries {
		ids[id] = true
	}
	return ids
}

// sign gives the sign of a call that is not on disk: … while it is on its way, ? while the disk refuses.
func (l *ledger) sign(action actionOf) string {
	if l.actions[action] == 0 {
		return ""
	}
	if l.refused() {
		return " ?"
	}
	return " …"
}

// count gives the header's words: how many of an evening's deliveries are on disk, and how many steps are not.
func (l *ledger) count(session model.ID, deliveries int) string {
	for _, step := range l.deliveries {
		if step.session == session {
			deliveries--
		}
	}
	words := fmt.Sprintf("kept %d", deliveries)
	if behind := l.behind(); behind != "" {
		words += " " + behind
	}
	return words
}

// behind gives how many steps are not on disk, as the header shows it; "" where all are.
func (l *ledger) behind() string {
	if len(l.waiting) == 0 {
		return ""
	}
	return fmt.Sprintf("+%d", len(l.waiting))
}

// isAside tells whether all that is not on disk is in another place.
func (l *ledger) isAside() bool { return !l.settled() && l.aside >= l.progress.Issued }

// trouble says in words that the disk refuses or will soon, "" while it does neither.
func (l *ledger) trouble() string {
	if !l.refused() {
		return l.room.trouble()
	}
	how := "K keeps it elsewhere"
	if l.isAside() {
		how = "a copy is elsewhere"
	}
	return "NOT KEPT, settee tries again, " + how + ": " + cause(l.progress.Err)
}

// cause gives what is behind an error in a few words: the banner has one line.
func cause(err error) string {
	words := err.Error()
	if i := strings.LastIndex(words, ": "); i >= 0 && !errors.Is(err, store.ErrDamaged) {
		return words[i+2:]
	}
	return words
}

// keep hands a step to the recorder; the order in which this is called is the order on disk.
func (a *App) keep(step model.Step) {
	if step.Session == "" && len(step.Changes) == 0 {
		return
	}
	a.ledger.add(a.conf.Recorder.Keep(step), step)
	a.noteBack(step)
	for _, c := range step.Changes {
		if c.Ref.Kind == model.CueRecord {
			a.cues.hold(c.Ref.ID, c.After)
		}
		if c.Ref.Kind != model.StudentRecord {
			continue
		}
		if s, ok := c.After.(model.Student); ok {
			a.students[s.ID] = s
		} else {
			delete(a.students, c.Ref.ID)
		}
	}
}

// done hands over what an evening's method gave; what was refused is handed back. The status line names what was done as
// the last action.
func (a *App) done(step model.Step, err error) error {
	if err == nil {
		a.keep(step)
	}
	return err
}

// tell is done for a key: what was refused is said in the status line. It tells whether it was done.
func (a *App) tell(step model.Step, err error) bool {
	err = a.done(step, err)
	if err != nil {
		a.refuse(err)
	}
	return err == nil
}

// awaitKept waits for word of the recorder.
func (a *App) awaitKept() tea.Cmd {
	changed := a.conf.Recorder.Changed()
	return func() tea.Msg {
		if _, open := <-changed; !open {
			return nil
		}
		return keptMsg{}
	}
}

// hearKept takes in how far the recorder has come, and leaves where that was waited for.
func (a *App) hearKept() {
	a.ledger.hear(a.conf.Recorder.Progress())
	a.do(a.awaitKept())
	a.askRoomAgain()
	a.freshenClosed()
	a.goOnPacking()
	a.leaveIfDone()
}
