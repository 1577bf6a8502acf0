//go:build unix

package main

import (
	"errors"
	"os"
	"strings"
	"syscall"
	"testing"
	"time"
)

// A command that draws nothing says nothing to the terminal but its words.
func TestTerminalScoreWritesOnlyWords(t *testing.T) {
	c := startTerminal(t, terminalOptions{args: []string{"score", "X 7/ 9-"}})
	if code := c.wait(); code != 0 {
		t.Errorf("exit code %d", code)
	}
	if raw := c.raw(); strings.Contains(raw, "\x1b") {
		t.Errorf("wrote %q", raw)
	}
}

func TestTerminalIsLeftAsItWasFound(t *testing.T) {
	for name, end := range map[string]func(*terminal){
		"SIGTERM":          func(c *terminal) { c.signal(syscall.SIGTERM) },
		"SIGHUP":           func(c *terminal) { c.signal(syscall.SIGHUP) },
		"SIGINT":           func(c *terminal) { c.signal(syscall.SIGINT) },
		"ctrl+c and again": func(c *terminal) { c.send("\x03"); c.send("\x03") },
	} {
		t.Run(name, func(t *testing.T) {
			c := startTerminal(t, terminalOptions{args: []string{"demo"}})
			c.contains("kept")
			noQueries(t, c.raw())
			end(c)
			if code := c.wait(); code != 0 {
				t.Errorf("exit code %d; wrote %q", code, c.screen())
			}
			c.sane()
		})
	}
}

func TestTerminalThatIsClosedEndsTheProgram(t *testing.T) {
	for name, ignores := range map[string]bool{"by a signal": false, "by the end of its input": true} {
		t.Run(name, func(t *testing.T) {
			c := startTerminal(t, terminalOptions{args: []string{"demo"}, ignoresHUP: ignores})
			c.contains("kept")
			c.hangUp()
			c.wait()
		})
	}
}

// A frozen window cannot be told anything, but it must not keep the program, and so the store, for ever.
func TestTerminalThatIsFrozenDoesNotHoldTheProgram(t *testing.T) {
	c := startTerminal(t, terminalOptions{args: []string{"demo"}, cols: 160, rows: 50})
	c.contains("kept")
	c.stopReading()
	c.sendUntilStuck("\x0c") // each draws the whole board again
	c.signal(syscall.SIGTERM)
	c.await(c.exited)
	if code := c.cmd.ProcessState.ExitCode(); code != 1 {
		t.Errorf("exit code %d, want 1", code)
	}
}

// sendUntilStuck sends a key until the terminal takes no more, because the program reads no more.
func (c *terminal) sendUntilStuck(key string) {
	c.t.Helper()
	keys := []byte(strings.Repeat(key, 1024))
	for late := time.Now().Add(patience); time.Now().Before(late); {
		_ = c.pty.SetWriteDeadline(time.Now().Add(time.Second))
		if _, err := c.pty.Write(keys); errors.Is(err, os.ErrDeadlineExceeded) {
			return
		}
	}
	c.t.Fatal("the program takes every key, though nobody takes its output")
}
