package store

import (
	"bytes"
	"errors"
	"path/filepath"
	"testing"

	"coach.settee/model"
)

// What deliveries of others told of the evening's list of actions does not come back into the one that begins anew.
func TestAnErasedEveningsListBeginsAnew(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	s := mustOpen(t, path)
	keep := func(step model.Step, err error) {
		t.Helper()
		if err = errors.Join(err, s.Keep(step)); err != nil {
			t.Fatal(err)
		}
	}
	resume := func() *model.Evening {
		t.Helper()
		kept, err := s.Evening("01J7EVENING000000000000001")
		if err != nil {
			t.Fatal(err)
		}
		e, err := model.Resume(kept)
		if err != nil {
			t.Fatal(err)
		}
		return e
	}
	c := newCoach(t, 3, func(step model.Step) { keep(step, nil) })
	c.begin(2)
	c.do(c.evening.PutUp(invented(1).ID))
	for range 8 {
		c.do(c.evening.RecordCount(c.at, 0))
	}
	again := func() {
		t.Helper()
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
		s = mustOpen(t, path)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := Erase(path, invented(0).ID, nil); err != nil {
		t.Fatal(err)
	}
	s = mustOpen(t, path)
	before, err := exportOf(s)
	if err != nil {
		t.Fatal(err)
	}
	const more = 6
	for e, n := resume(), 0; n < more; n++ {
		keep(e.RecordCount(c.at, 0))
	}
	again()
	e := resume()
	for range more {
		keep(e.Undo())
	}
	if after, err := exportOf(s); err != nil || !bytes.Equal(after, before) {
		t.Errorf("%v, taken back it is\n%s\nnot\n%s", err, after, before)
	}
	if _, err := e.Undo(); err == nil {
		t.Error("more can be taken back than was done since")
	}
}
