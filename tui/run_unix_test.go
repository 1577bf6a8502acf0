//go:build unix

package tui

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/google/go-cmp/cmp"
	"golang.org/x/term"
)

// shownProgram is a program that does what a test asks once it is on.
type shownProgram struct {
	on     chan struct{}
	update func() tea.Cmd
	view   func() string
}

type askedMsg struct{}

func (s shownProgram) Init() tea.Cmd {
	return func() tea.Msg {
		<-s.on
		return askedMsg{}
	}
}

func (s shownProgram) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg.(type) {
	case tea.WindowSizeMsg:
		close(s.on)
	case askedMsg:
		if s.update != nil {
			return s, s.update()
		}
	}
	return s, nil
}

func (s shownProgram) View() string {
	if s.view != nil {
		return s.view()
	}
	return "the board"
}

// start runs s on a terminal of type xterm, and gives what Run returns.
func (s shownProgram) start(t *testing.T, ctx context.Context, tty *terminal) (result chan error) {
	t.Helper()
	t.Setenv("TERM", "xterm-256color")
	result = make(chan error, 1)
	go func() { result <- run(ctx, s, tty.program, tty.program, patienceOfTests, nil) }()
	return result
}

func awaitResult(t *testing.T, result chan error) error {
	t.Helper()
	select {
	case err := <-result:
		return err
	case <-time.After(2 * patienceOfTests):
		t.Fatal("Run does not return")
		return nil
	}
}

func TestRunPutsTheTerminalBack(t *testing.T) {
	for name, c := range map[string]struct {
		screen shownProgram
		cancel bool
		fault  any
	}{
		"after a quit":               {shownProgram{update: quits}, false, nil},
		"when the context ends":      {shownProgram{}, true, nil},
		"after a panic in Update":    {shownProgram{update: panics}, false, "fault"},
		"after a panic in View":      {panicsInView(), false, "fault"},
		"after a panic in a command": {shownProgram{update: func() tea.Cmd { return commandPanics }}, false, "fault"},
		"after a panic in a batch":   {shownProgram{update: func() tea.Cmd { return tea.Batch(nil, commandPanics, commandPanics) }}, false, "fault"},
	} {
		t.Run(name, func(t *testing.T) {
			tty := openTerminal(t)
			go tty.drain()
			before := settings(t, tty)
			ctx, cancel := context.WithCancel(t.Context())
			defer cancel()
			c.screen.on = make(chan struct{})
			result := c.screen.start(t, ctx, tty)
			if c.cancel {
				<-c.screen.on
				if settings(t, tty) == before {
					t.Error("the settings were not changed, so nothing is proved")
				}
				cancel()
			}
			checkFault(t, awaitResult(t, result), c.fault)
			if diff := cmp.Diff(before, settings(t, tty)); diff != "" {
				t.Errorf("the terminal's settings changed:\n%s", diff)
			}
			written := tty.finish(t)
			for what, mode := range map[string]string{"alternate screen": "?1049", "bracketed paste": "?2004"} {
				if !endsWith(written, "\x1b["+mode+"l", "\x1b["+mode+"h") {
					t.Errorf("the %s is still on: %q", what, written)
				}
			}
			if !endsWith(written, "\x1b[?25h", "\x1b[?25l") {
				t.Errorf("the cursor is still hidden: %q", written)
			}
			if strings.Count(written, frameBegin) != strings.Count(written, frameEnd) {
				t.Errorf("a frame is still open: %q", written)
			}
		})
	}
}

func quits() tea.Cmd         { return tea.Quit }
func panics() tea.Cmd        { panic("fault") }
func commandPanics() tea.Msg { panic("fault") }

// checkFault checks that err is nil or, if a fault is expected, that one and where it happened.
func checkFault(t *testing.T, err error, want any) {
	t.Helper()
	if want == nil {
		if err != nil {
			t.Errorf("error %v, want none", err)
		}
		return
	}
	var fault *Fault
	if !errors.As(err, &fault) || fault.Value != want || !strings.Contains(string(fault.Stack), "anics") {
		t.Errorf("error %v, want the fault %v with its stack", err, want)
	}
}

func panicsInView() shownProgram {
	asked := make(chan struct{})
	return shownProgram{
		update: func() tea.Cmd { close(asked); return nil },
		view: func() string {
			select {
			case <-asked:
				panic("fault")
			default:
				return "the board"
			}
		},
	}
}

