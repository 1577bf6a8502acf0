//go:build unix

package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/charmbracelet/x/vt"
	"github.com/creack/pty"
	"golang.org/x/sys/unix"
	"golang.org/x/term"
)

// patience is how long a test waits for what must come. Running into it is only ever a failure.
const patience = 20 * time.Second

// terminalOptions say what runs on a terminal, and on which.
type terminalOptions struct {
	cols, rows int      // 80 by 24 if 0
	args       []string // of settee
	env        []string // NAME=value, added last
	command    []string // runs instead of settee
	ignoresHUP bool     // the program is started with SIGHUP ignored, as nohup does
}

// terminal is a program on a pseudo-terminal, and the screen that a person would see. Its methods may be called from
// the test's goroutine only.
type terminal struct {
	t        testing.TB
	cmd      *exec.Cmd
	pty      *os.File
	tty      string // the name of the program's end
	settings string // before the program started

	stopped, resumed chan struct{} // whether anybody takes the program's output

	mu      sync.Mutex // guards the rest
	screens *vt.Emulator
	log     bytes.Buffer
	frame   []byte        // what came of a frame that is not whole
	arrived time.Time     // of the newest piece of output
	changed chan struct{} // closed when there is more

	drained chan struct{} // no output comes any more
	exited  chan struct{}
}

// startTerminal starts a program on a terminal. Home and all that belongs to it are a directory of the test.
func startTerminal(t testing.TB, o terminalOptions) *terminal {
	t.Helper()
	if o.cols == 0 {
		o.cols, o.rows = 80, 24
	}
	if o.command == nil {
		o.command = append([]string{binary(t)}, o.args...)
	}
	if o.ignoresHUP {
		o.command = append([]string{"/bin/sh", "-c", `trap "" HUP; exec "$0" "$@"`}, o.command...)
	}
	person, program, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	defer program.Close()
	if err := pty.Setsize(program, windowSize(o.cols, o.rows)); err != nil {
		t.Fatal(err)
	}
	c := &terminal{
		t: t, cmd: exec.Command(o.command[0], o.command[1:]...), pty: pollable(t, person), tty: program.Name(),
		screens: vt.NewEmulator(o.cols, o.rows), changed: make(chan struct{}),
		stopped: make(chan struct{}), resumed: make(chan struct{}),
		drained: make(chan struct{}), exited: make(chan struct{}),
	}
	c.settings = c.settingsNow()
	c.cmd.Stdin, c.cmd.Stdout, c.cmd.Stderr = program, program, program
	c.cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	c.cmd.Env = append(plainEnvironment(t), o.env...)
	if err := c.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	go c.takeOutput()
	go c.answer()
	go func() {
		_ = c.cmd.Wait() // the state says it
		close(c.exited)
	}()
	t.Cleanup(c.close)
	return c
}

// plainEnvironment is that of a person who has just got an account and a terminal.
func plainEnvironment(t testing.TB) []string {
	home := t.TempDir()
	return []string{
		"HOME=" + home, "XDG_DATA_HOME=" + home + "/data", "XDG_CONFIG_HOME=" + home + "/config",
		"XDG_STATE_HOME=" + home + "/state", "XDG_CACHE_HOME=" + home + "/cache", "XDG_RUNTIME_DIR=" + home,
		"TMPDIR=" + home, "PATH=" + os.Getenv("PATH"), "LANG=C.UTF-8", "TERM=xterm-256color",
		"GORACE=" + os.Getenv("GORACE"),
	}
}

func windowSize(cols, rows int) *pty.Winsize {
	return &pty.Winsize{Cols: uint16(cols), Rows: uint16(rows)}
}

// pollable is the same file, but one that can be closed while it is read, so that the terminal can be hung up.
func pollable(t testing.TB, f *os.File) *os.File {
	t.Helper()
	fd, err := unix.Dup(int(f.Fd()))
	if err != nil {
		t.Fatal(err)
	}
	unix.CloseOnExec(fd)
	f.Close()
	if err := unix.SetNonblock(fd, true); err != nil {
		t.Fatal(err)
	}
	return os.NewFile(uintptr(fd), f.Name())
}

