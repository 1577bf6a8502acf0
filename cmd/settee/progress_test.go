package main

import (
	"context"
	"errors"
	"io"
	"strings"
	"testing"
	"time"

	"coach.settee/store"
)

func TestALongCommandSaysHowFarItIs(t *testing.T) {
	var words strings.Builder
	now := time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC)
	p := &progress{
		ctx: context.Background(), out: &words, part: store.Part{Verb: "written"}, now: func() time.Time { return now }, next: now.Add(quietTime),
	}
	w := &watchedWriter{io.Discard, p}
	for _, passed := range []time.Duration{0, quietTime / 2, quietTime / 2, 0, quietTime} {
		now = now.Add(passed)
		if _, err := w.Write(make([]byte, 1_000_000)); err != nil {
			t.Fatal(err)
		}
	}
	if got, want := words.String(), "3 MB written so far\n5 MB written so far\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestALongCommandIsEndedByItsContext(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	p := &progress{ctx: ctx, now: time.Now}
	if _, err := io.Copy(&watchedWriter{io.Discard, p}, strings.NewReader("lines")); err != nil {
		t.Fatal(err)
	}
	stop()
	if _, err := io.Copy(&watchedWriter{io.Discard, p}, strings.NewReader("lines")); !errors.Is(err, context.Canceled) {
		t.Errorf("writing goes on: %v", err)
	}
	if _, err := io.ReadAll(&watchedReader{strings.NewReader("lines"), p}); !errors.Is(err, context.Canceled) {
		t.Errorf("reading goes on: %v", err)
	}
}

func TestAnInputThatGivesNothingCanBeEnded(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	silent, other := io.Pipe()
	defer other.Close()
	r := interruptible(ctx, silent)
	stop()
	if _, err := io.ReadAll(r); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}

// TestACommandThatMovesNoBytesSaysSoToo waits for words that no byte brings about.
func TestACommandThatMovesNoBytesSaysSoToo(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	words, out := io.Pipe()
	p := &progress{ctx: ctx, out: out, part: store.Part{Verb: "read"}, now: time.Now, next: time.Now().Add(firstTime)}
	p.watch()
	first := make([]byte, len("0 MB read so far\n"))
	if _, err := io.ReadFull(words, first); err != nil || string(first) != "0 MB read so far\n" {
		t.Errorf("got %q, %v", first, err)
	}
	if firstTime > 500*time.Millisecond {
		t.Errorf("the first word comes after %v", firstTime)
	}
	words.Close()
}
