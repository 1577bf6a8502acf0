//go:build !unix

package tui

import "os"

// Input is the terminal as the runtime reads it. Here the runtime reads the console's key records past any wrapper,
// one key a message, so there is nothing to put right.
type Input struct {
	*os.File
}

// NewInput wraps the terminal f. A console that is closed ends the process itself, so ended is never called.
func NewInput(f *os.File, ended func()) *Input {
	return &Input{File: f}
}
