package model

import (
	"cmp"
	"slices"
	"strings"
)

// StartingCues gives the cues that a new book begins with, in our own neutral words, a few an axis.
func StartingCues(newID func() ID) []Cue {
	var cues []Cue
	for _, a := range Axes {
		for _, text := range startingCues[a] {
			cues = append(cues, Cue{ID: newID(), Axis: a, Text: text})
		}
	}
	return cues
}

var startingCues = [AxisCount][3]string{
	Balance: {"easy first step", "head stays level", "let the ball swing"},
	Target:  {"eyes on the arrow", "watch it roll over the arrow", "walk to the target"},
	Release: {"soft hand", "stay behind the ball", "quiet wrist"},
	Finish:  {"hold until the arrows", "hand goes on to the target", "shoulders stay still"},
}

// CueMatching gives the cues of a book that begin with or hold the text, by axis and then by text, those that begin with it
// first; all of them for "". Case and accents do not matter.
func CueMatching(book []Cue, text string) []Cue {
	typed := folded(strings.TrimSpace(text))
	var begun, holding []Cue
	for _, c := range book {
		switch of := folded(c.Text); {
		case strings.HasPrefix(of, typed):
			begun = append(begun, c)
		case strings.Contains(of, typed):
			holding = append(holding, c)
		}
	}
	for _, cues := range [][]Cue{begun, holding} {
		slices.SortFunc(cues, func(a, b Cue) int {
			return cmp.Or(cmp.Compare(a.Axis, b.Axis), cmp.Compare(folded(a.Text), folded(b.Text)), cmp.Compare(a.ID, b.ID))
		})
	}
	return slices.Concat(begun, holding)
}
