package store

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"coach.settee/model"
	"github.com/google/go-cmp/cmp"
)

// coach works through invented evenings and hands over every step: eight students on four pairs, who take turns frame by
// frame. Nobody of them is real.
type coach struct {
	t       testing.TB
	rand    *rand.Rand
	evening *model.Evening
	// number counts the evenings.
	number int
	at     time.Time
	keep   func(model.Step)
}

func newCoach(t testing.TB, seed uint64, keep func(model.Step)) *coach {
	at := time.Date(2024, 9, 3, 18, 0, 0, 0, time.UTC)
	return &coach{t: t, rand: rand.New(rand.NewPCG(seed, 1)), at: at, keep: keep}
}

func (c *coach) do(step model.Step, err error) {
	c.t.Helper()
	if err != nil {
		c.t.Fatal(err)
	}
	c.keep(step)
}

// session gives the id of the coach's evening, as long as the program's own ids are.
func (c *coach) session() model.ID {
	return model.ID(fmt.Sprintf("01J7EVENING000000000%06d", c.number))
}

func invented(n int) model.Student {
	names := []string{"Ada Marsh", "Bo Tern", "Cleo Fenwick", "Dag Holm", "Edda Reyes", "Fitz Okoro", "Gil Vane", "Hana Sorel"}
	return model.Student{
		ID: model.ID(fmt.Sprintf("01J7STUDENT0000000000000%02d", n)), Name: names[n%len(names)], Hand: model.RightHand,
		Average: model.Known(110 + 16*n),
	}
}

// begin opens an evening with a number of students and a cue for each.
func (c *coach) begin(students int) {
	c.t.Helper()
	c.number++
	c.at = c.at.Add(72 * time.Hour).Truncate(time.Hour)
	pairs := []model.Pair{{7, 8}, {9, 10}, {11, 12}, {13, 14}}
	e, step, err := model.NewEvening(model.Session{
		ID: c.session(), At: c.at, Place: "Millrace Lanes", Pairs: pairs, Rotate: true,
	})
	c.evening = e
	c.do(step, err)
	for n := range students {
		c.do(e.Seat(invented(n), pairs[n%len(pairs)][0]))
	}
	for n := range students {
		c.do(e.PutUp(invented(n).ID))
		c.do(e.SetCue([]string{"quiet last step", "through the shot", "eyes on the third arrow"}[n%3]))
	}
}

// bowl records one delivery of one student after another, on the pairs in turn.
func (c *coach) bowl(deliveries int) {
	c.t.Helper()
	for range deliveries {
		c.call()
		if c.rand.IntN(4) == 0 {
			c.do(c.evening.PutUp(invented(c.rand.IntN(len(c.evening.Seats()))).ID))
		}
	}
}

// call says something of a delivery and records it.
func (c *coach) call() {
	c.t.Helper()
	e, r := c.evening, c.rand
	c.at = c.at.Add(20 * time.Second)
	for range r.IntN(3) {
		// A letter that is F already is refused, and nothing is said.
		_ = e.Lower(model.Axes[r.IntN(model.AxisCount)])
	}
	switch r.IntN(12) {
	case 0:
		c.ok(e.Miss(model.Outside))
	case 1:
		c.ok(e.Meet(model.High, model.Nose, model.Brooklyn))
	case 2:
		c.ok(e.ToggleUnseen())
	case 3:
		c.ok(e.SetOwn(model.GradeBPlus))
	case 4:
		c.ok(e.SetNote("late on the slide"))
	case 5:
		c.ok(e.Say(func(call model.Call, _ model.Rack, _ model.Chosen) (model.Call, error) {
			call.Line = model.Line{Arrows: model.Known(14.5), Breakpoint: model.Known(8.0)}
			call.SpeedMPH = model.Known(16.3)
			return call, nil
		}))
	}
	_, rack := e.Speaking()
	switch {
	case r.IntN(3) == 0:
		c.do(e.RecordAllDown(c.at))
	case rack.Standing.Known && r.IntN(2) == 0:
		c.ok(e.TogglePin(rack.Standing.Pins.Numbers()[0]))
		c.do(e.RecordNamed(c.at))
	default:
		c.do(e.RecordCount(c.at, r.IntN(rack.Count)))
	}
}

func (c *coach) ok(err error) {
	c.t.Helper()
	if err != nil {
		c.t.Fatal(err)
	}
}

func (c *coach) close() {
	c.t.Helper()
	c.do(c.evening.Close(c.at))
}

// season works through evenings of 400 deliveries until there are as many as asked for.
func (c *coach) season(deliveries int) {
	c.t.Helper()
	for deliveries > 0 {
		n := min(deliveries, 400)
		c.begin(8)
		c.bowl(n)
		c.close()
		deliveries -= n
	}
}

func TestOpenSessionsAreThoseNotClosed(t *testing.T) {
	s := openTemp(t, Options{})
	fill(t, s, 600, 50)
	later := newCoach(t, 2, func(step model.Step) {
		if err := s.Keep(step); err != nil {
			t.Fatal(err)
		}
	})
	later.number = 900_000
	later.begin(4)
	all, err := s.Sessions()
	if err != nil {
		t.Fatal(err)
	}
	open, err := s.OpenSessions()
	if err != nil {
		t.Fatal(err)
	}
	var want []model.Session
	for _, session := range all {
		if session.Open() {
			want = append(want, session)
		}
	}
	if len(want) == 0 || len(want) == len(all) {
		t.Fatalf("%d of %d sessions are open: the season should have both kinds", len(want), len(all))
	}
	if diff := cmp.Diff(want, open); diff != "" {
		t.Error(diff)
	}
}
