package tui

import (
	"fmt"
	"slices"
	"strings"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// cuesScreen is the coach's book of cues by axis, with how each went over the last evenings, and what was said there that
// is not in the book.
type cuesScreen struct {
	bindings table
	// book is what is kept, by axis and text, effects how cues went.
	book    []model.Cue
	effects []insight.CueEffect
	// asked numbers the readings of the effects, heard is the last that has come; shown tells that the screen is open.
	asked, heard int
	shown        bool
	rows         []cueRow
	at           int
}

// cueRow is a cue of the book, or one that was said and is not in it: then it has no id.
type cueRow struct {
	model.Cue
	// effect is how it went, said whether it was said at all in the games of the last evenings.
	effect insight.CueEffect
	said   bool
}

func (r cueRow) inBook() bool { return r.ID != "" }

func newCuesScreen() *cuesScreen { return &cuesScreen{bindings: slices.Concat(bookKeys, cueWalkKeys)} }

func (s *cuesScreen) title() string  { return "Cues" }
func (s *cuesScreen) about() string  { return "the coach's book of cues, and how they went" }
func (s *cuesScreen) letter() string { return "c" }
func (s *cuesScreen) table() table   { return s.bindings }

func (s *cuesScreen) moment(*App) moment { return momentCues }

// arrange makes the rows anew, and keeps the mark on the cue that it was on, or else at its place.
func (s *cuesScreen) arrange() {
	was, marked := s.marked()
	s.rows = s.rows[:0]
	told := map[string]bool{}
	for _, c := range model.CueMatching(s.book, "") {
		row := cueRow{Cue: c}
		if row.effect, row.said = s.effectOf(c.Text); row.said {
			told[row.effect.Cue] = true
		}
		s.rows = append(s.rows, row)
	}
	for _, e := range s.effects {
		if !told[e.Cue] {
			s.rows = append(s.rows, cueRow{Cue: model.Cue{Text: e.Cue}, effect: e, said: true})
		}
	}
	s.at = inList(s.at, len(s.rows))
	if marked {
		s.mark(was.Cue)
	}
}

// effectOf gives how a cue went, or else one that differs from it in capitals only.
func (s *cuesScreen) effectOf(text string) (insight.CueEffect, bool) {
	for _, same := range []func(string) bool{
		func(said string) bool { return said == text }, func(said string) bool { return strings.EqualFold(said, text) },
	} {
		if i := slices.IndexFunc(s.effects, func(e insight.CueEffect) bool { return same(e.Cue) }); i >= 0 {
			return s.effects[i], true
		}
	}
	return insight.CueEffect{}, false
}

// marked gives the row that the keys speak of; false where there is none.
func (s *cuesScreen) marked() (cueRow, bool) {
	if s.at >= len(s.rows) {
		return cueRow{}, false
	}
	return s.rows[s.at], true
}

// mark marks a cue, wherever its row is now; one that is not there leaves the mark where it is.
func (s *cuesScreen) mark(c model.Cue) {
	at := slices.IndexFunc(s.rows, func(r cueRow) bool { return r.ID == c.ID && (c.ID != "" || r.Text == c.Text) })
	if at >= 0 {
		s.at = at
	}
}

// move moves the mark by some rows.
func (s *cuesScreen) move(by int) { s.at = inList(s.at+by, len(s.rows)) }

// noCue refuses a key that speaks of the cue marked where there is none.
func noCue(a *App) string {
	if _, ok := a.cues.marked(); !ok {
		return "the book is empty: a adds a cue, S puts in the starting set"
	}
	return ""
}

// notInBook refuses a key that speaks of a cue of the book.
func notInBook(a *App) string {
	if row, ok := a.cues.marked(); ok && !row.inBook() {
		return "that cue was said but is not in the book: t takes it in"
	}
	return noCue(a)
}

// bookKeys change the book and use it.
var bookKeys = table{
	{
		keys: []string{"a"}, group: groupCues, help: "add a cue: the axis (b, t, r or f), then its words, as r soft hand",
		hints: map[moment]string{momentCues: "add"}, lines: 1,
		act: func(a *App, _ string) { a.askForNewCue() },
	},
	{
		keys: []string{"enter", "ctrl+j"}, shown: "enter", group: groupCues, help: "change the words of the cue marked, or its axis",
		hints: map[moment]string{momentCues: "change"}, lines: 1, refused: notInBook,
		act: func(a *App, _ string) { a.askToChangeCue() },
	},
	{
		keys: []string{"t"}, group: groupCues, help: "take a cue that was said into the book: the axis",
		hints: map[moment]string{momentCues: "take in"}, lines: 1,
		refused: func(a *App) string {
			if row, ok := a.cues.marked(); ok && row.inBook() {
				return "that cue is in the book already"
			}
			return noCue(a)
		},
		act: func(a *App, _ string) { a.askToTakeCueIn() },
	},
	{
		keys: []string{"D"}, group: groupCues, help: "take the cue marked out of the book",
		hints: map[moment]string{momentCues: "take out"}, refused: notInBook,
		act: func(a *App, _ string) { a.takeCueOut() },
	},
	{
		keys: []string{"u"}, group: groupCues, help: "use the cue marked for the student who is up, as C does on the board",
		hints: map[moment]string{momentCues: "use"},
		refused: func(a *App) string {
			switch {
			case noCue(a) != "":
				return noCue(a)
			case a.evening == nil:
				return errNoEvening.Error()
			}
			return nobody(a)
		},
		act: func(a *App, _ string) { a.useCue() },
	},
	{
		keys: []string{"S"}, group: groupCues, help: "put the starting set into an empty book",
		refused: func(a *App) string {
			if len(a.cues.book) > 0 {
				return "there are cues in the book: E empties it first"
			}
			return ""
		},
		act: func(a *App, _ string) { a.putStartingCuesIn() },
	},
	{
		keys: []string{"E"}, group: groupCues, help: "empty the book; asks first",
		refused: func(a *App) string {
			if len(a.cues.book) == 0 {
				return "the book is empty already"
			}
			return ""
		},
		act: func(a *App, _ string) { a.askToEmptyBook() },
	},
	{
		keys: []string{"backspace", "ctrl+h"}, shown: "backspace", group: groupCues,
		help:  "take back the last change of the book or of a student's record, again and again",
		hints: map[moment]string{momentCues: "undo"},
		act:   func(a *App, _ string) { a.deskUndo() },
	},
	{
		keys: []string{"U"}, group: groupCues, help: "do again what was taken back",
		act: func(a *App, _ string) { a.deskRedo() },
	},
	{
		keys: []string{"esc"}, group: groupCues, help: "back to the board",
		hints: map[moment]string{momentCues: "board"},
		act:   func(a *App, _ string) { a.show(a.board) },
	},
}

// cueWalkKeys move the mark.
var cueWalkKeys = table{
	{
		keys: []string{"up", "down"}, group: groupCues, help: "mark the cue before, after",
		refused: noCue, act: func(a *App, key string) { a.cues.move(walked(key, 0)) },
	},
	{
		keys: []string{"pgup", "pgdown", "home", "end"}, group: groupCues, help: "a page back or on, the first, the last cue",
		refused: noCue,
		act:     func(a *App, key string) { a.cues.move(walked(key, max(a.bodyHeight()-cueFoot-1, 1))) },
	},
}

// cueWords names a cue with its axis.
func cueWords(c model.Cue) string { return fmt.Sprintf("%s (%s)", clean(c.Text), c.Axis) }
