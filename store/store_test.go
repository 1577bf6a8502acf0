package store

import (
	"path/filepath"
	"testing"
	"time"

	"coach.settee/model"
)

func openTemp(t testing.TB, o Options) *Store {
	t.Helper()
	s, err := Open(filepath.Join(t.TempDir(), "settee.db"), o)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	})
	return s
}

func TestAnEveningComesBack(t *testing.T) {
	s := openTemp(t, Options{})
	at := time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC)
	e, step, err := model.NewEvening(model.Session{ID: "S1", At: at, Pairs: []model.Pair{{7, 8}}, Rotate: true})
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Keep(step); err != nil {
		t.Fatal(err)
	}
	step, err = e.Seat(model.Student{ID: "ada", Name: "Ada", Hand: model.RightHand}, 7)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Keep(step); err != nil {
		t.Fatal(err)
	}
	for range 5 {
		step, err = e.RecordAllDown(at)
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Keep(step); err != nil {
			t.Fatal(err)
		}
	}
	k, err := s.Evening("S1")
	if err != nil {
		t.Fatal(err)
	}
	if len(k.Deliveries) != 5 || len(k.Log) != 6 || k.Serial != 6 {
		t.Fatalf("%+v", k)
	}
	if _, err := model.Resume(k); err != nil {
		t.Fatal(err)
	}
}
