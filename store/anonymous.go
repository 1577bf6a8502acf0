package store

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"time"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// stands puts stand-ins in the place of what tells who somebody is, where, or when: the same for the same store each time.
// Names and ids are counted through, words that figures go by (cues, places, balls, oils, drills) by where they come first,
// other texts are left out, and the calendar is moved so that the first evening is on firstDay. What stays are the
// figures, the flags and levels, the lanes, the hours of an evening and the days between evenings.
type stands struct {
	moved    time.Duration
	students map[model.ID]model.Student
	evenings int
	// words holds, for each sort, the stand-in of each text.
	words map[string]map[string]string
}

// firstDay is the day that the first evening is moved to, a Monday.
var firstDay = time.Date(2000, 1, 3, 0, 0, 0, 0, time.UTC)

// standsIn makes the stand-ins for a store.
func standsIn(tx *bolt.Tx) (*stands, error) {
	students, err := studentsIn(tx)
	if err != nil {
		return nil, err
	}
	sessions, err := sessionRows(tx)
	if err != nil {
		return nil, err
	}
	a := &stands{students: map[model.ID]model.Student{}, words: map[string]map[string]string{}}
	if first, ok := firstOf(sessions, students); ok {
		a.moved = firstDay.Sub(first.Truncate(24 * time.Hour))
	}
	for i, s := range students {
		a.students[s.ID] = a.student(i+1, s)
	}
	book, err := cuesIn(tx)
	for _, c := range book {
		a.word("cue", c.Text)
	}
	return a, err
}

// firstOf gives when the first evening was, of no evenings the first intake.
func firstOf(sessions []sessionRow, students []model.Student) (time.Time, bool) {
	if len(sessions) > 0 {
		return sessions[0].At.UTC(), true
	}
	var days []string
	for _, s := range students {
		if s.Intake.On != "" {
			days = append(days, s.Intake.On)
		}
	}
	if len(days) == 0 {
		return time.Time{}, false
	}
	day, err := time.Parse(time.DateOnly, slices.Min(days))
	return day, err == nil
}

func (a *stands) student(n int, s model.Student) model.Student {
	s.ID = model.ID(fmt.Sprintf("student-%06d", n))
	s.Name = fmt.Sprintf("Student %d", n)
	balls := s.Balls
	s.Balls = nil
	for _, ball := range balls {
		s.Balls = append(s.Balls, a.word("ball", ball))
	}
	s.BallUp = a.word("ball", s.BallUp)
	s.AverageOn, s.Focus, s.Limits, s.Notes, s.Intake.Hurts = "", "", "", "", ""
	s.Intake.On = a.day(s.Intake.On)
	return s
}

func (a *stands) cue(n int, c model.Cue) model.Cue {
	return model.Cue{ID: model.ID(fmt.Sprintf("cue-%06d", n)), Axis: c.Axis, Text: a.word("cue", c.Text)}
}

// sheaf gives an evening with stand-ins, the evenings in the order of the export.
func (a *stands) sheaf(s sheaf) sheaf {
	a.evenings++
	out := sheaf{session: s.session, games: slices.Clone(s.games), deliveries: make([][]model.Delivery, len(s.games))}
	out.session.Session = a.session(s.session.Session)
	id := out.session.ID
	for i, g := range s.games {
		out.games[i].Game = a.game(model.SerialID(id, i+1), id, g.Game)
		for _, d := range s.deliveries[i] {
			out.deliveries[i] = append(out.deliveries[i], a.delivery(out.games[i].ID, d))
		}
	}
	for i, d := range recorded(s.session.ID, out.deliveries) {
		d.ID = model.SerialID(id, len(s.games)+i+1)
	}
	return out.ordered()
}

// recorded gives the deliveries of an evening in the order of recording, as inTime has it.
func recorded(session model.ID, games [][]model.Delivery) []*model.Delivery {
	var all []*model.Delivery
	for i := range games {
		for j := range games[i] {
			all = append(all, &games[i][j])
		}
	}
	slices.SortStableFunc(all, func(a, b *model.Delivery) int {
		m, _ := serialIn(session, a.ID)
		n, _ := serialIn(session, b.ID)
		if m == 0 && n == 0 {
			return a.At.Compare(b.At)
		}
		return cmp.Compare(m, n)
	})
	return all
}

// ordered gives the sheaf with its games in the order of their stand-ins.
func (s sheaf) ordered() sheaf {
	order := make([]int, len(s.games))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int { return compareGames(s.games[i], s.games[j]) })
	out := sheaf{session: s.session}
	for _, i := range order {
		out.games, out.deliveries = append(out.games, s.games[i]), append(out.deliveries, s.deliveries[i])
	}
	return out
}

func (a *stands) session(s model.Session) model.Session {
	s.ID = model.ID(fmt.Sprintf("evening-%06d", a.evenings))
	s.At, s.Closed, s.Oiled = a.time(s.At), a.time(s.Closed), a.time(s.Oiled)
	s.Place, s.PatternKind, s.Before = a.word("place", s.Place), a.word("oil", s.PatternKind), ""
	s.Roster = slices.Clone(s.Roster)
	for i := range s.Roster {
		seat := &s.Roster[i]
		seat.Student = a.students[seat.Student].ID
		seat.Cue, seat.Next = a.word("cue", seat.Cue), a.day(seat.Next)
		seat.Focus, seat.Homework, seat.Sentence = "", "", ""
	}
	return s
}

func (a *stands) game(id, session model.ID, g model.Game) model.Game {
	g.ID, g.Session, g.Student = id, session, a.students[g.Student].ID
	g.Name, g.Note = a.word("drill", g.Name), ""
	if g.Stopped != "" && g.Stopped != "done" {
		g.Stopped = "stopped"
	}
	return g
}

// delivery gives a delivery with stand-ins but for its id.
func (a *stands) delivery(game model.ID, d model.Delivery) model.Delivery {
	d.Game, d.At = game, a.time(d.At)
	d.Bowled, d.Cue, d.Note = a.word("ball", d.Bowled), a.word("cue", d.Cue), ""
	return d
}

// word gives the stand-in of a text of a sort, the same for the same text, "" for none.
func (a *stands) word(sort, text string) string {
	if text == "" {
		return ""
	}
	known := a.words[sort]
	if known == nil {
		known = map[string]string{}
		a.words[sort] = known
	}
	if _, ok := known[text]; !ok {
		known[text] = sort + " " + strconv.Itoa(len(known)+1)
	}
	return known[text]
}

// time moves a time; what would leave the years that the format has stops at their end.
func (a *stands) time(t time.Time) time.Time {
	if t.IsZero() {
		return t
	}
	first, last := time.Unix(0, 0).UTC(), time.Date(9999, 12, 31, 23, 59, 59, 0, time.UTC)
	switch t = t.Add(a.moved); {
	case t.Before(first):
		return first
	case t.After(last):
		return last
	}
	return t
}

func (a *stands) day(day string) string {
	t, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return ""
	}
	return a.time(t).Format(time.DateOnly)
}
