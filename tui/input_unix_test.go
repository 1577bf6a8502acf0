//go:build unix

package tui

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/creack/pty"
	"golang.org/x/sys/unix"
	"pgregory.net/rapid"
)

// patienceOfTests is how long a test waits for what must come; running into it is only ever a failure.
const patienceOfTests = 20 * time.Second

// terminal is both ends of a pseudo-terminal: the program's, and the one that a person would sit at.
type terminal struct {
	program, person *os.File
	mu              sync.Mutex
	log             bytes.Buffer  // all that the program wrote
	grew            chan struct{} // it has become more
}

// openTerminal opens one that shows 80 columns and 24 rows and takes all output.
func openTerminal(t *testing.T) *terminal {
	t.Helper()
	person, program, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	if err := pty.Setsize(program, &pty.Winsize{Rows: 24, Cols: 80}); err != nil {
		t.Fatal(err)
	}
	term := &terminal{program: program, person: pollable(t, person), grew: make(chan struct{}, 1)}
	t.Cleanup(func() { term.person.Close() }) // a program that is stuck may have its end longer than the test
	return term
}

// pollable is the same file, but one that can be closed while it is read.
func pollable(t *testing.T, f *os.File) *os.File {
	t.Helper()
	fd, err := unix.Dup(int(f.Fd()))
	if err != nil {
		t.Fatal(err)
	}
	f.Close()
	if err := unix.SetNonblock(fd, true); err != nil {
		t.Fatal(err)
	}
	return os.NewFile(uintptr(fd), f.Name())
}

// drain reads what the program writes, until the terminal is closed.
func (term *terminal) drain() {
	buf := make([]byte, 4096)
	for {
		n, err := term.person.Read(buf)
		term.mu.Lock()
		term.log.Write(buf[:n])
		term.mu.Unlock()
		select {
		case term.grew <- struct{}{}:
		default:
		}
		if err != nil {
			return
		}
	}
}

func (term *terminal) written() string {
	term.mu.Lock()
	defer term.mu.Unlock()
	return term.log.String()
}

func (term *terminal) send(t *testing.T, s string) {
	t.Helper()
	if _, err := term.person.WriteString(s); err != nil {
		t.Fatal(err)
	}
}

// listener is a program that only tells what reaches it.
type listener struct {
	heard chan string
}

func (l listener) Init() tea.Cmd { return nil }
func (l listener) View() string  { return "listening" }

func (l listener) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		l.heard <- "ready"
	case tea.KeyMsg:
		keys, paste := unroll(msg)
		if paste {
			l.heard <- fmt.Sprintf("paste(%s)", string(msg.Runes))
		}
		for _, key := range keys {
			l.heard <- key.String()
		}
	case tea.MouseMsg:
		l.heard <- fmt.Sprintf("mouse(%d,%d)", msg.X, msg.Y)
	case fmt.Stringer: // what the runtime could not read
		l.heard <- msg.String()
	}
	return l, nil
}

// listening is a listener on a terminal of its own.
type listening struct {
	*terminal
	heard chan string
	asks  chan struct{} // the input wants more
	reply chan bool     // whether it may have it
}

// listen starts one. If paced, its input waits for more by the test's word, not by the clock.
func listen(t *testing.T, paced bool) *listening {
	t.Helper()
	l := &listening{openTerminal(t), make(chan string, 4096), make(chan struct{}), make(chan bool)}
	go l.drain()
	in := NewInput(l.program, func() {})
	if more := in.more; paced {
		in.more = func(wait time.Duration) bool {
			if more(0) {
				return true
			}
			if wait == 0 {
				return false
			}
			l.asks <- struct{}{}
			return <-l.reply && more(patienceOfTests)
		}
	}
	program := tea.NewProgram(listener{l.heard}, tea.WithInput(in), tea.WithOutput(NewOutput(l.program, "xterm")),
		tea.WithoutSignalHandler())
	done := make(chan error, 1)
	go func() {
		_, err := program.Run()
		done <- err
	}()
	t.Cleanup(func() {
		program.Quit()
		if err := <-done; err != nil {
			t.Error(err)
		}
	})
	l.hear(t, "ready")
	return l
}

// hear waits for the last of what is to be heard and gives all that was heard until then.
func (l *listening) hear(t *testing.T, last string) string {
	t.Helper()
	var all []string
	for {
		select {
		case what := <-l.heard:
			if all = append(all, what); what == last {
				return strings.Join(all, " ")
			}
		case <-time.After(patienceOfTests):
			t.Fatalf("heard %q, but no %q", all, last)
		}
	}
}

// sendPieces sends a piece whenever the input asks for more, and silence after the last.
func (l *listening) sendPieces(t *testing.T, pieces []string) {
	t.Helper()
	l.send(t, pieces[0])
	for _, piece := range pieces[1:] {
		l.await(t)
		l.send(t, piece)
		l.reply <- true
	}
}

func (l *listening) await(t *testing.T) {
	t.Helper()
	select {
	case <-l.asks:
	case <-time.After(patienceOfTests):
		t.Fatal("the input took an unfinished sequence for whole")
	}
}

// The fence, a key that comes last, shows that nothing else came before it.
const fence = "~"

