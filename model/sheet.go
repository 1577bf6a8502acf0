package model

import (
	"fmt"
	"slices"
	"time"

	"coach.settee/model/tenpin"
)

// Sheet is a game, drill or warm-up with its deliveries, scored and counted.
type Sheet struct {
	Game       Game
	Deliveries []Delivery
	// Racks are what the deliveries found, one for each.
	Racks []Rack
	// Card is a game's score; it is empty otherwise.
	Card  tenpin.Card
	Tally Tally
}

// DatedSheet is a sheet with when its evening began.
type DatedSheet struct {
	*Sheet
	At time.Time
}

// NewSheet scores and counts a game's deliveries, which are in order. Seq, and in a game frame and ball, are set anew
// from the pins. A delivery that is impossible where it stands is an error that names it.
func NewSheet(g Game, deliveries []Delivery) (*Sheet, error) {
	s := &Sheet{Game: g, Deliveries: make([]Delivery, len(deliveries)), Racks: make([]Rack, len(deliveries))}
	copy(s.Deliveries, deliveries)
	var err error
	if g.Kind == KindGame {
		err = s.score()
	} else {
		err = s.lay()
	}
	if err != nil {
		return nil, err
	}
	for i, d := range s.Deliveries {
		s.Tally.Load++
		if g.Kind != KindWarmup && !d.Dead {
			s.Tally.add(d, s.Racks[i])
		}
	}
	s.Tally.Score, s.Tally.Max, s.Tally.Complete = s.Card.Score, s.Card.Max, s.Finished()
	return s, nil
}

// score numbers a game's deliveries through the scoring.
func (s *Sheet) score() error {
	balls := make([]tenpin.Ball, 0, len(s.Deliveries))
	var at tenpin.Position
	for i := range s.Deliveries {
		d := &s.Deliveries[i]
		if at.Over() {
			return fmt.Errorf("delivery %d comes after the end of the game", i+1)
		}
		s.Racks[i] = rackAt(at)
		d.Seq, d.Frame, d.Ball = i+1, at.Frame(), at.BallInFrame()
		if d.Dead {
			continue
		}
		if !d.Pins.Known {
			return fmt.Errorf("frame %d, ball %d has no pins: a game's balls need them", d.Frame, d.Ball)
		}
		next, _, err := at.Next(d.Scored())
		if err != nil {
			return err
		}
		balls = append(balls, d.Scored())
		at = next
	}
	var err error
	s.Card, err = tenpin.Score(balls)
	return err
}

// lay numbers the deliveries of a drill or a warm-up, each at the same rack.
func (s *Sheet) lay() error {
	rack := s.rack()
	for i := range s.Deliveries {
		d := &s.Deliveries[i]
		s.Racks[i] = rack
		d.Seq, d.Frame, d.Ball = i+1, 0, 0
		if err := fits(*d, rack); err != nil {
			return fmt.Errorf("delivery %d: %w", i+1, err)
		}
	}
	return nil
}

// rack gives what every delivery of a drill or a warm-up finds.
func (s *Sheet) rack() Rack {
	pins := s.Game.Rack()
	return Rack{
		Standing: tenpin.Standing(pins), Count: pins.Count(),
		Full: s.Game.Kind == KindDrill && pins == tenpin.AllPins,
	}
}

func fits(d Delivery, r Rack) error {
	if d.Pins.Known && d.Pins.Value > r.Count {
		return fmt.Errorf("%d pins cannot fall where %d stand", d.Pins.Value, r.Count)
	}
	if !d.After.Known {
		return nil
	}
	if !d.After.Pins.Within(r.Standing.Pins) {
		return fmt.Errorf("%s cannot stand after a ball at %s", d.After.Pins, r.Standing.Pins)
	}
	if d.Pins.Known && !d.Foul && d.After.Pins.Count() != r.Count-d.Pins.Value {
		return fmt.Errorf("%d pins fell of %d, but %d are named as standing", d.Pins.Value, r.Count, d.After.Pins.Count())
	}
	return nil
}

func rackAt(at tenpin.Position) Rack {
	return Rack{
		Standing: at.Standing(), Count: at.StandingCount(), Full: at.FullRack(),
		Frame: at.Frame(), Ball: at.BallInFrame(),
	}
}

// Finished tells whether the game or the drill of a length has all its deliveries.
func (s *Sheet) Finished() bool {
	if s.Game.Kind == KindGame {
		return s.Card.Complete
	}
	return s.Game.Length > 0 && s.Live() >= s.Game.Length
}

// Ended tells whether nothing more is bowled in it: it is finished, or it was stopped.
func (s *Sheet) Ended() bool { return s.Finished() || s.Game.Stopped != "" }

// Live counts the deliveries that were not dead.
func (s *Sheet) Live() int {
	n := 0
	for _, d := range s.Deliveries {
		if !d.Dead {
			n++
		}
	}
	return n
}

// Next gives what the next ball finds.
func (s *Sheet) Next() Rack {
	if s.Game.Kind == KindGame {
		return rackAt(s.Card.At)
	}
	return s.rack()
}

// MidFrame tells whether a frame has begun and is not over.
func (s *Sheet) MidFrame() bool {
	return s.Game.Kind == KindGame && !s.Ended() && s.Card.At.BallInFrame() > 1
}

// Index gives the place of a delivery among the sheet's, -1 where it is not there.
func (s *Sheet) Index(delivery ID) int {
	return slices.IndexFunc(s.Deliveries, func(d Delivery) bool { return d.ID == delivery })
}

// deliveries gives a copy that can be changed without changing s.
func (s *Sheet) deliveries() []Delivery { return append([]Delivery(nil), s.Deliveries...) }
