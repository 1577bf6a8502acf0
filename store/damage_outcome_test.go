package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// outcome is what came of the damaged files of one kind.
type outcome struct {
	tried, refused, same, torn, failed, repaired, none int
	// share sums up the parts of the deliveries that repairs gave back.
	share          float64
	older, leftOut int
}

// suffer opens, examines and repairs one damaged file.
func (o *outcome) suffer(t *testing.T, v victim, dir, what string, file []byte) {
	o.tried++
	path := filepath.Join(dir, fmt.Sprintf("changed-%d.db", o.tried))
	defer os.Remove(path)
	unchanged := func(by string) {
		if !bytes.Equal(read(t, path), file) {
			t.Errorf("%s: %s changed the file", what, by)
		}
	}
	write(t, path, file)
	e, err := Examine(path, nil)
	if err != nil {
		refusedInWords(t, what, err, ErrNotOurs, ErrNewer, ErrDamaged)
	} else if e.Sound() && e.Deliveries > v.deliveries {
		t.Errorf("%s: %d deliveries of %d are found", what, e.Deliveries, v.deliveries)
	}
	unchanged("examining")
	o.repair(t, v, path, what, err == nil && e.Sound() && !e.MayMissLast)
	unchanged("repairing")
	s, err := Open(path, Options{NoSync: true})
	if err != nil {
		refusedInWords(t, what, err, ErrDamaged, ErrNotOurs, ErrNewer)
		unchanged("refusing it")
		o.refused++
		return
	}
	got, err := everything(s)
	said := s.MayMissLast() && e.MayMissLast
	if err = errors.Join(err, s.Close()); err != nil {
		o.failed++
		return
	}
	want, torn := v.all, v.torn(t, file)
	if torn != nil && !alike(want, got) {
		// What ends the journal cannot be told from what a crash has torn, of which nobody was told that it is kept.
		write(t, path, torn)
		if s, err = Open(path, Options{NoSync: true}); err != nil {
			t.Fatal(err)
		}
		if want, err = everything(s); err != nil {
			t.Fatal(err)
		}
		s.Close()
		o.torn++
		if !said && !v.blank(file) {
			t.Errorf("%s: a call is missing, and nobody says that it may be\n(the file is %s)", what, preserved(t, file))
		}
	} else {
		o.same++
	}
	for _, key := range slices.Sorted(maps.Keys(want)) {
		if !alike(want[key], got[key]) {
			t.Errorf("%s: something else is read, and nothing said: %s\n%.2000s\n(the file is %s)", what, key,
				cmp.Diff(want[key], got[key]), preserved(t, file))
			return
		}
	}
}

// alike is cmp.Equal, and quicker where both are the same to the last pointer.
func alike(a, b any) bool { return reflect.DeepEqual(a, b) || cmp.Equal(a, b) }

// blank tells whether all is zeros from a frame's head on that is not as it was: like a write that was never begun.
func (v victim) blank(file []byte) bool {
	for at := v.frames[0]; at < v.frames[1]; {
		n := frameHead + int(binary.BigEndian.Uint32(v.file[at:]))
		if !bytes.Equal(v.file[at:at+n], file[at:at+n]) {
			return len(bytes.Trim(file[at:at+frameHead], "\x00")) == 0
		}
		at += n
	}
	return false
}

// torn gives the sound file with a journal that ends where the damaged one's is first another, nil where that is elsewhere.
func (v victim) torn(t *testing.T, file []byte) []byte {
	if !v.crashed || len(file) != len(v.file) {
		return nil
	}
	h, err := readHead(bytes.NewReader(v.file), int64(len(v.file)))
	if err != nil {
		t.Fatal(err)
	}
	w := &walker{file: bytes.NewReader(v.file), head: h}
	if err := w.walk(int64(len(v.file))); err != nil {
		t.Fatal(err)
	}
	at := 0
	for at < len(file) && file[at] == v.file[at] {
		at++
	}
	if at < int(w.journalAt) || at >= int(w.journalAt+w.journalSize) {
		return nil
	}
	torn := bytes.Clone(v.file)
	clear(torn[at : w.journalAt+w.journalSize])
	return torn
}

// preserved keeps a file for whoever looks into what it did.
func preserved(t *testing.T, file []byte) string {
	f, err := os.CreateTemp(os.Getenv(damageLeft), "settee-damage-*.db")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.Write(file); err != nil {
		t.Fatal(err)
	}
	f.Close()
	return f.Name()
}

// repair repairs a file into another, which has to be sound and to hold nothing that was never kept.
func (o *outcome) repair(t *testing.T, v victim, path, what string, sound bool) {
	target := path + ".repaired"
	defer os.Remove(target)
	defer os.Remove(target + leftOutEnding)
	r, err := Repair(path, target, nil)
	if errors.Is(err, ErrNotOurs) {
		o.none++
		return
	}
	if err != nil {
		t.Errorf("%s: repaired: %v", what, err)
		return
	}
	if r.WasSound != sound {
		t.Errorf("%s: sound is %v, and the repair says %v", what, sound, r.WasSound)
	}
	o.repaired++
	o.share += float64(r.Deliveries) / float64(v.deliveries)
	o.older, o.leftOut = o.older+r.Older, o.leftOut+r.LeftOut
	for line := range bytes.Lines(exportAt(t, target)) {
		if v.holds[string(line)] || bytes.HasPrefix(line, []byte(`{"type":"settee"`)) {
			continue
		}
		rec, err := decodeLine(line)
		if err != nil {
			t.Fatal(err)
		}
		// Without what the journal would have changed it is as it was before.
		before := (r.older[rec.Ref()] || r.JournalLost || v.torn(t, read(t, path)) != nil) && v.everHeld[string(line)]
		if !r.standIns[rec.Ref()] && !before {
			t.Errorf("%s: repaired, it holds what was not kept: %s", what, line)
		}
	}
}
