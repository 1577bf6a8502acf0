package tui

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"coach.settee/model"
)

// wordKeys open prompts.
var wordKeys = table{
	{
		keys: []string{"O"}, group: groupWords, help: "the student's own call: A, B+ and so on; empty takes it off",
		lines: 1, refused: nobody, act: func(a *App, _ string) { a.askForOwnCall() },
	},
	{
		keys: []string{"C"}, group: groupWords, help: "cue, from the next delivery on; empty clears it",
		hints: map[moment]string{momentFullRack: "cue", momentSpareShot: "cue"},
		lines: 1, refused: nobody, act: func(a *App, _ string) { a.askForCue() },
	},
	{
		keys: []string{"N"}, group: groupWords, help: "a note on the delivery; empty takes it off",
		lines: 1, refused: nobody, act: func(a *App, _ string) { a.askForNote() },
	},
	{
		keys: []string{"L"}, group: groupWords,
		help: "line: arrows, slide, breakpoint (8@43 gives the feet), speed, each optional from the right; . keeps the last on " +
			"this lane, a signed number is the hit in boards",
		lines: 1, refused: nobody, act: func(a *App, _ string) { a.askForLine() },
	},
	{
		keys: []string{"Z"}, group: groupWords, help: "catch up: missed balls as the overhead shows them (9/ 43 X), all unseen",
		lines: 1, refused: begunOrReopened, act: func(a *App, _ string) { a.askForMissed() },
	},
	{
		keys: []string{"A"}, group: groupWords, help: "add a student to the pair: name, average, l for left-handed",
		hints: map[moment]string{momentNobody: "add a student"}, lines: 1,
		act: func(a *App, _ string) { a.askForNewcomer() },
	},
	{
		keys: []string{"G"}, group: groupWords,
		help: "begin: empty the same again, g game, w warm-up, 10 a drill of ten with a name and pins (10 corner 10); " +
			"an unfinished game is stopped, with a reason",
		hints:   map[moment]string{momentFree: "game or drill", momentFullRack: "game or drill"},
		lines:   2,
		refused: begunOrReopened, act: func(a *App, _ string) { a.askForPlan() },
	},
}

// spokenOf names the delivery that a prompt is about.
func (a *App) spokenOf() string {
	edit, open := a.inHand().Editing()
	switch {
	case !open:
		return a.inHand().Label(a.inHand().UpStudent())
	case edit.Rack.Frame > 0:
		return fmt.Sprintf("%s, frame %d", a.inHand().Label(edit.Student), edit.Rack.Frame)
	}
	return a.inHand().Label(edit.Student) + ", the open delivery"
}

// now gives a label's words for what is in force, "" for nothing.
func now(text string) string {
	if text == "" {
		return ""
	}
	return " (now " + text + ")"
}

func (a *App) askForOwnCall() {
	a.ask("own call of "+a.spokenOf()+now(a.inHand().Call().Own.String()), func(text string) error {
		if text == "" {
			return a.inHand().SetOwn(model.Ungraded)
		}
		grade, err := model.ParseShotGrade(strings.ToUpper(text))
		if err != nil {
			return err
		}
		return a.inHand().SetOwn(grade)
	})
}

func (a *App) askForCue() {
	edit, open := a.inHand().Editing()
	was := edit.Cue
	if !open {
		seat, _ := a.inHand().SeatOf(a.inHand().UpStudent())
		was = seat.Cue
	}
	a.askAmong("cue for "+a.spokenOf()+now(was), a.cueSuggester(), func(text string) error {
		if text == was {
			a.say("the cue is as it was")
			return nil
		}
		return a.done(a.inHand().SetCue(text))
	})
}

func (a *App) askForNote() {
	a.ask("note for "+a.spokenOf()+now(a.inHand().Call().Note), a.inHand().SetNote)
}

func (a *App) askForLine() {
	a.ask("line of "+a.spokenOf()+": arrows slide breakpoint speed", func(text string) error {
		if text == "" {
			return errors.New("nothing typed: 17 34 8@43 16.5, or esc")
		}
		return a.inHand().SetLine(text)
	})
}

func (a *App) askForMissed() {
	a.ask("missed balls of "+a.spokenOf()+", as the overhead shows them", func(text string) error {
		step, err := a.evening.CatchUp(a.conf.Now(), text)
		if err := a.done(step, err); err != nil {
			return err
		}
		a.say(a.news(step))
		return nil
	})
}

func (a *App) askForNewcomer() {
	pair := a.evening.PairInView()
	a.askAmong(fmt.Sprintf("student on %s: name, average, l for left-handed", pair), a.suggestNewcomers, func(text string) error {
		return a.seat(text, pair)
	})
}

// knownStudents gives the students who are kept, in order of their ids.
func (a *App) knownStudents() []model.Student {
	return slices.SortedFunc(maps.Values(a.students), func(x, y model.Student) int { return cmp.Compare(x.ID, y.ID) })
}

func (a *App) askForPlan() {
	last := a.evening.LastPlan()
	label := fmt.Sprintf("begin for %s: g game, w warm-up, 10 a drill of ten", a.evening.Label(a.evening.UpStudent()))
	a.ask(label, func(text string) error {
		plan, err := model.ParsePlan(text, last)
		if err != nil {
			return err
		}
		if !a.evening.Unfinished() {
			return a.begin(plan, "")
		}
		title := a.evening.TitleOf(a.evening.Sheet(a.evening.UpStudent()).Game)
		a.ask(title+" is unfinished: why is it stopped", func(reason string) error { return a.begin(plan, reason) })
		return nil
	})
}

func (a *App) begin(plan model.Plan, reason string) error {
	return a.done(a.evening.Begin(plan, reason))
}
