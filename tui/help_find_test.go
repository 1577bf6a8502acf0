package tui

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
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
		text := helpText(find("out of rotation back"))
		if !strings.HasPrefix(text, string(groupUp)+"\n") || !strings.Contains(text, "V") || strings.Contains(text, string(groupPins)) {
			t.Errorf("%s", text)
		}
	})
	t.Run("the program's own words are found from the board", func(t *testing.T) {
		for words, says := range map[string][]string{
			"undo":    {string(groupBack), "take back the last action, whoever's it was"},
			"reopen":  {string(groupBack), "open the last recorded delivery again"},
			"quit":    {string(groupAnywhere), "leave; asks while an evening is open"},
			"exit":    {string(groupAnywhere), "leave; asks while an evening is open"},
			"save":    {"What is kept", "there is no key to save"},
			"page":    {"Student (s goes there)", "the page to take home from the last evening"},
			"handout": {"The page to take home (s, then h)", "write the page as a file"},
			"print":   {"The page to take home (s, then h)", "write the page as a file"},
			"mark":    {"Evening (e goes there)", "mark the student before, after"},
			"lanes":   {"Evening (e goes there)", "add lanes, and the students there"},
			"colours": {"Settings (M goes there)", "theme: auto, light, dark, none"},
			"redo":    {string(groupBack), "do again what was taken back"},
		} {
			text := helpText(find(words))
			for _, s := range says {
				if !strings.Contains(text, s) {
					t.Errorf("%s: %q is not found:\n%s", words, s, text)
				}
			}
		}
	})
	t.Run("every key of every screen is found by its words, this screen's first", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("?")
		for _, p := range d.helpPlaces() {
			for _, b := range p.keys {
				if words := wordsOf(b.help); len(words) > 12 {
					d.narrowHelp(words)
					if text := strings.Join(strings.Fields(helpText(d)), " "); !strings.Contains(text, strings.Join(strings.Fields(b.label()+" "+b.help), " ")) {
						t.Errorf("%s, %s of %s is not found", b.label(), b.help, p.title)
					}
				}
			}
		}
		text := helpText(find("student"))
		if own, other := strings.Index(text, string(groupUp)), strings.Index(text, "Evening (e goes there)"); own < 0 || other < own {
			t.Errorf("the board's are not first: %d, %d", own, other)
		}
	})
	t.Run("every other word leads to something that is said", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("?")
		var all strings.Builder
		d.helpWords = " "
		for _, s := range d.helpSections(400) {
			for _, e := range s.entries {
				all.WriteString(wordsOf(strings.ToLower(ansi.Strip(strings.Join(e.lines, " ")))) + "\n")
			}
		}
		for _, o := range otherWords {
			if !strings.Contains(all.String(), o.said) {
				t.Errorf("nothing in the help says %q", o.said)
			}
		}
	})
	t.Run("a new search begins empty", func(t *testing.T) {
		d := find("undo<enter>/")
		if d.prompt == nil || d.prompt.input.Value() != "" {
			t.Fatal("it begins with what was looked for before")
		}
		d.press("spare").says("a spare: x on a spare shot only")
	})
	t.Run("what follows the = is said once", func(t *testing.T) {
		text := helpText(onBoard(t, "Ada 120").press("?"))
		if strings.Contains(text, "= 0-9") || !strings.Contains(text, "= &…à") {
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
