package store

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// Examined is what Examine found in a store.
type Examined struct {
	// Bytes is the file's size.
	Bytes int64
	// Cues to Deliveries count the records of each kind that can be read; Open are the sessions that are not closed.
	Cues, Students, Sessions, Open, Games, Deliveries int
	// Waiting counts the steps of the journal, which the next opening puts into their places.
	Waiting int
	// MayMissLast says that a call which cannot be read is at the end of the journal: it was being written when the program
	// ended, or it was kept and is damaged since. It is no fault, since a crash leaves a sound store so.
	MayMissLast bool
	// Faults says what is wrong, at most maxFaults of it, each in words; More is how many others there are.
	Faults []string
	More   int
}

// Sound tells whether nothing is wrong.
func (e Examined) Sound() bool { return len(e.Faults) == 0 }

// maxFaults is how many faults are told in words.
const maxFaults = 20

// Examine reads the whole store at path and changes nothing: every page; every record, what it means and refers to; every
// game's deliveries and what they add up to; the indexes; the lists of actions; the journal. What is wrong is told in
// Faults. A file that is not a store, is newer or is open elsewhere is refused as by Open, one that is not there with
// ErrAbsent. It holds one session in memory at a time. read is told of every few bytes read, and its error ends it.
func Examine(path string, read func(bytes int) error) (Examined, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return Examined{}, err
	}
	info, err := os.Stat(path)
	if leadsNowhere(path) {
		return Examined{}, nowhere(path)
	}
	if errors.Is(err, fs.ErrNotExist) {
		return Examined{}, absent(path)
	}
	if err != nil {
		return Examined{}, unread(path, err)
	}
	x := &examiner{read: read, out: Examined{Bytes: info.Size()}}
	err = locked(path, func() error {
		if err := inspectThrough(path, everyPage, func(f io.ReaderAt) io.ReaderAt { return &toldReader{f, x} }); err != nil {
			return err
		}
		return x.records(path)
	})
	switch {
	case x.stop != nil:
		return Examined{}, x.stop
	case errors.Is(err, ErrDamaged):
		x.fault("%s", reason(err))
	case err != nil:
		return Examined{}, err
	}
	return x.out, nil
}

// examiner looks over a store's records, once its pages are known to be sound.
type examiner struct {
	tx   *bolt.Tx
	read func(bytes int) error
	// stop is the error with which read ended the reading.
	stop error
	out  Examined

	students map[model.ID]bool
	// heads are the sessions by number, in its order.
	heads []sessionHead
	ids   map[model.ID]bool
	// foreign and actions count what the evenings' records say should be in those buckets.
	foreign int
}

// toldReader tells of what is read from a file.
type toldReader struct {
	io.ReaderAt
	x *examiner
}

func (t *toldReader) ReadAt(p []byte, at int64) (int, error) {
	n, err := t.ReaderAt.ReadAt(p, at)
	return n, errors.Join(err, t.x.tell(n))
}

func (x *examiner) tell(n int) error {
	if x.stop == nil && x.read != nil {
		x.stop = x.read(n)
	}
	return x.stop
}

func (x *examiner) fault(format string, args ...any) {
	if len(x.out.Faults) == maxFaults {
		x.out.More++
		return
	}
	x.out.Faults = append(x.out.Faults, fmt.Sprintf(format, args...))
}

// wrong adds what is wrong with a row, if anything, and tells whether it is.
func (x *examiner) wrong(err error, format string, args ...any) bool {
	if err != nil {
		x.fault("%s: %v", fmt.Sprintf(format, args...), err)
	}
	return err != nil
}

// records opens a file whose pages are sound, for reading only, and looks over what is in it.
func (x *examiner) records(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	db, err := bolt.Open(path, 0o600, &bolt.Options{ReadOnly: true, Timeout: lockWait, OpenFile: openThere})
	if err != nil {
		return fmt.Errorf("the store %s cannot be opened: %w", path, err)
	}
	defer db.Close()
	return db.View(func(tx *bolt.Tx) error {
		if err := recognise(tx, path); err != nil {
			return err
		}
		x.tx = tx
		for _, part := range []func() error{x.people, x.sessions, x.evenings, x.open, x.indexes, x.lists} {
			if err := part(); err != nil {
				return err
			}
		}
		return x.journal(db, f, path)
	})
}

// people looks at the book of cues and the students.
func (x *examiner) people() error {
	err := x.each(bucketCues, nil, func(k, v []byte) {
		c, err := decodePlain(k, v, decodeCue)
		x.valid(&x.out.Cues, c, err, "cue", k)
	})
	if err != nil {
		return err
	}
	x.students = map[model.ID]bool{}
	return x.each(bucketStudents, nil, func(k, v []byte) {
		s, err := decodePlain(k, v, decodeStudent)
		x.valid(&x.out.Students, s, err, "student", k)
		x.students[model.ID(k)] = true
	})
}

// valid counts a record that can be read, and says what is wrong with it.
func (x *examiner) valid(count *int, r model.Record, err error, kind string, id []byte) {
	if err == nil {
		*count++
		err = r.Validate()
	}
	x.wrong(err, "%s %s", kind, id)
}

// sessions looks at the sessions, and lists them by number.
func (x *examiner) sessions() error {
	numbers := map[uint32]model.ID{}
	x.ids = map[model.ID]bool{}
	last := bucket(x.tx, bucketSessions).Sequence()
	err := x.each(bucketSessions, nil, func(k, v []byte) {
		row, err := decodeSessionRow(k, v)
		x.valid(&x.out.Sessions, row.Session, err, "session", k)
		if err != nil {
			return
		}
		if row.Open() {
			x.out.Open++
		}
		if other, ok := numbers[row.number]; ok {
			x.fault("session %s: it has the number of session %s", row.ID, other)
		}
		if row.number == 0 || uint64(row.number) > last {
			x.fault("session %s: its number is %d, the highest is %d", row.ID, row.number, last)
		}
		for _, seat := range row.Roster {
			if !x.students[seat.Student] {
				x.fault("session %s: its student %s is missing", row.ID, seat.Student)
			}
		}
		numbers[row.number], x.ids[row.ID] = row.ID, true
		x.heads = append(x.heads, sessionHead{id: row.ID, number: row.number, floor: row.floor, at: row.At, open: row.Open()})
	})
	slices.SortFunc(x.heads, func(a, b sessionHead) int { return int(a.number) - int(b.number) })
	return err
}

// each looks at a bucket's rows whose keys begin with prefix.
func (x *examiner) each(name, prefix []byte, look func(k, v []byte)) error {
	return each(bucket(x.tx, name), prefix, func(k, v []byte) error {
		look(k, v)
		return x.tell(len(k) + len(v))
	})
}
