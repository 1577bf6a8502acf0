//go:build unix

package main

import (
	"strings"
	"syscall"
	"testing"
)

// sh runs a shell script on a terminal. These tests are about the terminal itself, which the others take for granted.
func sh(t *testing.T, script string) *terminal {
	t.Helper()
	return startTerminal(t, terminalOptions{command: []string{"/bin/sh", "-c", script}})
}

func TestTerminalShowsWhatIsDrawn(t *testing.T) {
	c := sh(t, `printf 'one\r\n\033[3;5Htwo 中 x\033[1;2HN'; read -r end`)
	c.contains("two 中 x")
	if got, want := strings.TrimRight(c.screen(), "\n"), "oNe\n\n    two 中 x"; got != want {
		t.Errorf("the screen is %q, want %q", got, want)
	}
	c.send("\n")
	if code := c.wait(); code != 0 {
		t.Errorf("exit code %d", code)
	}
}

func TestTerminalShowsWholeFrames(t *testing.T) {
	c := sh(t, `stty -echo; printf 'a\033[?2026hb'; read -r go; printf 'c\033[?20'; read -r go; printf '26ld'; read -r end`)
	for _, output := range []string{"b", "c\x1b[?20"} {
		c.until("half a frame", func(string) bool { return strings.Contains(c.raw(), output) })
		if got := strings.TrimSpace(c.screen()); got != "a" {
			t.Errorf("of half a frame %q is shown", got)
		}
		c.send("\n")
	}
	c.contains("d")
	if got := strings.Fields(c.screen()); strings.Join(got, " ") != "abcd" {
		t.Errorf("the screen is %q", got)
	}
}

func TestTerminalSendsKeysInOrder(t *testing.T) {
	c := sh(t, `while read -r line; do printf '<%s>' "$line"; done`)
	c.sendSlowly("bbx\n")
	c.contains("<bbx>")
	c.send("12\nend\n")
	c.contains("<end>")
	if got := c.screen(); !strings.Contains(got, "<12>") {
		t.Errorf("the screen is %q", got)
	}
}

func TestTerminalResizes(t *testing.T) {
	c := sh(t, `trap 'stty size' WINCH; echo ready; while :; do read -r line; done`)
	c.contains("ready")
	c.resize(132, 40)
	c.contains("40 132")
}

func TestTerminalAnswers(t *testing.T) {
	c := sh(t, `stty -icanon -echo; printf '\033[6n'; a=$(dd bs=6 count=1 2>/dev/null); printf 'answer %s' "${a#?}"; read -r end`)
	c.contains("answer [1;1R")
}

func TestTerminalTellsExitCodesAndSignals(t *testing.T) {
	if code := sh(t, "exit 3").wait(); code != 3 {
		t.Errorf("exit code %d, want 3", code)
	}
	c := sh(t, "echo ready; read -r end")
	c.contains("ready")
	c.signal(syscall.SIGKILL)
	if code := c.wait(); code != -1 {
		t.Errorf("exit code %d after SIGKILL, want -1", code)
	}
}

func TestTerminalHangsUp(t *testing.T) {
	c := sh(t, "echo ready; while :; do read -r end; done")
	c.contains("ready")
	c.hangUp()
	if code := c.wait(); code != -1 {
		t.Errorf("exit code %d after a hang-up, want -1", code)
	}
}

func TestTerminalHangsUpAProgramThatIgnoresIt(t *testing.T) {
	c := startTerminal(t, terminalOptions{ignoresHUP: true, command: []string{"/bin/sh", "-c", "echo ready; read -r end; exit 4"}})
	c.contains("ready")
	c.hangUp()
	if code := c.wait(); code != 4 {
		t.Errorf("exit code %d, want 4: only the end of input should end it", code)
	}
}

func TestTerminalStopsReading(t *testing.T) {
	c := sh(t, "echo ready; read -r go; i=0; while [ $i -lt 5000 ]; do printf 'line %s\\n' $i; i=$((i+1)); done; read -r end")
	c.contains("ready")
	resume := c.stopReading()
	c.send("\n")
	select {
	case <-c.drained:
		t.Fatal("the program ended")
	default:
	}
	if strings.Contains(c.raw(), "line") {
		t.Error("output was taken all the same")
	}
	resume()
	c.contains("line 4999")
}

// tell is a testing.TB that takes down what a check has to say.
type tell struct {
	testing.TB
	said []string
}

func (l *tell) Helper()                           {}
func (l *tell) Error(args ...any)                 { l.said = append(l.said, "error") }
func (l *tell) Errorf(format string, args ...any) { l.said = append(l.said, format) }

func TestTerminalSeesWhatIsLeftOn(t *testing.T) {
	for name, c := range map[string]struct {
		script string
		faults int
	}{
		"nothing":             {`printf '\033[?1049h\033[?25l\033[?2004hx\033[?2004l\033[?25h\033[?1049l'`, 0},
		"alternate screen":    {`printf '\033[?1049h'`, 1},
		"cursor and paste":    {`printf '\033[?25l\033[?2004h'`, 2},
		"mouse":               {`printf '\033[?1002h\033[?1006h\033[?1002l'`, 1},
		"settings":            {`stty -echo`, 1},
		"settings, then back": {`stty -echo; stty echo`, 0},
	} {
		t.Run(name, func(t *testing.T) {
			c, want := sh(t, c.script), c.faults
			c.wait()
			said := &tell{TB: t}
			c.t = said
			c.sane()
			c.t = t
			if len(said.said) != want {
				t.Errorf("%d faults found, want %d: %q", len(said.said), want, said.said)
			}
		})
	}
}

func TestTerminalSeesQueries(t *testing.T) {
	for _, asked := range []string{"\x1b]11;?\a", "\x1b]4;1;?\x1b\\", "\x1b[6n", "\x1b[c", "\x1b[>0c", "\x1b[?2026$p", "\x1b[?u", "\x1b[>q", "\x1bP+q544e\x1b\\"} {
		said := &tell{TB: t}
		if noQueries(said, "text"+asked); len(said.said) != 1 {
			t.Errorf("%q was not seen", asked)
		}
	}
	noQueries(t, "\x1b[?1049h\x1b[1;31mtext\x1b[0m\x1b[2K\x1b]0;title\a\x1b[?2026h\x1b[10;5H\x1b[?2026l")
}
