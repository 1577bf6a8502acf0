package main

import (
	"fmt"
	"math/rand/v2"
	"time"

	"github.com/oklog/ulid/v2"

	"coach.settee/model"
)

// weeks is how many evenings are invented, a week apart; the last one is running.
const weeks = 5

// The invented place and the start of its last evening. Both are fixed, as everything here is, so that a seed gives the
// same evening on every machine and on every day.
const inventedPlace = "Quillbrook Lanes"

var lastEvening = time.Date(2026, time.March, 4, 18, 0, 0, 0, time.UTC)

// inventEvenings gives what the store is to keep, in order, of four closed evenings and a running one of six invented
// students. They are called on a model.Evening like any other, so that counts, order and what can be taken back are
// true. Chances are whole numbers out of 1000: no machine rounds them another way.
func inventEvenings(seed uint64) ([][]model.Step, error) {
	students := inventedStudents(rand.New(rand.NewPCG(seed, weeks)))
	evenings := make([][]model.Step, 0, weeks)
	for week := range weeks {
		dice := rand.New(rand.NewPCG(seed, uint64(week)))
		c, err := openEvening(dice, week, students)
		if err != nil {
			return nil, fmt.Errorf("invented evening %d: %w", week+1, err)
		}
		c.coach()
		if c.err != nil {
			return nil, fmt.Errorf("invented evening %d: %w", week+1, c.err)
		}
		evenings = append(evenings, c.steps)
	}
	return evenings, nil
}

// running tells whether a week's evening is the one that is not over.
func running(week int) bool { return week == weeks-1 }

// startOf gives when a week's evening begins.
func startOf(week int) time.Time { return lastEvening.AddDate(0, 0, 7*(week+1-weeks)) }

// inventedID gives an id for something that began at a time.
func inventedID(dice *rand.Rand, at time.Time) model.ID {
	var id ulid.ULID
	for i := range id {
		id[i] = byte(dice.UintN(256))
	}
	// The time is of this century and fits.
	_ = id.SetTime(ulid.Timestamp(at))
	return model.ID(id.String())
}
