package main

import (
	"math/rand/v2"
	"slices"
	"time"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// coach is the invented coach at work in one evening. The first refusal ends it and stays in err: what is invented here
// has no business being refused.
type coach struct {
	dice    *rand.Rand
	week    int
	evening *model.Evening
	bowlers map[model.ID]bowler
	// order lists the students as invented.
	order []model.ID
	at    time.Time
	// plans, turns and moves are what is still to happen.
	plans []planned
	turns []turnOfEvents
	moves []moved
	// thrown counts the balls on each lane.
	thrown map[int]int
	steps  []model.Step
	err    error
}

// openEvening opens a week's evening and seats its students.
func openEvening(dice *rand.Rand, week int, students []bowler) (*coach, error) {
	at := startOf(week)
	evening, step, err := model.NewEvening(model.Session{
		ID: inventedID(dice, at), At: at, Place: inventedPlace, PatternFt: model.Known(41.0), ArrowsFt: model.Known(15.0),
		Pairs: []model.Pair{{7, 8}, {9, 10}, {11, 12}}, Rotate: true,
	})
	if err != nil {
		return nil, err
	}
	c := &coach{
		dice: dice, week: week, evening: evening, bowlers: map[model.ID]bowler{}, at: at,
		plans: plansOf(week), turns: turnsOf(week), moves: movesOf(week), thrown: map[int]int{}, steps: []model.Step{step},
	}
	for _, b := range students {
		c.order = append(c.order, b.ID)
		c.bowlers[b.ID] = b
		if b.firstWeek <= week {
			c.keep(evening.Seat(b.Student, b.lane))
		}
	}
	c.aimAll()
	c.keep(evening.Arrange("what each works on", func(s *model.Session) {
		for i := range s.Roster {
			seat, b := &s.Roster[i], c.bowlers[s.Roster[i].Student]
			seat.Focus = b.Focus
			// Met in the middle, the last evening has the words for some of the pages already.
			if running(week) && b.sentence != "" {
				seat.Homework, seat.Next, seat.Sentence = b.homework, startOf(week+1).Format(time.DateOnly), b.sentence
			}
		}
	}))
	return c, c.err
}

// keep adds what a change gave to what the store is to keep.
func (c *coach) keep(step model.Step, err error) {
	if c.err != nil {
		return
	}
	if c.err = err; err == nil {
		c.steps = append(c.steps, step)
	}
}

// say takes the outcome of what is only said of a call.
func (c *coach) say(err error) {
	if c.err == nil {
		c.err = err
	}
}

// coach watches balls on one pair or another until everyone is where the evening leaves them.
func (c *coach) coach() {
	for c.err == nil {
		pair, ok := c.nextPair()
		if !ok {
			break
		}
		c.turnTo(pair)
		c.watch()
	}
	if !running(c.week) {
		c.closeEvening()
		return
	}
	c.turnTo(c.evening.Session().Pairs[0])
	// The board is best met with some pins standing.
	for range 8 {
		if s := c.evening.Sheet(c.evening.UpStudent()); s != nil && s.MidFrame() {
			return
		}
		c.watch()
	}
}

// nextPair picks where a ball is bowled next: mostly on the pair after the one in view, as turns go round, and more
// often on one that is behind.
func (c *coach) nextPair() (model.Pair, bool) {
	pairs := c.evening.Session().Pairs
	left, sum := make([]int, len(pairs)), 0
	after := slices.Index(pairs, c.evening.PairInView()) + 1
	for _, seat := range c.evening.Seats() {
		i := slices.Index(pairs, seat.Pair())
		frames := c.framesLeft(seat.Student)
		if i == after%len(pairs) {
			frames *= 10
		}
		left[i] += frames
		sum += frames
	}
	if sum == 0 {
		return model.Pair{}, false
	}
	return pairs[pick(c.dice, left)], true
}

// lastFrames says how many frames of the third game each student has bowled where the running evening is met.
var lastFrames = [...]int{7, 6, 4, 4, 2, 1}

// framesLeft gives how many frames a student is still to bowl in the evening.
func (c *coach) framesLeft(id model.ID) int {
	games := 3
	if c.week%2 == 0 {
		games = 2
	}
	frames := 10 * games
	if running(c.week) {
		frames = 20 + lastFrames[slices.Index(c.order, id)]
	}
	for _, s := range c.evening.Sheets(id) {
		switch {
		case s.Game.Kind != model.KindGame:
		case s.Finished():
			frames -= 10
		default:
			frames -= s.Card.At.Frame() - 1
		}
	}
	return max(frames, 0)
}

// turnTo looks at a pair, and past a student who has nothing left to bowl.
func (c *coach) turnTo(p model.Pair) {
	up := c.evening.UpOn(p)
	if c.framesLeft(up) == 0 {
		for _, seat := range c.evening.Seats() {
			if seat.Pair() == p && c.framesLeft(seat.Student) > 0 {
				up = seat.Student
			}
		}
	}
	if up != c.evening.UpStudent() {
		c.keep(c.evening.PutUp(up))
	}
}

// watch takes in one ball of the student who is up.
func (c *coach) watch() {
	id := c.evening.UpStudent()
	b := c.bowlers[id]
	c.at = c.at.Add(time.Duration(8+c.dice.IntN(17)) * time.Second)
	c.begin(b)
	c.cue(b)
	c.move(b)
	rack := c.evening.Rack(id)
	turn := c.turn(id, rack)
	week := c.week
	if seat, _ := c.evening.SeatOf(id); seat.Cue != "" {
		week += 2
	}
	lane := c.evening.LaneOf(id)
	thrown := c.throw(b, week, rack, lane)
	c.thrown[lane]++
	switch turn {
	case deadBall:
		c.keep(c.evening.RecordDead(c.at))
	case caughtUp:
		c.keep(c.evening.CatchUp(c.at, "81"))
	default:
		c.call(b, rack, thrown, turn == foul)
	}
}

// cue gives the evening's cue in the second game, and another in the third.
func (c *coach) cue(b bowler) {
	s := c.evening.Sheet(b.ID)
	if s == nil || s.Game.Kind != model.KindGame || s.Ended() || len(s.Deliveries) == 0 {
		return
	}
	games := c.finished(b.ID)
	if r := s.Next(); games == 0 || r.Frame != 3 || r.Ball != 1 {
		return
	}
	cue := b.cues[min(games-1, 1)]
	if seat, _ := c.evening.SeatOf(b.ID); seat.Cue != cue {
		c.keep(c.evening.SetCue(cue))
	}
}

// finished counts a student's finished games of the evening.
func (c *coach) finished(id model.ID) int {
	n := 0
	for _, s := range c.evening.Sheets(id) {
		if s.Game.Kind == model.KindGame && s.Finished() {
			n++
		}
	}
	return n
}

// call says what was seen of a ball, and records it.
func (c *coach) call(b bowler, r model.Rack, thrown ball, isFoul bool) {
	if chance(c.dice, 45) {
		c.say(c.evening.ToggleUnseen())
	} else {
		c.letters(b, thrown)
		c.words(b, r, thrown)
	}
	if isFoul {
		c.say(c.evening.ToggleFoul())
	}
	c.pins(b.ID, r, thrown.left)
}

// closeEvening sends everyone home with something to do.
func (c *coach) closeEvening() {
	next := startOf(c.week + 1).Format(time.DateOnly)
	c.keep(c.evening.Arrange("homework", func(s *model.Session) {
		for i := range s.Roster {
			s.Roster[i].Homework, s.Roster[i].Next = c.bowlers[s.Roster[i].Student].homework, next
		}
	}))
	c.keep(c.evening.Close(c.at.Add(5 * time.Minute)))
}

// pins says what a ball left, and records the call.
func (c *coach) pins(id model.ID, r model.Rack, left tenpin.PinSet) {
	felled := r.Count - left.Count()
	sheet := c.evening.Sheet(id)
	switch {
	case sheet != nil && sheet.Game.Kind == model.KindWarmup && !sheet.Ended():
		c.keep(c.evening.RecordNamed(c.at))
	case felled == r.Count:
		c.keep(c.evening.RecordAllDown(c.at))
	case felled == 0:
		c.say(c.evening.NameNoneDown())
		c.keep(c.evening.RecordNamed(c.at))
	case !r.Standing.Known, chance(c.dice, 25):
		c.keep(c.evening.RecordCount(c.at, felled))
	default:
		for _, n := range left.Numbers() {
			c.say(c.evening.TogglePin(n))
		}
		c.keep(c.evening.RecordNamed(c.at))
	}
}
