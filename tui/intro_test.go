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
		begins().says(first, "the demo", "lanes tonight").silent(second)
	})
	t.Run("tab turns to the second page and back", func(t *testing.T) {
		d := begins().press("<tab>").says(second, "lanes tonight").silent(first)
		d.press("<tab>").says(first)
	})
	t.Run("the keys that it names act in it", func(t *testing.T) {
		for _, key := range []string{"?", "<f1>"} {
			d := begins().press("<tab>"+key).says("The pins", "find").silent(second)
			d.press("/undo<enter>").says("take back the last action")
			d.press("x").says("x has no meaning here: esc goes back to the introduction")
			d.press("<esc><esc>").says(second, "lanes tonight")
			d.press(key + key).says(second).press("7").silent(second)
			if d.prompt == nil || d.prompt.input.Value() != "7" {
				t.Errorf("after %s the line has lost what is typed", key)
			}
		}
	})
	t.Run("d ends the program for the demo, and the introduction is not over", func(t *testing.T) {
		d := begins()
		remembered := remembering(d)
		if d.press("<tab>d"); !d.quit || !d.WantsDemo() || *remembered != 0 {
			t.Errorf("quit %v, demo %v, remembered %d times", d.quit, d.WantsDemo(), *remembered)
		}
	})
	t.Run("every other key goes on, and is not typed", func(t *testing.T) {
		for _, key := range []string{"x", "b", " ", "<enter>", "<down>", "é"} {
			d := begins().press(key).says(second)
			d.press(key).silent(second).says("now the lane tonight")
			if d.prompt == nil || d.prompt.input.Value() != "" {
				t.Errorf("%s is typed", key)
			}
		}
	})
	t.Run("read or skipped it is remembered, once", func(t *testing.T) {
		for keys, want := range map[string]int{
			"": 0, "<tab>": 0, "?<esc>": 0, "<ctrl+c>": 0, "d": 0,
			"<esc>": 1, "7": 1, "xx": 1, "<tab><ctrl+c>": 1, "<tab>?q": 1, "7<bs><esc>": 1, "<esc>n7<enter>": 1,
		} {
			d := begins()
			remembered := remembering(d)
			if d.press(keys); *remembered != want {
				t.Errorf("%s: remembered %d times, want %d", keys, *remembered, want)
			}
		}
	})
	t.Run("where it was remembered it does not come", func(t *testing.T) {
		config := testConfig(newFakeRecorder(), &fakeReader{})
		config.Introduced = true
		a, err := New(config)
		if err != nil {
			t.Fatal(err)
		}
		(&appTest{App: a, t: t}).says("lanes tonight").silent(first)
	})
	t.Run("the program waits until it is remembered, and says why it is not", func(t *testing.T) {
		d := begins()
		d.conf.RememberIntroduced = func() error { return errFull }
		d.press("<esc>").says("the introduction comes again at the next start: " + errFull.Error())
		if d.press("q"); !d.quit {
			t.Error("it does not leave")
		}
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

// remembering counts how often it is remembered that the coach has been through the introduction.
func remembering(d *appTest) *int {
	n := new(int)
	d.conf.RememberIntroduced = func() error { *n++; return nil }
	return n
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
