package tui

import (
	"context"
	"errors"
	"fmt"
	"os"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"golang.org/x/term"

	_ "coach.settee/tui/probe" // before bubbletea, which would ask the terminal
)

var (
	// ErrNoTerminal says that input or output is no terminal, so that the board cannot be drawn or keyed.
	ErrNoTerminal = errors.New("the board needs a terminal for its keys and its picture: start settee in a terminal window, without a pipe or a file")
	// ErrDumbTerminal says that the terminal cannot place text.
	ErrDumbTerminal = errors.New("TERM=dumb cannot show the board: start settee in a terminal window, or set TERM to what the terminal really is")
	// ErrTerminalGone says that the terminal was closed while the board was open.
	ErrTerminalGone = errors.New("the terminal was closed")
	// ErrTerminalStuck says that the board could not be taken down, because the terminal takes no output. Whoever
	// writes to it after that, an error message too, is stuck as well.
	ErrTerminalStuck = errors.New("the terminal takes no output, so the board could not be taken off it: if it comes back, type reset")
)

// framesPerSecond is the most that the runtime offers: a key is on the screen with the next frame.
const framesPerSecond = 120

// stuckAfter is how long a terminal may take for the last output before the program ends without it.
const stuckAfter = 2 * time.Second

// CheckTerminal says in words why the board cannot be shown on in and out, if it cannot, so that nothing needs to be
// opened first.
func CheckTerminal(in, out *os.File) error {
	if !term.IsTerminal(int(in.Fd())) || !term.IsTerminal(int(out.Fd())) {
		return ErrNoTerminal
	}
	if os.Getenv("TERM") == "dumb" {
		return ErrDumbTerminal
	}
	return nil
}

// Run shows m full screen on the terminal in and out until it quits, ctx ends or the terminal is closed, and puts the
// terminal back as it was. It returns nil if m quit or ctx ended. Signals are the caller's: they end ctx. What m has
// handed to others, a store above all, is the caller's to finish, whatever Run returns.
func Run(ctx context.Context, m tea.Model, in, out *os.File, opts ...tea.ProgramOption) error {
	if err := CheckTerminal(in, out); err != nil {
		return err
	}
	return run(ctx, m, in, out, stuckAfter, opts)
}

func run(ctx context.Context, m tea.Model, in, out *os.File, patience time.Duration, opts []tea.ProgramOption) error {
	before, err := term.GetState(int(in.Fd()))
	if err != nil {
		return fmt.Errorf("the terminal's settings cannot be read: %w", err)
	}
	alive, end := context.WithCancelCause(ctx)
	defer end(nil)
	model := &guarded{model: m, report: func(f *Fault) { end(f) }}
	program := tea.NewProgram(model, append([]tea.ProgramOption{
		tea.WithoutSignalHandler(),
		tea.WithInput(NewInput(in, func() { end(ErrTerminalGone) })),
		tea.WithOutput(NewOutput(out, os.Getenv("TERM"))),
		tea.WithAltScreen(),
		tea.WithFPS(framesPerSecond),
	}, opts...)...)

	done := make(chan error, 1)
	go func() {
		_, err := program.Run()
		done <- err
	}()
	select {
	case err := <-done:
		return outcome(alive, err)
	case <-alive.Done():
	}
	// The runtime has a way of its own to end with a context, but then it closes what its reader still uses.
	go program.Quit()
	select {
	case err := <-done:
		return outcome(alive, err)
	case <-time.After(patience):
		// The runtime is stuck in a write and stays there; the settings can still be put back without it.
		return errors.Join(ErrTerminalStuck, term.Restore(int(in.Fd()), before))
	}
}

// outcome is what the end of the program means to the caller. What goes wrong with a terminal that is gone goes wrong
// because it is gone.
func outcome(alive context.Context, err error) error {
	cause := context.Cause(alive)
	switch fault := (*Fault)(nil); {
	case errors.As(cause, &fault), errors.Is(cause, ErrTerminalGone):
		return cause
	case cause != nil && !errors.Is(err, tea.ErrProgramPanic), err == nil:
		return nil
	}
	return fmt.Errorf("the board stopped: %w", err)
}
