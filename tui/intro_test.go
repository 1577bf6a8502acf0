package tui

import (
	"strings"
	"testing"

	"coach.settee/model"
)

func TestIntroduction(t *testing.T) {
	begins := func() *appTest { return startApp(t, &fakeReader{}) }
	first, second := introPages[0][0], introPages[1][0]
	t.Run("a new store begins with it, and offers the demo", func(t *testing.T) {
		begins().says(first, "settee demo", "lanes tonight").silent(second)
	})
	t.Run("tab turns to the second page and back", func(t *testing.T) {
		d := begins().press("<tab>").says(second, "lanes tonight").silent(first)
		d.press("<f1>").says(first)
	})
	t.Run("the first key of the lanes skips it and is typed", func(t *testing.T) {
		d := begins().press("7").silent(first)
		if d.prompt == nil || d.prompt.input.Value() != "7" {
			t.Fatal("the key is lost")
		}
		d.press("<bs>").silent(first).press("<tab>").silent(second).says("the introduction is over")
		d.press("7<enter>Ada 120<enter><enter>x")
		if len(d.spoken()) != 1 {
			t.Errorf("%v", d.spoken())
		}
	})
	t.Run("esc skips it and drops the line, and it does not come back", func(t *testing.T) {
		d := begins().press("<esc>").silent(first).says("n   begins one")
		d.press("n").silent(first).says("lanes tonight")
	})
	t.Run("ctrl+c leaves at once, esc and q too", func(t *testing.T) {
		for _, keys := range []string{"<ctrl+c>", "<esc>q"} {
			if d := begins().press(keys); !d.quit {
				t.Errorf("%s does not leave", keys)
			}
		}
	})
	t.Run("whoever has a student or an evening has seen it", func(t *testing.T) {
		kept := onBoard(t, "Ada 120").press("exxy")
		students, closed := []model.Student{{ID: "ada", Name: "Ada"}}, keptOf(kept)
		for what, reader := range map[string]*fakeReader{
			"a student": {students: students}, "an evening": {evenings: []model.Kept{closed}},
		} {
			d := startApp(t, reader)
			d.says("lanes tonight")
			if strings.Contains(d.show(), first) {
				t.Errorf("it is there with %s", what)
			}
		}
	})
	t.Run("both pages fit the smallest window", func(t *testing.T) {
		for i, keys := range []string{"", "<tab>"} {
			d := begins()
			d.send(sizeMsg(minWidth, minHeight))
			d.press(keys)
			for _, line := range introPages[i] {
				for part := range strings.SplitSeq(line, "|") {
					d.says(strings.TrimSpace(part))
				}
			}
		}
	})
}

// keptOf gives the evening that a test has closed as a store has it.
func keptOf(d *appTest) model.Kept {
	for _, r := range d.recorder.records {
		if s, ok := r.(model.Session); ok {
			return model.Kept{Session: s}
		}
	}
	d.t.Fatal("no evening was kept")
	return model.Kept{}
}
