package tui

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"
)

const (
	// roomLow is the number of bytes below which the disk is called nearly full: many evenings, so that the word comes in
	// time to make room.
	roomLow = 64 << 20
	// roomEvery is after how many kept steps the disk is looked at again.
	roomEvery = 20
)

// room is what is known of the disk's room.
type room struct {
	known bool
	// free is in bytes.
	free int64
	// asked is how many steps were kept when it was last looked at.
	asked uint64
}

// roomMsg says how many bytes the disk has left.
type roomMsg struct {
	free int64
	err  error
}

// askRoom looks how much room the disk has, beside the board.
func (a *App) askRoom() {
	free := a.conf.Free
	if free == nil {
		return
	}
	a.ledger.room.asked = a.ledger.progress.Durable
	a.do(func() tea.Msg {
		n, err := free()
		return roomMsg{n, err}
	})
}

// askRoomAgain looks again where enough was kept since.
func (a *App) askRoomAgain() {
	if a.ledger.progress.Durable >= a.ledger.room.asked+roomEvery {
		a.askRoom()
	}
}

// hear takes in how much room there is; where nobody knows it, nothing is said.
func (r *room) hear(msg roomMsg) { r.known, r.free = msg.err == nil, msg.free }

// trouble says in words that the disk is nearly full, "" while it is not.
func (r *room) trouble() string {
	if !r.known || r.free >= roomLow {
		return ""
	}
	return fmt.Sprintf("disk nearly full: %d MB left. Make room: on a full disk calls are only held here", r.free/1e6)
}
