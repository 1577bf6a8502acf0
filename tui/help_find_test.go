package tui

import (
	"strings"
	"testing"
)

func TestHelpFinds(t *testing.T) {
	find := func(words string) *appTest { return onBoard(t, "Ada 120").press("?/" + words) }
	t.Run("while words are typed only what has them is shown", func(t *testing.T) {
		d := find("split")
		all := len(onBoard(t, "Ada 120").press("?").helpLines(80))
		if n := len(d.helpLines(80)); n == all {
			t.Errorf("all %d lines are shown", n)
		}
		d.says("Nothing in the help has split")
		d.press("<ctrl+u>FOUL none").says("foul, or none").silent("own call")
	})
	t.Run("every line of an entry stands below its heading", func(t *testing.T) {
		text := strings.Join(find("rotation back").helpLines(80), "\n")
		if !strings.HasPrefix(text, string(groupUp)+"\n") || !strings.Contains(text, "V") || strings.Contains(text, string(groupPins)) {
			t.Errorf("%s", text)
		}
	})
	t.Run("a single sign is a key", func(t *testing.T) {
		d := find("x").says("all standing pins down, and record").silent("foul, or none")
		d.press("<bs>=").says("that many pins fell").silent("all standing")
		d.press("<bs>A").says("add a student").silent("find by")
	})
	t.Run("enter keeps what is found, esc shows all, esc again closes", func(t *testing.T) {
		d := find("pins<enter>")
		if d.prompt != nil || d.over != helpOver {
			t.Fatal("the help is not there to be read")
		}
		d.says("narrowed to pins").press("<esc>").silent("narrowed")
		if d.over != helpOver || d.helpTop != 0 {
			t.Error("it does not show all of the help from its beginning")
		}
		if d.press("<esc>"); d.over != nothingOver {
			t.Error("it does not close")
		}
	})
	t.Run("esc drops the words that are typed", func(t *testing.T) {
		d := find("pins<esc>")
		if d.prompt != nil || d.over != helpOver || d.helpWords != "" {
			t.Errorf("over %v, words %q", d.over, d.helpWords)
		}
	})
	t.Run("a key that was found acts", func(t *testing.T) {
		d := find("x<enter>x")
		if d.over != nothingOver || len(d.spoken()) != 1 {
			t.Errorf("over %v, %v", d.over, d.spoken())
		}
	})
	t.Run("opened anew it shows all", func(t *testing.T) {
		if d := find("pins<enter>?<f1>"); d.over != helpOver || d.helpWords != "" {
			t.Errorf("over %v, words %q", d.over, d.helpWords)
		}
	})
	t.Run("what is found can be scrolled while words are typed", func(t *testing.T) {
		d := find("the")
		d.send(sizeMsg(60, 16))
		d.press("<pgdown>")
		if d.helpTop == 0 || d.prompt == nil {
			t.Errorf("line %d", d.helpTop)
		}
	})
}
