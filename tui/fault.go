package tui

import (
	"fmt"
	"runtime/debug"

	tea "github.com/charmbracelet/bubbletea"
)

// Fault is the error of a program that panicked: a mistake in settee, never the user's.
type Fault struct {
	Value any    // of the panic
	Stack []byte // where it happened
}

func (f *Fault) Error() string {
	return fmt.Sprintf("the board stopped on a fault in settee itself: %v", f.Value)
}

// guarded is a model whose panics end the program in the usual way. Left to the runtime, a panic takes the program
// down while input is still being read, and the stack of a command's is lost with the screen it is printed on.
type guarded struct {
	model  tea.Model
	broken bool
	report func(*Fault) // ends the program; called from any goroutine
}

func (g *guarded) Init() (cmd tea.Cmd) {
	defer g.catch()
	return g.command(g.model.Init())
}

func (g *guarded) Update(msg tea.Msg) (self tea.Model, cmd tea.Cmd) {
	self = g // also after a panic
	defer g.catch()
	if g.broken {
		return self, nil
	}
	g.model, cmd = g.model.Update(msg)
	return self, g.command(cmd)
}

func (g *guarded) View() string {
	defer g.catch()
	if g.broken {
		return ""
	}
	return g.model.View()
}

// catch is deferred by what runs on the program's own goroutine.
func (g *guarded) catch() {
	if value := recover(); value != nil {
		g.broken = true
		g.report(&Fault{Value: value, Stack: debug.Stack()})
	}
}

// command guards cmd, and the commands of a batch that it gives.
func (g *guarded) command(cmd tea.Cmd) tea.Cmd {
	if cmd == nil {
		return nil
	}
	return func() tea.Msg {
		defer func() {
			if value := recover(); value != nil {
				g.report(&Fault{Value: value, Stack: debug.Stack()})
			}
		}()
		msg := cmd()
		if batch, ok := msg.(tea.BatchMsg); ok {
			for i := range batch {
				batch[i] = g.command(batch[i])
			}
		}
		return msg
	}
}
