package store

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"
	"time"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// bigStore is the number of deliveries of the large store: 100,000 unless SETTEE_BIG names another.
func bigStore(b *testing.B) int {
	n, err := strconv.Atoi(os.Getenv("SETTEE_BIG"))
	if os.Getenv("SETTEE_BIG") == "" {
		return 100_000
	}
	if err != nil {
		b.Fatal(err)
	}
	return n
}

// fill keeps a season of deliveries, a number of steps in each transaction.
func fill(tb testing.TB, s *Store, deliveries, batch int) *coach {
	var queued []model.Step
	flush := func() {
		if err := s.Keep(queued...); err != nil {
			tb.Fatal(err)
		}
		queued = queued[:0]
	}
	c := newCoach(tb, 1, func(step model.Step) {
		if queued = append(queued, step); len(queued) >= batch {
			flush()
		}
	})
	c.season(deliveries)
	flush()
	return c
}

// bare is a file that is appended to and synced, as the least that a durable record can cost.
type bare struct{ f *os.File }

func newBare(tb testing.TB, dir string) *bare {
	f, err := os.Create(filepath.Join(dir, "bare"))
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { f.Close() })
	return &bare{f}
}

func (a *bare) append(tb testing.TB, p []byte) time.Duration {
	start := time.Now()
	if _, err := a.f.Write(p); err != nil {
		tb.Fatal(err)
	}
	if err := datasync(a.f); err != nil {
		tb.Fatal(err)
	}
	return time.Since(start)
}

// keepTimed keeps steps and gives the time it took.
func keepTimed(tb testing.TB, s *Store, steps ...model.Step) time.Duration {
	start := time.Now()
	if err := s.Keep(steps...); err != nil {
		tb.Fatal(err)
	}
	return time.Since(start)
}

func median(of []time.Duration) time.Duration {
	slices.Sort(of)
	return of[len(of)/2]
}

// rounds is how often each of two things that are compared is measured, in turns, and each behind another one that is
// not: the disk is quicker when it was busy just before.
const rounds = 300

// recordings gives a function that makes steps which record one delivery each, for a store that already has a season. As
// on the board, a step is made just before it is kept.
func recordings(b *testing.B, s *Store) func(n int) []model.Step {
	fill(b, s, 2000, 500)
	var steps []model.Step
	c := newCoach(b, 2, func(step model.Step) { steps = append(steps, step) })
	c.number = 900_000
	c.begin(8)
	if err := s.Keep(steps...); err != nil {
		b.Fatal(err)
	}
	return func(n int) []model.Step {
		steps = nil
		for range n {
			c.call()
		}
		return steps
	}
}

func rowSize(step model.Step) int {
	size := 0
	for _, c := range step.Changes {
		if d, ok := c.After.(model.Delivery); ok {
			size += len(deliveryRow{Delivery: d}.encode(step.Session, make([]byte, 8))) + 8
		}
	}
	return size
}

// BenchmarkRecord compares one delivery recorded durably with the same bytes appended to a file and synced.
func BenchmarkRecord(b *testing.B) {
	for b.Loop() {
		s := openTemp(b, Options{})
		plain := newBare(b, filepath.Dir(s.Path()))
		next := recordings(b, s)
		var record, bare []time.Duration
		for range rounds {
			steps := next(2)
			plain.append(b, make([]byte, rowSize(steps[0])))
			bare = append(bare, plain.append(b, make([]byte, rowSize(steps[1]))))
			keepTimed(b, s, steps[0])
			record = append(record, keepTimed(b, s, steps[1]))
		}
		r, a := median(record), median(bare)
		b.ReportMetric(float64(r)/float64(a), "x-append")
		b.ReportMetric(float64(r.Microseconds()), "µs/record")
		b.ReportMetric(float64(a.Microseconds()), "µs/append")
	}
}

// BenchmarkBurst16 compares sixteen deliveries recorded in one transaction with one.
func BenchmarkBurst16(b *testing.B) {
	for b.Loop() {
		s := openTemp(b, Options{})
		next := recordings(b, s)
		var one, burst []time.Duration
		for range rounds {
			steps := next(19)
			keepTimed(b, s, steps[0])
			one = append(one, keepTimed(b, s, steps[1]))
			keepTimed(b, s, steps[2])
			burst = append(burst, keepTimed(b, s, steps[3:]...))
		}
		o, m := median(one), median(burst)
		b.ReportMetric(float64(m)/float64(o), "x-one")
		b.ReportMetric(float64(m.Microseconds()), "µs/burst")
	}
}

// BenchmarkBytesPerDelivery tells how large a store becomes when 100,000 deliveries of eight students are recorded one by
// one, each in a transaction of its own, with everything that is kept beside them; and one evening.
func BenchmarkBytesPerDelivery(b *testing.B) {
	for _, n := range []int{400, 100_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				s := openTemp(b, Options{NoSync: true})
				fill(b, s, n, 1)
				info, err := os.Stat(s.Path())
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(info.Size())/float64(n), "file-B/delivery")
				b.ReportMetric(float64(inUseBytes(b, s))/float64(n), "used-B/delivery")
				b.ReportMetric(float64(compacted(b, s))/float64(n), "compacted-B/delivery")
			}
		})
	}
}

// inUseBytes gives the size of the pages that are not free.
func inUseBytes(tb testing.TB, s *Store) int64 {
	if _, err := s.Count(); err != nil {
		tb.Fatal(err)
	}
	file, err := os.ReadFile(s.Path())
	if err != nil {
		tb.Fatal(err)
	}
	var n int64
	for _, free := range freePages(tb, file) {
		if !free {
			n += int64(pageSize(file))
		}
	}
	return n
}

// compacted gives the size that a copy without free pages has.
func compacted(tb testing.TB, s *Store) int64 {
	dst, err := bolt.Open(filepath.Join(tb.TempDir(), "copy.db"), 0o600, &bolt.Options{NoSync: true})
	if err != nil {
		tb.Fatal(err)
	}
	defer dst.Close()
	if err := bolt.Compact(dst, s.db, 1<<20); err != nil {
		tb.Fatal(err)
	}
	var n int64
	if err := dst.View(func(tx *bolt.Tx) error { n = tx.Size(); return nil }); err != nil {
		tb.Fatal(err)
	}
	return n
}

// BenchmarkOpen tells how long a large store takes to open, and how long what the board asks of it at first.
func BenchmarkOpen(b *testing.B) {
	n := bigStore(b)
	path := filepath.Join(b.TempDir(), "settee.db")
	s, err := Open(path, Options{NoSync: true})
	if err != nil {
		b.Fatal(err)
	}
	c := fill(b, s, n, 2000)
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
	var open, played, evening time.Duration
	for b.Loop() {
		start := time.Now()
		s, err := Open(path, Options{})
		if err != nil {
			b.Fatal(err)
		}
		open += time.Since(start)
		start = time.Now()
		for student := range 8 {
			if _, err := s.Played(invented(student).ID, 10, func(p Played) bool { return p.Tally.Complete }); err != nil {
				b.Fatal(err)
			}
		}
		played += time.Since(start)
		start = time.Now()
		if _, err := s.Evening(c.session()); err != nil {
			b.Fatal(err)
		}
		evening += time.Since(start)
		if err := s.Close(); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(n), "deliveries")
	b.ReportMetric(float64(open.Microseconds())/float64(b.N), "µs/open")
	b.ReportMetric(float64(played.Microseconds())/float64(b.N), "µs/8-played")
	b.ReportMetric(float64(evening.Microseconds())/float64(b.N), "µs/evening")
}
