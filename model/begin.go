package model

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"coach.settee/model/tenpin"
)

// Unfinished tells whether the student who is up has a game that is begun and not over, which beginning another stops.
func (e *Evening) Unfinished() bool {
	s := e.Sheet(e.UpStudent())
	return s != nil && s.Game.Kind == KindGame && !s.Ended() && len(s.Deliveries) > 0
}

// Plan is what a student is to bowl next.
type Plan struct {
	Kind   Kind
	Name   string
	Length int
	Pins   tenpin.PinSet
}

// ParsePlan reads what is to be begun: "" for the same kind again, "g" a game, "w" a warm-up, a number for a drill of
// that many deliveries with an optional name, whose last words may name the pins: "10 corner 10" is ten at the 10 pin
// under the name corner.
func ParsePlan(text string, last Plan) (Plan, error) {
	words := strings.Fields(text)
	if len(words) == 0 {
		return last, nil
	}
	if len(words) == 1 {
		switch strings.ToLower(words[0]) {
		case "g":
			return Plan{Kind: KindGame}, nil
		case "w":
			return Plan{Kind: KindWarmup}, nil
		}
	}
	n, ok := whole(words[0])
	if !ok || n < 1 || n > MaxDrill {
		return Plan{}, fmt.Errorf("%q: g is a game, w a warm-up, 10 a drill of ten (1 to %d)", text, MaxDrill)
	}
	p := Plan{Kind: KindDrill, Length: n}
	words = words[1:]
	for len(words) > 0 {
		pins, ok := pinsIn(words[len(words)-1])
		if !ok {
			break
		}
		p.Pins |= pins
		words = words[:len(words)-1]
	}
	if p.Pins == tenpin.AllPins {
		p.Pins = 0
	}
	p.Name = strings.Join(words, " ")
	return p, ValidateText(p.Name)
}

// pinsIn reads pins joined by hyphens or commas: "10", "3-6-10".
func pinsIn(word string) (tenpin.PinSet, bool) {
	var set tenpin.PinSet
	for _, part := range strings.FieldsFunc(word, func(r rune) bool { return r == '-' || r == ',' }) {
		n, ok := whole(part)
		if !ok || n < 1 || n > 10 {
			return 0, false
		}
		set |= tenpin.Pins(n)
	}
	return set, set != 0
}

// whole reads a number written with digits only.
func whole(word string) (int, bool) {
	if word == "" || strings.Trim(word, "0123456789") != "" {
		return 0, false
	}
	n, err := strconv.Atoi(word)
	return n, err == nil
}

// LastPlan gives what the student who is up bowled last, a game where there is nothing yet.
func (e *Evening) LastPlan() Plan {
	s := e.Sheet(e.UpStudent())
	if s == nil {
		return Plan{Kind: KindGame}
	}
	return Plan{Kind: s.Game.Kind, Name: s.Game.Name, Length: s.Game.Length, Pins: s.Game.Pins}
}

var errClosed = errors.New("the evening is closed: backspace takes that back")

// Begin begins what is planned for the student who is up. An unfinished game is stopped for the reason given, and is
// then in no average; without a reason it is in the way.
func (e *Evening) Begin(p Plan, reason string) (Step, error) {
	id := e.UpStudent()
	if id == "" {
		return Step{}, errNobodyUp
	}
	if !e.session.Open() {
		return Step{}, errClosed
	}
	if err := ValidateText(reason); err != nil {
		return Step{}, err
	}
	if e.Unfinished() && reason == "" {
		return Step{}, errors.New("the game is unfinished: say why it is stopped")
	}
	if e.Begun(id) {
		return Step{}, fmt.Errorf("a call is begun for %s: record it or clear it with esc first", e.Label(id))
	}
	serial := e.serial
	var changes []Change
	if last := e.Sheet(id); last != nil && !last.Ended() {
		changes = append(changes, e.ended(last, reason))
	}
	g := e.newGame(id, Game{Kind: p.Kind, Name: p.Name, Length: p.Length, Pins: p.Pins})
	if len(changes) > 0 && changes[0].After == nil {
		g.Number--
	}
	changes = append(changes, Change{Ref: g.Ref(), After: g})
	if err := g.Validate(); err != nil {
		e.serial = serial
		return Step{}, err
	}
	step, err := e.do(Action{Student: id, What: fmt.Sprintf("%s begins %s", e.Label(id), e.TitleOf(g)), Changes: changes})
	if err != nil {
		e.serial = serial
		return Step{}, err
	}
	step.Up = e.Up()
	return step, nil
}

// ended gives the change by which what was begun and is not finished is left: without deliveries it goes, else it is
// stopped.
func (e *Evening) ended(last *Sheet, reason string) Change {
	if len(last.Deliveries) == 0 {
		return Change{Ref: last.Game.Ref(), Before: last.Game}
	}
	stopped := last.Game
	stopped.Stopped = reason
	if reason == "" {
		stopped.Stopped = "done"
	}
	return Change{Ref: last.Game.Ref(), Before: last.Game, After: stopped}
}

// CatchUp records missed balls of the student who is up as the overhead shows them, from where the game stands, all
// unseen.
func (e *Evening) CatchUp(at time.Time, text string) (Step, error) {
	id := e.UpStudent()
	switch {
	case id == "":
		return Step{}, errNobodyUp
	case !e.session.Open():
		return Step{}, errClosed
	case e.edit != nil:
		return Step{}, errors.New("catching up speaks of the next frames: enter or esc first")
	case e.nextKind(id) != KindGame:
		return Step{}, errors.New("catching up is for games: G begins one")
	case e.Begun(id):
		return Step{}, fmt.Errorf("a call is begun for %s: record it or clear it with esc first", e.Label(id))
	}
	var from tenpin.Position
	if s := e.Sheet(id); s != nil && !s.Ended() {
		from = s.Card.At
	}
	balls, err := tenpin.ParseFrom(from, text)
	if err != nil {
		return Step{}, err
	}
	if len(balls) == 0 {
		return Step{}, errors.New("nothing typed: write the balls as the overhead shows them, 9/ 43 X")
	}
	return e.recordUnseen(id, at, from, balls)
}

func (e *Evening) recordUnseen(id ID, at time.Time, from tenpin.Position, balls []tenpin.Ball) (Step, error) {
	serial := e.serial
	game, changes := e.currentGame(id)
	seq := 0
	if s := e.sheets[game.ID]; s != nil {
		seq = len(s.Deliveries)
	}
	for i, b := range balls {
		rack := rackAt(from)
		d := e.delivery(id, game, rack, at)
		d.Seq, d.Pins, d.After, d.Foul = seq+i+1, Known(b.Pins), counted(b.Pins, rack), b.Foul
		changes = append(changes, Change{Ref: d.Ref(), After: d})
		next, _, err := from.Next(b)
		if err != nil {
			e.serial = serial
			return Step{}, err
		}
		from = next
	}
	what := fmt.Sprintf("%s caught up: %d balls unseen", e.Label(id), len(balls))
	if len(balls) == 1 {
		what = e.Label(id) + " caught up: 1 ball unseen"
	}
	step, err := e.do(Action{Student: id, What: what, Changes: changes})
	if err != nil {
		e.serial = serial
		return Step{}, err
	}
	e.advance(id)
	step.Up = e.Up()
	return step, nil
}
