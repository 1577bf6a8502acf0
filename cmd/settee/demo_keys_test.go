package main

import (
	"flag"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"coach.settee/model"
)

var writeKeys = flag.Bool("keys", false, "write the key script of the invented evening anew")

// keysFile is the key script of the invented evening that runs, as a coach would have typed it.
var keysFile = filepath.Join("..", "..", "testdata", "evening", "keys.txt")

const keysSeed = 1

const keysHead = `# The keys of one invented evening (settee demo --seed 1), as a coach presses them: one delivery a line, four fields
# parted by tabs. The student, the keys that put the student up, what is typed into prompts, and the keys of the call.
# Keys are parted by blanks; a text in quotes is typed, then enter. A line without a call begins something or changes a
# cue or a line. Written by: go test ./cmd/settee -run TestKeyScript -keys
`

// keyLine is a line of the script.
type keyLine struct {
	student        string
	up, said, call []string
}

func (l keyLine) String() string {
	return strings.Join([]string{
		l.student, strings.Join(l.up, " "), strings.Join(l.said, " "), strings.Join(l.call, " "),
	}, "\t")
}

// opening splits an evening's steps into those that seat everyone and those of the coach at work, and gives the
// evening as it is between them.
func opening(t *testing.T, evening []model.Step) (*model.Evening, []model.Step) {
	t.Helper()
	k := model.Kept{}
	at := 0
	for ; at < len(evening) && evening[at].Action.What != "what each works on"; at++ {
		for _, c := range evening[at].Changes {
			switch r := c.After.(type) {
			case model.Session:
				k.Session = r
			case model.Student:
				k.Students = append(k.Students, r)
			}
		}
	}
	k.Session = evening[at].Changes[0].After.(model.Session)
	k.Up = evening[at].Up
	e, err := model.Resume(k)
	if err != nil {
		t.Fatal(err)
	}
	return e, evening[at+1:]
}

// scriptOf gives the keys of an evening's steps, pressing them on e as it goes: which key puts a student up depends on
// who is up.
func scriptOf(t *testing.T, e *model.Evening, steps []model.Step) []keyLine {
	t.Helper()
	var lines []keyLine
	for _, step := range steps {
		a := step.Action
		if len(a.Changes) == 0 {
			continue // puts somebody up: the next call's line says by which key
		}
		line, at := keyLine{student: e.Student(a.Student).Name, up: keysUp(e, a.Student)}, time.Time{}
		switch game, delivery := begun(a); {
		case a.How != model.NotRecorded:
			line.said, line.call = saidKeys(a.Call), callKeys(a, delivery, e.Student(a.Student).Chosen())
			at = delivery.At
		case delivery.ID != "":
			line.said = []string{"Z", strconv.Quote("81")}
			at = delivery.At
		case game.ID != "":
			line.said = []string{"G", strconv.Quote(planText(game))}
		default:
			seat, _ := seatAfter(a)
			line.said = seatKeys(e, seat)
		}
		pressLine(t, e, line, at)
		lines = append(lines, line)
	}
	return lines
}

// keysUp gives the fewest keys that put a student up.
func keysUp(e *model.Evening, id model.ID) []string {
	if e.UpStudent() == id {
		return nil
	}
	var pairs []model.Pair
	for _, p := range e.Session().Pairs {
		if e.UpOn(p) != "" {
			pairs = append(pairs, p)
		}
	}
	seats := e.Seats()
	place := func(id model.ID) int {
		return slices.IndexFunc(seats, func(s model.Seat) bool { return s.Student == id })
	}
	at, to := place(e.UpStudent()), place(id)
	pair := slices.Index(pairs, e.PairInView())
	for n := 1; n < len(seats); n++ {
		switch {
		case n < len(pairs) && e.UpOn(pairs[(pair+n)%len(pairs)]) == id:
			return slices.Repeat([]string{"space"}, n)
		case (at+n)%len(seats) == to:
			return slices.Repeat([]string{"tab"}, n)
		case (at-n+len(seats))%len(seats) == to:
			return slices.Repeat([]string{"shift+tab"}, n)
		}
	}
	return nil
}

