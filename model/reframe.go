package model

import (
	"errors"
	"fmt"
	"strings"

	"coach.settee/model/tenpin"
)

// Reframing is a correction after which its frame has fewer balls than are recorded of it, or more, so that the coach has to
// be asked before it is kept. Nothing is changed by it; Evening.Reframe keeps it.
type Reframing struct {
	Game  ID
	Frame int
	// Gone are the balls of the frame that can no longer be, as they are now; they are taken out of the game.
	Gone []Delivery
	// Over tells that the frame is over with the balls that stay.
	Over bool
	// Finds is what the first ball finds that is missing, with the ball's place in the frame; its Ball is 0 where none is.
	// How many balls are missing hangs on what falls.
	Finds Rack

	edit Edit
	fall pinfall
}

// Error says that the frame has other balls.
func (r *Reframing) Error() string {
	if len(r.Gone) > 0 {
		return fmt.Sprintf("frame %d has fewer balls then: those that cannot be have to go", r.Frame)
	}
	return fmt.Sprintf("frame %d, ball %d is missing then: it has to be told", r.Frame, r.Finds.Ball)
}

// Reframe keeps a correction that the coach was asked about: the balls that can no longer be go, and those missing, typed as
// the overhead shows them, are put in unseen, on the lane and with the weights, bar, level and cue of the ball corrected. No
// other ball changes its place.
func (e *Evening) Reframe(r *Reframing, missing string) (Step, error) {
	if e.edit == nil || *e.edit != r.edit {
		return Step{}, errors.New("the delivery is no longer open as it was: correct it again")
	}
	changed, err := e.edited(r.fall)
	if err != nil {
		return Step{}, err
	}
	f, err := e.sheets[r.Game].reframed(changed)
	if err != nil {
		return Step{}, err
	}
	if r.Finds.Ball == 0 {
		return e.keepEdited(changed, f.game(nil))
	}
	balls, err := missingBalls(f.at, missing)
	if err != nil {
		return Step{}, err
	}
	serial := e.serial
	added, err := e.missing(f, changed, balls)
	if err == nil {
		var step Step
		if step, err = e.keepEdited(changed, f.game(added), added...); err == nil {
			return step, nil
		}
	}
	e.serial = serial
	return Step{}, err
}

// missingBalls reads balls as the overhead shows them. An x that is no strike there is the board's key for all that stands:
// a spare.
func missingBalls(at tenpin.Position, typed string) ([]tenpin.Ball, error) {
	balls, err := tenpin.ParseFrom(at, typed)
	if err == nil || at.FullRack() || !strings.HasPrefix(strings.ToLower(typed), "x") {
		return balls, err
	}
	return tenpin.ParseFrom(at, "/"+typed[1:])
}

// reframed is a game with a delivery changed: what is before its frame, the frame's balls that stay and those that can no
// longer be, and what is after the frame. At is where the game stands after those that stay.
type reframed struct {
	frame                     int
	before, kept, gone, after []Delivery
	at                        tenpin.Position
}

// reframed puts a changed delivery into its frame. A ball of the frame that becomes impossible is an error that names it,
// unless in the tenth it finds a full rack that was none, or none that was one: then it can no longer be, and what follows it.
func (s *Sheet) reframed(changed Delivery) (reframed, error) {
	f := reframed{frame: changed.Frame}
	past := false
	for i, d := range s.Deliveries {
		switch {
		case d.Frame > f.frame:
			f.after = append(f.after, d)
			continue
		case d.Frame < f.frame:
			f.before = append(f.before, d)
		case f.over() || len(f.gone) > 0:
			f.gone = append(f.gone, d)
			continue
		case d.ID == changed.ID:
			d, past = changed, true
			f.kept = append(f.kept, d)
		default:
			found := rackAt(f.at)
			fitted := refitted(d, s.Racks[i], found)
			if _, _, err := f.at.Next(fitted.Scored()); err != nil && past && !d.Dead && found.Full != s.Racks[i].Full {
				f.gone = append(f.gone, d)
				continue
			}
			d = fitted
			f.kept = append(f.kept, d)
		}
		if d.Dead {
			continue
		}
		next, _, err := f.at.Next(d.Scored())
		if err != nil {
			return reframed{}, err
		}
		f.at = next
	}
	return f, nil
}

// over tells whether the frame is over.
func (f reframed) over() bool { return f.at.Over() || f.at.Frame() > f.frame }

// game gives all deliveries of the game, with balls added to the frame.
func (f reframed) game(added []Delivery) []Delivery {
	game := append([]Delivery(nil), f.before...)
	return append(append(append(game, f.kept...), added...), f.after...)
}

// refitted changes what a delivery says of the pins where an earlier one of its frame was changed and it finds another rack
// than it did: a ball that felled none leaves what it finds, and one that took all that it found takes all that it finds,
// but a spare is no strike.
func refitted(d Delivery, was, now Rack) Delivery {
	switch {
	case d.Dead:
	case d.Pins.Value == 0 && d.After == was.Standing:
		d.After = now.Standing
	case d.Pins.Value == was.Count && !now.Full:
		d.Pins.Value = now.Count
	}
	return d
}

// reframing gives what the coach has to be asked of a correction, nil for nothing. A frame at the end of the game that is
// going on waits for its next ball as any other does.
func (e *Evening) reframing(s *Sheet, f reframed, fall pinfall) *Reframing {
	r := &Reframing{Game: s.Game.ID, Frame: f.frame, Gone: f.gone, Over: f.over(), edit: *e.edit, fall: fall}
	noNext := s.Finished() && (e.begunAfter(s.Game) != nil || !e.session.Open())
	if !f.over() && (len(f.after) > 0 || noNext) {
		r.Finds = rackAt(f.at)
	}
	if len(r.Gone) == 0 && r.Finds.Ball == 0 {
		return nil
	}
	return r
}

// missing gives the balls that complete a frame as deliveries.
func (e *Evening) missing(f reframed, like Delivery, balls []tenpin.Ball) ([]Delivery, error) {
	var added []Delivery
	last := f.kept[len(f.kept)-1]
	for _, b := range balls {
		if f.over() {
			return nil, fmt.Errorf("that is more than frame %d takes: %s of it", f.frame, ballsAre(len(added)))
		}
		rack := rackAt(f.at)
		next, _, err := f.at.Next(b)
		if err != nil {
			return nil, err
		}
		f.at = next
		added = append(added, Delivery{
			// The time of the ball before it tells where it belongs among all that was bowled.
			ID: e.newID(), Game: like.Game, At: last.At, Lane: like.Lane, Frame: rack.Frame, Ball: rack.Ball,
			Weights: like.Weights, Bar: like.Bar, Level: like.Level, Cue: like.Cue, Aimed: like.Aimed, Bowled: like.Bowled,
			Pins: Known(b.Pins), After: counted(b.Pins, rack), Foul: b.Foul,
		})
	}
	if !f.over() {
		return nil, fmt.Errorf("frame %d, ball %d is missing: write the balls as the overhead shows them", f.frame, f.at.BallInFrame())
	}
	return added, nil
}

func ballsAre(n int) string {
	if n == 1 {
		return "1 ball is missing"
	}
	return fmt.Sprintf("%d balls are missing", n)
}
