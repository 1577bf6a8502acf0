package insight

import (
	"fmt"

	"gonum.org/v1/gonum/stat"

	"coach.settee/model"
)

// SlippingMethod names the charts of Slipping.
const SlippingMethod = "ewma 0.2 with 3 sd limits; lower tabular cusum, k 0.5 and h 5 sd"

const (
	ewmaLambda = .2
	ewmaWidth  = 3
	// cusumSlack and cusumLimit are k and h in sd: k is half of the fall to be found (common practice, no source).
	cusumSlack, cusumLimit = .5, 5
	// chartShots are the fewest shots to hold a chart against.
	chartShots = 10
	// loadNear is the share of the load limit, in per cents, from which it is told; invented.
	loadNear = 80
)

// Slipping is a chart of the last evening's seen and graded full racks in games.
type Slipping struct {
	// Points are the shot points, 0 to 4: the letter points by their weights over the watched axes. EWMA is their
	// exponentially weighted mean (0.2) from Target, from their own mean where that is unknown. Shots are the deliveries.
	Points, EWMA []float64
	Shots        []model.Delivery
	// GameOf is which of the evening's games each shot is in, from 1.
	GameOf []int
	// Target and SD are what the chart is held against, Limits the 3 sd limits of the EWMA; unknown with fewer than ten
	// shots to take them from, and where those are all alike.
	Target, SD model.Optional[float64]
	Limits     model.Optional[Interval]
	// FromGames is how many earlier games Target and SD come from, 0 where they are those of the first ten shots. Only games
	// at the evening's level count, because letters are against the level.
	FromGames int
	// Since is the place in Shots from which it has been slipping by the CUSUM, unknown where it has not: the first shot
	// after the lower sum was last 0 before its signal. Until is the place where that sum was 0 again, unknown where it was
	// not; of several such spells the last is told.
	Since, Until model.Optional[int]
	// Load is the evening's deliveries, of every kind, Limit the student's load limit, 0 for none.
	Load, Limit int
}

// Words tells from where the student has been slipping: "slipping since frame 8 of game 2: the student's fatigue or the
// coach's".
func (s Slipping) Words() string {
	switch {
	case s.Since.Known && s.Until.Known:
		return fmt.Sprintf("slipped from %s to %s, then held", s.place(s.Since.Value), s.place(s.Until.Value))
	case s.Since.Known:
		return fmt.Sprintf("slipping since %s: the student's fatigue or the coach's", s.place(s.Since.Value))
	case len(s.Points) < chartShots, s.FromGames == 0 && len(s.Points) == chartShots:
		return "too few to say"
	case !s.Target.Known:
		return "too much alike to say"
	}
	return "holding"
}

func (s Slipping) place(i int) string {
	frame := fmt.Sprintf("frame %d", s.Shots[i].Frame)
	if s.GameOf[len(s.GameOf)-1] == s.GameOf[0] {
		return frame
	}
	return fmt.Sprintf("%s of game %d", frame, s.GameOf[i])
}

// WordsLoad tells the load where it comes near the student's limit: "48 of 60 deliveries tonight", else empty.
func (s Slipping) WordsLoad() string {
	words := fmt.Sprintf("%d of %d deliveries tonight", s.Load, s.Limit)
	switch {
	case s.Limit <= 0 || s.Load*100 < s.Limit*loadNear:
		return ""
	case s.Load > s.Limit:
		return words + ": over the limit"
	case s.Load == s.Limit:
		return words + ": the limit"
	}
	return words
}

func slippingOf(in Input) Slipping {
	s := Slipping{Limit: in.Student.LoadLimit}
	if last := lastEvening(in.Over); len(last) > 0 {
		s.addEvening(gamesOf(last))
		for _, b := range last {
			s.Load += len(b.Sheet.Deliveries)
		}
	}
	first := s.aim(gamesOf(in.Earlier))
	if !s.Target.Known {
		if len(s.Points) > 0 {
			s.EWMA = EWMA(s.Points, stat.Mean(s.Points, nil), ewmaLambda)
		}
		return s
	}
	s.EWMA = EWMA(s.Points, s.Target.Value, ewmaLambda)
	s.Limits = model.Known(EWMALimits(s.Target.Value, s.SD.Value, ewmaLambda, ewmaWidth))
	s.watch(first)
	return s
}

// lastEvening gives what was bowled on the last evening with a game, on the last at all where none has one.
func lastEvening(over []model.DatedSheet) []model.DatedSheet {
	if len(over) == 0 {
		return nil
	}
	session := over[len(over)-1].Sheet.Game.Session
	if games := gamesOf(over); len(games) > 0 {
		session = games[len(games)-1].Sheet.Game.Session
	}
	var last []model.DatedSheet
	for _, b := range over {
		if b.Sheet.Game.Session == session {
			last = append(last, b)
		}
	}
	return last
}

func (s *Slipping) addEvening(games []model.DatedSheet) {
	for i := range games {
		for d := range seenRacks(games[i : i+1]) {
			if points := shotPoints(d); points.Known {
				s.Points = append(s.Points, points.Value)
				s.Shots = append(s.Shots, *d)
				s.GameOf = append(s.GameOf, i+1)
			}
		}
	}
}

// shotPoints gives a delivery's points, 0 to 4, unknown where it is not graded.
func shotPoints(d *model.Delivery) model.Optional[float64] {
	points, watched := 0, 0
	for a, l := range d.Letters {
		if l != model.NoLetter {
			points += d.Weights[a] * l.Points()
			watched += d.Weights[a]
		}
	}
	if watched == 0 {
		return model.Optional[float64]{}
	}
	return model.Known(float64(points) / float64(watched))
}

// aim sets what the chart is held against, and gives the place of the first shot that is held against it.
func (s *Slipping) aim(earlier []model.DatedSheet) (first int) {
	if len(s.Shots) == 0 {
		return 0
	}
	from, games := s.pointsIn(earlier)
	if len(from) < chartShots {
		from, games, first = s.Points[:min(chartShots, len(s.Points))], 0, chartShots
	}
	if len(from) < chartShots {
		return first
	}
	s.FromGames = games
	const alike = 1e-9 // weights are whole per cents, so points differ by a hundredth or not at all
	if mean, sd := stat.MeanStdDev(from, nil); sd > alike {
		s.Target, s.SD = model.Known(mean), model.Known(sd)
	}
	return first
}

// pointsIn gives the points of earlier games at the evening's level, and how many games they are of.
func (s *Slipping) pointsIn(earlier []model.DatedSheet) (points []float64, games int) {
	for i := range earlier {
		before := len(points)
		for d := range seenRacks(earlier[i : i+1]) {
			if p := shotPoints(d); p.Known && d.Level == s.Shots[0].Level {
				points = append(points, p.Value)
			}
		}
		if len(points) > before {
			games++
		}
	}
	return points, games
}

// watch runs the CUSUM from the first shot.
func (s *Slipping) watch(first int) {
	_, lower := CUSUM(s.Points[first:], s.Target.Value, cusumSlack*s.SD.Value, 0)
	begun, signalled := first, false
	for i, low := range lower {
		switch {
		case low == 0:
			if signalled {
				s.Until, signalled = model.Known(first+i), false
			}
			begun = first + i + 1
		case low > cusumLimit*s.SD.Value:
			s.Since, s.Until, signalled = model.Known(begun), model.Optional[int]{}, true
		}
	}
}
