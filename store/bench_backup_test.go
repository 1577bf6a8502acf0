package store

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"
	"time"

	"coach.settee/model"
)

// BenchmarkBackup compares an automatic copy with the same file copied and synced.
func BenchmarkBackup(b *testing.B) {
	s := openTemp(b, Options{NoSync: true})
	n := bigStore(b)
	c := fill(b, s, n, 2000)
	c.keep = func(step model.Step) {
		if err := s.Keep(step); err != nil {
			b.Fatal(err)
		}
	}
	dir := b.TempDir()
	var backup, unchanged, plain time.Duration
	var size int64
	for i := 0; b.Loop(); i++ {
		c.begin(1)
		start := time.Now()
		path := autoBackup(b, s, nine.Add(time.Duration(i)*time.Hour))
		backup += time.Since(start)
		start = time.Now()
		autoBackup(b, s, nine.Add(time.Duration(i)*time.Hour))
		unchanged += time.Since(start)
		start = time.Now()
		size = plainCopy(b, path, filepath.Join(dir, "plain.db"))
		plain += time.Since(start)
	}
	b.ReportMetric(float64(n), "deliveries")
	b.ReportMetric(float64(size)/1e6, "MB")
	b.ReportMetric(float64(backup.Milliseconds())/float64(b.N), "ms/backup")
	b.ReportMetric(float64(unchanged.Milliseconds())/float64(b.N), "ms/unchanged")
	b.ReportMetric(float64(backup)/float64(plain), "x-plain")
}

func plainCopy(tb testing.TB, from, to string) int64 {
	f, err := os.Create(to)
	if err != nil {
		tb.Fatal(err)
	}
	defer f.Close()
	r, err := os.Open(from)
	if err != nil {
		tb.Fatal(err)
	}
	defer r.Close()
	n, err := io.Copy(f, r)
	if err = errors.Join(err, f.Sync()); err != nil {
		tb.Fatal(err)
	}
	return n
}
