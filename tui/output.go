package tui

import (
	"os"
	"slices"
)

const (
	frameBegin = "\x1b[?2026h"
	frameEnd   = "\x1b[?2026l"
)

// Output is the terminal as the runtime draws on it. A frame comes as one Write, which is put between the marks of
// synchronized output, so that no half of it is ever seen. Settings come through WriteString and go out as they are.
// It embeds the file, so that the size can be asked.
type Output struct {
	*os.File
	marks bool
	frame []byte
}

// NewOutput wraps the terminal f; term is its type, as in TERM. Terminals that may show the marks as text get none.
func NewOutput(f *os.File, term string) *Output {
	return &Output{File: f, marks: !slices.Contains([]string{"", "dumb", "linux"}, term)}
}

// Write draws one frame.
func (o *Output) Write(p []byte) (int, error) {
	if !o.marks || len(p) == 0 {
		return o.File.Write(p)
	}
	o.frame = append(append(append(o.frame[:0], frameBegin...), p...), frameEnd...)
	n, err := o.File.Write(o.frame)
	return min(max(n-len(frameBegin), 0), len(p)), err
}
