package insight

import (
	"iter"
	"slices"

	"coach.settee/model"
)

// Input is what a student's figures are reckoned from. Every list is in the order of time.
type Input struct {
	Student model.Student
	// Over is what the figures are over: games, and the drills and warm-ups that are told beside them.
	Over []model.DatedSheet
	// Earlier are the student's finished games before the last evening of Over, the last ten or fewer.
	Earlier []model.DatedSheet
	// First is the student's first evening with a game.
	First []model.DatedSheet
	// Reach are scores, 0 to 300, whose chance is asked for.
	Reach []int
}

// Same tells whether two inputs give the same report. A sheet is never changed: another one takes its place.
func (in Input) Same(other Input) bool {
	a, b := in.Student, other.Student
	return a.ID == b.ID && a.Chosen() == b.Chosen() && a.Focus == b.Focus && a.LoadLimit == b.LoadLimit && a.SpeedMPH == b.SpeedMPH &&
		slices.Equal(in.Over, other.Over) && slices.Equal(in.Earlier, other.Earlier) && slices.Equal(in.First, other.First) &&
		slices.Equal(in.Reach, other.Reach)
}

// Report is every figure over an Input. A figure with too little behind it is not known; its counts are there all the same.
type Report struct {
	// Games counts the games, finished or not.
	Games       int
	Counts      Counts
	ByGame      []GameCount
	Drills      []DrillCount
	Outcome     Outcome
	Cost        Cost
	Worth       Worth
	Cues        []CueEffect
	Slipping    Slipping
	OwnCall     OwnCall
	Consistency Consistency
	Spares      Spares
	Streaks     Streaks
	Trend       Trend
	Next        Next
}

// NewReport reckons every figure. Only games count, but for the load, which is of all deliveries, and for Drills.
func NewReport(in Input) Report {
	games := gamesOf(in.Over)
	r := Report{
		Games:       len(games),
		Counts:      countsOf(in.Over),
		ByGame:      byGame(games),
		Drills:      drillsOf(in.Over),
		Outcome:     outcomeOf(games),
		Cost:        costOf(games),
		Worth:       worthOf(games, in.Student.Chosen().Level, in.Reach),
		Cues:        cuesOf(games),
		Slipping:    slippingOf(in),
		OwnCall:     ownCallOf(games),
		Consistency: consistencyOf(games),
		Spares:      sparesOf(games),
		Streaks:     streaksOf(games),
		Trend:       trendOf(games, gamesOf(in.First)),
	}
	r.Next = nextOf(in.Student, r)
	return r
}

func gamesOf(bowled []model.DatedSheet) []model.DatedSheet {
	var games []model.DatedSheet
	for _, b := range bowled {
		if b.Sheet.Game.Kind == model.KindGame {
			games = append(games, b)
		}
	}
	return games
}

// shot is one delivery of a game, drill or warm-up, with what it found.
type shot struct {
	model.Delivery
	rack model.Rack
}

// cleared tells whether the delivery took all that stood.
func (s shot) cleared() bool {
	return s.Pins.Known && !s.Foul && s.rack.Count > 0 && s.Pins.Value == s.rack.Count
}

// eachShot gives the deliveries that count, all but the dead ones.
func eachShot(bowled []model.DatedSheet) iter.Seq[shot] {
	return func(yield func(shot) bool) {
		for _, g := range bowled {
			for i, d := range g.Deliveries {
				if !d.Dead && !yield(shot{d, g.Racks[i]}) {
					return
				}
			}
		}
	}
}

// seenRacks gives the deliveries of games at full racks that were seen, each with what it found, in order and uncopied: a
// history is long.
func seenRacks(games []model.DatedSheet) iter.Seq2[*model.Delivery, model.Rack] {
	return func(yield func(*model.Delivery, model.Rack) bool) {
		for _, g := range games {
			for i := range g.Deliveries {
				d := &g.Deliveries[i]
				if d.Seen && !d.Dead && g.Racks[i].Full && !yield(d, g.Racks[i]) {
					return
				}
			}
		}
	}
}

// evenings parts games into those of one session each, in order.
func evenings(games []model.DatedSheet) [][]model.DatedSheet {
	var out [][]model.DatedSheet
	for i, g := range games {
		if i == 0 || g.Sheet.Game.Session != games[i-1].Sheet.Game.Session {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], g)
	}
	return out
}
