package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	bolt "go.etcd.io/bbolt"
)

// soundStore gives the bytes of a store with some evenings, and what it exports.
func soundStore(t *testing.T) (file, export []byte) {
	path := filepath.Join(t.TempDir(), "sound.db")
	s, err := Open(path, Options{NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	fill(t, s, 900, 200)
	export, err = exportOf(s)
	if err = errors.Join(err, s.Close()); err != nil {
		t.Fatal(err)
	}
	file, err = os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return file, export
}

func exportOf(s *Store) ([]byte, error) {
	var b bytes.Buffer
	err := s.Export(&b)
	return b.Bytes(), err
}

// opening writes a file, opens and reads it whole, and gives what came of it. A file that is refused has to be as before.
func opening(t *testing.T, dir string, file []byte) (export []byte, err error) {
	t.Helper()
	// A store that broke may not be let go of before the end: each file is one of its own.
	path := filepath.Join(dir, "changed.db")
	if err := os.Remove(path); err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
	s, err := Open(path, Options{NoSync: true})
	if err != nil {
		after, readErr := os.ReadFile(path)
		if readErr != nil || !bytes.Equal(file, after) {
			t.Fatalf("the file was refused (%v) and changed", err)
		}
		return nil, err
	}
	export, err = exportOf(s)
	return export, errors.Join(err, s.Close())
}

func refusedInWords(t *testing.T, what string, err error, kinds ...error) {
	t.Helper()
	for _, kind := range kinds {
		if errors.Is(err, kind) && strings.Contains(err.Error(), "--store") || errors.Is(err, ErrNewer) && kind == ErrNewer {
			return
		}
	}
	t.Errorf("%s: %v", what, err)
}

func pageSize(file []byte) int { return int(binary.NativeEndian.Uint32(file[pageHeader+8:])) }

func highWater(file []byte) int {
	h, err := readHead(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		panic(err)
	}
	return int(h.high)
}

func TestAFileThatWasCutOffIsRefused(t *testing.T) {
	file, _ := soundStore(t)
	dir, size := t.TempDir(), pageSize(file)
	for page := range highWater(file) {
		for _, cut := range []int{page * size, page*size + 1, page*size + size/2, page*size + size - 1} {
			_, err := opening(t, dir, file[:cut])
			refusedInWords(t, fmt.Sprintf("cut to %d bytes", cut), err, ErrDamaged, ErrNotOurs)
		}
	}
}

func TestAStoreOfNoBytesIsRefused(t *testing.T) {
	_, err := opening(t, t.TempDir(), nil)
	refusedInWords(t, "an empty file", err, ErrDamaged)
}

func TestAHeadWithAWrongBitIsRefused(t *testing.T) {
	file, _ := soundStore(t)
	dir := t.TempDir()
	for head := range 2 {
		for i := range headLength {
			changed := bytes.Clone(file)
			changed[head*pageSize(file)+pageHeader+i] ^= 1 << (i % 8)
			_, err := opening(t, dir, changed)
			refusedInWords(t, fmt.Sprintf("head %d, byte %d", head, i), err, ErrDamaged)
		}
	}
}

// TestDamageIsNeverReadAsTrue zeroes each page, and puts wrong bits everywhere: what is read is what was written, or an
// error.
func TestDamageIsNeverReadAsTrue(t *testing.T) {
	file, want := soundStore(t)
	dir, size := t.TempDir(), pageSize(file)
	look := func(what string, changed []byte) {
		got, err := opening(t, dir, changed)
		if err == nil && !bytes.Equal(got, want) {
			t.Errorf("%s: something else is read, and nothing said", what)
		}
		if err != nil {
			refusedInWords(t, what, err, ErrDamaged, ErrNotOurs, ErrNewer)
		}
	}
	for page := range highWater(file) {
		changed := bytes.Clone(file)
		clear(changed[page*size : (page+1)*size])
		look(fmt.Sprintf("page %d of zeros", page), changed)
	}
	random := rand.New(rand.NewPCG(3, 4))
	for range 600 {
		changed := bytes.Clone(file)
		at := random.IntN(highWater(file) * size)
		changed[at] ^= 1 << random.IntN(8)
		look(fmt.Sprintf("a wrong bit in byte %d (page %d)", at, at/size), changed)
	}
}

func TestCheckFindsWhatIsDamaged(t *testing.T) {
	file, _ := soundStore(t)
	path := filepath.Join(t.TempDir(), "checked.db")
	check := func(file []byte) error {
		if err := os.WriteFile(path, file, 0o600); err != nil {
			t.Fatal(err)
		}
		return Check(path)
	}
	if err := check(file); err != nil {
		t.Fatal(err)
	}
	free := freePages(t, file)
	size := pageSize(file)
	for page := range highWater(file) {
		if free[page] {
			continue
		}
		changed := bytes.Clone(file)
		clear(changed[page*size : page*size+size/2])
		// The journal is frames of no meaning behind its mark.
		if err := check(changed); !errors.Is(err, ErrDamaged) && !bytes.Contains(file[page*size:(page+1)*size], journalMark) && !inJournal(t, file, page) {
			t.Errorf("page %d of zeros: %v", page, err)
		}
	}
}

func freePages(t testing.TB, file []byte) map[int]bool {
	h, err := readHead(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		t.Fatal(err)
	}
	w := &walker{file: bytes.NewReader(file), head: h, reach: everyPage}
	if err := w.walk(int64(len(file))); err != nil {
		t.Fatal(err)
	}
	free := map[int]bool{}
	for page, is := range w.seen {
		free[page] = is == pageFree
	}
	return free
}

func inJournal(t *testing.T, file []byte, page int) bool {
	h, err := readHead(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		t.Fatal(err)
	}
	w := &walker{file: bytes.NewReader(file), head: h}
	if err := w.walk(int64(len(file))); err != nil {
		t.Fatal(err)
	}
	at := int64(page) * h.pageSize
	return at >= w.journalAt && at < w.journalAt+w.journalSize
}

func TestWhatIsNoStoreIsRefused(t *testing.T) {
	dir := t.TempDir()
	other := filepath.Join(dir, "other.db")
	db, err := bolt.Open(other, 0o600, &bolt.Options{NoFreelistSync: true})
	if err != nil {
		t.Fatal(err)
	}
	if err := db.Update(func(tx *bolt.Tx) error { _, err := tx.CreateBucket([]byte("x")); return err }); err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	otherFile, err := os.ReadFile(other)
	if err != nil {
		t.Fatal(err)
	}
	for what, file := range map[string][]byte{
		"a text":                      []byte("dear diary"),
		"a long text":                 bytes.Repeat([]byte("dear diary\n"), 9000),
		"zeros":                       make([]byte, 1<<17),
		"another program's database":  otherFile,
		"another kind of database":    append([]byte("SQLite format 3\x00"), make([]byte, 8192)...),
		"one that is no page long":    make([]byte, 100),
		"a head's beginning and more": append(make([]byte, pageHeader), 0xED, 0xDA, 0x0C, 0xED),
	} {
		_, err := opening(t, dir, file)
		refusedInWords(t, what, err, ErrNotOurs)
	}
	_, err = Open(dir, Options{})
	refusedInWords(t, "a directory", err, ErrNotOurs)
}

func TestANewerStoreIsRefused(t *testing.T) {
	_, err := opening(t, t.TempDir(), newerStore(t))
	refusedInWords(t, "a newer store", err, ErrNewer)
}

// newerStore gives the bytes of a store of a later version.
func newerStore(t *testing.T) []byte {
	t.Helper()
	s := openTemp(t, Options{NoSync: true})
	err := s.update(func(tx *bolt.Tx) error {
		return tx.Bucket(bucketAbout).Put(keySchema, binary.BigEndian.AppendUint32(nil, schemaVersion+1))
	})
	if err = errors.Join(err, s.Close()); err != nil {
		t.Fatal(err)
	}
	file, err := os.ReadFile(s.Path())
	if err != nil {
		t.Fatal(err)
	}
	return file
}
