package tui

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"

	"coach.settee/model"
)

// stripTable gives the keys of the strip: its own, and those of the board that say something of a delivery.
func stripTable() table {
	t := slices.Clone(stripKeys)
	for _, b := range slices.Concat(pinKeys, shotKeys, wordKeys) {
		switch b.keys[0] {
		case "D", "Z", "A", "G", "enter":
		case "O", "C", "N", "L":
			t = append(t, correcting(b, nothingChosen))
		default:
			t = append(t, correcting(b, deadOrNothing))
		}
	}
	return slices.Concat(t, digitKeys, pageKeys, walkKeys)
}

// correcting makes a key of the board speak of the delivery selected.
func correcting(b binding, refused func(*App) string) binding {
	act := b.act
	hints := map[moment]string{}
	maps.Copy(hints, b.hints)
	if words := b.hints[momentFullRack]; words != "" && b.keys[0] != "x" {
		hints[momentStripOpen] = words
	}
	if b.keys[0] == axisKeys[0] {
		hints[momentStrip] = "correct"
	}
	b.hints, b.refused = hints, refused
	b.act = func(a *App, key string) { a.strip.correct(a, func() { act(a, key) }) }
	return b
}

// nothingChosen refuses a key that speaks of the delivery selected where none is in view.
func nothingChosen(a *App) string {
	switch _, _, ok := a.strip.chosen(); {
	case !ok:
		return "nothing is bowled here: there is no delivery to correct"
	case a.strip.page != pageStrip || a.strip.numbers:
		return "esc shows the strip again: there this key corrects a delivery"
	}
	return ""
}

func deadOrNothing(a *App) string {
	if d, _, ok := a.strip.chosen(); ok && d.Dead && nothingChosen(a) == "" {
		return "this was a dead ball: it has no letters and no pins to correct"
	}
	return nothingChosen(a)
}

// correct has a key of the board act on the delivery selected, which it opens, and says what came of it.
func (s *stripScreen) correct(a *App, act func()) {
	_, was := s.evening.Editing()
	if !was {
		if err := s.evening.ReopenDelivery(s.game, s.delivery); err != nil {
			a.refuse(err)
			return
		}
	}
	act()
	edit, open := s.evening.Editing()
	waits := a.prompt != nil || a.question != nil || a.board.counting
	switch {
	case open && !was && !edit.Changed() && !waits:
		s.evening.Leave()
	case open && !was && !waits && a.status.words == "":
		a.say(s.openWords())
	}
}

func (s *stripScreen) openWords() string {
	return s.spokenOf() + " is open"
}

// spokenOf names the delivery selected.
func (s *stripScreen) spokenOf() string {
	if d, _, ok := s.chosen(); ok {
		return nameOf(d)
	}
	return "the delivery"
}

// stripKeys open and leave a delivery, and take back.
var stripKeys = table{
	{
		keys: []string{"enter", "ctrl+j"}, shown: "enter", group: groupStrip,
		help:    "open the delivery selected to correct it, as the board's keys do at once; with one open keep the change",
		hints:   map[moment]string{momentStripOpen: "keeps"},
		refused: nothingChosen, act: func(a *App, _ string) { a.strip.enter(a) },
	},
	{
		keys: []string{"esc"}, group: groupStrip,
		help:  "leave an open delivery as it was, or from figures back to the strip, or else back to the board",
		hints: map[moment]string{momentStripOpen: "leaves it", momentFigures: "back", momentNumbers: "back", momentStrip: "board"},
		act:   func(a *App, _ string) { a.strip.escape(a) },
	},
	{
		keys: []string{"backspace", "ctrl+h"}, shown: "backspace", group: groupStrip,
		help: "take back the last action of the evening gone over; of an evening that is past only corrections",
		act:  func(a *App, _ string) { a.strip.undo(a) },
	},
	{
		keys: []string{"U"}, group: groupStrip, help: "do again what was taken back",
		act: func(a *App, _ string) { a.strip.redo(a) },
	},
	{
		keys: []string{"D", "Z", "A", "G", "W", "P", "V", ",", "space"}, group: groupStrip, help: "are the board's: esc goes back to it",
		refused: func(*App) string { return "that key is the board's: esc goes back to it" },
		act:     func(*App, string) {},
	},
}

func (s *stripScreen) enter(a *App) {
	_, was := s.evening.Editing()
	if was {
		s.correct(a, func() {
			records(func(a *App, _ string) (model.Step, error) { return a.inHand().RecordNamed(a.conf.Now()) })(a, "enter")
		})
		return
	}
	if err := s.evening.ReopenDelivery(s.game, s.delivery); err != nil {
		a.refuse(err)
		return
	}
	a.say(s.openWords())
}

func (s *stripScreen) escape(a *App) {
	switch {
	case s.evening.Leave():
		a.say("the delivery is left as it was")
	case s.numbers:
		s.toggleNumbers()
	case s.page != pageStrip:
		s.page, s.top = pageStrip, 0
	default:
		a.show(a.board)
	}
}

// undo takes back the last action of the evening in hand; of one that is not tonight's only corrections, since more than
// that would open it again.
func (s *stripScreen) undo(a *App) {
	last, ok := s.evening.Last()
	if s.evening != a.evening && (!ok || !isCorrection(last)) {
		a.refuse(errors.New("only corrections made since the evening was closed are taken back"))
		return
	}
	a.undo()
	s.follow(last)
}

