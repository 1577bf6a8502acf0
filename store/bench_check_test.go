package store

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"
)

// BenchmarkExamine reads a large store whole, as `settee check` does, beside exporting it, and repairs it.
func BenchmarkExamine(b *testing.B) {
	deliveries := bigStore(b)
	path := filepath.Join(b.TempDir(), "big.db")
	s, err := Open(path, Options{NoSync: true})
	if err != nil {
		b.Fatal(err)
	}
	fill(b, s, deliveries, 5000)
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
	info, err := os.Stat(path)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		start := time.Now()
		if err := guard(path); err != nil {
			b.Fatal(err)
		}
		guarding := time.Since(start)
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		start = time.Now()
		if e := examined(b, path); !e.Sound() || e.Deliveries != deliveries {
			b.Fatal(e)
		}
		took := time.Since(start)
		runtime.ReadMemStats(&after)
		start = time.Now()
		target := filepath.Join(b.TempDir(), "repaired.db")
		if r, err := Repair(path, target, nil); err != nil || r.Deliveries != deliveries {
			b.Fatal(r, err)
		}
		b.ReportMetric(time.Since(start).Seconds(), "s/repair")
		b.ReportMetric(took.Seconds(), "s/check")
		b.ReportMetric(guarding.Seconds()*1000, "ms/guard")
		b.ReportMetric(float64(after.HeapSys)/1e6, "MB-heap")
		b.ReportMetric(float64(info.Size())/1e6, "MB-file")
	}
}
