package model

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
)

// Evening is an open session as the coach works in it: the roster, the sheets, the calls begun, who is up, and the
// actions that can be taken back. Methods that change what is kept give the Step for the store and have already made the
// change here; methods that are refused change nothing and give an error whose words are for the coach.
type Evening struct {
	session  Session
	students map[ID]Student
	sheets   map[ID]*Sheet
	// games lists each student's games by number.
	games map[ID][]ID
	calls map[ID]Call
	up    Up
	edit  *Edit
	// log holds the actions done, undone those taken back, last taken back last.
	log    []Action
	undone []undone
	// serial is the last number used for a game's or a delivery's id in this session.
	serial int
	// order tells in which order deliveries were recorded, recorded is the last number given; bowled is each student's
	// last ball.
	order    map[ID]int
	recorded int
	bowled   map[ID]bowled
}

// bowled is a ball by its place in the order of recording, from 1, and its lane.
type bowled struct{ order, lane int }

// Kept is an evening as the store keeps it.
type Kept struct {
	Session  Session
	Students []Student
	Games    []Game
	// Deliveries are by their ids' serials, those with ids from elsewhere first and by time.
	Deliveries []Delivery
	Log        []Entry
	Up         Up
	// Serial is the highest number used for a game's or a delivery's id that the games, deliveries and actions here do not
	// tell of.
	Serial int
}

// NewEvening begins an evening with a session that has pairs and an empty roster.
func NewEvening(s Session) (*Evening, Step, error) {
	if len(s.Pairs) == 0 {
		return nil, Step{}, errors.New("an evening needs a pair of lanes: give the number of a lane")
	}
	if err := s.Validate(); err != nil {
		return nil, Step{}, err
	}
	e := emptyEvening(s)
	e.up = Up{Lane: s.Pairs[0][0], OnPair: map[int]ID{}}
	// Beginning the evening is where taking back ends: it is no action of the list.
	step := Step{Session: s.ID, Changes: []Change{{Ref: s.Ref(), After: s}}, Up: e.Up()}
	return e, step, nil
}

// Resume gives the evening as it was left, calls begun excepted.
func Resume(k Kept) (*Evening, error) {
	e := emptyEvening(k.Session)
	e.serial = k.highestSerial()
	e.up = Up{Lane: k.Up.Lane, OnPair: map[int]ID{}}
	for lane, id := range k.Up.OnPair {
		e.up.OnPair[lane] = id
	}
	for _, s := range k.Students {
		e.students[s.ID] = s
	}
	byGame := map[ID][]Delivery{}
	for _, d := range k.ordered() {
		e.order[d.ID] = e.nextOrder()
	}
	for _, d := range k.Deliveries {
		byGame[d.Game] = append(byGame[d.Game], d)
	}
	games := slices.SortedFunc(slices.Values(k.Games), func(a, b Game) int { return cmp.Compare(a.Number, b.Number) })
	for _, g := range games {
		ds := byGame[g.ID]
		slices.SortFunc(ds, func(a, b Delivery) int { return cmp.Compare(a.Seq, b.Seq) })
		sheet, err := NewSheet(g, ds)
		if err != nil {
			return nil, fmt.Errorf("%s, %s: %w", e.students[g.Student].Name, e.TitleOf(g), err)
		}
		e.sheets[g.ID] = sheet
		e.games[g.Student] = append(e.games[g.Student], g.ID)
	}
	for id := range e.games {
		e.findLastBall(id)
	}
	e.log = e.actions(k.Log)
	e.settleUp()
	return e, nil
}

// highestSerial gives the highest number that an id of the session was given, of what is there and of what was.
func (k Kept) highestSerial() int {
	highest := k.Serial
	see := func(id ID) {
		if n, ok := Serial(k.Session.ID, id); ok {
			highest = max(highest, n)
		}
	}
	for _, g := range k.Games {
		see(g.ID)
	}
	for _, d := range k.Deliveries {
		see(d.ID)
	}
	for _, en := range k.Log {
		for _, w := range en.Was {
			see(w.Ref.ID)
		}
	}
	return highest
}

func emptyEvening(s Session) *Evening {
	return &Evening{
		session: s, students: map[ID]Student{}, sheets: map[ID]*Sheet{}, games: map[ID][]ID{},
		calls: map[ID]Call{}, order: map[ID]int{}, bowled: map[ID]bowled{},
	}
}

// Session gives the session's record.
func (e *Evening) Session() Session { return e.session }

// Student gives a student of the evening.
func (e *Evening) Student(id ID) Student { return e.students[id] }

// Seats lists the roster in screen order: by pair as the session names them, then by bowling order.
func (e *Evening) Seats() []Seat {
	seats := slices.Clone(e.session.Roster)
	slices.SortStableFunc(seats, func(a, b Seat) int {
		return cmp.Or(cmp.Compare(e.pairIndex(a), e.pairIndex(b)), cmp.Compare(a.Order, b.Order))
	})
	return seats
}

func (e *Evening) pairIndex(s Seat) int { return slices.Index(e.session.Pairs, s.Pair()) }

// SeatOf gives a student's seat, and whether the student has one.
func (e *Evening) SeatOf(id ID) (Seat, bool) {
	i := e.session.Seat(id)
	if i < 0 {
		return Seat{}, false
	}
	return e.session.Roster[i], true
}

// Sheets gives a student's games, drills and warm-ups of the evening by number. They are not to be changed.
func (e *Evening) Sheets(id ID) []*Sheet {
	out := make([]*Sheet, len(e.games[id]))
	for i, g := range e.games[id] {
		out[i] = e.sheets[g]
	}
	return out
}

// Sheet gives a student's last game, drill or warm-up, ended or not, nil before the first.
func (e *Evening) Sheet(id ID) *Sheet {
	ids := e.games[id]
	if len(ids) == 0 {
		return nil
	}
	return e.sheets[ids[len(ids)-1]]
}

// SheetOf gives the game with that id, or nil.
func (e *Evening) SheetOf(game ID) *Sheet { return e.sheets[game] }

// Rack gives what a student's next ball finds: in a new game where the last one is over.
func (e *Evening) Rack(id ID) Rack {
	if s := e.Sheet(id); s != nil {
		if !s.Ended() {
			return s.Next()
		}
		if s.Game.Kind != KindGame {
			return s.rack()
		}
	}
	return (&Sheet{Game: Game{Kind: KindGame}}).Next()
}

// Load gives how many deliveries a student has thrown tonight, of every kind.
func (e *Evening) Load(id ID) int {
	n := 0
	for _, s := range e.Sheets(id) {
		n += s.Tally.Load
	}
	return n
}

// Deliveries gives how many deliveries of the evening there are.
func (e *Evening) Deliveries() int {
	n := 0
	for _, s := range e.sheets {
		n += len(s.Deliveries)
	}
	return n
}

// LaneOf gives the lane on which the student's next ball is bowled.
func (e *Evening) LaneOf(id ID) int {
	seat, _ := e.SeatOf(id)
	return seat.LaneFor(e.Rack(id).Frame)
}

// newID gives the next id for a game or a delivery of this session.
func (e *Evening) newID() ID {
	e.serial++
	return SerialID(e.session.ID, e.serial)
}
