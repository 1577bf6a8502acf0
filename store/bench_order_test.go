package store

import (
	"encoding/binary"
	"path/filepath"
	"testing"
	"time"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// orderedRow is a delivery as it is put, with what other orders of keys would need.
type orderedRow struct {
	session, student, game, serial uint32
	value                          []byte
}

// rowsInOrder gives the rows of a season of eight students who take turns, in the order of recording.
func rowsInOrder(tb testing.TB, deliveries int) []orderedRow {
	var rows []orderedRow
	games := map[model.ID]model.Game{}
	students := map[model.ID]uint32{}
	var c *coach
	c = newCoach(tb, 1, func(step model.Step) {
		for _, change := range step.Changes {
			switch r := change.After.(type) {
			case model.Game:
				games[r.ID] = r
				if _, ok := students[r.Student]; !ok {
					students[r.Student] = uint32(len(students) + 1)
				}
			case model.Delivery:
				serial, _ := serialIn(step.Session, r.ID)
				game, _ := serialIn(step.Session, r.Game)
				row := orderedRow{uint32(c.number), students[games[r.Game].Student], game, serial, nil}
				key := place{row.session, serial}.key()
				row.value = deliveryRow{Delivery: r, trail: trail{n: step.Action.N, how: step.Action.How}}.encode(step.Session, key)
				rows = append(rows, row)
			}
		}
	})
	c.season(deliveries)
	return rows
}

func keyOf(parts ...uint32) []byte {
	var key []byte
	for _, p := range parts {
		key = binary.BigEndian.AppendUint32(key, p)
	}
	return key
}

// BenchmarkKeyOrder compares orders of the deliveries' keys: the bytes of the pages in use for each delivery, the time to
// put one, in transactions as large as those that settle the journal, and the time to read an evening.
func BenchmarkKeyOrder(b *testing.B) {
	rows := rowsInOrder(b, 40_000)
	for _, order := range []struct {
		name string
		fill float64
		// bucket and key say where a row goes; prefix, where there is one, what an evening's keys begin with.
		nested bool
		key    func(orderedRow) []byte
		prefix func(session uint32) []byte
	}{
		{"session-serial", 1, false, func(r orderedRow) []byte { return keyOf(r.session, r.serial) }, sessionPrefix},
		{"session-serial-half", 0.5, false, func(r orderedRow) []byte { return keyOf(r.session, r.serial) }, sessionPrefix},
		{"session-game-serial", 1, false, func(r orderedRow) []byte { return keyOf(r.session, r.game, r.serial) }, sessionPrefix},
		{"session-game-serial-half", 0.5, false, func(r orderedRow) []byte { return keyOf(r.session, r.game, r.serial) }, sessionPrefix},
		{"student-session-serial-half", 0.5, false, func(r orderedRow) []byte { return keyOf(r.student, r.session, r.serial) }, nil},
		{"bucket-for-each-session", 1, true, func(r orderedRow) []byte { return keyOf(r.serial) }, sessionPrefix},
	} {
		b.Run(order.name, func(b *testing.B) {
			for b.Loop() {
				db := orderedDB(b)
				put := putOrdered(b, db, rows, order.fill, order.nested, order.key)
				b.ReportMetric(float64(put.Nanoseconds())/float64(len(rows))/1000, "µs/put")
				b.ReportMetric(float64(pagesInUse(b, db))/float64(len(rows)), "B/delivery")
				if order.prefix != nil {
					read := readOrdered(b, db, order.nested, order.prefix(50))
					b.ReportMetric(float64(read.Microseconds()), "µs/evening")
				}
			}
		})
	}
}

func orderedDB(tb testing.TB) *bolt.DB {
	db, err := bolt.Open(filepath.Join(tb.TempDir(), "order.db"), 0o600, &bolt.Options{NoSync: true, FreelistType: bolt.FreelistMapType})
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { db.Close() })
	if err := db.Update(func(tx *bolt.Tx) error { _, err := tx.CreateBucket(bucketDeliveries); return err }); err != nil {
		tb.Fatal(err)
	}
	return db
}

func putOrdered(tb testing.TB, db *bolt.DB, rows []orderedRow, fill float64, nested bool, key func(orderedRow) []byte) time.Duration {
	const settled = 200
	start := time.Now()
	for len(rows) > 0 {
		n := min(settled, len(rows))
		err := db.Update(func(tx *bolt.Tx) error {
			for _, r := range rows[:n] {
				to := tx.Bucket(bucketDeliveries)
				if nested {
					var err error
					if to, err = to.CreateBucketIfNotExists(sessionPrefix(r.session)); err != nil {
						return err
					}
				}
				to.FillPercent = fill
				if err := to.Put(key(r), r.value); err != nil {
					return err
				}
			}
			return nil
		})
		if err != nil {
			tb.Fatal(err)
		}
		rows = rows[n:]
	}
	return time.Since(start)
}

func readOrdered(tb testing.TB, db *bolt.DB, nested bool, prefix []byte) time.Duration {
	start := time.Now()
	n := 0
	err := db.View(func(tx *bolt.Tx) error {
		from := tx.Bucket(bucketDeliveries)
		if nested {
			from, prefix = from.Bucket(prefix), nil
		}
		return each(from, prefix, func(_, v []byte) error { n += len(v); return nil })
	})
	if err != nil || n == 0 {
		tb.Fatalf("%d bytes were read, %v", n, err)
	}
	return time.Since(start)
}

// pagesInUse gives the bytes of the pages that are not free.
func pagesInUse(tb testing.TB, db *bolt.DB) int64 {
	var size int64
	if err := db.View(func(tx *bolt.Tx) error { size = tx.Size(); return nil }); err != nil {
		tb.Fatal(err)
	}
	stats := db.Stats()
	return size - int64(stats.FreePageN+stats.PendingPageN)*int64(db.Info().PageSize)
}
