package main

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"coach.settee/store"
)

// TestScripts runs the stories of testdata/scripts with the built program. Beside the usual commands a story has
//
//	exits CODE settee ARGS...   runs the program, which has to end with that code
//	invent FILE SEED            makes a store of invented evenings
//	hold FILE                   keeps a store open until the story ends
//	lines FILE N                a file has so many lines
//	spoil FILE PAGE SIZE        a page of a file, of that size in bytes, becomes zeros
func TestScripts(t *testing.T) {
	settee := binary(t)
	testscript.Run(t, testscript.Params{
		Dir: filepath.Join("..", "..", "testdata", "scripts"),
		Setup: func(env *testscript.Env) error {
			env.Setenv("PATH", filepath.Dir(settee)+string(os.PathListSeparator)+env.Getenv("PATH"))
			env.Setenv("XDG_DATA_HOME", filepath.Join(env.WorkDir, "data"))
			env.Setenv("XDG_CONFIG_HOME", filepath.Join(env.WorkDir, "settings"))
			env.Setenv("TERM", "xterm-256color")
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits": exits, "invent": invent, "hold": hold, "lines": countLines,
			"spoil": spoil,
		},
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
	})
}

func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE PROGRAM ARGS...")
	}
	got := 0
	err := ts.Exec(args[1], args[2:]...)
	var exit *exec.ExitError
	switch {
	case errors.As(err, &exit):
		got = exit.ExitCode()
	case err != nil:
		ts.Fatalf("%s: %v", args[1], err)
	}
	if want := args[0]; strconv.Itoa(got) != want {
		ts.Fatalf("it ended with %d, not %s", got, want)
	}
}

func invent(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: invent FILE SEED")
	}
	seed, err := strconv.ParseUint(args[1], 10, 64)
	ts.Check(err)
	s, err := demoStore(ts.MkAbs(args[0]), seed)
	ts.Check(err)
	ts.Check(s.Close())
}

func hold(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: hold FILE")
	}
	s, err := store.Open(ts.MkAbs(args[0]), store.Options{})
	ts.Check(err)
	ts.Defer(func() { ts.Check(s.Close()) })
}

func countLines(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: lines FILE N")
	}
	n := 0
	for _, c := range ts.ReadFile(args[0]) {
		if c == '\n' {
			n++
		}
	}
	if strconv.Itoa(n) != args[1] {
		ts.Fatalf("%s has %d lines, not %s", args[0], n, args[1])
	}
}

func spoil(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: spoil FILE PAGE SIZE")
	}
	page, err := strconv.ParseInt(args[1], 10, 64)
	ts.Check(err)
	size, err := strconv.ParseInt(args[2], 10, 64)
	ts.Check(err)
	f, err := os.OpenFile(ts.MkAbs(args[0]), os.O_WRONLY, 0)
	ts.Check(err)
	_, err = f.WriteAt(make([]byte, size), page*size)
	ts.Check(err)
	ts.Check(f.Close())
}
