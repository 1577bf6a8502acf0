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

	"coach.settee/store"
)

// progress says from time to time how far a long command is, in the bytes that it counts or in what it is told, and stops
// the counting when its context ends.
type progress struct {
	ctx context.Context
	// out is nil where nobody watches.
	out io.Writer
	now func() time.Time

	mu   sync.Mutex
	next time.Time
	part store.Part
	// doing says what is done while nothing is counted.
	doing string
}

// watching is who watches a command, and by which clock: a value of a command's context in the place of its terminal.
type watching struct {
	out io.Writer
	now func() time.Time
}

type watchingKey struct{}

const (
	// firstTime is how long a command may take before it says anything, quietTime how long between two words of it.
	firstTime = 400 * time.Millisecond
	quietTime = time.Second
)

// newProgress makes a progress for a command, whose words go to the error output if that is a terminal.
func newProgress(cmd *cobra.Command, verb string) *progress {
	p := &progress{ctx: cmd.Context(), part: store.Part{Verb: verb}, now: time.Now}
	if w, ok := p.ctx.Value(watchingKey{}).(watching); ok {
		p.out, p.now = w.out, w.now
	} else if isTerminal(cmd.ErrOrStderr()) {
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
	if err := p.say(func(part *store.Part) { part.Done += int64(n) }); err != nil {
		return err
	}
	return p.ctx.Err()
}

// told takes what a store says of its task. A terminal that takes no words does not stop it.
func (p *progress) told(now store.Part) {
	_ = p.say(func(part *store.Part) { *part, p.doing = now, "" })
}

// still says what is done, for as long as nothing is counted.
func (p *progress) still(doing string) {
	_ = p.say(func(*store.Part) { p.doing = doing })
}

// say changes what is known, and says how far the command is where it is time to.
func (p *progress) say(change func(*store.Part)) error {
	p.mu.Lock()
	defer p.mu.Unlock()
	change(&p.part)
	now := p.now()
	if p.out == nil || now.Before(p.next) {
		return nil
	}
	p.next = now.Add(quietTime)
	words := partWords(p.part)
	if p.doing != "" {
		words = "still " + p.doing
	}
	_, err := fmt.Fprintln(p.out, words)
	return err
}

// partWords says how far a part of a task is, of how much where that is known. A count that runs over, as of pages that are
// read twice, is all of it.
func partWords(part store.Part) string {
	const mega = 1_000_000
	done := part.Done
	if part.Of > 0 {
		done = min(done, part.Of)
	}
	switch {
	case part.Deliveries && part.Of > 0:
		return fmt.Sprintf("%d of %d deliveries %s", done, part.Of, part.Verb)
	case part.Of > 0:
		of := max((part.Of+mega/2)/mega, 1)
		return fmt.Sprintf("%d of %d MB %s", min(done/mega, of), of, part.Verb)
	}
	return fmt.Sprintf("%d MB %s so far", done/mega, part.Verb)
}

// watch says how far the command is while no bytes come or go too, as when a large store is copied before or looked over
// after, until its context ends or end is called. After that nothing is said.
func (p *progress) watch() (end func()) {
	if p.out == nil {
		return func() {}
	}
	ctx, stop := context.WithCancel(p.ctx)
	ended := make(chan struct{})
	tick := time.NewTicker(firstTime / 4)
	go func() {
		defer close(ended)
		defer tick.Stop()
		for {
			select {
			case <-ctx.Done():
				return
			case <-tick.C:
				if p.say(func(*store.Part) {}) != nil {
					return
				}
			}
		}
	}()
	return func() {
		stop()
		<-ended
	}
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
	if f, ok := r.(*os.File); ok {
		if info, err := f.Stat(); err == nil && info.Mode().IsRegular() {
			p.part.Of = info.Size()
		}
	}
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