// redo does again what was taken back in the evening in hand.
func (s *stripScreen) redo(a *App) {
	if !a.tell(s.evening.Redo()) {
		return
	}
	last, _ := s.evening.Last()
	a.say("done again: " + s.evening.Describe(last))
	s.follow(last)
	if s.evening == a.evening {
		a.shutIfClosed()
	}
}

// isCorrection tells whether an action changed deliveries that were there, or handed them to another student, and neither
// the evening nor a student.
func isCorrection(last model.Action) bool {
	changed := false
	for _, c := range last.Changes {
		switch c.Ref.Kind {
		case model.DeliveryRecord:
			changed = changed || c.Before != nil && c.After != nil
		case model.GameRecord:
		default:
			return false
		}
	}
	return changed && last.How == model.NotRecorded
}

// follow selects the delivery that an action was about, where it is there.
func (s *stripScreen) follow(last model.Action) {
	for _, c := range last.Changes {
		if c.Ref.Kind == model.DeliveryRecord {
			s.delivery = c.Ref.ID
			break
		}
	}
	s.settle()
}

// pageKeys turn to figures.
var pageKeys = table{
	{
		keys: []string{"m"}, group: groupStrip,
		help:  "the figures of this game, of the evening, of the last games, and back to the strip",
		hints: map[moment]string{momentStrip: "figures", momentFigures: "more", momentNumbers: "more"},
		act: func(a *App, _ string) {
			if a.strip.mayGo(a) {
				a.strip.page = (a.strip.page + 1) % pageCount
				if a.strip.numbers && a.strip.page == pageGame {
					// The numbers of the strip are those of the game already.
					a.strip.page++
				}
				a.strip.top = 0
			}
		},
	},
	{
		keys: []string{"n"}, group: groupStrip, help: "how many last games the figures are over", lines: 1,
		act: func(a *App, _ string) { a.strip.askForGames(a) },
	},
	{
		keys: []string{"k"}, group: groupStrip, help: "every figure, with what only a statistician reads; again back to where it was pressed",
		hints: map[moment]string{momentFigures: "numbers", momentNumbers: "short"},
		act: func(a *App, _ string) {
			if a.strip.mayGo(a) {
				a.strip.toggleNumbers()
			}
		},
	},
	{
		keys: []string{"v"}, group: groupStrip, help: "the student's view: that student alone; again the coach's",
		hints: map[moment]string{momentStrip: "student"},
		act: func(a *App, _ string) {
			if a.strip.mayGo(a) {
				a.strip.shielded, a.strip.top = true, 0
			}
		},
	},
	{
		keys: []string{"w"}, group: groupStrip, help: "what the student works on next, if not what the figures say; empty leaves it to them",
		lines: 1,
		act:   func(a *App, _ string) { a.strip.askForFocus(a) },
	},
}

// toggleNumbers shows every figure of the page, or again what was shown before.
func (s *stripScreen) toggleNumbers() {
	s.numbers = !s.numbers
	s.top, s.topBefore = s.topBefore, s.top
	if s.numbers {
		s.top = 0
	}
}

// studentKeys are the keys while the screen is turned to the student.
var studentKeys = table{
	{
		keys: []string{"v", "esc"}, group: groupStrip, help: "back to the coach's view",
		hints: map[moment]string{momentStudent: "back"},
		act:   func(a *App, _ string) { a.strip.unshield(a) },
	},
	{
		keys: []string{"up", "down", "left", "right"}, shown: "arrows", group: groupStrip, help: "the shots and the games",
		hints: map[moment]string{momentStudent: "games"},
		act: func(a *App, key string) {
			switch key {
			case "left":
				a.strip.turn(a, -1)
			case "right":
				a.strip.turn(a, 1)
			default:
				a.strip.walk(a, key)
			}
		},
	},
	{
		keys: []string{"pgup", "pgdown"}, shown: "pgup pgdn", group: groupStrip, help: "the lines that do not fit",
		act: func(a *App, key string) { a.strip.walk(a, key) },
	},
}

// lastGames is how many games the figures of the last games are over until the coach says otherwise, mostGames the most.
const lastGames, mostGames = 10, 200

func (s *stripScreen) askForGames(a *App) {
	a.ask(fmt.Sprintf("how many last games (1 to %d, now %d)", mostGames, s.figures.n), func(text string) error {
		n, err := strconv.Atoi(text)
		if err != nil || n < 1 || n > mostGames {
			return fmt.Errorf("%q: give a number from 1 to %d", text, mostGames)
		}
		s.figures.n, s.page, s.top = n, pageLast, 0
		return nil
	})
}

// askForFocus asks what a student works on next. It is kept in tonight's evening where the student is here, else in the
// one in hand; evenings read before have the student as was, and are read anew.
func (s *stripScreen) askForFocus(a *App) {
	if s.student == "" {
		a.refuse(errors.New("nobody is here: A on the board adds a student"))
		return
	}
	e := s.evening
	if a.evening != nil && a.evening.Student(s.student).ID == s.student {
		e = a.evening
	}
	label := fmt.Sprintf("%s works on (empty: %s, as the figures say)", s.evening.Label(s.student), s.figuresSay(a))
	a.ask(label, func(text string) error {
		if err := a.done(e.SetFocus(s.student, text)); err != nil {
			return err
		}
		for id, x := range s.past {
			if x != e && x != s.evening {
				delete(s.past, id)
			}
		}
		return nil
	})
}
