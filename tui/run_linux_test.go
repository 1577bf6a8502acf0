package tui

import (
	"context"
	"errors"
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

// Output is stopped as ctrl+s does it, so the runtime is stuck in its next write.
func TestRunEndsOnATerminalThatTakesNoOutput(t *testing.T) {
	const stopOutput = 0 // TCOOFF, ioctl_tty(2)
	tty := openTerminal(t)
	go tty.drain()
	before := settings(t, tty)
	t.Setenv("TERM", "xterm-256color")
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	s := shownProgram{on: make(chan struct{})}
	result := make(chan error, 1)
	go func() { result <- run(ctx, s, tty.program, tty.program, 50*time.Millisecond, nil) }()
	<-s.on
	if err := unix.IoctlSetInt(int(tty.program.Fd()), unix.TCXONC, stopOutput); err != nil {
		t.Fatal(err)
	}
	cancel()
	if err := awaitResult(t, result); !errors.Is(err, ErrTerminalStuck) {
		t.Errorf("error %v, want %v", err, ErrTerminalStuck)
	}
	if got := settings(t, tty); got != before {
		t.Errorf("the terminal's settings are %s, were %s", got, before)
	}
}
