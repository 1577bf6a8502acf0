package tui

import (
	"fmt"
	"slices"

	"coach.settee/model"
)

// readBook reads the book of cues.
func (a *App) readBook() error {
	book, err := a.conf.Store.Cues()
	if err != nil {
		return fmt.Errorf("the book of cues cannot be read: %w", err)
	}
	a.cues.book = book
	a.cues.arrange()
	return nil
}

// hold takes in what a cue of the book has become; now is nil for one that is gone.
func (s *cuesScreen) hold(id model.ID, now model.Record) {
	s.book = slices.DeleteFunc(s.book, func(c model.Cue) bool { return c.ID == id })
	if c, ok := now.(model.Cue); ok {
		s.book = append(s.book, c)
	}
	s.arrange()
}

// isNew refuses a cue that is in the book on its axis already, under another id than its own.
func (s *cuesScreen) isNew(c model.Cue) error {
	if twin, there := c.TwinIn(s.book); there {
		return fmt.Errorf("%s is in the book already", cueWords(twin))
	}
	return nil
}

func (a *App) askForNewCue() {
	a.ask("cue: the axis (b t r f), then its words, as r soft hand", func(text string) error {
		c, err := model.ParseCue(text)
		if err != nil {
			return err
		}
		return a.addCue(c)
	})
}

// addCue puts a cue into the book, without an id yet, and marks it.
func (a *App) addCue(c model.Cue) error {
	if err := a.cues.isNew(c); err != nil {
		return err
	}
	c.ID = a.conf.NewID()
	what := "cue added: " + cueWords(c)
	if err := a.changeBook(what, model.Change{Ref: c.Ref(), After: c}); err != nil {
		return err
	}
	a.cues.mark(c)
	return nil
}

func (a *App) askToChangeCue() {
	row, _ := a.cues.marked()
	was := row.Cue
	a.askWith("axis and words", axisKeys[was.Axis]+" "+was.Text, func(text string) error {
		c, err := model.ParseCue(text)
		if err != nil {
			return err
		}
		c.ID = was.ID
		if c == was {
			a.say("the cue is as it was")
			return nil
		}
		if err := a.cues.isNew(c); err != nil {
			return err
		}
		what := fmt.Sprintf("cue changed: %s, was %s", cueWords(c), cueWords(was))
		if err := a.changeBook(what, model.Change{Ref: c.Ref(), Before: was, After: c}); err != nil {
			return err
		}
		a.cues.mark(c)
		return nil
	})
}

func (a *App) askToTakeCueIn() {
	row, _ := a.cues.marked()
	a.ask(fmt.Sprintf("axis of %q: b t r f", clean(row.Text)), func(text string) error {
		axis, err := model.ParseCueAxis(text)
		if err != nil {
			return err
		}
		return a.addCue(model.Cue{Axis: axis, Text: row.Text})
	})
}

func (a *App) takeCueOut() {
	row, _ := a.cues.marked()
	if err := a.changeBook("cue taken out: "+cueWords(row.Cue), model.Change{Ref: row.Ref(), Before: row.Cue}); err != nil {
		a.refuse(err)
	}
}

func (a *App) askToEmptyBook() {
	all := plural(len(a.cues.book), "cue", "cues")
	a.confirm(fmt.Sprintf("take all %s out of the book? y takes them out, any other key does not", all), func() {
		var changes []model.Change
		for _, c := range a.cues.book {
			changes = append(changes, model.Change{Ref: c.Ref(), Before: c})
		}
		if err := a.changeBook("book of cues emptied", changes...); err != nil {
			a.refuse(err)
		}
	})
}

func (a *App) putStartingCuesIn() {
	var changes []model.Change
	for _, c := range model.StartingCues(a.conf.NewID) {
		changes = append(changes, model.Change{Ref: c.Ref(), After: c})
	}
	if err := a.changeBook("starting set put into the book", changes...); err != nil {
		a.refuse(err)
		return
	}
	a.cues.at = 0
}

// changeBook makes changes of the book as one and says what was done.
func (a *App) changeBook(what string, changes ...model.Change) error {
	step, err := a.desk.ChangeAll(changes, what)
	if err := a.done(step, err); err != nil {
		return err
	}
	a.say(what)
	return nil
}

// useCue gives the cue marked to the student who is up, or to the delivery that is open.
func (a *App) useCue() {
	row, _ := a.cues.marked()
	if a.tell(a.evening.SetCue(row.Text)) {
		a.say(fmt.Sprintf("cue for %s: %s", a.spokenOf(), clean(row.Text)))
	}
}
