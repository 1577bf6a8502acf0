package tui

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"coach.settee/model"
)

// boardScreen is the live screen: one student is up, and the keys speak of that student's next delivery, or of the one
// that is reopened. What each key does to the call is the model's to say.
type boardScreen struct {
	bindings table
	// counting says that = was pressed, so that the next digit is a number of pins felled; lettered that d was, so that the
	// next letter is a digit.
	counting, lettered bool
	// scrolled is by how many rows the wheel has moved those that do not all fit, up to the next key.
	scrolled int
}

func newBoard() *boardScreen {
	return &boardScreen{bindings: slices.Concat(pinKeys, digitKeys, shotKeys, backKeys, upKeys, notedKeys, wordKeys)}
}

func (b *boardScreen) title() string  { return "Board" }
func (b *boardScreen) about() string  { return "grade deliveries as they are bowled" }
func (b *boardScreen) letter() string { return "" }
func (b *boardScreen) table() table   { return b.bindings }

// moment tells what the keys are about: what was begun, or else the rack that the next ball finds.
func (b *boardScreen) moment(a *App) moment {
	if b.counting {
		return momentCount
	}
	if _, open := a.evening.Editing(); open {
		return momentEdit
	}
	id, rack := a.evening.Speaking()
	seat, _ := a.evening.SeatOf(id)
	switch {
	case id == "":
		return momentNobody
	case seat.Out:
		return momentOut
	case a.evening.Call().Pins.How != model.NothingNamed:
		return momentNamed
	case rack.Frame == 0:
		return momentFree
	case rack.Full:
		return momentFullRack
	}
	return momentSpareShot
}

func (b *boardScreen) draw(a *App, w, h int) string { return b.picture(a).draw(w, h) }

func (b *boardScreen) picture(a *App) boardPicture {
	return boardPicture{
		Evening: a.evening, Pace: a.paces.shown, Counting: b.counting, Theme: a.theme, Tight: a.conf.Tight,
		Pending: a.ledger.pending(), Refused: a.ledger.refused(), Scrolled: b.scrolled,
	}
}

// scroll moves the rows that do not all fit into w and h by some rows.
func (b *boardScreen) scroll(a *App, w, h, by int) {
	p := b.picture(a)
	rows := p.students()
	_, before := p.layOut(rows, w, h)
	p.Scrolled += by
	_, now := p.layOut(rows, w, h)
	b.scrolled += now - before
}

// nobody refuses a key that speaks of a student where none is up.
func nobody(a *App) string {
	if id, _ := a.inHand().Speaking(); id == "" {
		return "nobody is up: A adds a student"
	}
	return ""
}

// reopened refuses a key that speaks of what comes next while a delivery is open.
func reopened(a *App) string {
	if _, open := a.inHand().Editing(); open {
		return "a delivery is open: enter keeps the change, esc leaves it as it was"
	}
	return nobody(a)
}

// begunOrReopened refuses what cannot be done with a call half made.
func begunOrReopened(a *App) string {
	id := a.evening.UpStudent()
	if words := reopened(a); words != "" {
		return words
	}
	if err := a.evening.NoneBegun(id); err != nil {
		return err.Error()
	}
	return ""
}

// calls makes a key change the call being made.
func calls(change func(e *model.Evening, key string) error) func(a *App, key string) {
	return func(a *App, key string) {
		if err := change(a.inHand(), key); err != nil {
			a.refuse(err)
		}
	}
}

// records makes a key record the call, or keep what was changed of the delivery that is open, and says what came of it.
func records(record func(a *App, key string) (model.Step, error)) func(a *App, key string) {
	return func(a *App, key string) {
		if _, editing := a.inHand().Editing(); editing {
			a.keepChange(func() (model.Step, error) { return record(a, key) })
			return
		}
		if step, err := record(a, key); a.tell(step, err) {
			a.say(a.news(step))
		}
	}
}

// keepChange keeps what was changed of the delivery that is open, unless there is something to ask first.
func (a *App) keepChange(keep func() (model.Step, error)) {
	err := a.correction(keep)
	var r *model.Reframing
	switch {
	case errors.As(err, &r):
		a.askToReframe(r)
	case errors.Is(err, model.ErrUnchanged):
		a.say(err.Error())
	case err != nil:
		a.refuse(err)
	}
}

// axisKeys are the axes as the keys that lower them and as the signs under a frame; the capital raises.
var axisKeys = [model.AxisCount]string{"b", "t", "r", "f"}

// axisOf gives the axis of one of axisKeys or its capital.
func axisOf(key string) model.Axis {
	return model.Axes[slices.Index(axisKeys[:], strings.ToLower(key))]
}

// shotKeys say how the ball was thrown and what it met.
var shotKeys = withAlternatives(table{
	{
		keys: axisKeys[:], group: groupShot,
		help:  "lower balance, target, release, finish by one step; what is not watched is then watched for this delivery",
		hints: map[moment]string{momentFullRack: "lower", momentSpareShot: "lower", momentFree: "lower"},
		act:   calls(func(e *model.Evening, key string) error { return e.Lower(axisOf(key)) }),
	},
	{
		keys: []string{"B", "T", "R", "F"}, group: groupShot, help: "raise it by one step",
		act: calls(func(e *model.Evening, key string) error { return e.Raise(axisOf(key)) }),
	},
	{
		keys: []string{"i", "o"}, group: groupShot,
		help: "target missed inside, outside by one board more: lowers target at the first and at each further step of the " +
			"level",
		hints: map[moment]string{momentFullRack: "in, out", momentSpareShot: "in, out"},
		act: calls(func(e *model.Evening, key string) error {
			if key == "i" {
				return e.Miss(model.Inside)
			}
			return e.Miss(model.Outside)
		}),
	},
	{
		keys: []string{"p", "h", "l"}, group: groupShot,
		help:  "the hit: pocket; high, again nose, again Brooklyn; light, again missed the head pin",
		hints: map[moment]string{momentFullRack: "hit", momentSpareShot: "hit"},
		act:   calls(meet),
	},
	{
		keys: []string{"z"}, group: groupShot, help: "unseen, or seen after all; a letter key makes it seen",
		hints: map[moment]string{momentFullRack: "unseen", momentSpareShot: "unseen", momentFree: "unseen"},
		act:   calls(func(e *model.Evening, _ string) error { return e.ToggleUnseen() }),
	},
	{
		keys: []string{"!"}, group: groupShot, help: "foul, or none: nothing that fell counts, the rack is as before the ball",
		hints: map[moment]string{momentFullRack: "foul", momentSpareShot: "foul"},
		act:   calls(func(e *model.Evening, _ string) error { return e.ToggleFoul() }),
	},
}, alternative{of: "!", keys: []string{"j"}})

