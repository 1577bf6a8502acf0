package model

import (
	"cmp"
	"errors"
	"fmt"
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

// ParseCue reads a cue as it is typed: the axis as ParseCueAxis takes it, then the words.
func ParseCue(text string) (Cue, error) {
	first, words, _ := strings.Cut(strings.Join(strings.Fields(text), " "), " ")
	if first == "" {
		return Cue{}, errors.New("nothing typed: r soft hand, or esc")
	}
	axis, err := ParseCueAxis(first)
	switch {
	case err != nil:
		return Cue{}, err
	case words == "":
		return Cue{}, errors.New("the words of the cue come after the axis: r soft hand")
	}
	return Cue{Axis: axis, Text: words}, nil
}

// ParseCueAxis reads the axis of a cue: its first letter or its name, whatever the case.
func ParseCueAxis(text string) (Axis, error) {
	for _, a := range Axes {
		if strings.EqualFold(text, a.String()) || strings.EqualFold(text, a.String()[:1]) {
			return a, nil
		}
	}
	return 0, fmt.Errorf("%q is no axis: b balance, t target, r release, f finish", text)
}

// TwinIn gives the other cue of a book that says the same on the same axis, whatever the case; false where there is none.
func (c Cue) TwinIn(book []Cue) (Cue, bool) {
	for _, other := range book {
		if other.ID != c.ID && other.Axis == c.Axis && strings.EqualFold(other.Text, c.Text) {
			return other, true
		}
	}
	return Cue{}, false
}

// CueMatching gives the cues of a book that begin with or hold the text, by axis and then by text, those that begin with it
// first; all of them for "". Case and accents do not matter.
func CueMatching(book []Cue, text string) []Cue {
	typed := Fold(strings.TrimSpace(text))
	var begun, holding []Cue
	for _, c := range book {
		switch of := Fold(c.Text); {
		case strings.HasPrefix(of, typed):
			begun = append(begun, c)
		case strings.Contains(of, typed):
			holding = append(holding, c)
		}
	}
	for _, cues := range [][]Cue{begun, holding} {
		slices.SortFunc(cues, func(a, b Cue) int {
			return cmp.Or(cmp.Compare(a.Axis, b.Axis), cmp.Compare(Fold(a.Text), Fold(b.Text)), cmp.Compare(a.ID, b.ID))
		})
	}
	return slices.Concat(begun, holding)
}
