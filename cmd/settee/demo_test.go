package main

import (
	"bytes"
	"path/filepath"
	"testing"

	"coach.settee/store"
)

// exportOf gives the export of the demo's store.
func exportOf(t *testing.T, seed uint64) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "demo.db")
	s, err := demoStore(path, seed)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	var out bytes.Buffer
	if err := s.Export(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestDemoIsTheSameForASeed(t *testing.T) {
	first := exportOf(t, 1)
	if again := exportOf(t, 1); !bytes.Equal(first, again) {
		t.Error("the same seed gives another export")
	}
	if other := exportOf(t, 2); bytes.Equal(first, other) {
		t.Error("another seed gives the same export")
	}
}

// What the demo invents is whole: the store's own check finds nothing, and an empty store takes all of its export.
func TestDemoStoreIsWhole(t *testing.T) {
	for seed := range uint64(4) {
		path := filepath.Join(t.TempDir(), "demo.db")
		s, err := demoStore(path, seed)
		if err != nil {
			t.Fatal(err)
		}
		var out, back bytes.Buffer
		if err := s.Export(&out); err != nil {
			t.Fatal(err)
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
		if err := store.Check(path); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		other := filepath.Join(t.TempDir(), "other.db")
		if _, err := store.Import(other, bytes.NewReader(out.Bytes())); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		again, err := store.Open(other, store.Options{MustExist: true})
		if err != nil {
			t.Fatal(err)
		}
		if err := again.Export(&back); err != nil {
			t.Fatal(err)
		}
		if err := again.Close(); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(out.Bytes(), back.Bytes()) {
			t.Errorf("seed %d: the import exports something else", seed)
		}
	}
}

// How long the demo takes before its board opens.
func BenchmarkDemoStore(b *testing.B) {
	for b.Loop() {
		s, err := demoStore(filepath.Join(b.TempDir(), "demo.db"), 1)
		if err != nil {
			b.Fatal(err)
		}
		if err := s.Close(); err != nil {
			b.Fatal(err)
		}
	}
}