func meet(e *model.Evening, key string) error {
	switch key {
	case "p":
		return e.Meet(model.Pocket)
	case "h":
		return e.Meet(model.High, model.Nose, model.Brooklyn)
	}
	return e.Meet(model.Light, model.Missed)
}

// pinKeys say what fell, and record.
var pinKeys = withAlternatives(table{
	{
		keys: []string{"x"}, group: groupPins,
		help:  "all standing pins down, and record: a strike on a full rack, otherwise a spare",
		hints: map[moment]string{momentFullRack: "strike", momentSpareShot: "spare", momentFree: "all down"},
		act:   records(func(a *App, _ string) (model.Step, error) { return a.inHand().RecordAllDown(a.conf.Now()) }),
	},
	{
		keys: []string{"enter", "ctrl+j"}, shown: "enter", group: groupPins,
		help: "record what is named; with nothing named a drill or a warm-up records the ball without pins",
		hints: map[moment]string{
			momentNamed: "records", momentEdit: "keeps", momentFree: "no pins", momentFullRack: "records", momentSpareShot: "records",
		},
		act: records(func(a *App, _ string) (model.Step, error) { return a.inHand().RecordNamed(a.conf.Now()) }),
	},
	{
		keys: []string{"1", "2", "3", "4", "5", "6", "7", "8", "9", "0"}, shown: "1-0", group: groupPins,
		help: "pin 1 to 9, 0 the 10 pin: left standing, or not; enter records",
		hints: map[moment]string{
			momentFullRack: "left", momentSpareShot: "left", momentNamed: "left", momentFree: "left",
		},
		act: calls(func(e *model.Evening, key string) error { return e.TogglePin(pinOf(key)) }),
	},
	{
		keys: []string{"-"}, group: groupPins, help: "no pin down; enter records",
		hints: map[moment]string{momentFullRack: "none", momentSpareShot: "none"},
		act:   calls(func(e *model.Evening, _ string) error { return e.NameNoneDown() }),
	},
	{
		keys: []string{"/"}, group: groupPins, help: "a spare: x on a spare shot only",
		act: records(func(a *App, _ string) (model.Step, error) { return a.inHand().RecordSpare(a.conf.Now()) }),
	},
	{
		keys: []string{"="}, group: groupPins,
		help:  "then 0 to 9: that many pins fell, without naming them, and record; any other key drops it and acts as usual",
		hints: map[moment]string{momentSpareShot: "count"}, refused: nobody,
		act: func(a *App, _ string) {
			a.board.counting = true
			a.say("=: a digit, how many fell")
		},
	},
	{
		keys: []string{"D"}, group: groupPins, help: "dead ball or short rack: thrown again, counts for the load only",
		act: records(func(a *App, _ string) (model.Step, error) { return a.inHand().RecordDead(a.conf.Now()) }),
	},
}, onFrenchRow, alternative{of: "=", keys: []string{"u"}})

// pinOf gives the pin that a digit names: 0 is the 10 pin.
func pinOf(digit string) int {
	if digit == "0" {
		return 10
	}
	return int(digit[0] - '0')
}

// countKeys are the digits after =.
var countKeys = withAlternatives(table{
	{
		keys: []string{"0", "1", "2", "3", "4", "5", "6", "7", "8", "9"}, shown: "= 0-9", group: groupPins,
		help:  "after =: so many pins fell, fewer than stand",
		hints: map[moment]string{momentCount: "pins felled; any other key drops the ="},
		act: func(a *App, key string) {
			a.board.counting = false
			records(func(a *App, key string) (model.Step, error) {
				return a.inHand().RecordCount(a.conf.Now(), int(key[0]-'0'))
			})(a, key)
		},
	},
}, alternative{
	of: "0", keys: append([]string{"à"}, frenchRow[:9]...), shown: "= &…à", help: "after =: the same row of a French keyboard",
})

// gameNews says where a recorded delivery has begun a game or ended one, "" where neither.
func (a *App) gameNews(step model.Step) string {
	id := step.Action.Student
	sheet, name := a.evening.Sheet(id), a.evening.Label(id)
	if sheet == nil {
		return ""
	}
	if sheet.Finished() {
		words := fmt.Sprintf("%s of %s is over", a.evening.TitleOf(sheet.Game), name)
		if sheet.Game.Kind == model.KindGame {
			return fmt.Sprintf("%s, %d: the next call begins the next game", words, sheet.Tally.Score)
		}
		return words + ": the next call begins it again, G something else"
	}
	for _, c := range step.Changes {
		if g, ok := c.After.(model.Game); ok && c.Before == nil && g.Number > 1 {
			return fmt.Sprintf("%s has begun %s", name, a.evening.TitleOf(g))
		}
	}
	return ""
}
