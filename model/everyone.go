package model

import (
	"errors"
	"fmt"
	"strings"
)

// BeginForAll begins what is planned for everyone who is not out, as one action. An unfinished game, or a call begun, of
// one of them is in the way and named. A drill or warm-up of theirs that is begun ends.
func (e *Evening) BeginForAll(p Plan) (Step, error) {
	here, err := e.everyoneReady()
	if err != nil {
		return Step{}, err
	}
	serial := e.serial
	var changes []Change
	for _, id := range here {
		_, begins := e.beginning(id, p, "")
		changes = append(changes, begins...)
	}
	what := "a game"
	if p.Kind != KindGame {
		what = e.TitleOf(Game{Kind: p.Kind, Name: p.Name})
	}
	who := "everyone begins "
	if n := len(e.session.Roster); len(here) < n {
		who = fmt.Sprintf("%d of %d begin ", len(here), n)
	}
	return e.startGames(serial, Action{What: who + what, Changes: changes})
}

// GamesBowled gives how many games a student has begun tonight, without those in which no ball was thrown, and without
// warm-ups and drills.
func (e *Evening) GamesBowled(id ID) int {
	n := 0
	for _, s := range e.Sheets(id) {
		if s.Game.Kind == KindGame && len(s.Deliveries) > 0 {
			n++
		}
	}
	return n
}

// everyoneReady gives who is not out, in screen order, or tells why they cannot begin something together.
func (e *Evening) everyoneReady() ([]ID, error) {
	var here []ID
	var playing []string
	for _, s := range e.Seats() {
		if s.Out {
			continue
		}
		here = append(here, s.Student)
		if e.unfinished(s.Student) {
			playing = append(playing, e.Label(s.Student))
		}
	}
	switch {
	case len(e.session.Roster) == 0:
		return nil, errors.New("nobody is here yet: add a student first")
	case len(here) == 0:
		return nil, errors.New("everyone is out: bring somebody back in first")
	}
	if err := e.readyForOther(here[0]); err != nil {
		return nil, err
	}
	if err := e.NoneBegun(here...); err != nil {
		return nil, err
	}
	if len(playing) > 0 {
		return nil, fmt.Errorf("%s in a game: finish it, or stop it with G on the board", areNames(playing))
	}
	return here, nil
}

// areNames says names with their verb: "Ada is", "Ada and Bo are".
func areNames(names []string) string {
	last := len(names) - 1
	if last == 0 {
		return names[0] + " is"
	}
	return strings.Join(names[:last], ", ") + " and " + names[last] + " are"
}
