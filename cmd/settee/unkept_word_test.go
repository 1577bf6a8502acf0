//go:build unix

package main

import (
	"os/exec"
	"testing"
)

// The shell reads a path back from the word that is shown for it (POSIX.1-2024, Shell Command Language, 2.2 Quoting).
func TestAPathIsOneWordOfTheShell(t *testing.T) {
	for _, path := range []string{
		"/home/ada/lessons.db", "/tmp/two words/a.db", `/tmp/we $HOME "x"/a.db`, "/tmp/it's/`id`.db", `/tmp/back\slash`, "/tmp/a;b&c|d>(e)*?[f]#!",
		"/tmp/Übung/東京.db", "/tmp/new\nline",
	} {
		out, err := exec.Command("sh", "-c", "printf %s "+shellWord(path)).Output()
		if err != nil || string(out) != path {
			t.Errorf("%q is read as %q, %v", path, out, err)
		}
	}
}
