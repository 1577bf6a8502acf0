package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
)

// binaryDir holds the built program while the tests run.
var binaryDir string

func TestMain(m *testing.M) {
	os.Exit(runTests(m))
}

func runTests(m *testing.M) int {
	dir, err := os.MkdirTemp("", "settee-test-")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	defer os.RemoveAll(dir)
	binaryDir = dir
	// A program with the race detector otherwise waits a second at its end.
	if err := os.Setenv("GORACE", "atexit_sleep_ms=10"); err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	return m.Run()
}

// build builds the program once, with the race detector if SETTEE_RACE=1.
var build = sync.OnceValues(func() (string, error) {
	path := filepath.Join(binaryDir, "settee")
	if runtime.GOOS == "windows" {
		path += ".exe"
	}
	args := []string{"build", "-o", path}
	if os.Getenv("SETTEE_RACE") == "1" {
		args = append(args, "-race")
	}
	if out, err := exec.Command("go", append(args, ".")...).CombinedOutput(); err != nil {
		return "", fmt.Errorf("go %s: %w\n%s", strings.Join(args, " "), err, out)
	}
	return path, nil
})

// binary is the path of the built program.
func binary(t testing.TB) string {
	t.Helper()
	path, err := build()
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// exportLines gives the lines that the built program exports of a store.
func exportLines(t testing.TB, store string) []string {
	t.Helper()
	cmd := exec.Command(binary(t), "export", "--store", store)
	var errors strings.Builder
	cmd.Stderr = &errors
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("export: %v\n%s", err, errors.String())
	}
	return strings.Split(strings.TrimSuffix(string(out), "\n"), "\n")
}
