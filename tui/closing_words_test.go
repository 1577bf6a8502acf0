package tui

import (
	"strings"
	"testing"

	"coach.settee/model"
	"coach.settee/model/handout"
)

// TestClosingSaysWhosePagesAreMinors: in the words of the commands, once, and only of pages that are written.
func TestClosingSaysWhosePagesAreMinors(t *testing.T) {
	young := func(keys string) *appTest {
		d := onBoard(t, "Ada 120", "Wren Lind 90", "Odo 80").press("s")
		for range 2 {
			d.press("<right>").on("minor").press("<enter><ctrl+u>yes<enter>")
		}
		d.press("<esc>").send(sizeMsg(100, 30))
		return newWork().on(d).press(keys)
	}
	words := func(d *appTest) string { return strings.Join(strings.Fields(d.show()), " ") }
	d := young("x@wren<enter>xexxy")
	said := "the page of Wren Lind is a minor's: " + model.ConsentFirst
	if all := words(d); strings.Count(all, said) != 1 || strings.Contains(all, "Odo") {
		t.Error(d.show())
	}
	d.press("<bs><esc>@odo<enter>xexxy")
	if all := words(d); !strings.Contains(all, "the pages of Odo, Wren Lind are minors', each: "+model.ConsentFirst) {
		t.Error(d.show())
	}
	if all := words(young("xexxy")); strings.Contains(all, "consent") {
		t.Error(all)
	}
}

// TestMinorsPageSaysSo: writing or copying it from the Page screen says it there.
func TestMinorsPageSaysSo(t *testing.T) {
	for _, minor := range []bool{true, false} {
		reader := pageOf(t)
		for i := range reader.students {
			reader.students[i].Minor = minor
		}
		d := startApp(t, reader).press("sh")
		d.conf.Handout = func(model.ID, model.ID, bool) (string, error) { return "/home/handouts/ada.html", nil }
		d.silent("goes to anybody")
		d.press("w").says("the page is written: /home/handouts/ada.html")
		if said := strings.Contains(d.show(), "is a minor's: have a guardian's consent"); said != minor {
			t.Errorf("minor %v:\n%s", minor, d.show())
		}
	}
}

// TestClosingTextsFitThePage: what is typed for the page has room on it.
func TestClosingTextsFitThePage(t *testing.T) {
	for key, most := range map[string]int{"w": handout.MaxSentence, "h": handout.MaxHomework} {
		d := onBoard(t, "Ada 120").press("ex" + key)
		d.prompt.input.SetValue(strings.Repeat("é", most-41))
		d.silent(" left ")
		d.press("ab").says("39 left")
		d.prompt.input.SetValue(strings.Repeat("é", most-1))
		d.prompt.input.CursorEnd()
		if d.press("x").says(" 0 left"); d.status.refused {
			t.Errorf("%s refuses what fits: %s", key, d.status.words)
		}
		if d.press("y").says("the line is full: it takes up to "); !d.status.refused {
			t.Errorf("%s takes %d", key, most+1)
		}
		d.press("<enter>")
		seat, _ := d.evening.SeatOf("id2")
		if kept := seat.Sentence + seat.Homework; len([]rune(kept)) != most || !strings.HasSuffix(kept, "x") {
			t.Errorf("%s keeps %q", key, kept)
		}
	}
}

func TestClosingTellsWhoIsOutOfView(t *testing.T) {
	d := closingEvening(t)
	d.send(sizeMsg(60, 16))
	d.says("2 more below")
	d.silent("more above")
	d.press("<down><down><down><down><down>").says("3 more above")
	d.silent("more below")
	if rule := closingRule(1, 2, 60); !strings.Contains(rule, " 1 more above, 2 more below ") || width(rule) > 60 {
		t.Errorf("%q", rule)
	}
	d.send(sizeMsg(80, 24))
	d.silent("more above")
	d.silent("more below")
}

// TestClosingNamesTheKeys: each thing that is missing and can be filled in has its key there, and the key does it.
func TestClosingNamesTheKeys(t *testing.T) {
	d := onBoard(t, "Ada 120").press("xex")
	d.send(sizeMsg(160, 50))
	d.says("no homework (h)", "no date (d)", "no cue (board C)", "no note (board N)", "no sentence (w)")
	d.press("hwalk<enter>dtue<enter>wwell done<enter><esc><esc>Csoft hand<enter>Nslow<enter>xex").says("missing   game 1 unfinished")
	d.silent("no homework")
	d.silent("no note")
	d.silent("no cue")
}
