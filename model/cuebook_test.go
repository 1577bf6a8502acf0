package model_test

import (
	"fmt"
	"strings"
	"testing"

	"coach.settee/model"
)

func TestStartingCues(t *testing.T) {
	n := 0
	cues := model.StartingCues(func() model.ID { n++; return model.ID(fmt.Sprint("c", n)) })
	count, texts, ids := map[model.Axis]int{}, map[string]bool{}, map[model.ID]bool{}
	for _, c := range cues {
		if err := c.Validate(); err != nil || c.Text != model.CleanText(c.Text) || c.Text == "" {
			t.Errorf("%q: %v", c.Text, err)
		}
		count[c.Axis]++
		texts[c.Text], ids[c.ID] = true, true
	}
	for _, a := range model.Axes {
		if count[a] != 3 {
			t.Errorf("%d cues of %s", count[a], a)
		}
	}
	if len(texts) != len(cues) || len(ids) != len(cues) {
		t.Errorf("%d cues, %d texts, %d ids", len(cues), len(texts), len(ids))
	}
}

func TestParseCue(t *testing.T) {
	for text, want := range map[string]model.Cue{
		"r soft hand": {Axis: model.Release, Text: "soft hand"}, "B tall": {Axis: model.Balance, Text: "tall"},
		" Finish  hold  it ": {Axis: model.Finish, Text: "hold it"}, "TARGET t": {Axis: model.Target, Text: "t"},
	} {
		if got, err := model.ParseCue(text); got != want || err != nil {
			t.Errorf("%q: %+v, %v", text, got, err)
		}
	}
	for text, words := range map[string]string{
		"": "nothing typed", " ": "nothing typed", "soft hand": `"soft" is no axis: b balance`, "re hand": "no axis",
		"br hand": "no axis", "r": "the words of the cue come after the axis", "finish ": "come after the axis",
	} {
		if got, err := model.ParseCue(text); err == nil || !strings.Contains(err.Error(), words) || got != (model.Cue{}) {
			t.Errorf("%q: %+v, %v", text, got, err)
		}
	}
}

func TestCueTwin(t *testing.T) {
	book := []model.Cue{{ID: "1", Axis: model.Finish, Text: "hold it"}, {ID: "2", Axis: model.Release, Text: "soft hand"}}
	for _, tt := range []struct {
		cue  model.Cue
		twin model.ID
	}{
		{model.Cue{Axis: model.Release, Text: "Soft Hand"}, "2"},
		{model.Cue{ID: "2", Axis: model.Release, Text: "soft hand"}, ""},
		{model.Cue{Axis: model.Balance, Text: "soft hand"}, ""},
		{model.Cue{Axis: model.Release, Text: "soft"}, ""},
	} {
		if got, there := tt.cue.TwinIn(book); got.ID != tt.twin || there != (tt.twin != "") {
			t.Errorf("%+v: %+v, %v", tt.cue, got, there)
		}
	}
}

func TestCueMatching(t *testing.T) {
	book := []model.Cue{
		{ID: "1", Axis: model.Finish, Text: "hold it"}, {ID: "2", Axis: model.Release, Text: "Soft hand"},
		{ID: "3", Axis: model.Balance, Text: "soft knee"}, {ID: "4", Axis: model.Target, Text: "eyes soft"},
		{ID: "5", Axis: model.Balance, Text: "head still, soft"}, {ID: "6", Axis: model.Release, Text: "quiet élan"},
	}
	for text, want := range map[string]string{
		"": "5 3 4 6 2 1", "soft": "3 2 5 4", " SOFT h": "2", "hold": "1", "elan": "6", "loft": "",
	} {
		var got []string
		for _, c := range model.CueMatching(book, text) {
			got = append(got, string(c.ID))
		}
		if joined := strings.Join(got, " "); joined != want {
			t.Errorf("%q: %s, want %s", text, joined, want)
		}
	}
	if book[0].ID != "1" || book[5].ID != "6" {
		t.Error("the book was put in another order")
	}
}
