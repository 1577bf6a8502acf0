//go:build unix

package main

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"coach.settee/model"
	"coach.settee/store"
)

// manyDeliveries is the number of deliveries of the large store: 20,000 unless SETTEE_BIG names another.
func manyDeliveries(tb testing.TB) int {
	tb.Helper()
	text := os.Getenv("SETTEE_BIG")
	if text == "" {
		return 20_000
	}
	n, err := strconv.Atoi(text)
	if err != nil {
		tb.Fatal(err)
	}
	return n
}

// keepCareer fills a store with evenings of eight students on four pairs, at least so many deliveries in all, and
// leaves one more evening open.
func keepCareer(tb testing.TB, path string, deliveries int) {
	tb.Helper()
	s, err := store.Open(path, store.Options{NoSync: true})
	if err != nil {
		tb.Fatal(err)
	}
	var steps []model.Step
	for evening, n := 0, 0; n < deliveries; evening++ {
		e, more := careerEvening(tb, evening, 3)
		closed, err := e.Close(careerStart(evening).Add(2 * time.Hour))
		if err != nil {
			tb.Fatal(err)
		}
		n += e.Deliveries()
		steps = append(append(steps, more...), closed)
		if len(steps) > 5000 || n >= deliveries {
			if err := s.Keep(steps...); err != nil {
				tb.Fatal(err)
			}
			steps = steps[:0]
		}
	}
	_, open := careerEvening(tb, 1_000_000, 1)
	if err := s.Keep(open...); err != nil {
		tb.Fatal(err)
	}
	if err := s.Close(); err != nil {
		tb.Fatal(err)
	}
}

func careerStart(evening int) time.Time {
	return time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC).Add(-time.Duration(evening%5000) * 7 * time.Hour)
}

// careerEvening plays an evening of games and gives it with its steps.
func careerEvening(tb testing.TB, evening, games int) (*model.Evening, []model.Step) {
	tb.Helper()
	var steps []model.Step
	keep := func(step model.Step, err error) {
		if err != nil {
			tb.Fatal(err)
		}
		steps = append(steps, step)
	}
	at := careerStart(evening)
	e, step, err := model.NewEvening(model.Session{
		ID: model.ID(fmt.Sprintf("evening-%07d", evening)), At: at, Rotate: true,
		Pairs: []model.Pair{{7, 8}, {9, 10}, {11, 12}, {13, 14}},
	})
	keep(step, err)
	for i := range 8 {
		s := model.Student{
			ID: model.ID(fmt.Sprintf("student-%d", i)), Name: fmt.Sprintf("Student %c", 'A'+i),
			Hand: model.RightHand, Average: model.Known(110 + 15*i),
		}
		keep(e.SeatKnown(s, s, 7+i))
	}
	for ball := range 8 * games * 16 {
		if ball%16 == 0 {
			keep(e.PutUpBeside(1))
		}
		if ball%3 == 0 {
			if err := e.Lower(model.Axes[ball%4]); err != nil {
				tb.Fatal(err)
			}
		}
		if _, rack := e.Speaking(); rack.Full && ball%5 != 0 {
			keep(e.RecordCount(at, ball%9))
			continue
		}
		keep(e.RecordAllDown(at))
	}
	return e, steps
}

// BenchmarkBoard measures the built program on a pseudo-terminal with a large store.
func BenchmarkBoard(b *testing.B) {
	dir := b.TempDir()
	large, empty := filepath.Join(dir, "large.db"), filepath.Join(dir, "empty.db")
	keepCareer(b, large, manyDeliveries(b))
	keepCareer(b, empty, 0)
	b.Run("KeyToFrame", func(b *testing.B) { keyToFrame(b, large) })
	b.Run("FirstFrame", func(b *testing.B) { firstFrame(b, large, empty) })
}

// keyToFrame measures a key from the write on the pseudo-terminal to the output that shows it.
func keyToFrame(b *testing.B, path string) {
	t := startTerminal(b, terminalOptions{cols: 80, rows: 24, args: []string{"--store", path}})
	t.contains("resumed")
	const keys = 300
	for b.Loop() {
		took := make([]time.Duration, 0, keys)
		for i := range keys {
			key, shows := "b", "balance B"
			if i%2 == 1 {
				key, shows = "B", "balance A"
			}
			start := time.Now()
			t.send(key)
			took = append(took, t.contains(shows).Sub(start))
			// A key comes at any moment between two frames of the screen.
			time.Sleep(time.Duration(i*7919%11) * time.Millisecond)
		}
		slices.Sort(took)
		b.ReportMetric(float64(took[keys/2].Microseconds())/1000, "ms-median")
		b.ReportMetric(float64(took[keys*99/100].Microseconds())/1000, "ms-p99")
	}
}

// firstFrame measures from the start of the program to the first frame, on a large store and on one with an evening alone
// in turns, and how much memory it then has.
func firstFrame(b *testing.B, large, empty string) {
	first := func(path string) (time.Duration, int) {
		start := time.Now()
		t := startTerminal(b, terminalOptions{cols: 80, rows: 24, args: []string{"--store", path}})
		shown := t.contains("resumed").Sub(start)
		memory := resident(b, t.cmd.Process.Pid)
		t.send("qq")
		t.wait()
		return shown, memory
	}
	const starts = 15
	for b.Loop() {
		var l, e []time.Duration
		memory := 0
		for range starts {
			took, used := first(large)
			l, memory = append(l, took), max(memory, used)
			took, _ = first(empty)
			e = append(e, took)
		}
		slices.Sort(l)
		slices.Sort(e)
		b.ReportMetric(float64(l[starts/2].Microseconds())/1000, "ms-large")
		b.ReportMetric(float64(e[starts/2].Microseconds())/1000, "ms-empty")
		b.ReportMetric(float64(l[starts/2])/float64(e[starts/2]), "x-empty")
		b.ReportMetric(float64(memory)/1024, "MiB-resident")
	}
}

// resident gives a process's memory in use, in KiB; 0 where the system does not tell it in a file.
func resident(tb testing.TB, pid int) int {
	tb.Helper()
	if runtime.GOOS != "linux" {
		return 0
	}
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		tb.Fatal(err)
	}
	for line := range strings.Lines(string(text)) {
		if rest, ok := strings.CutPrefix(line, "VmRSS:"); ok {
			n, err := strconv.Atoi(strings.Fields(rest)[0])
			if err != nil {
				tb.Fatal(err)
			}
			return n
		}
	}
	tb.Fatal("no resident memory in the status of the process")
	return 0
}
