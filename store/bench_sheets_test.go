package store

import (
	"path/filepath"
	"testing"
	"time"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// lastTen is what is asked for on most days.
var lastTen = Scope{Last: 10, Earlier: 10}

// BenchmarkSheetsOfTenGames compares reading a student's last ten games in a large store, where eight students share each
// evening, with a store that holds those games alone: the reading by itself, and with the opening before it.
func BenchmarkSheetsOfTenGames(b *testing.B) {
	dir, student := b.TempDir(), invented(3).ID
	big, alone := filepath.Join(dir, "big.db"), filepath.Join(dir, "alone.db")
	s := mustOpen(b, big)
	fill(b, s, bigStore(b), 2000)
	keepAlone(b, alone, s, history(b, s, student, Scope{Last: 10}).Over)
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		times := map[string][]time.Duration{}
		for range rounds {
			for _, path := range []string{big, alone} {
				open, read := openAndRead(b, path, student)
				times[path+" open"] = append(times[path+" open"], open)
				times[path+" read"] = append(times[path+" read"], read)
				times[path] = append(times[path], open+read)
			}
		}
		for name, unit := range map[string]string{" open": "open", " read": "read", "": "open+read"} {
			in, by := median(times[big+name]), median(times[alone+name])
			b.ReportMetric(float64(in)/float64(by), "x-"+unit)
			b.ReportMetric(float64(in.Microseconds()), "µs/"+unit)
			b.ReportMetric(float64(by.Microseconds()), "µs/"+unit+"-alone")
		}
	}
}

func openAndRead(b *testing.B, path string, student model.ID) (open, read time.Duration) {
	start := time.Now()
	s, err := Open(path, Options{})
	if err != nil {
		b.Fatal(err)
	}
	open = time.Since(start)
	h, err := s.History(student, lastTen)
	read = time.Since(start) - open
	if n := len(games(h.Over)); err != nil || n != 10 {
		b.Fatalf("%d games, %v", n, err)
	}
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
	return open, read
}

// keepAlone makes a store with one student's games and the sessions they were bowled in.
func keepAlone(b *testing.B, path string, from *Store, sheets []model.DatedSheet) {
	s := mustOpen(b, path)
	if err := s.update(func(tx *bolt.Tx) error {
		for _, sheet := range sheets {
			session := reopened(b, from, sheet.Game.Session).Session()
			for _, r := range []model.Record{session, invented(3), sheet.Game} {
				if err := putRecord(tx, r); err != nil {
					return err
				}
			}
			for _, d := range sheet.Deliveries {
				if err := putRecord(tx, d); err != nil {
					return err
				}
			}
			if err := putTally(tx, sheet.Game.ID, sheet.Tally); err != nil {
				return err
			}
		}
		return nil
	}); err != nil {
		b.Fatal(err)
	}
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
}

// BenchmarkSheetsOfAWholeHistory reads 20,000 deliveries of one of eight students who share each evening.
func BenchmarkSheetsOfAWholeHistory(b *testing.B) {
	s := openTemp(b, Options{NoSync: true})
	fill(b, s, 160_000, 2000)
	n := 0
	for b.Loop() {
		n = 0
		for _, sheet := range history(b, s, invented(3).ID, Scope{Earlier: 10}).Over {
			n += len(sheet.Deliveries)
		}
	}
	b.ReportMetric(float64(n), "deliveries")
}