// takeOutput draws what the program writes, until the program's end of the terminal is closed.
func (c *terminal) takeOutput() {
	defer close(c.drained)
	buf := make([]byte, 1<<16)
	for {
		n, err := c.pty.Read(buf)
		if errors.Is(err, os.ErrDeadlineExceeded) {
			c.stopped <- struct{}{}
			<-c.resumed
			continue
		}
		c.mu.Lock()
		c.log.Write(buf[:n])
		c.draw(buf[:n], err != nil)
		c.arrived = time.Now()
		close(c.changed)
		c.changed = make(chan struct{})
		c.mu.Unlock()
		if err != nil {
			return
		}
	}
}

// The marks of synchronized output.
const frameBegins, frameEnds = "\x1b[?2026h", "\x1b[?2026l"

// draw draws output but for a frame that is not whole yet, unless nothing more comes: nobody sees half a frame.
func (c *terminal) draw(output []byte, last bool) {
	c.frame = append(c.frame, output...)
	whole := len(c.frame)
	if begins := bytes.LastIndex(c.frame, []byte(frameBegins)); begins > bytes.LastIndex(c.frame, []byte(frameEnds)) {
		whole = begins
	}
	for n := len(frameBegins) - 1; n > 0 && whole == len(c.frame); n-- { // a read may end inside the mark
		if bytes.HasSuffix(c.frame, []byte(frameBegins[:n])) {
			whole -= n
		}
	}
	if last {
		whole = len(c.frame)
	}
	_, _ = c.screens.Write(c.frame[:whole]) // draws what it knows
	c.frame = bytes.Clone(c.frame[whole:])
}

// answer sends the program what the screen answers. The screen waits until each answer is taken, whether or not
// anybody is left to get it.
func (c *terminal) answer() {
	buf := make([]byte, 4096)
	for {
		n, err := c.screens.Read(buf)
		if err != nil {
			return
		}
		_, _ = c.pty.Write(buf[:n])
	}
}

func (c *terminal) close() {
	_ = c.cmd.Process.Kill() // it may have ended
	<-c.exited
	c.pty.Close()
	<-c.drained
	c.screens.InputPipe().(io.Closer).Close()
}

// send writes keys in one piece.
func (c *terminal) send(keys string) {
	c.t.Helper()
	if _, err := c.pty.WriteString(keys); err != nil {
		c.t.Fatalf("keys %q: %v", keys, err)
	}
}

// sendSlowly writes each byte of keys for itself. The program may still find several at once.
func (c *terminal) sendSlowly(keys string) {
	c.t.Helper()
	for i := range len(keys) {
		c.send(keys[i : i+1])
	}
}

// until waits until the screen is as ok wants it, looking at it after each piece of output, and gives the time at which
// the piece that made it so came.
func (c *terminal) until(what string, ok func(screen string) bool) time.Time {
	c.t.Helper()
	late := time.After(patience)
	ended := false
	for {
		c.mu.Lock()
		screen, arrived, changed := c.rows(), c.arrived, c.changed
		c.mu.Unlock()
		if ok(screen) {
			return arrived
		}
		if ended {
			c.t.Fatalf("the program ended before %s; the screen is\n%s", what, screen)
		}
		select {
		case <-changed:
		case <-c.drained:
			ended = true // look once more: it may have been the last piece
		case <-late:
			c.t.Fatalf("waited %v for %s; the screen is\n%s", patience, what, screen)
		}
	}
}

// contains waits until text is on the screen.
func (c *terminal) contains(text string) time.Time {
	c.t.Helper()
	return c.until(fmt.Sprintf("%q", text), func(screen string) bool { return strings.Contains(screen, text) })
}

// screen is what is to be seen now, a line a row, without the spaces at their ends.
func (c *terminal) screen() string {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.rows()
}

func (c *terminal) rows() string {
	var all strings.Builder
	for y := range c.screens.Height() {
		var row strings.Builder
		for x := 0; x < c.screens.Width(); {
			text, width := " ", 1
			if cell := c.screens.CellAt(x, y); cell != nil && cell.Width > 0 {
				text, width = cell.Content, cell.Width
			}
			row.WriteString(text)
			x += width
		}
		all.WriteString(strings.TrimRight(row.String(), " ") + "\n")
	}
	return all.String()
}

// raw is every byte that the program has written.
func (c *terminal) raw() string {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.log.String()
}

