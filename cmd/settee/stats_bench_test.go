//go:build unix

package main

import (
	"io"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"coach.settee/model"
	"coach.settee/store"
)

// career is how many deliveries, or a few more, the whole history has that is measured.
const career = 20_000

// BenchmarkStats measures the command's whole work, from opening the store to the last byte of the JSON: over the last
// ten games of a student in a large store and in one that holds those games alone, in turns, and over a whole history.
func BenchmarkStats(b *testing.B) {
	dir := b.TempDir()
	large, alone := filepath.Join(dir, "large.db"), filepath.Join(dir, "alone.db")
	keepCareer(b, large, manyDeliveries(b))
	const student = "student-3"
	keepAlone(b, alone, large, student, 10)
	b.Run("LastTen", func(b *testing.B) { lastTen(b, large, alone, student) })
	b.Run("Everything", everything)
}

// lastTen measures the last ten games in both stores in turns.
func lastTen(b *testing.B, large, alone, student string) {
	const rounds = 21
	for b.Loop() {
		var l, a []time.Duration
		for range rounds {
			l = append(l, statsTimed(b, large, student, "--last", "10"))
			a = append(a, statsTimed(b, alone, student, "--last", "10"))
		}
		slices.Sort(l)
		slices.Sort(a)
		b.ReportMetric(float64(l[rounds/2].Microseconds())/1000, "ms-large")
		b.ReportMetric(float64(a[rounds/2].Microseconds())/1000, "ms-alone")
		b.ReportMetric(float64(l[rounds/2])/float64(a[rounds/2]), "x-alone")
	}
}

// everything measures a student's whole history beside those of five others.
func everything(b *testing.B) {
	path := filepath.Join(b.TempDir(), "career.db")
	student := keepInvented(b, path)
	const rounds = 5
	for b.Loop() {
		var took []time.Duration
		for range rounds {
			took = append(took, statsTimed(b, path, string(student)))
		}
		slices.Sort(took)
		b.ReportMetric(float64(took[rounds/2].Microseconds())/1000, "ms")
	}
}

// keepInvented fills a store with evenings such as those of the demo, until the first student has a career.
func keepInvented(tb testing.TB, path string) model.ID {
	tb.Helper()
	fatal := func(err error) {
		if err != nil {
			tb.Fatal(err)
		}
	}
	defer func(was time.Time) { lastEvening = was }(lastEvening)
	s, err := store.Open(path, store.Options{NoSync: true})
	fatal(err)
	const inTurn = weeks - 1 // the last week's evening is left open
	students := inventedStudents(rand.New(rand.NewPCG(1, weeks)))
	for i, deliveries := 0, 0; deliveries < career; i++ {
		if i%inTurn == 0 {
			lastEvening = lastEvening.AddDate(0, 0, 7*inTurn)
		}
		c, err := openEvening(rand.New(rand.NewPCG(1, uint64(i))), i%inTurn, students)
		fatal(err)
		c.coach()
		fatal(c.err)
		fatal(s.Keep(c.steps...))
		for _, sheet := range c.evening.Sheets(students[0].ID) {
			deliveries += sheet.Tally.Load
		}
	}
	fatal(s.Close())
	return students[0].ID
}

func statsTimed(tb testing.TB, path, student string, flags ...string) time.Duration {
	tb.Helper()
	start := time.Now()
	args := append([]string{"stats", student, "--json", "--store", path}, flags...)
	if code := run(tb.Context(), args, nil, io.Discard, tb.Output()); code != exitDone {
		tb.Fatalf("settee %v ended with %d", args, code)
	}
	return time.Since(start)
}

// keepAlone makes a store of a student's last n games in another one, without anybody else.
func keepAlone(tb testing.TB, path, from string, student model.ID, n int) {
	tb.Helper()
	fatal := func(err error) {
		if err != nil {
			tb.Fatal(err)
		}
	}
	whole, err := store.Open(from, store.Options{MustExist: true})
	fatal(err)
	h, err := whole.History(student, store.Scope{Last: n})
	fatal(err)
	s, err := store.Open(path, store.Options{NoSync: true})
	fatal(err)
	kept := map[model.ID]bool{}
	for _, g := range h.Over {
		step := model.Step{Session: g.Game.Session, Tallies: map[model.ID]model.Tally{g.Game.ID: g.Tally}}
		add := func(r model.Record) {
			step.Changes = append(step.Changes, model.Change{Ref: r.Ref(), After: r})
		}
		if !kept[step.Session] {
			kept[step.Session] = true
			evening, err := whole.Evening(step.Session)
			fatal(err)
			i := slices.IndexFunc(evening.Students, func(s model.Student) bool { return s.ID == student })
			evening.Session.Roster = []model.Seat{evening.Session.Roster[evening.Session.Seat(student)]}
			add(evening.Students[i])
			add(evening.Session)
		}
		add(g.Game)
		for _, d := range g.Deliveries {
			add(d)
		}
		fatal(s.Keep(step))
	}
	fatal(s.Close())
	fatal(whole.Close())
}
