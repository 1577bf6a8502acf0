package tui

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"coach.settee/model"
	"coach.settee/model/handout"
)

// closingScreen is the checklist at the end of an evening: a line a student with what came about and what is missing, and
// the keys that fill it in.
type closingScreen struct {
	bindings table
	// marked is the student that the keys speak of.
	marked model.ID
	// overhead holds the totals that the overhead shows, as they were typed, of the evening named.
	evening  model.ID
	overhead map[model.ID]string
}

func newClosing() *closingScreen {
	return &closingScreen{bindings: closingKeys, overhead: map[model.ID]string{}}
}

func (s *closingScreen) title() string            { return "Closing" }
func (s *closingScreen) about() string            { return "what is missing before all go home" }
func (s *closingScreen) letter() string           { return "" }
func (s *closingScreen) table() table             { return s.bindings }
func (s *closingScreen) moment(*App) moment       { return momentClosing }
func (s *closingScreen) place(l closingLines) int { return max(l.index(s.marked), 0) }

// closingLines are the lines of the checklist.
type closingLines []model.ClosingLine

func (l closingLines) index(student model.ID) int {
	return slices.IndexFunc(l, func(x model.ClosingLine) bool { return x.Student == student })
}

// askToClose opens the checklist, with the student marked whom the coach has marked on the evening's screen, else the first.
func (a *App) askToClose() {
	if id := a.evening.Session().ID; a.closing.evening != id {
		a.closing.evening = id
		clear(a.closing.overhead)
	}
	a.closing.marked = a.session.marked
	a.show(a.closing)
}

// line gives the line of the student who is marked, the first where the mark is gone; false where nobody is here.
func (s *closingScreen) line(a *App) (model.ClosingLine, bool) {
	lines := closingLines(a.evening.Closing())
	if len(lines) == 0 {
		return model.ClosingLine{}, false
	}
	return lines[s.place(lines)], true
}

// mark marks the student a number of lines further down.
func (s *closingScreen) mark(a *App, by int) {
	lines := closingLines(a.evening.Closing())
	s.marked = lines[inList(s.place(lines)+by, len(lines))].Student
}

// nobodyToClose refuses a key that speaks of the student marked where there is none.
func nobodyToClose(a *App) string {
	if _, ok := a.closing.line(a); !ok {
		return "nobody is here: esc goes back to the evening, where s adds a student"
	}
	return ""
}

// closingKeys fill in what is missing, and close the evening.
var closingKeys = table{
	{
		keys: []string{"x", "y"}, group: groupClosing,
		help:  "close the evening; asks first where a game is unfinished, a total differs or something is not kept",
		hints: map[moment]string{momentClosing: "close"},
		act:   func(a *App, _ string) { a.closeOrAsk() },
	},
	{
		keys: []string{"w"}, group: groupClosing, help: "a sentence of your own for the page of the student marked; empty takes it off",
		hints: map[moment]string{momentClosing: "sentence"}, lines: 1, refused: nobodyToClose,
		act: closingPrompt("what you say to %s on the page", handout.MaxSentence, func(s model.Seat) string { return s.Sentence },
			(*model.Evening).SetSentence),
	},
	{
		keys: []string{"h"}, group: groupClosing, help: "homework: drill, count, days; empty takes it off",
		hints: map[moment]string{momentClosing: "homework"}, lines: 1, refused: nobodyToClose,
		act: closingPrompt("homework of %s: drill, count, days", handout.MaxHomework, func(s model.Seat) string { return s.Homework },
			(*model.Evening).SetHomework),
	},
	{
		keys: []string{"d", "D"}, group: groupClosing,
		help: "the day of the next meeting, D for all who have none, or else for everyone: tue, +7, 2 12 or 2026-12-02; " +
			"empty takes it off",
		hints: map[moment]string{momentClosing: "day"}, lines: 1, refused: nobodyToClose,
		act: func(a *App, key string) { a.askForNext(key == "D") },
	},
	{
		keys: []string{"t"}, group: groupClosing, help: "hold the totals that the overhead shows against the games here: 143 157",
		hints: map[moment]string{momentClosing: "totals"}, lines: 1, refused: nobodyToClose,
		act: func(a *App, _ string) { a.askForTotals() },
	},
	{
		keys: []string{"esc"}, group: groupClosing, help: "back to the evening, which stays open",
		hints: map[moment]string{momentClosing: "back"}, act: func(a *App, _ string) { a.show(a.session) },
	},
	{
		keys: []string{"up", "down"}, group: groupClosing, help: "mark the student before, after",
		hints: map[moment]string{momentClosing: "mark"}, refused: nobodyToClose,
		act: func(a *App, key string) { a.closing.mark(a, walked(key, 0)) },
	},
	{
		keys: []string{"enter", "ctrl+j"}, shown: "enter", group: groupClosing,
		help:    "nothing here: x closes the evening, esc goes back",
		refused: func(*App) string { return "x closes the evening, esc goes back" },
		act:     func(*App, string) {},
	},
	{
		keys: []string{"backspace", "ctrl+h"}, shown: "backspace", group: groupClosing, help: "take back the last action, as on the board",
		act: func(a *App, _ string) { a.undo() },
	},
	{
		keys: []string{"U"}, group: groupClosing, help: "do again what was taken back",
		act: func(a *App, _ string) { a.redo() },
	},
}