// resize changes the size of the window.
func (c *terminal) resize(cols, rows int) {
	c.t.Helper()
	c.mu.Lock()
	c.screens.Resize(cols, rows)
	c.mu.Unlock()
	c.control(func(fd int) error {
		return unix.IoctlSetWinsize(fd, unix.TIOCSWINSZ, &unix.Winsize{Col: uint16(cols), Row: uint16(rows)})
	})
}

// control calls f with the terminal's descriptor and leaves the file as it is: to ask an os.File for its descriptor
// would make its reads uninterruptible.
func (c *terminal) control(f func(fd int) error) {
	c.t.Helper()
	conn, err := c.pty.SyscallConn()
	if err != nil {
		c.t.Fatal(err)
	}
	var failed error
	if err := conn.Control(func(fd uintptr) { failed = f(int(fd)) }); err != nil || failed != nil {
		c.t.Fatal(err, failed)
	}
}

// stopReading lets the program's output pile up in the terminal, as a frozen window does, until resume is called.
func (c *terminal) stopReading() (resume func()) {
	c.t.Helper()
	if err := c.pty.SetReadDeadline(time.Unix(1, 0)); err != nil {
		c.t.Fatal(err)
	}
	<-c.stopped
	resume = sync.OnceFunc(func() {
		_ = c.pty.SetReadDeadline(time.Time{}) // fails on a closed terminal, which has nothing to read
		c.resumed <- struct{}{}
	})
	c.t.Cleanup(resume)
	return resume
}

// signal sends the program a signal.
func (c *terminal) signal(sig os.Signal) {
	c.t.Helper()
	if err := c.cmd.Process.Signal(sig); err != nil {
		c.t.Fatal(err)
	}
}

// hangUp closes the window.
func (c *terminal) hangUp() {
	c.pty.Close()
}

// wait waits for the program's end and gives its exit code, -1 if a signal ended it. All its output has been drawn then.
func (c *terminal) wait() int {
	c.t.Helper()
	c.await(c.exited)
	c.await(c.drained)
	return c.cmd.ProcessState.ExitCode()
}

// await waits until done is closed: exited alone is the program's end if nobody takes its output.
func (c *terminal) await(done chan struct{}) {
	c.t.Helper()
	select {
	case <-done:
	case <-time.After(patience):
		c.t.Fatalf("the program has not ended after %v; the screen is\n%s", patience, c.screen())
	}
}

// sane checks, after the program's end, that it left the terminal as it found it.
func (c *terminal) sane() {
	c.t.Helper()
	if now := c.settingsNow(); now != c.settings {
		c.t.Errorf("the terminal's settings are %s, were %s", now, c.settings)
	}
	raw := c.raw()
	for what, mode := range map[string]string{
		"the alternate screen": "1049", "bracketed paste": "2004", "mouse buttons": "1000", "mouse drags": "1002",
		"mouse moves": "1003", "mouse reports": "1006", "focus reports": "1004", "a frame": "2026",
	} {
		if strings.LastIndex(raw, "\x1b[?"+mode+"h") > strings.LastIndex(raw, "\x1b[?"+mode+"l") {
			c.t.Errorf("%s was left on", what)
		}
	}
	if strings.LastIndex(raw, "\x1b[?25l") > strings.LastIndex(raw, "\x1b[?25h") {
		c.t.Error("the cursor was left hidden")
	}
}

// settingsNow are the terminal's settings as text.
func (c *terminal) settingsNow() (text string) {
	c.t.Helper()
	c.control(func(fd int) error {
		state, err := term.GetState(fd)
		if err == nil {
			text = fmt.Sprintf("%+v", *state)
		}
		return err
	})
	return text
}

// query matches what a terminal answers: colours, the cursor's place, what it is, its settings.
var query = regexp.MustCompile(`\x1b\][0-9;]+;\?|\x1b\[[?>=0-9;]*[cn]|\x1b\[\?[0-9;]*\$p|\x1b\[\?u|\x1b\[>[0-9]*q|\x1bP[+$]q`)

// noQueries checks that the program has asked the terminal nothing: one that does not answer would hold it up.
func noQueries(t testing.TB, raw string) {
	t.Helper()
	if asked := query.FindString(raw); asked != "" {
		t.Errorf("the program asked the terminal %q", asked)
	}
}
