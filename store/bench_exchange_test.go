package store

import (
	"bufio"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"runtime/metrics"
	"testing"
	"time"
)

// exchanged is the number of deliveries that are exchanged: 10,000 unless SETTEE_BIG names another.
func exchanged(b *testing.B) int {
	if os.Getenv("SETTEE_BIG") == "" {
		return 10_000
	}
	return bigStore(b)
}

// exportedFile gives a store of invented evenings, and a file with its export.
func exportedFile(b *testing.B, dir string) (storePath, file string) {
	storePath, file = filepath.Join(dir, "settee.db"), filepath.Join(dir, "all.jsonl")
	s, err := Open(storePath, Options{NoSync: true})
	if err != nil {
		b.Fatal(err)
	}
	fill(b, s, exchanged(b), 2000)
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
	exportInto(b, storePath, file)
	return storePath, file
}

// exportInto exports a store to a file as the command does, the disk's sync with it, and gives the time it took.
func exportInto(b *testing.B, storePath, file string) time.Duration {
	start := time.Now()
	s, err := Open(storePath, Options{MustExist: true})
	if err != nil {
		b.Fatal(err)
	}
	writeSynced(b, file, s.Export)
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
	return time.Since(start)
}

func writeSynced(b *testing.B, file string, write func(io.Writer) error) {
	f, err := os.Create(file)
	if err != nil {
		b.Fatal(err)
	}
	if err := write(f); err != nil {
		b.Fatal(err)
	}
	if err := f.Sync(); err != nil {
		b.Fatal(err)
	}
	if err := f.Close(); err != nil {
		b.Fatal(err)
	}
}

// copyTimed writes the bytes of a file to another, synced, and gives the time it took: the least that writing them costs.
func copyTimed(b *testing.B, file string) time.Duration {
	in, err := os.Open(file)
	if err != nil {
		b.Fatal(err)
	}
	defer in.Close()
	start := time.Now()
	writeSynced(b, filepath.Join(b.TempDir(), "copy"), func(w io.Writer) error {
		_, err := io.CopyBuffer(struct{ io.Writer }{w}, struct{ io.Reader }{in}, make([]byte, exchangeBuffer))
		return err
	})
	return time.Since(start)
}

// decodeTimed reads every line of a file as a record and gives the time it took: the least that taking them costs.
func decodeTimed(b *testing.B, file string) time.Duration {
	f, err := os.Open(file)
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	start := time.Now()
	lines := bufio.NewScanner(f)
	lines.Buffer(make([]byte, 0, exchangeBuffer), maxLine)
	for lines.Scan(); lines.Scan(); {
		if _, err := decodeLine(lines.Bytes()); err != nil {
			b.Fatal(err)
		}
	}
	return time.Since(start)
}

// BenchmarkImport takes an export into an empty store, and compares the time with that of decoding its lines alone and
// with that of writing the bytes of the store that comes of it. The memory is the most that the heap had in use and
// what the runtime holds beside it, measured a hundred times a second, without the pages of the file that are mapped.
func BenchmarkImport(b *testing.B) {
	_, file := exportedFile(b, b.TempDir())
	n := float64(exchanged(b))
	for b.Loop() {
		into := filepath.Join(b.TempDir(), "settee.db")
		decoding := decodeTimed(b, file)
		var took time.Duration
		memory := memoryOf(func() { took = importTimed(b, into, file) })
		writing := copyTimed(b, into)
		info, err := os.Stat(into)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(n, "deliveries")
		b.ReportMetric(n/took.Seconds(), "deliveries/s")
		b.ReportMetric(took.Seconds(), "s")
		b.ReportMetric(float64(memory)/(1<<20), "MiB")
		b.ReportMetric(float64(took)/float64(decoding), "x-decode")
		b.ReportMetric(float64(took)/float64(writing), "x-write")
		b.ReportMetric(float64(info.Size())/n, "file-B/delivery")
	}
}

func importTimed(b *testing.B, path, file string) time.Duration {
	f, err := os.Open(file)
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	start := time.Now()
	if _, err := Import(path, f); err != nil {
		b.Fatal(err)
	}
	return time.Since(start)
}

// BenchmarkExport writes everything as lines, and compares the time with that of writing the same bytes. The memory is
// measured as for BenchmarkImport.
func BenchmarkExport(b *testing.B) {
	path, file := exportedFile(b, b.TempDir())
	n := float64(exchanged(b))
	for b.Loop() {
		var took time.Duration
		memory := memoryOf(func() { took = exportInto(b, path, file) })
		writing := copyTimed(b, file)
		b.ReportMetric(n, "deliveries")
		b.ReportMetric(n/took.Seconds(), "deliveries/s")
		b.ReportMetric(took.Seconds(), "s")
		b.ReportMetric(float64(memory)/(1<<20), "MiB")
		b.ReportMetric(float64(took)/float64(writing), "x-write")
	}
}

// memoryOf gives the most memory, in bytes, that the runtime had from the system while f ran.
func memoryOf(f func()) uint64 {
	runtime.GC()
	stop, most := make(chan struct{}), make(chan uint64)
	go func() {
		var high uint64
		tick := time.NewTicker(10 * time.Millisecond)
		defer tick.Stop()
		for {
			high = max(high, memoryNow())
			select {
			case <-stop:
				most <- max(high, memoryNow())
				return
			case <-tick.C:
			}
		}
	}()
	f()
	close(stop)
	return <-most
}

func memoryNow() uint64 {
	s := []metrics.Sample{{Name: "/memory/classes/total:bytes"}, {Name: "/memory/classes/heap/released:bytes"}, {Name: "/memory/classes/heap/free:bytes"}}
	metrics.Read(s)
	return s[0].Value.Uint64() - s[1].Value.Uint64() - s[2].Value.Uint64()
}
