package store

import (
	"path/filepath"
	"testing"
)

// Whether the coach has been through the introduction is kept in the file, whatever else is kept around it, and is no fault.
func TestIntroduced(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	open := func() *Store {
		s, err := Open(path, Options{NoSync: true})
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	s := open()
	if is, err := s.Introduced(); is || err != nil {
		t.Fatalf("a new store: %v, %v", is, err)
	}
	for range 2 {
		if err := s.SetIntroduced(); err != nil {
			t.Fatal(err)
		}
	}
	if is, err := s.Introduced(); !is || err != nil {
		t.Errorf("%v, %v", is, err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if e := examined(t, path); len(e.Faults) > 0 {
		t.Errorf("examined: %v", e.Faults)
	}
	s = open()
	defer s.Close()
	if is, err := s.Introduced(); !is || err != nil {
		t.Errorf("after a restart: %v, %v", is, err)
	}
}
