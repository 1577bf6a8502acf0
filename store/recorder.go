package store

import (
	"fmt"
	"slices"
	"sync"
	"time"

	"coach.settee/model"
)

// RecorderOptions are how a recorder works.
type RecorderOptions struct {
	// Wait gives a channel that sends after a pause; time.After where it is nil.
	Wait func(time.Duration) <-chan time.Time
}

// Progress is how far the disk has come. Steps are counted by their tickets.
type Progress struct {
	// Issued is the last ticket given out, Durable the last one that the disk has, with all before it.
	Issued, Durable uint64
	// Err says what is in the way, nil while nothing is.
	Err error
}

// Recorder keeps steps in the order in which they are handed over, without letting the caller wait for the disk: a queue
// without bounds, and one goroutine that makes one transaction of all that is queued. Where the disk refuses it holds the
// queue and tries the same again, with growing pauses; nothing is dropped and nothing changes places.
type Recorder struct {
	keep    func(...model.Step) error
	wait    func(time.Duration) <-chan time.Time
	changed chan struct{}
	// closing is closed when Close is called, done when the goroutine has ended.
	closing, done chan struct{}
	closeOnce     sync.Once

	mu       sync.Mutex
	more     *sync.Cond
	queue    []model.Step
	progress Progress
	// cause is what the last try failed for.
	cause  error
	closed bool
}

const (
	firstPause = 50 * time.Millisecond
	lastPause  = 5 * time.Second
	// lastTries is how often a closing recorder tries while the disk refuses: about a second and a half in all.
	lastTries = 6
)

// NewRecorder begins to record to a store. It has to be closed before the store is.
func NewRecorder(s *Store, o RecorderOptions) *Recorder {
	return newRecorder(s.Keep, o)
}

func newRecorder(keep func(...model.Step) error, o RecorderOptions) *Recorder {
	r := &Recorder{
		keep: keep, wait: o.Wait,
		changed: make(chan struct{}, 1), closing: make(chan struct{}), done: make(chan struct{}),
	}
	if r.wait == nil {
		r.wait = time.After
	}
	r.more = sync.NewCond(&r.mu)
	go r.run()
	return r
}

// Keep takes a step over and gives its ticket, rising from 1. It returns at once; the step is on the disk when Progress
// says that the ticket is durable. After Close a step is only held for Unkept.
func (r *Recorder) Keep(step model.Step) uint64 {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.queue = append(r.queue, step)
	r.progress.Issued++
	r.more.Signal()
	return r.progress.Issued
}

// Progress tells how far the disk has come.
func (r *Recorder) Progress() Progress {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.progress
}

// Changed gives a channel that is sent to when Durable or Err has changed; several changes may be one.
func (r *Recorder) Changed() <-chan struct{} { return r.changed }

// Unkept gives the steps that the disk does not have, in order.
func (r *Recorder) Unkept() []model.Step {
	r.mu.Lock()
	defer r.mu.Unlock()
	return slices.Clone(r.queue)
}

// Close keeps what is queued and ends the recorder. Where the disk refuses it gives up after some tries with an error
// that says how many steps are not kept: Unkept gives them.
func (r *Recorder) Close() error {
	r.closeOnce.Do(func() {
		close(r.closing)
		r.mu.Lock()
		r.closed = true
		r.more.Signal()
		r.mu.Unlock()
	})
	<-r.done
	r.mu.Lock()
	defer r.mu.Unlock()
	switch n := len(r.queue); n {
	case 0:
		return nil
	case 1:
		return fmt.Errorf("the last call could not be kept: %w", r.cause)
	default:
		return fmt.Errorf("the last %d calls could not be kept: %w", n, r.cause)
	}
}

func (r *Recorder) run() {
	defer close(r.done)
	// The tries are counted anew when the recorder is closed.
	tries, counted := 0, false
	for {
		batch, closed := r.next()
		if len(batch) == 0 {
			return
		}
		if closed && !counted {
			tries, counted = 0, true
		}
		if r.settle(len(batch), r.try(batch)) {
			tries = 0
			continue
		}
		if tries++; closed && tries == lastTries {
			return
		}
		r.pause(tries, closed)
	}
}

// next waits for steps and gives all that are queued, none when the recorder is closed and everything is kept.
func (r *Recorder) next() (batch []model.Step, closed bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	for len(r.queue) == 0 && !r.closed {
		r.more.Wait()
	}
	return r.queue[:len(r.queue):len(r.queue)], r.closed
}

// try makes an error of a panic, so that it ends neither the goroutine nor the program.
func (r *Recorder) try(batch []model.Step) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("the store failed: %v", p)
		}
	}()
	return r.keep(batch...)
}

// settle notes what has become of the first n steps of the queue and tells whether they are kept.
func (r *Recorder) settle(n int, err error) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	if err == nil {
		r.queue = slices.Clone(r.queue[n:])
		r.progress.Durable += uint64(n)
		r.progress.Err = nil
	} else {
		r.cause = err
		r.progress.Err = fmt.Errorf("not on the disk yet, held here and tried again: %w", err)
	}
	select {
	case r.changed <- struct{}{}:
	default:
	}
	return err == nil
}

// pause waits before the next try. Closing cuts a pause short that has begun before it.
func (r *Recorder) pause(tries int, closed bool) {
	closing := r.closing
	if closed {
		closing = nil
	}
	select {
	case <-r.wait(min(firstPause<<min(tries-1, 10), lastPause)):
	case <-closing:
	}
}
