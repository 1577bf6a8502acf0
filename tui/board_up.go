package tui

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"coach.settee/model"
)

// backKeys take back and correct.
var backKeys = table{
	{
		keys: []string{"backspace", "ctrl+h"}, shown: "backspace", group: groupBack,
		help:  "take back the last action, whoever's it was, and put that student up; again and again, to the start of the evening",
		hints: map[moment]string{momentFullRack: "undo", momentSpareShot: "undo", momentFree: "undo", momentOut: "undo"},
		act:   func(a *App, _ string) { a.undo() },
	},
	{
		keys: []string{"U"}, group: groupBack, help: "do again what was taken back, until something else is recorded",
		act: func(a *App, _ string) { a.redo() },
	},
	{
		keys: []string{","}, group: groupBack,
		help: "open the last recorded delivery again, then the one before it: every key above, and O C N L, now speak of it; " +
			"enter keeps the change, esc leaves it as it was, @ hands it to another student",
		hints: map[moment]string{momentEdit: "back", momentSpareShot: "reopen", momentFullRack: "reopen"},
		act:   calls(func(e *model.Evening, _ string) error { return e.Reopen() }),
	},
	{
		keys: []string{"left", "right"}, group: groupBack,
		help: "with a delivery open: the one before, the one after (up and down too)",
		act:  calls(stepEdit),
	},
	{
		keys: []string{"esc"}, group: groupBack,
		help:  "leave an open delivery as it was, or clear the call begun, or else the menu",
		hints: map[moment]string{momentEdit: "leaves it", momentNamed: "clears"},
		act:   func(a *App, _ string) { a.escape() },
	},
}

func stepEdit(e *model.Evening, key string) error {
	if key == "left" || key == "up" {
		return e.ReopenBeside(-1)
	}
	return e.ReopenBeside(1)
}

// undo takes back the last action and says what it was.
func (a *App) undo() {
	last, _ := a.inHand().Last()
	words := "taken back: " + a.inHand().Describe(last)
	if a.tell(a.inHand().Undo()) {
		if a.evening != nil {
			a.shutIfClosed()
		}
		a.say(words)
	}
}

// redo does again what was taken back and says what it was.
func (a *App) redo() {
	if a.tell(a.inHand().Redo()) {
		last, _ := a.inHand().Last()
		a.say("done again: " + a.inHand().Describe(last))
		a.shutIfClosed()
	}
}

// escape is the board's esc.
func (a *App) escape() {
	name := a.evening.Label(a.evening.UpStudent())
	switch {
	case a.evening.Leave():
		a.say("the delivery is left as it was")
	case a.evening.Clear():
		a.say("the call begun for " + name + " is cleared")
	default:
		a.over = menuOver
	}
}

// upKeys say who is up and where.
var upKeys = withAlternatives(table{
	{
		keys: []string{"space"}, group: groupUp, help: "the next pair, at the student who is up there",
		hints: map[moment]string{momentFullRack: "pair", momentOut: "pair"},
		act:   func(a *App, _ string) { a.tell(a.evening.NextPair()) },
	},
	{
		keys: []string{"tab", "shift+tab", "down", "up"}, group: groupUp, help: "the next, the previous student on the screen",
		hinted: "tab",
		hints: map[moment]string{
			momentFullRack: "student", momentSpareShot: "student", momentFree: "student", momentOut: "student",
		},
		act: putUpBeside,
	},
	{
		keys: []string{"@"}, group: groupUp, help: "a student by a few letters of the name; with a delivery open: hand it to that student",
		hints: map[moment]string{
			momentEdit: "hands over", momentFullRack: "by name", momentSpareShot: "by name", momentOut: "by name",
		},
		lines:   1,
		refused: nobody, act: func(a *App, _ string) { a.askForStudent() },
	},
	{
		keys: []string{"V"}, group: groupUp, help: "out of the rotation, or back in",
		hints:   map[moment]string{momentOut: "brings back in"},
		refused: reopened, act: func(a *App, _ string) { a.tell(a.evening.ToggleOut()) },
	},
	{
		keys: []string{"W"}, group: groupUp, help: "to the other lane of the pair from the next ball on",
		refused: reopened, act: func(a *App, _ string) { a.tell(a.evening.ChangeLane()) },
	},
	{
		keys: []string{"P"}, group: groupUp, help: "to another pair: the lane; all and the lane moves everyone of the pair",
		lines:   1,
		refused: reopened, act: func(a *App, _ string) { a.askForPair() },
	},
}, alternative{of: "@", keys: []string{"a"}})

// putUpBeside puts up the next or the previous student; up and down go through the game of a delivery that is open.
func putUpBeside(a *App, key string) {
	if _, open := a.evening.Editing(); open && (key == "up" || key == "down") {
		calls(stepEdit)(a, key)
		return
	}
	if key == "tab" || key == "down" {
		a.tell(a.evening.PutUpBeside(1))
		return
	}
	a.tell(a.evening.PutUpBeside(-1))
}

// askForStudent asks for a student by name: to be put up, or to be given the delivery that is open.
func (a *App) askForStudent() {
	edit, open := a.inHand().Editing()
	label := "put up, by a few letters of the name"
	if open {
		label = "hand it from " + a.inHand().Label(edit.Student) + " to"
	}
	a.askAmong(label, a.suggestHere, func(text string) error {
		id, err := a.byName(text)
		if err != nil {
			return err
		}
		if open {
			return a.done(a.inHand().HandOver(id))
		}
		return a.done(a.inHand().PutUp(id))
	})
}

// askForPair asks for the lane to go to.
func (a *App) askForPair() {
	a.ask(fmt.Sprintf("%s to lane (all 9: everyone of the pair)", a.evening.Label(a.evening.UpStudent())),
		func(text string) error {
			var lanes []string
			all := false
			for _, word := range strings.Fields(strings.ToLower(text)) {
				if word == "all" {
					all = true
					continue
				}
				lanes = append(lanes, word)
			}
			lane, err := laneOf(lanes)
			if err != nil {
				return err
			}
			if err := a.otherLanes(text, lane); err != nil {
				return err
			}
			return a.done(a.evening.MovePair(lane, all))
		})
}

// otherLanes refuses once a lane that is on none of tonight's pairs: most likely another was meant.
func (a *App) otherLanes(text string, lane int) error {
	if slices.ContainsFunc(a.evening.Session().Pairs, func(p model.Pair) bool { return slices.Contains(p[:], lane) }) {
		return nil
	}
	return a.doubt(text, fmt.Sprintf("lane %d is none of tonight's: enter again goes there all the same", lane))
}

// laneOf reads the one lane that is typed.
func laneOf(words []string) (int, error) {
	if len(words) != 1 {
		return 0, errors.New("give the number of one lane")
	}
	return model.ParseLane(words[0])
}
