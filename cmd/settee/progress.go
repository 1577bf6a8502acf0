package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/term"
)

// progress counts the bytes of a long command, says how many from time to time, and stops the command when its context
// ends.
type progress struct {
	ctx context.Context
	// out is nil where nobody watches.
	out  io.Writer
	verb string
	now  func() time.Time
	next time.Time
	n    int64
}

// quietTime is how long a command may take before it says anything, and between two words of it.
const quietTime = time.Second

// newProgress makes a progress for a command, whose words go to the error output if that is a terminal.
func newProgress(cmd *cobra.Command, verb string) *progress {
	p := &progress{ctx: cmd.Context(), verb: verb, now: time.Now}
	if isTerminal(cmd.ErrOrStderr()) {
		p.out = cmd.ErrOrStderr()
	}
	p.next = p.now().Add(quietTime)
	return p
}

func isTerminal(stream any) bool {
	f, ok := stream.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// count adds bytes.
func (p *progress) count(n int) error {
	p.n += int64(n)
	if now := p.now(); p.out != nil && !now.Before(p.next) {
		p.next = now.Add(quietTime)
		if _, err := fmt.Fprintf(p.out, "%d MB %s so far\n", p.n/1_000_000, p.verb); err != nil {
			return err
		}
	}
	return p.ctx.Err()
}

// watchWriter gives a writer to w that tells of the command's progress, except onto a screen, where it would be in the way.
func watchWriter(cmd *cobra.Command, w io.Writer) io.Writer {
	p := newProgress(cmd, "written")
	if isTerminal(w) {
		p.out = nil
	}
	return &watchedWriter{w, p}
}

// watchReader gives a reader of r that tells of the command's progress, except where r is being typed.
func watchReader(cmd *cobra.Command, r io.Reader) io.Reader {
	p := newProgress(cmd, "read")
	if isTerminal(r) {
		p.out = nil
	}
	return &watchedReader{r, p}
}

type watchedWriter struct {
	w io.Writer
	p *progress
}

func (w *watchedWriter) Write(b []byte) (int, error) {
	n, err := w.w.Write(b)
	if err != nil {
		return n, err
	}
	return n, w.p.count(n)
}

type watchedReader struct {
	r io.Reader
	p *progress
}

func (r *watchedReader) Read(b []byte) (int, error) {
	n, err := r.r.Read(b)
	if stop := r.p.count(n); stop != nil {
		return n, stop
	}
	return n, err
}
