package tui

import (
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"coach.settee/model"
	"coach.settee/model/insight"
	"coach.settee/model/tenpin"
	"coach.settee/store"
)

// pastGames is how many finished games a pace looks back on.
const pastGames = 10

// paces tells the pace of each student of the evening. What earlier evenings say is read once; a pace is reckoned anew
// only where something that it hangs on has changed.
type paces struct {
	asked    map[model.ID]bool
	earlier  map[model.ID][]model.Tally
	reckoned map[model.ID]reckoned
	shown    map[model.ID]insight.Pace
}

// basis is all that a pace hangs on.
type basis struct {
	in    insight.PaceInput
	drill insight.Drill
	kind  model.Kind
	at    tenpin.Position
}

type reckoned struct {
	basis basis
	pace  insight.Pace
	known bool
}

func newPaces() paces {
	return paces{
		asked: map[model.ID]bool{}, earlier: map[model.ID][]model.Tally{},
		reckoned: map[model.ID]reckoned{}, shown: map[model.ID]insight.Pace{},
	}
}

// playedMsg brings a student's finished games of earlier evenings.
type playedMsg struct {
	session, student model.ID
	played           []store.Played
	err              error
}

// readPlayed reads a student's last finished games of evenings other than the one given.
func (a *App) readPlayed(session, student model.ID) tea.Cmd {
	reader := a.conf.Store
	return func() tea.Msg {
		played, err := reader.Played(student, pastGames, func(p store.Played) bool {
			return p.Game.Kind == model.KindGame && p.Game.Session != session && p.Tally.Complete
		})
		return playedMsg{session, student, played, err}
	}
}

// hearPlayed takes in earlier games; those for an evening that is no longer open are passed over.
func (a *App) hearPlayed(msg playedMsg) {
	switch {
	case a.evening == nil || a.evening.Session().ID != msg.session:
	case msg.err != nil:
		a.refuse(fmt.Errorf("earlier games of %s cannot be read, the pace goes by tonight's: %w",
			a.evening.Label(msg.student), msg.err))
	default:
		a.paces.take(msg.student, msg.played)
	}
}

// unread gives the students of the evening whose earlier games were not asked for yet, and takes them for asked.
func (p *paces) unread(e *model.Evening) []model.ID {
	var ids []model.ID
	for _, seat := range e.Seats() {
		if !p.asked[seat.Student] {
			p.asked[seat.Student] = true
			ids = append(ids, seat.Student)
		}
	}
	return ids
}

// take takes in a student's games of earlier evenings, the newest first.
func (p *paces) take(id model.ID, played []store.Played) {
	p.earlier[id] = nil
	for _, game := range played {
		p.earlier[id] = append(p.earlier[id], game.Tally)
	}
}

// refresh reckons what has changed.
func (p *paces) refresh(e *model.Evening) {
	clear(p.shown)
	for _, seat := range e.Seats() {
		id := seat.Student
		now := p.basisOf(e, id)
		if was, ok := p.reckoned[id]; !ok || was.basis != now {
			pace, known := now.pace()
			p.reckoned[id] = reckoned{now, pace, known}
		}
		if r := p.reckoned[id]; r.known {
			p.shown[id] = r.pace
		}
	}
}

// basisOf collects what a student's pace hangs on: the last finished games, tonight's among them, and the game or drill
// that the next ball belongs to.
func (p *paces) basisOf(e *model.Evening, id model.ID) basis {
	chosen := e.ChosenFor(id)
	b := basis{kind: model.KindGame}
	var past model.Tally
	for _, t := range p.lastFinished(e, id) {
		past.Strikes += t.Strikes
		past.Racks += t.Racks
		past.SpareMade += t.SpareMade
		past.SpareTried += t.SpareTried
		b.in.PastGood += t.Good
		b.in.PastSeen += t.Seen
	}
	b.in.Goal = chosen.Goal.Shots()
	level := insight.LevelRates(chosen.Level)
	b.in.Rates = insight.ShrinkRates(level, past.Strikes, past.Racks, past.SpareMade, past.SpareTried)

	sheet := e.Sheet(id)
	if sheet == nil || sheet.Game.Stopped != "" && sheet.Game.Kind == model.KindGame {
		return b
	}
	b.kind, b.at = sheet.Game.Kind, sheet.Card.At
	b.drill = insight.Drill{Length: sheet.Game.Length, AtPins: sheet.Game.Rack() != tenpin.AllPins}
	b.in.Good, b.in.Seen, b.in.Unseen = sheet.Tally.Good, sheet.Tally.Seen, sheet.Tally.Racks-sheet.Tally.Seen
	return b
}

// lastFinished gives the tallies of the student's last finished games.
func (p *paces) lastFinished(e *model.Evening, id model.ID) []model.Tally {
	var last []model.Tally
	for _, sheet := range slices.Backward(e.Sheets(id)) {
		// The game that is going on is judged by the games before it, also once it is over and still in view.
		if sheet != e.Sheet(id) && sheet.Game.Kind == model.KindGame && sheet.Finished() {
			last = append(last, sheet.Tally)
		}
	}
	last = append(last, p.earlier[id]...)
	return last[:min(len(last), pastGames)]
}

// pace reckons the pace; a warm-up has none, and neither has a drill without a length.
func (b basis) pace() (insight.Pace, bool) {
	switch b.kind {
	case model.KindGame:
		return insight.GamePace(b.in, b.at), true
	case model.KindDrill:
		return insight.DrillPace(b.in, b.drill)
	}
	return insight.Pace{}, false
}
