package tui

import (
	"slices"
	"strings"

	"coach.settee/model"
)

// cueSuggester gives what completes a cue that is typed: first those of the book, then those of the evening.
func (a *App) cueSuggester() func(text string) []string {
	tonight := cuesSaid(a.inHand())
	return func(text string) []string {
		if text == "" {
			return nil
		}
		var out []string
		for _, c := range slices.Concat(model.CueMatching(a.cues.book, text), model.CueMatching(tonight, text)) {
			if !slices.ContainsFunc(out, func(s string) bool { return strings.EqualFold(s, c.Text) }) {
				out = append(out, c.Text)
			}
		}
		return out
	}
}

// cuesSaid gives the cues of an evening, each once, as if they were in a book.
func cuesSaid(e *model.Evening) []model.Cue {
	var cues []model.Cue
	add := func(text string) {
		if text != "" && !slices.ContainsFunc(cues, func(c model.Cue) bool { return c.Text == text }) {
			cues = append(cues, model.Cue{Text: text})
		}
	}
	for _, seat := range e.Seats() {
		add(seat.Cue)
		for _, sheet := range e.Sheets(seat.Student) {
			for _, d := range sheet.Deliveries {
				add(d.Cue)
			}
		}
	}
	return cues
}

// suggestHere gives the students of the evening in hand whose name a text may mean.
func (a *App) suggestHere(text string) []string {
	if text == "" {
		return nil
	}
	var here []model.Student
	for _, seat := range a.inHand().Seats() {
		here = append(here, a.inHand().Student(seat.Student))
	}
	var out []string
	for _, s := range model.FindStudents(here, text, true) {
		out = append(out, a.inHand().Label(s.ID))
	}
	return out
}

// suggestNewcomers gives the students who may join the evening and whose label a text may mean.
func (a *App) suggestNewcomers(text string) []string {
	if text == "" {
		return nil
	}
	known := a.activeStudents()
	var out []string
	for _, s := range model.FindStudents(known, text, false) {
		if _, here := a.evening.SeatOf(s.ID); !here {
			out = append(out, model.LabelAmong(s, known))
		}
	}
	return out
}

// activeStudents gives the students who are kept and not archived, in order of their ids.
func (a *App) activeStudents() []model.Student {
	return slices.DeleteFunc(a.knownStudents(), func(s model.Student) bool { return s.Archived })
}