// begun gives the game and the last delivery that an action adds, with empty ids for none.
func begun(a model.Action) (model.Game, model.Delivery) {
	var game model.Game
	var delivery model.Delivery
	for _, c := range a.Changes {
		switch r := c.After.(type) {
		case model.Game:
			if c.Before == nil {
				game = r
			}
		case model.Delivery:
			delivery = r
		}
	}
	return game, delivery
}

func seatAfter(a model.Action) (model.Seat, bool) {
	for _, c := range a.Changes {
		if s, ok := c.After.(model.Session); ok {
			return s.Roster[s.Seat(a.Student)], true
		}
	}
	return model.Seat{}, false
}

// seatKeys gives the keys of a change of the seat of the student who is up: a cue, or a line to aim at on the lane of the next
// ball.
func seatKeys(e *model.Evening, seat model.Seat) []string {
	if was, _ := e.SeatOf(seat.Student); was.Cue != seat.Cue {
		return []string{"C", strconv.Quote(seat.Cue)}
	}
	l := seat.Aimed[(e.LaneOf(seat.Student)+1)%2]
	text := fmt.Sprintf("%v %v %v@%v", l.Arrows.Value, l.Slide.Value, l.Breakpoint.Value, l.BreakpointFt.Value)
	return []string{"y", "c", strconv.Quote(text), "esc"}
}

func planText(g model.Game) string {
	switch g.Kind {
	case model.KindGame:
		return "g"
	case model.KindWarmup:
		return "w"
	}
	return strings.TrimSpace(fmt.Sprintf("%d %s %s", g.Length, g.Name, g.Pins))
}

// saidKeys gives the prompts of a call: the line, the student's own call, the note.
func saidKeys(c model.Call) []string {
	var keys []string
	if text := lineText(c); text != "" {
		keys = append(keys, "L", strconv.Quote(text))
	}
	if c.Own != model.Ungraded {
		keys = append(keys, "O", strconv.Quote(c.Own.String()))
	}
	if c.Note != "" {
		keys = append(keys, "N", strconv.Quote(c.Note))
	}
	return keys
}

func lineText(c model.Call) string {
	if c.Line.IsZero() {
		return ""
	}
	text := fmt.Sprintf("%v %v %v@%v %v", c.Line.Arrows.Value, c.Line.Slide.Value, c.Line.Breakpoint.Value,
		c.Line.BreakpointFt.Value, c.SpeedMPH.Value)
	if c.HitBoards.Known {
		text += fmt.Sprintf(" %+g", c.HitBoards.Value)
	}
	return text
}

// callKeys gives the keys of a call: a key a step lowered, one a board missed, one a pin left, one to record.
func callKeys(a model.Action, d model.Delivery, chosen model.Chosen) []string {
	if a.How == model.DeadBall {
		return []string{"D"}
	}
	c := a.Call
	var keys []string
	if c.Unseen {
		keys = append(keys, "z")
	} else {
		keys = letterKeys(c, chosen)
	}
	keys = append(keys, hitKeys[c.Hit]...)
	if c.Foul {
		keys = append(keys, "!")
	}
	switch a.How {
	case model.AllDown:
		return append(keys, "x")
	case model.Counted:
		return append(keys, "=", strconv.Itoa(d.Pins.Value))
	}
	switch c.Pins.How {
	case model.NoneDown:
		keys = append(keys, "-")
	case model.LeftNamed:
		for _, pin := range c.Pins.Left.Numbers() {
			keys = append(keys, strconv.Itoa(pin%10))
		}
	}
	return append(keys, "enter")
}

func letterKeys(c model.Call, chosen model.Chosen) []string {
	var keys []string
	start := chosen.StartLetters()
	for _, a := range model.Axes {
		steps := int(start[a]) - int(c.Letters[a])
		if a == model.Target && c.Side != "" {
			keys = append(keys, slices.Repeat([]string{string(c.Side[0])}, c.SideBoards)...)
			steps -= c.SideSteps
		}
		keys = append(keys, slices.Repeat([]string{a.String()[:1]}, steps)...)
	}
	return keys
}

var hitKeys = map[model.Hit][]string{
	model.Pocket: {"p"}, model.High: {"h"}, model.Nose: {"h", "h"}, model.Brooklyn: {"h", "h", "h"},
	model.Light: {"l"}, model.Missed: {"l", "l"},
}