func TestInputThroughTerminal(t *testing.T) {
	l := listen(t, true)
	for _, c := range []struct {
		name   string
		pieces []string // each but the last ends where the input must ask for more
		silent bool     // the last does too, and nothing comes
		want   string
	}{
		{"keys joined in one read", []string{"bbx"}, false, "b b x"},
		{"many keys joined in one read", []string{"bbx/1 2\r"}, false, "b b x / 1   2 enter"},
		{"esc alone", []string{"\x1b"}, true, "esc"},
		{"esc and a key in one read", []string{"\x1bx"}, false, "esc x"},
		{"arrow split", []string{"\x1b", "[A"}, false, "up"},
		{"arrow split before its letter", []string{"\x1b[", "A"}, false, "up"},
		{"mouse report split", []string{"\x1b[<0;10;", "5M"}, false, "mouse(9,4)"},
		{"mouse report in many pieces", []string{"\x1b", "[", "<", "0", ";1", "0;5", "M"}, false, "mouse(9,4)"},
		{"mouse report without its end", []string{"\x1b[<0;10;"}, true, ""},
		{"wide rune split", []string{"\xe4\xb8", "\xad"}, false, "中"},
		{"late answer about the background", []string{"\x1b]11;rgb:1e1e/1e1e/1e1e\x1b\\"}, false, ""},
		{"late answer split", []string{"\x1b]11;rgb:1e1e/", "1e1e/1e1e", "\x1b", "\\"}, false, ""},
		{"answer among keys", []string{"b\x1b]11;rgb:1e1e/1e1e/1e1e\ax"}, false, "b x"},
		{"paste", []string{pasteStart + "12 x" + pasteEnd}, false, "paste(12 x)"},
		{"paste with its start split", []string{"\x1b[20", "0~12" + pasteEnd}, false, "paste(12)"},
		{"paste with its end split", []string{pasteStart + "12\x1b[2", "01~"}, false, "paste(12)"},
		{"paste without its end", []string{pasteStart + "12 x"}, true, "paste(12 x)"},
		{"paste longer than a read", []string{pasteStart + strings.Repeat("12 x ", 99) + pasteEnd}, false,
			"paste(" + strings.Repeat("12 x ", 99) + ")"},
	} {
		t.Run(c.name, func(t *testing.T) {
			l.sendPieces(t, c.pieces)
			if c.silent {
				l.await(t)
				l.reply <- false
			}
			l.send(t, fence)
			got := strings.TrimSuffix(strings.TrimSuffix(l.hear(t, fence), fence), " ")
			if got != c.want {
				t.Errorf("heard %q, want %q", got, c.want)
			}
		})
	}
}

// A thousand keys at once are longer than any read, and none may be lost at the seams.
func TestInputKeepsManyKeys(t *testing.T) {
	l := listen(t, false)
	keys := strings.Repeat("bbx/1\r", 170)
	l.send(t, keys+fence)
	got := strings.Fields(l.hear(t, fence))
	if got, want := strings.Join(got, ""), strings.ReplaceAll(keys, "\r", "enter")+fence; got != want {
		t.Errorf("heard %q, want %q", got, want)
	}
}

func TestInputSaysWhenTheTerminalIsGone(t *testing.T) {
	term := openTerminal(t)
	times := 0
	in := NewInput(term.program, func() { times++ })
	term.person.Close()
	for range 2 {
		if n, err := in.Read(make([]byte, 256)); n != 0 || err == nil {
			t.Errorf("read %d bytes, error %v from a closed terminal", n, err)
		}
	}
	if times != 1 {
		t.Errorf("told %d times, want once", times)
	}
}

// Whatever comes, in whatever pieces, a read gives no more than it has room for and loses no key.
func TestInputFitsItsBuffer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sent := rapid.SliceOfN(rapid.SampledFrom([]string{"x", "bbxx\x03", "é", "\x1b", "[", "\x1b[", "\x1b[1", "\x1bP1", "\x1bO",
			strings.Repeat("1;", 31), pasteStart, pasteEnd, "\x1b[A"}), 1, 400).Draw(t, "sent")
		r, w, err := os.Pipe()
		if err != nil {
			t.Fatal(err)
		}
		defer r.Close()
		if _, err := w.WriteString(strings.Join(sent, "")); err != nil {
			t.Fatal(err)
		}
		w.Close()
		in := NewInput(r, func() {})
		var whole, fed []byte
		for p := make([]byte, 256); ; {
			n, err := in.Read(p)
			if err != nil {
				break
			}
			if n == len(p) {
				t.Fatalf("a read filled its buffer with %q and may have cut it", p)
			}
			whole = append(whole, p[:n]...)
		}
		var s scanner
		fed = append(fed, s.feed([]byte(strings.Join(sent, "")))...)
		fed = append(fed, s.silence()...)
		if got, want := keysIn(whole), keysIn(fed); got != want {
			t.Fatalf("%d keys x came of %d", got, want)
		}
	})
}

func keysIn(read []byte) int {
	return bytes.Count(read, []byte("x"))
}

func TestInputRefusesASmallBuffer(t *testing.T) {
	in := NewInput(openTerminal(t).program, func() {})
	if _, err := in.Read(make([]byte, 16)); err != io.ErrShortBuffer {
		t.Errorf("error %v, want %v", err, io.ErrShortBuffer)
	}
}
