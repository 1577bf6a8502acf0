package tui

import (
	"fmt"
	"strings"

	"coach.settee/model"
)

// askToReframe asks before a correction is kept that takes balls out of a frame, and then for those that it is short of.
func (a *App) askToReframe(r *model.Reframing) {
	if len(r.Gone) == 0 {
		a.askForMissing(r)
		return
	}
	a.confirm(goneWords(a.inHand().SheetOf(r.Game), r), func() {
		if r.Finds.Ball != 0 {
			a.askForMissing(r)
			return
		}
		if err := a.reframe(r, ""); err != nil {
			a.refuse(err)
		}
	})
}

// askForMissing asks for the balls that a frame is short of; to drop it leaves the delivery open.
func (a *App) askForMissing(r *model.Reframing) {
	a.ask(missingWords(r), func(text string) error { return a.reframe(r, text) })
}

// reframe keeps a correction that was asked about, and says what it has changed.
func (a *App) reframe(r *model.Reframing, missing string) error {
	return a.correction(func() (model.Step, error) { return a.inHand().Reframe(r, missing) })
}

// correction keeps what was changed of the delivery that is open, and says what that was.
func (a *App) correction(keep func() (model.Step, error)) error {
	e := a.inHand()
	edit, _ := e.Editing()
	before := e.SheetOf(edit.Game)
	step, err := keep()
	if err := a.done(step, err); err != nil {
		return err
	}
	a.say(changeWords(before, e.SheetOf(edit.Game), edit.Delivery))
	return nil
}

// places names the balls of a frame.
var places = [...]string{"", "first", "second", "third"}

// goneWords asks whether a frame's balls are to go that can no longer be.
func goneWords(x *model.Sheet, r *model.Reframing) string {
	var balls []string
	for _, d := range r.Gone {
		if d.Dead {
			balls = append(balls, "a dead ball")
			continue
		}
		told := []string{fallWords(x, d)}
		switch {
		case !d.Seen:
			told = append(told, "unseen")
		case d.Good():
			told = append(told, d.Grade().String(), "good")
		default:
			told = append(told, d.Grade().String())
		}
		balls = append(balls, fmt.Sprintf("its %s ball (%s)", places[d.Ball], strings.Join(told, ", ")))
	}
	goes := "goes too"
	if len(balls) > 1 {
		goes = "go too"
	}
	words := fmt.Sprintf("frame %d is then over", r.Frame)
	if !r.Over {
		words = fmt.Sprintf("frame %d is then another", r.Frame)
	}
	return fmt.Sprintf("%s: %s %s: y, any other key does not", words, strings.Join(balls, " and "), goes)
}

// missingWords asks for the balls that a frame is short of.
func missingWords(r *model.Reframing) string {
	signs := "/ - or 1-9"
	switch f := r.Finds; {
	case f.Full && f.Ball == 2:
		return fmt.Sprintf("frame %d needs its second and its third ball: X - or 1-9, then / too", r.Frame)
	case f.Full:
		signs = "X - or 1-9"
	case f.Count == 1:
		signs = "/ or -"
	case f.Count < 10:
		signs = fmt.Sprintf("/ - or 1-%d", f.Count-1)
	}
	words := fmt.Sprintf("frame %d needs its %s ball: %s", r.Frame, places[r.Finds.Ball], signs)
	if r.Frame == 10 && r.Finds.Ball == 2 {
		words += "; after / its third too"
	}
	return words
}