// closingPrompt asks for a text of the student marked, of as many characters as the page has room for.
func closingPrompt(
	label string, most int, has func(model.Seat) string, set func(*model.Evening, model.ID, string) (model.Step, error),
) func(*App, string) {
	return func(a *App, _ string) {
		line, _ := a.closing.line(a)
		a.askUpTo(most, fmt.Sprintf(label, a.evening.Label(line.Student))+now(has(line.Seat)), func(text string) error {
			return a.done(set(a.evening, line.Student, text))
		})
	}
}

// askForNext asks for the day of the next meeting of the student marked, or of all who have a seat.
func (a *App) askForNext(everyone bool) {
	line, _ := a.closing.line(a)
	whose, students := a.evening.Label(line.Student)+now(line.Seat.Next), []model.ID{line.Student}
	if everyone {
		whose, students = a.toMeetAgain()
	}
	if len(students) == 0 {
		a.refuseWith("nobody has a place in the evening any more: there is no next meeting to set")
		return
	}
	a.ask("next meeting of "+whose+": tue, +7, 2 12", func(text string) error {
		date, err := model.ParseDate(text, a.conf.Now())
		if err != nil {
			return err
		}
		if err := a.done(a.evening.SetNext(date, students...)); err != nil {
			return err
		}
		if everyone {
			a.say(fmt.Sprintf("next meeting of %s: %s", whose, cmp.Or(a.dayWords(date), "taken off")))
		}
		return nil
	})
}

// toMeetAgain gives those without a day for the next meeting, or everyone where all have one, with the words for them.
func (a *App) toMeetAgain() (whose string, students []model.ID) {
	var all []model.ID
	for _, seat := range a.evening.Seats() {
		all = append(all, seat.Student)
		if seat.Next == "" {
			students = append(students, seat.Student)
		}
	}
	switch n := len(students); {
	case n == 0:
		return fmt.Sprintf("everyone (%d)", len(all)), all
	case n == len(all):
		return fmt.Sprintf("everyone (%d)", n), students
	default:
		return plural(n, "student", "students") + " without one", students
	}
}

// askForTotals asks for what the overhead shows of the student marked; an empty line forgets it.
func (a *App) askForTotals() {
	line, _ := a.closing.line(a)
	name := a.evening.Label(line.Student)
	a.ask("totals of "+name+" on the overhead, game by game (143 157)", func(text string) error {
		if text == "" {
			delete(a.closing.overhead, line.Student)
			return nil
		}
		words, _, err := line.Against(text)
		if err != nil {
			return err
		}
		a.closing.overhead[line.Student] = text
		a.say(name + ": " + words)
		return nil
	})
}

// differs tells whether the totals typed are others than those of the games.
func (s *closingScreen) differs(l model.ClosingLine) bool {
	typed := s.overhead[l.Student]
	if typed == "" {
		return false
	}
	_, agree, err := l.Against(typed)
	return err != nil || !agree
}

// asks gives what is missing of a student in words, "" where nothing is.
func (s *closingScreen) asks(l model.ClosingLine) string {
	return clean(strings.Join(s.missing(l), ", "))
}

// asksWithKeys is asks with the key for each thing that a key puts right.
func (s *closingScreen) asksWithKeys(l model.ClosingLine) string {
	asks := s.missing(l)
	for i, words := range asks {
		if cure := closingCures[words]; cure != "" {
			asks[i] += " (" + cure + ")"
		}
	}
	return clean(strings.Join(asks, ", "))
}

// closingCures says by which key of the checklist or of the board something is no longer missing.
var closingCures = map[string]string{
	overheadDiffers: "t", "no homework": "h", "no date": "d", "no sentence": "w", "no cue": "board C",
	"no note": "board N",
}

const overheadDiffers = "overhead differs"

func (s *closingScreen) missing(l model.ClosingLine) []string {
	asks := l.Asks()
	if s.differs(l) {
		asks = slices.Insert(asks, 0, overheadDiffers)
	}
	return asks
}

// closeOrAsk closes the evening, or asks first where something speaks against it.
func (a *App) closeOrAsk() {
	if words := callBegun(a); words != "" {
		a.refuseWith(words)
		return
	}
	doubts := a.closingDoubts()
	if len(doubts) == 0 {
		a.closeEvening()
		return
	}
	a.confirm("close anyway? y closes, any other key does not. "+strings.Join(doubts, "; "), a.closeEvening)
}

func (a *App) closeEvening() {
	if a.tell(a.evening.Close(a.conf.Now())) {
		a.shutIfClosed()
	}
}

// closingDoubts gives what speaks against closing now.
func (a *App) closingDoubts() []string {
	var doubts, games, differing []string
	for _, line := range a.evening.Closing() {
		if a.closing.differs(line) {
			differing = append(differing, a.evening.Label(line.Student))
		}
		for _, g := range line.Games {
			if !g.Finished && !g.Stopped {
				games = append(games, a.evening.Label(line.Student)+" "+g.Title)
			}
		}
	}
	if len(games) > 0 {
		doubts = append(doubts, plural(len(games), "game", "games")+" unfinished: "+strings.Join(games, ", "))
	}
	if len(differing) > 0 {
		doubts = append(doubts, "totals differ for "+strings.Join(differing, ", "))
	}
	if n := len(a.ledger.waiting); n > 0 {
		doubts = append(doubts, plural(n, "step", "steps")+" not kept yet")
	}
	return doubts
}
