//go:build unix

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// namesOfConjuncts have fewer clusters than letters: terminals that go by the one or by the other give them widths of their
// own.
var namesOfConjuncts = []string{
	"\u0928\u092e\u0938\u094d\u0924\u0947 \u5c0f\u6797\u3055\u304f\u3089", "\u0915\u094d\u0937\u0924\u094d\u0930\u093f\u092f",
	"\u09b6\u09cd\u09b0\u09c0", "\u0ba4\u0bae\u0bbf\u0bb4\u0bcd",
}

// tmux counts by the rune, where the emulator of the other tests goes by the cluster.
func TestNamesTearNoScreenInTmux(t *testing.T) {
	tmux, err := exec.LookPath("tmux")
	if err != nil {
		t.Skip("there is no tmux here")
	}
	dir := t.TempDir()
	w := window{t, tmux, filepath.Join(dir, "socket")}
	w.run("-f", "/dev/null", "new-session", "-d", "-x", "80", "-y", "24", binary(t), "--store", filepath.Join(dir, "evening.db"))
	t.Cleanup(func() { _ = exec.Command(w.tmux, "-S", w.socket, "kill-server").Run() })
	w.until("lanes tonight", func(seen string) bool { return strings.Contains(seen, "lanes tonight") })
	w.keys("7", "Enter")
	for _, name := range namesOfConjuncts {
		w.keys(name+" 150", "Enter")
	}
	w.keys("", "Enter")
	w.until("the board", func(seen string) bool { return strings.HasPrefix(seen, "Settee  Board") })
	for _, screen := range []struct{ key, title, row string }{
		{"e", "Settee  Evening", "150      0     0  "}, {"x", "Settee  Closing", "0    0/0    4      0  -"},
	} {
		w.keys(screen.key)
		w.until(screen.title, func(seen string) bool {
			lines := strings.Split(seen, "\n")
			return strings.HasPrefix(lines[0], screen.title) && strings.HasSuffix(lines[23], "? keys") &&
				strings.Count(seen, screen.row) == len(namesOfConjuncts)
		})
	}
}

// window is a window of tmux with a server of its own.
type window struct {
	t            testing.TB
	tmux, socket string
}

func (w window) run(args ...string) string {
	w.t.Helper()
	cmd := exec.Command(w.tmux, append([]string{"-u", "-S", w.socket}, args...)...)
	cmd.Env = append(plainEnvironment(w.t), "SHELL=/bin/sh", "PATH="+os.Getenv("PATH"))
	out, err := cmd.CombinedOutput()
	if err != nil {
		w.t.Fatalf("tmux %q: %v, %s", args, err, out)
	}
	return string(out)
}

// keys types a text, then presses named keys.
func (w window) keys(text string, named ...string) {
	w.t.Helper()
	if text != "" {
		w.run("send-keys", "-l", text)
	}
	for _, key := range named {
		w.run("send-keys", key)
	}
}

// until waits until all is in its place.
func (w window) until(what string, ok func(seen string) bool) {
	w.t.Helper()
	seen := ""
	for begun := time.Now(); time.Since(begun) < patience; time.Sleep(20 * time.Millisecond) {
		if seen = w.run("capture-pane", "-p"); ok(seen) {
			return
		}
	}
	w.t.Fatalf("waited %v for %s; the window is\n%s", patience, what, seen)
}
