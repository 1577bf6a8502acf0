package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"sync"
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

	mu   sync.Mutex
	next time.Time
	n    int64
}

const (
	// firstTime is how long a command may take before it says anything, quietTime how long between two words of it.
	firstTime = 400 * time.Millisecond
	quietTime = time.Second
)

// newProgress makes a progress for a command, whose words go to the error output if that is a terminal.
func newProgress(cmd *cobra.Command, verb string) *progress {
	p := &progress{ctx: cmd.Context(), verb: verb, now: time.Now}
	if isTerminal(cmd.ErrOrStderr()) {
		p.out = cmd.ErrOrStderr()
	}
	p.next = p.now().Add(firstTime)
	return p
}

func isTerminal(stream any) bool {
	f, ok := stream.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// count adds bytes.
func (p *progress) count(n int) error {
	if err := p.say(n); err != nil {
		return err
	}
	return p.ctx.Err()
}

// say adds bytes, and says how many there are where it is time to.
func (p *progress) say(n int) error {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.n += int64(n)
	now := p.now()
	if p.out == nil || now.Before(p.next) {
		return nil
	}
	p.next = now.Add(quietTime)
	_, err := fmt.Fprintf(p.out, "%d MB %s so far\n", p.n/1_000_000, p.verb)
	return err
}

// watch says how far the command is while no bytes come or go too, as when a large store is copied before or looked over
// after, until its context ends.
func (p *progress) watch() {
	if p.out == nil {
		return
	}
	tick := time.NewTicker(firstTime / 4)
	go func() {
		defer tick.Stop()
		for {
			select {
			case <-p.ctx.Done():
				return
			case <-tick.C:
				if p.say(0) != nil {
					return
				}
			}
		}
	}()
}

// watchWriter gives a writer to w that tells of the command's progress, except onto a screen, where it would be in the way.
func watchWriter(cmd *cobra.Command, w io.Writer) io.Writer {
	p := newProgress(cmd, "written")
	if isTerminal(w) {
		p.out = nil
	}
	p.watch()
	return &watchedWriter{w, p}
}

// watchReader gives a reader of r that tells of the command's progress, except where r is being typed.
func watchReader(cmd *cobra.Command, r io.Reader) io.Reader {
	p := newProgress(cmd, "read")
	if isTerminal(r) {
		p.out = nil
	}
	p.watch()
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
