package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	command "flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

var update = command.Bool("update", false, "make the golden store of this version where there is none")

// TestTheStoresOfAllVersionsAreRead opens a file of each version of the schema, with steps in its journal, which every later
// version has to read. None is ever made anew: one of this version is made with -update if there is none.
func TestTheStoresOfAllVersionsAreRead(t *testing.T) {
	for version := 1; version <= schemaVersion; version++ {
		t.Run(fmt.Sprint(version), func(t *testing.T) { readGolden(t, version) })
	}
}

func readGolden(t *testing.T, version int) {
	golden := filepath.Join("..", "testdata", "stores", fmt.Sprintf("v%d.db", version))
	lines := strings.TrimSuffix(golden, ".db") + ".jsonl"
	if *update && version == schemaVersion && !isThere(golden) {
		makeGolden(t, golden, lines)
	}
	path := filepath.Join(t.TempDir(), "golden.db")
	write(t, path, read(t, golden))
	if e := examined(t, path); !e.Sound() || e.Waiting == 0 || e.Deliveries == 0 {
		t.Errorf("%+v", e)
	}
	same(t, exported(t, path), read(t, lines))
	if before := beforeName(path, uint32(version), 1); isThere(before) != (version < schemaVersion) {
		t.Errorf("there is a copy from before: %t", isThere(before))
	}
	if e := examined(t, path); !e.Sound() || e.Open == 0 {
		t.Errorf("brought to version %d: %+v", schemaVersion, e)
	}
	s := mustOpen(t, path)
	defer s.Close()
	open, err := s.OpenSessions()
	if err != nil || len(open) == 0 {
		t.Fatalf("%d open sessions, %v", len(open), err)
	}
	for _, session := range open {
		reopened(t, s, session.ID)
	}
	if k, err := s.Evening("01J7EVENING000000000000001"); err != nil || len(k.Log) < 40 || k.Up.Lane == 0 {
		t.Errorf("%d actions, lane %d up, %v", len(k.Log), k.Up.Lane, err)
	}
}

func makeGolden(t *testing.T, golden, lines string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "new.db")
	mustImport(t, path, sample(t))
	s := mustOpen(t, path)
	c := newCoach(t, 1, func(step model.Step) {
		if err := s.Keep(step); err != nil {
			t.Fatal(err)
		}
	})
	c.begin(4)
	c.bowl(40)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	from, err := bolt.Open(path, 0o600, nil)
	if err != nil {
		t.Fatal(err)
	}
	small := filepath.Join(t.TempDir(), "small.db")
	to, err := bolt.Open(small, 0o600, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(bolt.Compact(to, from, 0), to.Close(), from.Close()); err != nil {
		t.Fatal(err)
	}
	s = mustOpen(t, small)
	c.bowl(3)
	if err := os.MkdirAll(filepath.Dir(golden), 0o755); err != nil {
		t.Fatal(err)
	}
	write(t, golden, read(t, small))
	export, err := exportOf(s)
	if err = errors.Join(err, s.Close()); err != nil {
		t.Fatal(err)
	}
	write(t, lines, export)
}

// later is a schema after this one, whose migration leaves a sign.
func later(fails error) *schema {
	return &schema{schemaVersion + 1, append(append([]func(*bolt.Tx) error{}, migrations...), func(tx *bolt.Tx) error {
		b, err := tx.CreateBucket([]byte("later"))
		if err != nil {
			return err
		}
		return errors.Join(b.Put([]byte("sign"), []byte("here")), fails)
	})}
}

// olderStore is a store of this version with steps in its journal, and what it exports.
func olderStore(t *testing.T) (path string, export []byte) {
	s := openTemp(t, Options{NoSync: true})
	fill(t, s, 200, 1)
	path = filepath.Join(t.TempDir(), "older.db")
	if len(s.journal.steps) == 0 {
		t.Fatal("nothing is in the journal")
	}
	write(t, path, read(t, s.Path()))
	export, err := exportOf(s)
	if err != nil {
		t.Fatal(err)
	}
	return path, export
}

