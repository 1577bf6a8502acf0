package model_test

import (
	"testing"

	"coach.settee/model"
)

// fullEvening bowls an evening of 1,000 deliveries: eight students on two pairs, a warm-up and games of strikes and spares.
func fullEvening(b *testing.B) *model.Evening {
	b.Helper()
	session := model.Session{ID: "s", At: evening, Pairs: []model.Pair{{7, 8}, {9, 10}}, Rotate: true}
	e, _, err := model.NewEvening(session)
	must := func(err error) {
		if err != nil {
			b.Fatal(err)
		}
	}
	must(err)
	for i, name := range []string{"Ada", "Bo", "Cy", "Di", "Eve", "Flo", "Gus", "Hal"} {
		_, err := e.Seat(model.Student{ID: model.ID(name), Name: name, Hand: model.RightHand}, 7+2*(i/4))
		must(err)
	}
	for n := 0; e.Deliveries() < 1000; n++ {
		if n%4 == 0 {
			_, err = e.NextPair()
			must(err)
		}
		bowl(b, e, n)
	}
	return e
}

// bowl records a ball: a strike, or a leave and its spare.
func bowl(b *testing.B, e *model.Evening, n int) {
	b.Helper()
	var err error
	if n%3 == 0 || !e.Rack(e.UpStudent()).Full {
		_, err = e.RecordAllDown(evening)
	} else {
		if err = e.TogglePin(7); err == nil {
			_, err = e.RecordNamed(evening)
		}
	}
	if err != nil {
		b.Fatal(err)
	}
}

func BenchmarkRecordInAFullEvening(b *testing.B) {
	e := fullEvening(b)
	b.ReportAllocs()
	b.ResetTimer()
	for i := range b.N {
		if e.Deliveries() > 1100 {
			b.StopTimer()
			e = fullEvening(b)
			b.StartTimer()
		}
		bowl(b, e, i)
	}
}

func BenchmarkTakeBackAndDoAgainInAFullEvening(b *testing.B) {
	e := fullEvening(b)
	b.ResetTimer()
	for range b.N {
		if _, err := e.Undo(); err != nil {
			b.Fatal(err)
		}
		if _, err := e.Redo(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReopenInAFullEvening(b *testing.B) {
	e := fullEvening(b)
	b.ResetTimer()
	for range b.N {
		if err := e.Reopen(); err != nil {
			b.Fatal(err)
		}
		e.Leave()
	}
}