// endsWith says that last was written, and first not any more after it.
func endsWith(written, last, first string) bool {
	at := strings.LastIndex(written, last)
	return at >= 0 && at > strings.LastIndex(written, first)
}

// finish waits until all that the program wrote has been taken, and gives it.
func (tty *terminal) finish(t *testing.T) string {
	t.Helper()
	const mark = "\x1b[0m-end-"
	if _, err := tty.program.WriteString(mark); err != nil {
		t.Fatal(err)
	}
	for {
		if written, ok := strings.CutSuffix(tty.written(), mark); ok {
			return written
		}
		select {
		case <-tty.grew:
		case <-time.After(patienceOfTests):
			t.Fatalf("the terminal took only %q", tty.written())
		}
	}
}

// settings are the terminal's, as text.
func settings(t *testing.T, tty *terminal) string {
	t.Helper()
	state, err := term.GetState(int(tty.program.Fd()))
	if err != nil {
		t.Fatal(err)
	}
	return fmt.Sprintf("%+v", *state)
}

func TestRunEndsWhenTheTerminalIsClosed(t *testing.T) {
	tty := openTerminal(t)
	go tty.drain()
	s := shownProgram{on: make(chan struct{})}
	result := s.start(t, t.Context(), tty)
	<-s.on
	tty.person.Close()
	if err := awaitResult(t, result); !errors.Is(err, ErrTerminalGone) {
		t.Errorf("error %v, want %v", err, ErrTerminalGone)
	}
}

func TestRunRefuses(t *testing.T) {
	tty := openTerminal(t)
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	defer w.Close()
	for name, c := range map[string]struct {
		in, out *os.File
		term    string
		want    error
	}{
		"input that is no terminal":         {r, tty.program, "xterm", ErrNoTerminal},
		"output that is no terminal":        {tty.program, w, "xterm", ErrNoTerminal},
		"a terminal that cannot place text": {tty.program, tty.program, "dumb", ErrDumbTerminal},
	} {
		t.Run(name, func(t *testing.T) {
			t.Setenv("TERM", c.term)
			if err := Run(t.Context(), shownProgram{on: make(chan struct{})}, c.in, c.out); !errors.Is(err, c.want) {
				t.Errorf("error %v, want %v", err, c.want)
			}
		})
	}
}

func TestOutputMarksFrames(t *testing.T) {
	for name, c := range map[string]struct{ term, want string }{
		"where it helps":             {"xterm-256color", frameBegin + "a frame" + frameEnd + "a setting"},
		"not on the Linux console":   {"linux", "a framea setting"},
		"not on a dumb terminal":     {"dumb", "a framea setting"},
		"not on an unknown terminal": {"", "a framea setting"},
	} {
		t.Run(name, func(t *testing.T) {
			tty := openTerminal(t)
			go tty.drain()
			out := NewOutput(tty.program, c.term)
			if n, err := out.Write([]byte("a frame")); n != len("a frame") || err != nil {
				t.Errorf("wrote %d bytes, error %v", n, err)
			}
			if _, err := out.WriteString("a setting"); err != nil {
				t.Error(err)
			}
			if got := tty.finish(t); got != c.want {
				t.Errorf("wrote %q, want %q", got, c.want)
			}
		})
	}
}

// A test runs under a shell, a tool or nothing at all, so only the leader of a session, which is what a terminal
// window starts, can be told for sure.
func TestNoSuspendWithoutAShell(t *testing.T) {
	if os.Getenv("SETTEE_TEST_LEADER") != "" {
		if canSuspend() {
			t.Fatal("the leader of a session may be suspended, and nobody would wake it")
		}
		return
	}
	tty := openTerminal(t)
	go tty.drain()
	if err := tty.runAsLeader(t, "-test.run=^TestNoSuspendWithoutAShell$"); err != nil {
		t.Errorf("%v: %s", err, tty.written())
	}
}

// runAsLeader runs this test program on the terminal, as the leader of a session of its own.
func (tty *terminal) runAsLeader(t *testing.T, args ...string) error {
	t.Helper()
	cmd := exec.CommandContext(t.Context(), os.Args[0], args...)
	cmd.Env = append(os.Environ(), "SETTEE_TEST_LEADER=1")
	cmd.Stdin, cmd.Stdout, cmd.Stderr = tty.program, tty.program, tty.program
	cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	return cmd.Run()
}