func TestAnOlderStoreIsCopiedAndBroughtToThisVersion(t *testing.T) {
	path, export := olderStore(t)
	before := beforeName(path, schemaVersion, 1)
	for range 2 {
		s, err := open(path, Options{NoSync: true, schema: later(nil)})
		if err != nil {
			t.Fatal(err)
		}
		if err := s.view(func(tx *bolt.Tx) error {
			if got := string(tx.Bucket([]byte("later")).Get([]byte("sign"))); got != "here" || versionIn(tx) != schemaVersion+1 {
				t.Errorf("the sign is %q, the version %d", got, versionIn(tx))
			}
			return recogniseUpTo(tx, path, schemaVersion+1)
		}); err != nil {
			t.Error(err)
		}
		got, err := exportOf(s)
		if err = errors.Join(err, s.Close()); err != nil {
			t.Fatal(err)
		}
		same(t, got, export)
	}
	if _, err := Open(path, Options{}); !errors.Is(err, ErrNewer) {
		t.Errorf("this version opens the next: %v", err)
	}
	same(t, exportAt(t, before), export)
	if isThere(beforeName(path, schemaVersion, 2)) {
		t.Error("it was copied twice")
	}
}

func TestAStoreThatCannotBeBroughtToAVersionIsLeftAsItIs(t *testing.T) {
	path, export := olderStore(t)
	no := errors.New("no such luck")
	for range 2 {
		_, err := open(path, Options{NoSync: true, schema: later(no)})
		if !errors.Is(err, no) || !strings.Contains(err.Error(), "is left as it is") {
			t.Errorf("a migration that fails: %v", err)
		}
	}
	if e := examined(t, path); !e.Sound() {
		t.Error(e.Faults)
	}
	same(t, exported(t, path), export)
	same(t, exported(t, beforeName(path, schemaVersion, 1)), export)
	if isThere(beforeName(path, schemaVersion, 2)) {
		t.Error("it was copied twice")
	}
}

func TestACopyIsBroughtToThisVersionWithoutAnother(t *testing.T) {
	path, _ := olderStore(t)
	s, err := open(path, Options{NoSync: true, isCopy: true, schema: later(nil)})
	if err = errors.Join(err, s.Close()); err != nil {
		t.Fatal(err)
	}
	if isThere(beforeName(path, schemaVersion, 1)) {
		t.Error("a copy was copied")
	}
}

// TestCountsAreKeptWithAChecksum changes what the library counts without one.
func TestCountsAreKeptWithAChecksum(t *testing.T) {
	for _, name := range [][]byte{bucketSessions, bucketDeliveries} {
		s := openTemp(t, Options{NoSync: true})
		fill(t, s, 600, 50)
		err := s.view(func(*bolt.Tx) error { return nil })
		if err == nil {
			err = s.db.Update(func(tx *bolt.Tx) error { return tx.Bucket(name).SetSequence(tx.Bucket(name).Sequence() ^ 2) })
		}
		if err = errors.Join(err, s.db.Close()); err != nil {
			t.Fatal(err)
		}
		if _, err := Open(s.Path(), Options{}); !errors.Is(err, ErrDamaged) {
			t.Errorf("another count of %s: %v", name, err)
		}
	}
}

// TestALostFrameIsNoticed turns a bit of each frame of the journal but the last.
func TestALostFrameIsNoticed(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	steps := evening(t, 12)
	keepEach(t, s, steps)
	file := read(t, s.Path())
	path := filepath.Join(t.TempDir(), "lost.db")
	frames := 0
	for at := s.journal.from; ; frames++ {
		length := int64(binary.BigEndian.Uint32(file[at:])) + frameHead
		if at+length == s.journal.from+s.journal.end {
			break
		}
		for _, bit := range []int64{2*8 + 7, 3 * 8, 5 * 8, frameHead*8 + 3, length*8 - 1} {
			changed := bytes.Clone(file)
			changed[at+bit/8] ^= 1 << (bit % 8)
			write(t, path, changed)
			if _, err := Open(path, Options{}); !errors.Is(err, ErrDamaged) {
				t.Errorf("frame %d, bit %d: %v", frames, bit, err)
			}
		}
		at += length
	}
	if frames < len(steps)/2 {
		t.Errorf("%d frames of %d steps", frames, len(steps))
	}
}
