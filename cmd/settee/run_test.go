package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"runtime/debug"
	"strings"
	"testing"

	"coach.settee/tui"
)

func TestRunGivesTheExitCode(t *testing.T) {
	nowhere := filepath.Join(t.TempDir(), "nothing.db")
	tests := []struct {
		name string
		args []string
		code int
		says string
	}{
		{"done", []string{"score", "X"}, exitDone, ""},
		{"refused", []string{"score", "X 74"}, exitFailed, "cannot score"},
		{"failed", []string{"export", "--store", nowhere}, exitFailed, "there is no store at " + nowhere},
		{"no terminal", []string{"--store", nowhere}, exitFailed, tui.ErrNoTerminal.Error()},
		{"wrong flag", []string{"score", "--jsno", "X"}, exitUsage, "unknown flag: --jsno"},
		{"wrong command", []string{"scor", "X"}, exitUsage, `no command "scor": is it score?`},
		{"too many arguments", []string{"version", "x"}, exitUsage, "x"},
		{"too few arguments", []string{"import"}, exitUsage, "import"},
		{"half a command", []string{"completion"}, exitUsage, "name one shell"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var out, errOut bytes.Buffer
			code := run(context.Background(), test.args, strings.NewReader(""), &out, &errOut)
			if code != test.code {
				t.Errorf("exit code %d, not %d", code, test.code)
			}
			if !strings.Contains(errOut.String(), test.says) {
				t.Errorf("says %q, without %q", errOut.String(), test.says)
			}
			if lines := strings.Count(errOut.String(), "\n"); code != exitDone && lines != 1 || code == exitDone && lines != 0 {
				t.Errorf("%d lines: %q", lines, errOut.String())
			}
			if code != exitDone && out.Len() > 0 {
				t.Errorf("printed %q", &out)
			}
		})
	}
}

func TestComplainWritesOneLine(t *testing.T) {
	var b bytes.Buffer
	complain(&b, errors.Join(errors.New("the disk is full"), errors.New("and\tslow")))
	if got, want := b.String(), "settee: the disk is full and slow\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// A terminal that takes nothing does not keep the program: without the limit this test would never end.
func TestComplainDoesNotWaitForAStuckTerminal(t *testing.T) {
	reader, writer := io.Pipe()
	defer reader.Close()
	complain(writer, fmt.Errorf("leaving: %w", tui.ErrTerminalStuck))
}

func TestVersionLine(t *testing.T) {
	info := &debug.BuildInfo{Main: debug.Module{Version: "v1.2.3"}, Settings: []debug.BuildSetting{
		{Key: "vcs.revision", Value: "0123456789abcdef0123"}, {Key: "vcs.modified", Value: "true"},
	}}
	tests := []struct {
		name string
		info *debug.BuildInfo
		want string
	}{
		{"from a changed tree", info, "settee v1.2.3, commit 0123456789ab and changes, go"},
		{"without version control", &debug.BuildInfo{Main: debug.Module{Version: "(devel)"}}, "settee (devel), go"},
		{"without information", nil, "settee (unknown), go"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := versionLine(test.info); !strings.HasPrefix(got, test.want) {
				t.Errorf("got %q, want %q first", got, test.want)
			}
		})
	}
}

func TestNewIDsAreValidAndRise(t *testing.T) {
	var last string
	for range 3 {
		id := newID()
		if err := id.Validate(); err != nil {
			t.Fatal(err)
		}
		if string(id) <= last {
			t.Errorf("%s comes after %s", id, last)
		}
		last = string(id)
	}
}
